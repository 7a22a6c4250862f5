"""`calendar.sample-kept-too-long`: a vial that stays on the tray; stable for 48 h from 08:00."""

from __future__ import annotations

import pytest

from tests.rules.calendar.plans import planned
from tests.rules.harness import findings

RULE = "calendar.sample-kept-too-long"
AGAIN = "lines: [{kind: sample, sample: extract 1, plate: 1, well: D1}]\n"
LATE = "begins: 2026-11-26T10:00\n"


@pytest.mark.parametrize(
    "second",
    [
        pytest.param(AGAIN + "prepared: null", id="within its stability"),
        pytest.param(AGAIN + LATE + "prepared: 2026-11-26T08:00", id="prepared anew"),
        pytest.param(AGAIN.replace("D1", "E1") + LATE + "prepared: null", id="another vial"),
        pytest.param(
            AGAIN.replace("extract 1", "extract 8") + LATE + "prepared: null", id="other sample"
        ),
        pytest.param(AGAIN + "begins: 2026-12-03T10:00\nprepared: null", id="another week"),
        pytest.param(AGAIN + LATE + "prepared: null\nstability: 96 h", id="it keeps longer"),
    ],
)
def test_silent(second: str) -> None:
    assert findings(planned(second), RULE) == []


def test_injected_again_after_its_stability() -> None:
    (found,) = findings(planned(AGAIN + LATE + "prepared: null"), RULE)
    assert (found.grade, found.at.path) == ("caution", ("lines", 0))
    assert found.limit is not None and found.limit.value == 48.0
    # From 08:00 on the 24th to 10:00 on the 26th, and 10 min of equilibration.
    assert found.found is not None and found.found.value == pytest.approx(50.2, abs=0.1)
