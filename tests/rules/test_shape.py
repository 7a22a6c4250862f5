"""Every rule file has the parts of a rule, and its examples do what its page says."""

from __future__ import annotations

import re

import pytest

from methodlint.judging.examples import examples_of, parts_missing, run_example
from methodlint.judging.finding import GRADES
from methodlint.judging.loader import Rule, built_in_rules

RULES = built_in_rules()
IDS = [rule.id for rule in RULES]


def test_rules_were_found() -> None:
    assert len(RULES) > 2


def test_ids_are_words_and_unique() -> None:
    assert len(set(IDS)) == len(IDS)
    assert all(re.fullmatch(r"[a-z]+\.[a-z0-9]+(-[a-z0-9]+)+|[a-z]+\.[a-z]+", name) for name in IDS)


@pytest.mark.parametrize("rule", RULES, ids=IDS)
def test_page_has_all_parts(rule: Rule) -> None:
    assert parts_missing(rule) == []
    assert rule.title.endswith(".")
    source = rule.page.partition("\nSource\n")[2].strip()
    assert source, "a rule names its authority, or says: common practice, no source"


@pytest.mark.parametrize("rule", RULES, ids=IDS)
def test_metadata_is_sound(rule: Rule) -> None:
    assert rule.grades
    assert set(rule.grades) <= set(GRADES)
    assert rule.subject in ("document", "run", "batch")
    assert all(cause in IDS for cause in rule.causes), "a cause names a rule that is not there"
    assert rule.id not in rule.causes
    assert len(rule.file.read_text(encoding="utf-8").splitlines()) <= 150


@pytest.mark.parametrize("rule", RULES, ids=IDS)
def test_examples_do_what_the_page_says(rule: Rule) -> None:
    examples = examples_of(rule)
    assert any(example.sound for example in examples)
    assert any(not example.sound for example in examples)
    for example in examples:
        run_example(example, rule)
