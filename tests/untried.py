"""Rules whose findings propose no change of a document, so that none is rehearsed and judged.

For tests that look at what is found and not at what to do about it: trying remedies takes longer
than all the rest.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from typing import Any

from methodlint.judging.finding import Finding
from methodlint.judging.loader import Rule, built_in_rules


def untried(rule: Rule) -> Rule:
    """Give a rule that says the same but has no candidates to try."""

    def judge(case: Any) -> Iterator[Any]:
        for said in rule.judge(case):
            yield replace(said, candidates=()) if isinstance(said, Finding) else said

    return replace(rule, judge=judge)


@cache
def untried_rules() -> tuple[Rule, ...]:
    """Every rule of the package, without candidates to try."""
    return tuple(untried(rule) for rule in built_in_rules())
