"""sequence.method-not-for-instrument; common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings

RULE = "sequence.method-not-for-instrument"


@pytest.mark.parametrize("benches", ["[instrument]", "[bench-zz, instrument]", "[]", "null"])
def test_silent_where_the_bench_is_named_or_none_is(benches: str) -> None:
    assert findings(f"kind: method\nruns_on: {benches}\n", RULE) == []


def test_a_bench_that_the_method_does_not_name() -> None:
    (found,) = findings("kind: method\nruns_on: [bench-zz, bench-b]\n", RULE)
    assert found.grade == "caution"
    assert "on instrument, the method names bench-zz, bench-b" in found.message
    assert found.at.path == ("runs_on",)
