"""A page of bad documents: every problem in one pass, at its place, and nothing that follows.

The numbers behind the messages: 2000 psi = 137.9 bar (1 psi = 6894.757 Pa, NIST SP 811, table B.8,
from memory); `chirl-03` is one edit from `chiral-03` and two from `chiral-08`, counted by hand.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from methodlint.checking.check import check
from methodlint.checking.report import Report
from methodlint.judging.finding import Finding
from methodlint.judging.loader import built_in_ids

_LAB = Path(__file__).parent / "scenario_12"
_METHOD, _SEQUENCE, _BOTTLES = "resin-oligomers", "tonight", "bottles"

# Rule, document, line and column of the value, and a piece of the message or of the remedy.
_WANTED = [
    ("document.reference-unresolved", _METHOD, 3, 9, "chiral-03 (1 letter apart)"),
    ("document.contradiction", _METHOD, 5, 19, "title says 40 C, 'oven_temperature' says 35 degC"),
    ("document.range-or-about", _METHOD, 6, 24, "is a range"),
    ("document.pressure-ambiguous", _METHOD, 7, 18, "in psi it would be 138 bar"),
    ("document.unknown-key", _METHOD, 8, 1, "did you mean 'outlet_pressure'?"),
    ("document.unit-missing-or-wrong-kind", _METHOD, 9, 7, '"2 mL/min"'),
    ("gradient.times-not-increasing", _METHOD, 15, None, "row 4"),
    ("gradient.ends-after-run", _METHOD, None, None, "6.5 min"),
    ("document.type-trap", _METHOD, 19, 12, "no is read as text here"),
    ("document.duplicate-key-or-id", _METHOD, 20, 1, "first at line 9"),
    ("document.deviation-unjustified", _METHOD, 22, 5, "lacks reason"),
    ("document.type-trap", _SEQUENCE, 11, 56, "1E2 is read as the number 100"),
    ("document.value-implausible", _BOTTLES, 6, 14, '"31/02" is not a day of the calendar'),
]

# What the broken values would lead to if somebody guessed them.
_COMPUTED = ("phase", "pressure", "temperature", "flow", "makeup", "detector", "injection",
             "supply", "waste", "safety", "solvent", "column", "transfer")  # fmt: skip


@cache
def report() -> Report:
    return check(_LAB / "sequences" / "tonight.yaml")


def _found(rule: str, document: str, line: int | None, column: int | None) -> list[Finding]:
    return [
        finding
        for finding in report().findings
        if finding.rule == rule
        and finding.at.document.name == document
        and line in (None, finding.at.place.line)
        and column in (None, finding.at.place.column)
    ]


@pytest.mark.parametrize(("rule", "document", "line", "column", "piece"), _WANTED)
def test_every_problem_is_found_in_the_same_pass(
    rule: str, document: str, line: int | None, column: int | None, piece: str
) -> None:
    if rule not in built_in_ids():
        pytest.skip(f"there is no rule {rule}")
    (found,) = _found(rule, document, line, column)
    assert piece in f"{found.message} | {found.remedy}"


def test_nothing_else_is_found_above_a_note() -> None:
    wanted = {rule for rule, *_ in _WANTED}
    loud = [f for f in report().findings if f.grade != "note"]
    assert [(f.rule, f.message) for f in loud if f.rule not in wanted] == []
    # A title is no data: that it says something else is a note.
    title = [f for f in report().findings if f.rule == "document.contradiction"]
    counted = [*title, *(f for f in loud if f.rule.startswith("document."))]
    assert [f.grade for f in title] == ["note"]
    assert len(counted) == sum(rule.startswith("document.") for rule, *_ in _WANTED)


def test_nothing_is_computed_from_a_guessed_value() -> None:
    guessed = [f.rule for f in report().findings if f.rule.partition(".")[0] in _COMPUTED]
    assert guessed == []
    assert report().runs[0].rehearsal is not None
    assert not report().runs[0].rehearsal.done


def test_the_cylinder_is_not_checked_and_says_which_figure_is_missing() -> None:
    if "supply.cylinder-runs-out" not in built_in_ids():
        pytest.skip("there is no rule supply.cylinder-runs-out")
    (item,) = [n for n in report().not_checked if n.rule == "supply.cylinder-runs-out"]
    assert "supply.net_mass" in item.missing


def test_the_pressure_is_not_applied_in_another_unit() -> None:
    method = next(d for d in report().documents.values() if d.name == _METHOD)
    assert method.model.outlet_pressure is None  # type: ignore[attr-defined]


def test_exit_status_and_verdict() -> None:
    assert report().unusable
    assert report().exit_status() == 2
    assert report().verdict == "do not run"
    assert report().failed == []


def test_the_method_alone_says_the_same_about_itself() -> None:
    alone = check(_LAB / "methods" / "resin-oligomers.yaml")
    rules = {f.rule for f in alone.findings}
    assert {rule for rule, document, *_ in _WANTED if document == _METHOD} <= rules
    assert alone.exit_status() == 2
