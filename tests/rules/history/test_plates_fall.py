"""`history.plates-fall`: plates against the first good runs; common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.history.logged import daily, findings

RULE = "history.plates-fall"

PLATES = "peak: a, plates: {}"
AT_FIRST = (9000, 9100, 8900, 9050, 9000, 8950)


@pytest.mark.parametrize(
    "values",
    [
        pytest.param((*AT_FIRST, 9100, 8900, 9000), id="the scatter of a lab"),
        pytest.param((*AT_FIRST, 7900, 8000, 7900), id="12 %, below 25 %"),
        pytest.param((*AT_FIRST, 4000, 9000, 9000), id="one bad injection"),
        pytest.param((*AT_FIRST, 5000, 5000), id="two readings make no trend"),
    ],
)
def test_silent(values: tuple[int, ...]) -> None:
    assert findings(daily(values, PLATES), RULE) == []


def test_a_third_is_lost() -> None:
    (found,) = findings(daily((*AT_FIRST, 6000, 6100, 6000, 5900), PLATES), RULE)
    assert found.grade == "caution" and "against 9000 at first" in found.message
    assert found.found is not None and found.found.value == pytest.approx(-33.0, abs=2.0)
