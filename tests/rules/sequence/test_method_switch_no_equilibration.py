"""Oven 5 K/min and 10 min of soak, five hold-up volumes: common practice, no source."""

from __future__ import annotations

from tests.rules.harness import findings, judged
from tests.rules.sequence.lines import line, samples, sequence

RULE = "sequence.method-switch-no-equilibration"
OTHER = line("sample", "extract 9", method="second")
COOLER = "kind: method\nx-name: second\noven_temperature: 25 degC\n---\n"


def test_silent_when_nothing_changes_for_the_column() -> None:
    second = "kind: method\nx-name: second\ndetectors: [{type: UV, wavelength: 220 nm}]\n---\n"
    assert findings(second + sequence(samples(1), OTHER), RULE) == []


def test_silent_when_conditioning_covers_it() -> None:
    conditioning = line("conditioning", "pool", method="second", count=2)
    assert findings(COOLER + sequence(samples(1), conditioning, OTHER), RULE) == []


def test_silent_behind_an_equilibration() -> None:
    wait = line("equilibration", duration="13 min", method="second")
    assert findings(COOLER + sequence(samples(1), wait, OTHER), RULE) == []


def test_fifteen_degrees_take_thirteen_minutes() -> None:
    # 15 K at 5 K/min are 3 min, and 10 min of soak: 13 min.
    (found,) = judged(COOLER + sequence(samples(1), OTHER), RULE).findings
    assert found.grade == "caution"
    assert found.limit is not None
    assert abs(found.limit.value - 13.0) < 1e-6
    assert found.remedy == "put an equilibration of 13 min before line 2"


def test_another_share_takes_the_dwell_and_five_hold_up_volumes() -> None:
    share = (
        "kind: method\nx-name: second\nprogramme: null\n"
        "mobile_phase: {modifier: {liquid: methanol, line: modifier-1}, modifier_share: 20 % v/v}\n"
        "---\n"
    )
    (found,) = findings(share + sequence(samples(1), OTHER), RULE)
    # 3.0 x 150 mm with a porosity of 0.65 hold 0.689 mL; with the declared dwell of 0.52 mL at
    # 1.5 mL/min: (0.52 + 5 x 0.689) / 1.5 = 2.64 min. The parts of the train give the dwell here.
    assert found.limit is not None
    assert 2.3 < found.limit.value < 2.7


def test_a_flush_of_the_method_before_settles_nothing() -> None:
    flush = line("flush", liquid="methanol", duration="15 min", method="method")
    (found,) = findings(COOLER + sequence(samples(1), flush, OTHER), RULE)
    assert found.found is not None and found.found.value < 1.0


START = "kind: sequence\nequilibration: 0 min\n"
CONDITIONED = "lines:\n  - {kind: conditioning, sample: pool, plate: 1, well: A2, count: 3}\n"
SST = "  - {kind: suitability, sample: SST, plate: 1, well: A3, count: 5}\n"


def test_silent_at_the_start_when_conditioning_covers_it() -> None:
    assert findings(START + CONDITIONED + SST, RULE) == []


def test_silent_at_the_start_of_a_sequence_that_continues_or_says_nothing() -> None:
    assert findings(f"{START}continues: true\nlines:\n{SST}", RULE) == []
    assert findings(f"kind: sequence\nequilibration: null\nlines:\n{SST}", RULE) == []


def test_silent_with_an_equilibration_of_ten_minutes() -> None:
    assert findings(f"kind: sequence\nequilibration: 10 min\nlines:\n{SST}", RULE) == []


def test_nothing_settles_before_the_first_injection() -> None:
    (found,) = findings(f"{START}lines:\n{SST}", RULE)
    assert found.grade == "caution"
    assert found.at.path == ("equilibration",)
    # 0.52 mL of dwell and 5 x 0.69 mL (3.0 x 150 mm, porosity 0.65) at 1.5 mL/min: 2.6 min.
    assert found.limit is not None
    assert abs(found.limit.value - 2.6) < 0.1
    assert found.remedy == "equilibrate for 3 min before the first line"
