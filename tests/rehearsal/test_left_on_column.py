"""What is left on columns: by hand, with hold-up volumes of the sound lab (0.689 mL)."""

from __future__ import annotations

from dataclasses import replace
from typing import cast

import pytest

from methodlint.documents.kinds.base import Liquid
from methodlint.documents.kinds.sequence import Line, Sequence
from methodlint.documents.loading import Loaded
from methodlint.rehearsal.batch.left_on_column import (
    Left,
    flushed_volume,
    has_additive,
    left_on_columns,
    persistent_additives,
)
from methodlint.rulebook.examples import lab_with


def line(**figures: object) -> Line:
    return Line.model_validate({"kind": "flush", **figures})


def test_volume_of_a_flush() -> None:
    assert flushed_volume(line(flush_volume="7 mL", duration="1 min"), 1.0) == pytest.approx(7e-6)
    assert flushed_volume(line(flow="2 mL/min", duration="3 min"), 1.0) == pytest.approx(6e-6)
    assert flushed_volume(line(duration="3 min"), 1e-6 / 60.0) == pytest.approx(3e-6)
    assert flushed_volume(line(duration="3 min"), None) is None
    assert flushed_volume(line(), 1.0) is None


def liquid(*additives: str) -> Liquid:
    return Liquid.model_validate(
        {"liquid": "methanol", "additives": [{"additive": name} for name in additives]}
    )


def test_additives_under_any_name() -> None:
    assert has_additive(liquid("Et2NH"), "diethylamine")
    assert has_additive(liquid("Stardust"), "stardust")
    assert not has_additive(liquid("TFA"), "diethylamine")
    found = persistent_additives(liquid("TFA", "ammonium formate", "stardust"))
    assert [additive.name for additive in found] == ["trifluoroacetic acid"]


def _two_columns(lines: str) -> dict[str, Left]:
    documents = lab_with(f"kind: sequence\nlines:\n{lines}")
    other = lab_with(
        "kind: method\nmobile_phase: {modifier: {liquid: ethanol, additives: [{additive: TFA}]}}"
    )["method"]
    second = replace(documents["column"], name="second", path="second.yaml")
    methods: dict[str, Loaded] = {"method": documents["method"], "other": other}
    columns = {"method": (documents["column"],), "other": (second,)}
    sequence = cast(Sequence, documents["sequence"].model)
    return {left.column.name: left for left in left_on_columns(sequence, methods, columns, {})}


OTHER = "  - {kind: sample, sample: x, well: A1, method: other}\n"
OWN = "  - {kind: sample, sample: y, well: A2}\n"
FLUSH = "  - {kind: flush, liquid: heptane}\n"


def test_each_column_keeps_what_ran_on_it_last() -> None:
    left = _two_columns(OTHER + OWN)
    assert left["second"].additives == ("TFA",)
    assert left["column"].components == (("methanol", 1.0),)
    assert (left["second"].line, left["column"].line) == (0, 1)


def test_a_flush_without_method_flushes_the_column_in_use() -> None:
    left = _two_columns(OTHER + FLUSH + OWN)
    assert left["second"].components == (("n-heptane", 1.0),)
    assert left["second"].additives == ()
    left = _two_columns(OTHER + OWN + FLUSH)
    assert left["second"].additives == ("TFA",)
    assert left["column"].components == (("n-heptane", 1.0),)


def test_a_flush_names_its_column_by_its_method() -> None:
    flush = "  - {kind: flush, liquid: heptane, method: other}\n"
    assert _two_columns(OTHER + OWN + flush)["second"].additives == ()


def test_a_flush_without_liquid_uses_the_method_s_own_mobile_phase() -> None:
    left = _two_columns(OTHER + "  - {kind: flush, duration: 9 min}\n")
    assert left["second"].additives == ("TFA",)


def test_a_column_that_nothing_ran_on_is_not_there() -> None:
    assert set(_two_columns(OWN)) == {"column"}
    assert _two_columns("  - {kind: idle, duration: 1 min}\n") == {}
