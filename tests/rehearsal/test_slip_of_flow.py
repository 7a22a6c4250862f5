"""3 L/min for 3 mL/min: the slip is told, and no pressure of a million bar follows from it."""

from __future__ import annotations

from tests.rules.harness import judged


def _families(flow: str) -> set[str]:
    report = judged(
        f"kind: method\nflow: {flow}\nprogramme: [{{time: 0 min, modifier_share: 5 % v/v}}]\n"
    )
    reported = [one for one in report.findings if one.grade != "note"]
    return {one.rule.partition(".")[0] for one in reported}


def test_a_flow_that_is_too_high_is_still_rehearsed() -> None:
    """8 mL/min is beyond pumps of 5 mL/min, but a setting: its pressure is told."""
    assert {"flow", "pressure"} <= _families("8 mL/min")


def test_a_slip_of_the_unit_starts_no_physics() -> None:
    found = _families("3 L/min")
    assert "flow" in found
    assert found & {"pressure", "phase", "temperature"} == set()
    report = judged("kind: method\nflow: 3 L/min\n")
    (lacks,) = {item.reason for item in report.not_checked if "method.flow" in item.missing}
    assert "a slip" in lacks
