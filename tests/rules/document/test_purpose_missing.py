"""Reported once per document where a tag would have made a rule speak: common practice, no source."""

from __future__ import annotations

import re
from typing import Any, cast

import pytest

from methodlint.checking.purposes import waiting_for_purpose
from methodlint.judging.loader import Rule, built_in_rules
from tests.rules.harness import judged
from tests.rules.sequence.lines import BLANK, samples, sequence

RULE = "document.purpose-missing"
NO_TAG = "kind: method\npurpose: null\n---\n"


def test_silent_with_a_tag_on_the_sequence() -> None:
    text = NO_TAG + sequence(BLANK, samples(3), purpose="screening")
    assert judged(text, RULE).findings == []


def test_silent_with_a_tag_on_every_method_of_the_sequence() -> None:
    assert judged(sequence(BLANK, samples(3), purpose=None), RULE).findings == []


def test_silent_with_a_tag_of_the_lab() -> None:
    lab = "kind: lab\npolicy: {purpose: research}\n---\n"
    assert judged(lab + NO_TAG + sequence(BLANK, samples(3), purpose=None), RULE).findings == []


def test_silent_where_no_tag_would_change_anything() -> None:
    assert judged(NO_TAG + sequence(BLANK, purpose=None), RULE).findings == []


def test_a_sequence_without_a_tag_is_told_once_what_each_would_bring_up() -> None:
    (found,) = judged(NO_TAG + sequence(BLANK, samples(3), purpose=None), RULE).findings
    assert found.grade == "note"
    assert found.at.document.kind == "sequence"
    assert "for regulated: sequence.no-sst (fault)" in found.message.replace("; for ", " for ")
    assert "bioanalysis: " in found.message
    # Two rules by name, the others by their number.
    named = re.search(r"bioanalysis: ([^;]*?) and (\d+) more", found.message)
    assert named is not None
    assert named[1].count(" (") == 2


def test_it_is_told_once_although_all_rules_are_applied() -> None:
    report = judged(NO_TAG + sequence(BLANK, samples(3), purpose=None))
    assert len([f for f in report.findings if f.rule == RULE]) == 1


def test_nothing_is_judged_for_each_tag_where_the_rule_is_not_asked() -> None:
    """What would wait is known to this rule alone; other cases are not even looked at."""
    others = [rule for rule in built_in_rules() if rule.id != RULE]
    assert waiting_for_purpose([cast(Any, object())], others) == [{}]


ASKING = re.compile(
    r"case\.quantitative|case\.purpose (?:is not None|[!=]= \"(?!screening|preparative))"
)


@pytest.mark.parametrize("rule", built_in_rules(), ids=lambda rule: rule.id)
def test_a_rule_that_waits_for_a_tag_says_so(rule: Rule) -> None:
    asks = ASKING.search(rule.file.read_text(encoding="utf-8")) is not None
    # Without a tag this one is a note; it never keeps silent.
    if rule.id != "transfer.length-to-particle-ratio":
        assert asks == bool(rule.tags)
