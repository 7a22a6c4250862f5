"""By volume, by mass or by amount: common practice, no source.

A millilitre of CO2 at 150 bar weighs 0.954 g at 10 degC and 1.000 g at 0 degC (Span and Wagner 1996),
one of methanol 0.792 g (20 degC, CRC Handbook of Chemistry and Physics, from memory): 20 % v/v are
0.2 x 0.792 / (0.2 x 0.792 + 0.8 x 0.954) = 17.2 % w/w behind the warmer head, 16.5 % behind the colder.
"""

from __future__ import annotations

import pytest

from methodlint.rehearsal.plan.set_points import filled_rows
from tests.rules.document.pages import found_in, report_on

RULE = "document.percent-basis-missing"


@pytest.mark.parametrize("basis", ["v/v", "w/w", "mol"])
def test_silent_where_the_basis_is_written(basis: str) -> None:
    assert found_in(f"kind: method\nmobile_phase: {{modifier_share: 20 % {basis}}}\n", RULE) == []


@pytest.mark.parametrize(
    "text",
    [
        "kind: method\nsuitability: {rsd: 2 %}\n",
        "kind: supply\ngrade: 99.995 %\n",
        "kind: instrument\nautosampler: {largest_part_fill: 50 %}\n",
        "kind: solvents\nbottles: [{line: a, liquids: [{liquid: water, share: 100 %}]}]\n",
    ],
    ids=["a spread", "a grade", "a part of a loop", "parts of a bottle, mixed by volume"],
)
def test_silent_for_percentages_that_have_one_meaning(text: str) -> None:
    assert found_in(text, RULE) == []


def test_a_bare_percentage_at_the_pumps_is_v_v_of_the_set_flows() -> None:
    rows = "  - {time: 0 min, modifier_share: 5 %}\n  - {time: 5 min, modifier_share: 40 % v/v}\n"
    text = f"kind: method\nmobile_phase: {{modifier_share: 20 %}}\nprogramme:\n{rows}"
    report = report_on(text, RULE)
    assert report.findings == []
    (method,) = report.documents.values()
    assert [row.share for row in filled_rows(method.model)] == [0.05, 0.4]  # type: ignore[arg-type]


def test_parts_of_a_blend_without_a_basis_are_a_note() -> None:
    blend = "[{liquid: methanol, share: 95 %}, {liquid: water, share: 5 %}]"
    (found,) = found_in(f"kind: solvents\nbottles: [{{line: a, liquids: {blend}}}]\n", RULE)
    assert found.grade == "note"
    assert found.at.path[-1] == "liquids"
    said = blend.replace("%", "% v/v")
    assert found_in(f"kind: solvents\nbottles: [{{line: a, liquids: {said}}}]\n", RULE) == []


def test_the_level_of_an_additive_needs_one_too_and_none_is_guessed() -> None:
    text = "kind: method\nmobile_phase: {modifier: {additives: [{additive: DEA, level: 0.1 %}]}}\n"
    report = report_on(text, RULE)
    (found,) = report.findings
    assert found.at.path[-1] == "level"
    assert "w/w" in found.remedy
    assert found.at.path in report.documents["page.yaml"].broken
