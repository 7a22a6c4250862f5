"""What a booking finds and leaves: read from the lines, compared where both are known."""

from __future__ import annotations

import pytest

from methodlint.checking.assemble import Assembly, rehearse_cases
from methodlint.rehearsal.batch.bench_state import (
    BenchState,
    differences,
    liquid_words,
    said_state,
    state_left,
    state_wanted,
)
from methodlint.rehearsal.batch.lines import Batch
from methodlint.rulebook.examples import _library, lab_with

INJECTS = "  - {kind: sample, sample: one, plate: 1, well: D1}\n"


def _batch(lines: str, method: str = "") -> Batch:
    documents = lab_with(f"{method}kind: sequence\nlines:\n{lines}")
    assembly = Assembly(_library(documents))
    assembly.add_sequence(documents["sequence"])
    rehearse_cases(assembly.batches)
    return assembly.batches[0].batch


def test_an_injection_at_the_end_leaves_the_co2_on() -> None:
    assert state_left(_batch(INJECTS)).co2 == "on"


@pytest.mark.parametrize("kind", ["shutdown", "idle"])
def test_a_resting_line_leaves_it_off(kind: str) -> None:
    assert state_left(_batch(f"{INJECTS}  - {{kind: {kind}, duration: 5 min}}\n")).co2 == "off"


def test_an_idle_line_that_says_on_leaves_it_on() -> None:
    line = '  - {kind: idle, duration: 5 min, co2: "on"}\n'
    assert state_left(_batch(INJECTS + line)).co2 == "on"


def test_a_flush_leaves_its_own_liquid_in_the_lines() -> None:
    flush = "  - {kind: flush, liquid: 2-propanol, duration: 5 min}\n"
    assert state_left(_batch(INJECTS + flush)).modifier == "2-propanol"
    assert state_left(_batch(INJECTS + flush + INJECTS)).modifier != "2-propanol"


def test_the_oven_is_left_where_the_programme_ends() -> None:
    method = """kind: method
oven_temperature: 35 degC
settling_time: null
programme:
  - {time: 0 min, modifier_share: 5 % v/v, temperature: 35 degC}
  - {time: 2 min, temperature: 40 degC}
---
"""
    batch = _batch(INJECTS, method)
    assert state_wanted(batch).oven_temperature == pytest.approx(308.15)
    assert state_left(batch).oven_temperature == pytest.approx(313.15)


def test_a_blend_is_named_with_shares_and_additives() -> None:
    documents = lab_with("""kind: sequence
previous:
  modifier:
    liquids: [{liquid: methanol, share: 95 % v/v}, {liquid: water, share: 5 % v/v}]
    additives: [{additive: ammonium formate, level: 10 mM}]
""")
    said = said_state(documents["sequence"].model.previous)  # type: ignore[attr-defined]
    assert said.modifier == "methanol 95 % + water 5 % with 10 mM ammonium formate"
    assert said.known


def test_only_what_is_known_on_both_sides_differs() -> None:
    found = BenchState(modifier="methanol", column="old", oven_temperature=313.15)
    wanted = BenchState(modifier="methanol", column="new", co2="on", oven_temperature=308.15)
    assert list(differences(found, wanted)) == [
        ("column", "old", "new"),
        ("oven", "40 degC", "35 degC"),
    ]
    assert list(differences(BenchState(), wanted)) == []
    assert liquid_words(None) is None
