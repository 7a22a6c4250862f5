"""Every rule file has the parts of a rule, and its examples do what its page says."""

from __future__ import annotations

import ast
import re
from pathlib import Path
from typing import get_args

import pytest

from methodlint.judging.finding import GRADES
from methodlint.judging.loader import Rule, Subject, built_in_rules
from methodlint.rulebook.examples import examples_of, parts_missing, run_example
from methodlint.rulebook.rule_shape import MOST_CODE_LINES, code_lines
from tests.rules.harness import misspelt
from tests.rules.words import worded_otherwise

RULES = built_in_rules()
IDS = [rule.id for rule in RULES]
HERE = Path(__file__).parent
# What a firing case looks at.
SAID = {"grade", "message", "remedy", "found", "limit", "at", "when", "because"}


def test_rules_were_found() -> None:
    assert len(RULES) > 2


def test_ids_are_words_and_unique() -> None:
    assert len(set(IDS)) == len(IDS)
    assert all(re.fullmatch(r"[a-z]+\.[a-z0-9]+(-[a-z0-9]+)+|[a-z]+\.[a-z]+", name) for name in IDS)


def test_pages_have_all_parts() -> None:
    missing = {rule.id: parts_missing(rule) for rule in RULES}
    assert {name: parts for name, parts in missing.items() if parts} == {}
    assert [rule.id for rule in RULES if not rule.title.endswith(".")] == []
    nameless = [r.id for r in RULES if not r.page.partition("\nSource\n")[2].strip()]
    assert nameless == [], "a rule names its authority, or says: common practice, no source"


def test_metadata_is_sound() -> None:
    assert [r.id for r in RULES if not r.grades or not set(r.grades) <= set(GRADES)] == []
    assert [r.id for r in RULES if r.subject not in get_args(Subject)] == []
    lost = {rule.id: set(rule.causes) - set(IDS) | {rule.id} & set(rule.causes) for rule in RULES}
    assert {n: c for n, c in lost.items() if c} == {}, "a cause names another rule that is there"
    lines = {rule.id: code_lines(rule.file.read_text(encoding="utf-8")) for rule in RULES}
    assert {name: count for name, count in lines.items() if count > MOST_CODE_LINES} == {}


def test_lines_of_code_are_counted() -> None:
    text = '"""Page.\n\nMore.\n"""\n\nimport os\n\n# why\nA = (\n    1,\n)\n\n\ndef b():\n    "Says."\n    return A\n'
    assert code_lines(text) == 5


@pytest.mark.parametrize("rule", RULES, ids=IDS)
def test_examples_do_what_the_page_says(rule: Rule) -> None:
    examples = examples_of(rule)
    assert {example.sound for example in examples} == {True, False}
    for example in examples:
        report = run_example(example, rule)
        assert worded_otherwise(report) == []
        assert rule.id.startswith("document.") or misspelt(report) == []


def _cases(rule: Rule) -> tuple[list[str], list[str]]:
    """Names of the silent and of the firing cases in the test file of a rule, silent ones first."""
    file = HERE / rule.id.partition(".")[0] / f"test_{rule.file.stem}.py"
    text = file.read_text(encoding="utf-8") if file.is_file() else ""
    tests = [
        node
        for node in ast.parse(text).body
        if isinstance(node, ast.FunctionDef) and node.name.startswith("test_")
    ]
    if not tests or "silent" not in tests[0].name or f'"{rule.id}"' not in text:
        return [], []
    silent = [test.name for test in tests if "silent" in test.name]
    firing = [
        test.name
        for test in tests
        if test.name not in silent
        and any(isinstance(n, ast.Attribute) and n.attr in SAID for n in ast.walk(test))
    ]
    return silent, firing


def test_every_rule_has_silent_cases_and_firing_ones_of_its_own() -> None:
    """In `tests/rules/<family>/test_<rule>.py`, the silent ones first."""
    cases = {rule.id: _cases(rule) for rule in RULES}
    assert [name for name, (silent, firing) in cases.items() if not silent or not firing] == []
