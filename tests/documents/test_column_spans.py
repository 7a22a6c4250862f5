"""A column card's impossible dimensions start no physics; its title is read by unit.

Spans: common practice, no source.
"""

from __future__ import annotations

import pytest

from tests.rules.harness import judged


@pytest.mark.parametrize("text", ["particle_size: 5 mm", "length: 150 um", "inner_diameter: 3 um"])
def test_an_impossible_dimension_is_missing_for_whatever_follows(text: str) -> None:
    report = judged(f"kind: column\n{text}\n")
    assert [f.rule for f in report.findings if f.grade != "note"] == [
        "column.dimensions-implausible"
    ]
    lost = [item for item in report.not_checked if item.rule == "pressure.column-rating-exceeded"]
    assert lost
    assert lost[0].missing == (f"column.{text.partition(':')[0]}",)
    assert text.partition(": ")[2] in lost[0].reason
    assert "columns have" in lost[0].reason


def titled(title: str, more: str = "") -> list[str]:
    report = judged(f"kind: column\ntitle: {title}\n{more}", "document.contradiction")
    return [finding.message for finding in report.findings]


def test_silent_where_the_title_gives_length_bore_and_particles() -> None:
    assert titled("Bonded diol silica, 3.0 x 150 mm, 3 um") == []


def test_micrometres_of_a_title_are_particles_and_millimetres_the_length() -> None:
    assert titled("Diol, 5 um") == ["the title says 5 um, 'particle_size' says 3 um"]
    assert titled("Diol, 250 mm") == ["the title says 250 mm, 'length' says 150 mm"]


def test_silent_where_the_particle_size_is_not_given() -> None:
    assert titled("Diol, 5 um", "particle_size: null\n") == []
