"""Findings are worded alike: lower case, no full stop at the end, sensible figures.

Looked at are the unsound examples of every rule's page.
"""

from __future__ import annotations

import re

import pytest

from methodlint.judging.examples import examples_of, judge_example
from methodlint.judging.loader import Rule, built_in_rules

RULES = built_in_rules()
# Names that keep their capital: formulas, quantities, abbreviations of the trade, names of places.
_CAPITAL = re.compile(r"(CO2|L/dp|SST|C1|QC|UV|PDA|MS|A13|DEA|AmF|TFA|\d)")


def texts_of(rule: Rule) -> list[str]:
    found = []
    for example in examples_of(rule):
        if not example.sound:
            report = judge_example(example, (rule,))
            for finding in report.findings:
                found += [finding.message, finding.remedy]
            found += [item.reason for item in report.not_checked]
    return [text for text in found if text]


@pytest.mark.parametrize("rule", RULES, ids=[rule.id for rule in RULES])
def test_messages_and_remedies_are_worded_alike(rule: Rule) -> None:
    texts = texts_of(rule)
    assert texts
    for text in texts:
        assert not text[0].isupper() or _CAPITAL.match(text), text
        assert not text.endswith((".", " ", ",", ";")), text
        assert "  " not in text, text
        assert not re.search(r"\d(\.\d+)?e[+-]\d", text), f"an exponent: {text}"
        assert not re.search(r"\d\.0 (degC|bar|K)\b(?<!31\.0 degC)", text), (
            f"a needless zero: {text}"
        )
        assert not re.search(
            r"(?<![\d.,])1 (samples|lines|levels|limits|controls|injections)\b", text
        ), text
        assert not re.search(r"\d{3}\.\d+ bar", text), f"too many digits: {text}"
