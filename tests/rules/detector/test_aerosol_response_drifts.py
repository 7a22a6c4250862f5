"""detector.aerosol-response-drifts: common practice, no source."""

from __future__ import annotations

from tests.rules.harness import findings

RULE = "detector.aerosol-response-drifts"
CAD = "kind: method\ndetectors: [{type: CAD}]\n"


def test_silent_at_constant_composition() -> None:
    constant = "mobile_phase: {modifier: methanol, modifier_share: 20 % v/v}\nprogramme: null\n"
    assert findings(CAD + constant, RULE) == []


def test_silent_with_a_makeup_that_compensates() -> None:
    rows = "[{time: 0 min, flow: 0.6 mL/min}, {time: 5 min, flow: 0.1 mL/min}]"
    assert findings(f"{CAD}makeup: {{liquid: methanol, programme: {rows}}}\n", RULE) == []


def test_silent_for_a_mass_spectrometer() -> None:
    assert findings(CAD.replace("CAD", "MS"), RULE) == []


def test_a_gradient_is_noted() -> None:
    (found,) = findings(CAD, RULE)
    assert found.grade == "note"
    assert found.message.startswith("modifier goes from 5 % to 40 %")


def test_a_steady_makeup_does_not_compensate() -> None:
    (found,) = findings(f"{CAD}makeup: {{liquid: methanol, flow: 0.3 mL/min}}\n", RULE)
    assert found.grade == "note"
