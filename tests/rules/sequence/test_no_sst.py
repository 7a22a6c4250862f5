"""Place of the suitability injections: common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings
from tests.rules.sequence.lines import BLANK, calibrators, line, samples, sequence

RULE = "sequence.no-sst"
SST = line("suitability", "SST", count=5)


def test_silent_when_suitability_comes_first() -> None:
    assert findings(sequence(BLANK, SST, samples(2), purpose="regulated"), RULE) == []


def test_silent_without_a_purpose() -> None:
    text = "kind: method\npurpose: null\n---\n" + sequence(samples(2), purpose=None)
    assert findings(text, RULE) == []


def test_silent_when_calibrators_serve_as_suitability() -> None:
    method = "kind: method\nsuitability: {calibrators_serve: true}\n---\n"
    text = sequence(calibrators(1, 2), samples(2), purpose="regulated")
    assert findings(method + text, RULE) == []


def test_silent_when_the_block_was_opened_before() -> None:
    assert findings(sequence(samples(2), purpose="regulated", continues=True), RULE) == []


def test_a_zero_sample_is_no_suitability_injection() -> None:
    (found,) = findings(sequence(line("zero", "zero"), samples(2), purpose="regulated"), RULE)
    assert found.grade == "fault"


@pytest.mark.parametrize(
    ("purpose", "grade"), [("regulated", "fault"), ("bioanalysis", "caution"), ("research", "note")]
)
def test_class_by_purpose(purpose: str, grade: str) -> None:
    (found,) = findings(sequence(BLANK, samples(2), purpose=purpose), RULE)
    assert found.grade == grade
    assert found.at.path == ("lines", 1)


def test_suitability_behind_the_samples_does_not_count() -> None:
    (found,) = findings(sequence(samples(2), SST, purpose="regulated"), RULE)
    assert "line 1" in found.message


def test_each_method_wants_its_own() -> None:
    second = "kind: method\nx-name: second\n---\n"
    text = sequence(
        SST, samples(1), line("sample", "extract 9", method="second"), purpose="regulated"
    )
    (found,) = findings(second + text, RULE)
    assert found.at.path == ("lines", 2)


def test_silent_for_preparative_work() -> None:
    text = sequence(samples(3), purpose="preparative")
    assert findings(text, RULE) == []
