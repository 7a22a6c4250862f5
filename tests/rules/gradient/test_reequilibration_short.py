"""gradient.reequilibration-short: 5, 10 and 20 hold-up volumes are common practice, no source."""

from __future__ import annotations

import re

import pytest

from tests.rules.harness import findings, judged

RULE = "gradient.reequilibration-short"

DYE = """
kind: method
oven_temperature: 25 degC
outlet_pressure: 110 bar
programme:
  - {time: 0 min, modifier_share: 5 % v/v, flow: 1.5 mL/min}
  - {time: 4 min, modifier_share: 40 % v/v, flow: 1.5 mL/min}
  - {time: 4.1 min, modifier_share: 60 % v/v, flow: 1.0 mL/min, step: true}
  - {time: 6 min, modifier_share: 60 % v/v, flow: 1.0 mL/min}
  - {time: 6.1 min, modifier_share: 90 % v/v, flow: 0.8 mL/min, step: true}
  - {time: 9 min, modifier_share: 90 % v/v, flow: 0.8 mL/min}
  - {time: 9.1 min, modifier_share: 5 % v/v, flow: 1.5 mL/min, step: true}
run_length: 9.2 min
"""


def gradient(settling: str, more: str = "", start: str = "5", additives: str = "[]") -> str:
    return (
        f"kind: method\nsettling_time: {settling}\nrun_length: 6.6 min\n"
        f"mobile_phase: {{modifier: {{additives: {additives}}}}}\n{more}programme:\n"
        f"  - {{time: 0 min, modifier_share: {start} % v/v}}\n"
        "  - {time: 5 min, modifier_share: 40 % v/v}\n"
        f"  - {{time: 6.6 min, modifier_share: {start} % v/v, step: true}}\n"
    )


ACID = "[{additive: formic acid, level: 0.1 % v/v}]"


def test_silent_for_an_isocratic_method() -> None:
    changes = "kind: method\nprogramme: []\nsettling_time: null\nrun_length: 1 min\nmobile_phase: {modifier_share: 9 % v/v}"
    assert findings(changes, RULE) == []


def test_silent_if_a_series_at_the_runs_rhythm_was_measured_and_passed() -> None:
    assert findings(gradient("0.3 min", "suitability: {at_rhythm: true}\n"), RULE) == []
    assert len(findings(gradient("0.3 min"), RULE)) == 1


def test_silent_for_the_dye_scenario() -> None:
    """5 min against (0.52 + 5 x 0.69) / 1.5 = 2.65 min (scenario arithmetic, common practice)."""
    assert findings(DYE + "settling_time: 5 min", RULE) == []


def test_silent_if_another_line_stands_between_two_injections() -> None:
    lines = (
        "---\nkind: sequence\nlines:\n  - {kind: sample, sample: S, plate: 1, well: A1}\n"
        "  - {kind: equilibration, duration: 5 min}\n"
        "  - {kind: sample, sample: T, plate: 1, well: A2}\n"
    )
    assert findings(gradient("0.3 min") + lines, RULE) == []


def test_silent_where_nothing_leads_back() -> None:
    """That is gradient.no-return-to-start."""
    changes = (
        "kind: method\nsettling_time: null\nprogramme:\n"
        "  - {time: 0 min, modifier_share: 5 % v/v}\n  - {time: 5 min, modifier_share: 40 % v/v}\n"
    )
    assert findings(changes, RULE) == []


def test_the_dye_scenario_with_two_minutes() -> None:
    (found,) = findings(DYE + "settling_time: 2 min", RULE)
    assert found.grade == "caution"
    assert found.limit is not None and found.limit.value == pytest.approx(2.65, abs=0.03)
    assert found.found is not None and found.found.value == pytest.approx(2.1, abs=0.02)


def test_far_below_it_is_still_a_caution() -> None:
    (found,) = findings(gradient("0.2 min"), RULE)
    assert found.grade == "caution"


def test_for_screening_it_is_a_note() -> None:
    changes = gradient("0.2 min", "purpose: screening\n") + "---\nkind: sequence\npurpose: null\n"
    (found,) = findings(changes, RULE)
    assert found.grade == "note"


@pytest.mark.parametrize(
    ("start", "additives", "volumes"), [("5", "[]", 5), ("5", ACID, 10), ("4", ACID, 20)]
)
def test_additives_ask_for_more(start: str, additives: str, volumes: int) -> None:
    """(0.52 + n x 0.689) / 1.5 (arithmetic)."""
    (found,) = findings(gradient("1 min", start=start, additives=additives), RULE)
    assert found.limit is not None
    assert found.limit.value == pytest.approx((0.52 + volumes * 0.689) / 1.5, rel=0.01)
    assert ("with an additive" in found.message) is (volumes > 5)


def test_remedy_is_long_enough_and_no_longer() -> None:
    (found,) = findings(gradient("1 min"), RULE)
    said = re.fullmatch(r"set the settling time to ([\d.]+) min", found.remedy)
    assert said is not None
    assert float(said[1]) == pytest.approx(2.70, abs=0.06)


def test_without_a_rehearsal_it_is_not_checked() -> None:
    report = judged(gradient("1 min") + "---\nkind: column\nlength: null\n", RULE)
    assert report.findings == []
    assert report.not_checked[0].missing == ("column.length",)


def test_a_note_only_for_preparative_work() -> None:
    text = "kind: method\npurpose: preparative\nsettling_time: 0.5 min\nrun_length: 7 min\n"
    (found,) = findings(text + "---\nkind: sequence\npurpose: null\n", RULE)
    assert found.grade == "note"
