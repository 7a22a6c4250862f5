"""Which liquids reach the column: every way is put in and found, and makeup never is.

The ways are common practice, no source.
"""

from __future__ import annotations

import pytest

from methodlint.documents.loading import Loaded
from methodlint.rehearsal.batch.liquid_paths import Arrival, arrivals
from methodlint.rulebook.examples import lab_with


def reaching(changes: str, neighbours: dict[str, Loaded] | None = None) -> list[Arrival]:
    documents = lab_with(changes)
    column = documents["column"]
    return list(arrivals(documents, (column,), neighbours))


def by_role(found: list[Arrival]) -> dict[str, list[str]]:
    roles: dict[str, list[str]] = {}
    for arrival in found:
        roles.setdefault(arrival.role, []).append(arrival.words)
    return roles


def test_the_ways_of_the_sound_lab() -> None:
    assert by_role(reaching("kind: method")) == {
        "modifier": ["methanol"],
        "diluent": ["2-propanol"],
        "needle wash": ["2-propanol"],
        "flush": ["methanol"],
        "storage liquid": ["methanol"],
    }


def test_makeup_joins_behind_the_column() -> None:
    found = reaching("kind: method\nmakeup: {liquid: dichloromethane, flow: 0.2 mL/min}")
    assert "dichloromethane" not in [arrival.words for arrival in found]


def test_a_wash_that_only_rinses_the_outside_does_not_arrive() -> None:
    bottle = "{line: needle-wash, liquid: DCM, enters_flow: false}"
    assert "needle wash" not in by_role(reaching(f"kind: solvents\nbottles: [{bottle}]"))


def test_a_wash_of_which_nothing_is_said_is_uncertain() -> None:
    found = reaching(
        "kind: solvents\nbottles: [{line: strong-wash, liquid: DCM}]\n"
        "---\nkind: instrument\nautosampler: {wash_enters_loop: null}"
    )
    wash = next(arrival for arrival in found if arrival.role == "needle wash")
    assert not wash.certain
    assert wash.volume == pytest.approx(10e-9)  # the loop


def test_diluents_of_lines_are_found_beside_the_sequence_s_own() -> None:
    found = reaching(
        "kind: sequence\nlines:\n"
        "  - {kind: blank, sample: b, well: A1}\n"
        "  - {kind: sample, sample: x, well: A2, diluent: DCM, volume: 1 uL}\n"
        "  - {kind: sample, sample: y, well: A3, diluent: DCM, volume: 4 uL}\n"
    )
    diluents = {a.words: a for a in found if a.role == "diluent"}
    assert set(diluents) == {"2-propanol", "dichloromethane"}
    assert diluents["dichloromethane"].volume == 4e-9
    assert diluents["dichloromethane"].path == ("lines", 2, "diluent")


def test_the_method_s_diluent_counts_where_no_line_overrides_it() -> None:
    found = reaching("kind: sequence\ndiluent: null\n---\nkind: method\ninjection: {diluent: THF}")
    assert by_role(found)["diluent"] == ["tetrahydrofuran"]


def _two_methods(lines: str) -> list[Arrival]:
    changes = f"kind: sequence\nlines:\n{lines}"
    documents = lab_with(changes)
    other = lab_with("kind: method\nmobile_phase: {modifier: {liquid: THF}}")["method"]
    methods = {"method": documents["method"], "other": other}
    object.__setattr__(other, "name", "other")
    return list(arrivals(documents, (), methods))


OTHER = "  - {kind: sample, sample: x, well: A1, method: other}\n"
OWN = "  - {kind: sample, sample: y, well: A2}\n"


def test_the_method_before_leaves_its_modifier() -> None:
    found = _two_methods(OTHER + OWN)
    residue = next(arrival for arrival in found if arrival.role == "residue")
    assert residue.words == "tetrahydrofuran"
    assert "method 'other' of line 1" in residue.way
    assert "line 2" in residue.way
    assert residue.volume == pytest.approx(0.52e-6)  # the dwell volume of the sound lab


def test_a_flush_between_takes_the_residue_and_arrives_itself_on_the_column_in_use() -> None:
    flush = "  - {kind: flush, liquid: acetone, duration: 5 min}\n"
    assert "residue" not in by_role(_two_methods(OTHER + flush + OWN))
    assert "flush" not in by_role(_two_methods(OTHER + flush + OWN))
    assert by_role(_two_methods(OWN + flush))["flush"] == ["acetone"]
    named = "  - {kind: flush, liquid: acetone, duration: 5 min, method: method}\n"
    assert by_role(_two_methods(OTHER + named + OWN))["flush"] == ["acetone"]


def test_the_method_after_leaves_nothing_here() -> None:
    assert "residue" not in by_role(_two_methods(OWN + OTHER))


def test_the_booking_before_leaves_its_modifier_unless_it_is_the_same() -> None:
    lines = f"lines:\n{OWN}"
    found = reaching(f"kind: sequence\nprevious: {{modifier: acetone}}\n{lines}")
    assert by_role(found)["residue"] == ["acetone"]
    found = reaching(f"kind: sequence\nprevious: {{modifier: MeOH}}\n{lines}")
    assert "residue" not in by_role(found)


def test_a_method_alone_has_its_own_liquids() -> None:
    documents = lab_with("kind: method")
    alone = {"method": documents["method"]}
    assert by_role(list(arrivals(alone))) == {"modifier": ["methanol"], "diluent": ["2-propanol"]}
