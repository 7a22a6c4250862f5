"""`calendar.benches-vent-together`: two benches of 1.46 g/min of CO2 each in one room.

1.46 g/min into 28 m3 at 0.5 1/h, gas of 1.839 kg/m3 (Span and Wagner 1996): 3400 ppm above 420 ppm.
"""

from __future__ import annotations

import pytest

from tests.rules.calendar.plans import planned
from tests.rules.harness import findings

RULE = "calendar.benches-vent-together"
AT_ONCE = "begins: 2026-11-24T10:00\ninstrument: bench-b\n"


def _room(limit: str, ducted: str = "false", more: str = "") -> str:
    return (
        "kind: room\nvolume: 28 m3\nair_changes: 0.5 1/h\nair_changes_at_night: 0.5 1/h\n"
        f"outlets:\n  - {{name: separator, of: separator, ducted: {ducted}}}\n{more}---\n"
        f"kind: lab\npolicy: {{exposure_limits: {{co2_long: {limit}}}}}\n---\n"
        "kind: instrument\nx-name: bench-b\n"
    )


@pytest.mark.parametrize(
    ("second", "cards"),
    [
        pytest.param(AT_ONCE, _room("30000 ppm"), id="below half the limit together"),
        pytest.param(AT_ONCE, _room("10000 ppm", "true"), id="led outdoors"),
        pytest.param("instrument: bench-b", _room("10000 ppm"), id="one after the other"),
        pytest.param(AT_ONCE, _room("3500 ppm"), id="each alone is a stop: said of each"),
        pytest.param(
            AT_ONCE,
            _room(
                "10000 ppm", more="other_vents: [{instrument: instrument, mass_flow: 1.5 g/min}]\n"
            ),
            id="the card counts the first bench already",
        ),
        pytest.param(
            AT_ONCE,
            _room("10000 ppm", more="other_vents: [{instrument: bench-b, mass_flow: 1.5 g/min}]\n"),
            id="the card counts the other bench already",
        ),
    ],
)
def test_silent(second: str, cards: str) -> None:
    assert findings(planned(second, cards), RULE) == []


def test_caution_above_half_the_limit() -> None:
    (found,) = findings(planned(AT_ONCE, _room("10000 ppm")), RULE)
    assert found.grade == "caution"
    assert found.found is not None and found.found.value == pytest.approx(7210.0, rel=0.01)


def test_stop_above_the_limit() -> None:
    (found,) = findings(planned(AT_ONCE, _room("6000 ppm")), RULE)
    assert found.grade == "stop" and "together" in found.message
