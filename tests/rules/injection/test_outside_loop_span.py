"""Spans of loops and modes (common practice, no source; the card's own figures first)."""

from __future__ import annotations

import pytest

from methodlint.judging.finding import Finding
from tests.rules.harness import findings, judged

RULE = "injection.outside-loop-span"


def said(injection: str, sampler: str = "", lines: str = "") -> list[Finding]:
    changes = f"kind: method\ninjection: {{{injection}}}\n"
    changes += f"---\nkind: instrument\nautosampler: {{{sampler}}}\n" if sampler else ""
    changes += f"---\nkind: sequence\nlines: [{lines}]\n" if lines else ""
    return findings(changes, RULE)


def test_silent_for_a_needle_in_the_flow_without_a_loop() -> None:
    design = "loop: null, flow_through_needle: true, highest_volume: 20 uL"
    assert said("mode: metered, volume: 18 uL", design) == []
    assert said("mode: null, volume: 18 uL", design) == []
    with_loop = "loop: 10 uL, flow_through_needle: true, highest_volume: 20 uL"
    assert said("mode: part-filled loop, volume: 18 uL", with_loop) == []


def test_silent_for_a_filled_loop_at_its_own_volume() -> None:
    assert said("mode: filled loop, volume: 10 uL, flushes: 3") == []
    assert len(said("mode: filled loop, volume: 5 uL, flushes: 3")) == 1


def test_silent_at_both_ends_of_the_span() -> None:
    assert said("volume: 5 uL") == []
    assert said("volume: 0.1 uL") == []


def test_above_half_the_loop() -> None:
    (finding,) = said("volume: 8 uL")
    assert finding.grade == "fault"
    assert "8 uL is 3 uL more than the 5 uL" in finding.message
    assert "a loop of 20 uL would fit" in finding.message
    assert finding.remedy == "inject 5 uL"


@pytest.mark.parametrize(("volume", "grade"), [("6 uL", "caution"), ("8 uL", "fault")])
def test_without_the_card_s_share_half_is_usual_and_seven_tenths_certain(
    volume: str, grade: str
) -> None:
    (finding,) = said(f"volume: {volume}", "largest_part_fill: null, highest_volume: null")
    assert finding.grade == grade


def test_the_card_s_share_comes_before_usage() -> None:
    assert said("volume: 7.5 uL", "largest_part_fill: 80 %, highest_volume: null") == []


def test_below_the_least_volume() -> None:
    (finding,) = said("volume: 0.05 uL")
    assert "less than the least volume 0.1 uL" in finding.message
    assert finding.remedy == "inject 0.1 uL"


def test_a_filled_loop_wants_three_volumes() -> None:
    (finding,) = said("mode: filled loop, volume: 10 uL, flushes: 2")
    assert "filled with 2 of its volumes, it takes 3" in finding.message
    assert finding.remedy == "draw 3 loop volumes"
    assert said("mode: filled loop, volume: 10 uL, flushes: 2", "flushes_for_full_loop: 2") == []


def test_a_line_with_its_own_volume() -> None:
    line = "{kind: sample, sample: x, well: A1, volume: 9 uL}"
    (finding,) = said("volume: 2 uL", lines=line)
    assert finding.at.document.kind == "sequence"
    assert finding.at.path == ("lines", 0, "volume")
    assert finding.remedy == "inject 5 uL"


def test_metered_above_its_range() -> None:
    (finding,) = said("mode: metered, volume: 6 uL")
    assert "6 uL is 1 uL more than the 5 uL" in finding.message
    assert "loop" not in finding.message


@pytest.mark.parametrize(
    ("injection", "sampler", "figure"),
    [
        ("mode: null", "loop: 10 uL", "method.injection.mode"),
        ("volume: 2 uL", "loop: null", "instrument.autosampler.loop"),
        ("volume: 2 uL", "lowest_volume: null", "instrument.autosampler.lowest_volume"),
        ("mode: metered", "highest_volume: null", "instrument.autosampler.highest_volume"),
        ("mode: filled loop, volume: 10 uL", "loop: 10 uL", "method.injection.flushes"),
        ("volume: null", "loop: 10 uL", "method.injection.volume"),
    ],
)
def test_missing_figures_are_not_checked(injection: str, sampler: str, figure: str) -> None:
    report = judged(
        f"kind: method\ninjection: {{{injection}}}\n"
        f"---\nkind: instrument\nautosampler: {{{sampler}}}\n",
        RULE,
    )
    assert report.findings == []
    assert any(figure in item.missing for item in report.not_checked)


def test_lines_with_one_volume_are_one_finding_put_right_together() -> None:
    lines = ", ".join(
        f"{{kind: sample, sample: s{n}, well: A{n}, volume: 9 uL, diluent: {liquid}}}"
        for n, liquid in ((1, "ethanol"), (2, "ethanol"), (3, "heptane"))
    )
    (finding,) = said("volume: 2 uL", lines=lines)
    assert finding.remedy == "inject 5 uL"
