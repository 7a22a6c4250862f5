"""Fills against the capacity that the instrument card gives; the rack of the sound lab holds 2 mL."""

from __future__ import annotations

import pytest

from methodlint.judging.finding import Finding
from tests.rules.harness import findings, judged

RULE = "injection.vial-overfilled"
SAMPLE = "kind: sample, sample: x, plate: 1, well: D1"


def lines(*items: str, extra: str = "") -> str:
    return "kind: sequence\nlines:\n" + "".join(f"  - {{{item}}}\n" for item in items) + extra


def said(*items: str, extra: str = "") -> list[Finding]:
    return findings(lines(*items, extra=extra), RULE)


# Silent --------------------------------------------------------------------------------------


@pytest.mark.parametrize("fill", ["60 uL", "1 mL", "2 mL", "2000 uL"])
def test_silent_up_to_the_brim(fill: str) -> None:
    assert said(f"{SAMPLE}, fill: {fill}") == []


def test_silent_for_like_vials_that_hold_more_together() -> None:
    assert said(f"{SAMPLE}, fill: 2 mL, vials: 3") == []


def test_silent_for_a_larger_vessel_that_the_line_names() -> None:
    large = (
        "---\nkind: instrument\nautosampler: {vessels: [{name: vial rack, rows: 6, columns: 9, "
        "capacity: 2 mL}, {name: large vial, capacity: 10 mL}]}\n"
    )
    assert said(f"{SAMPLE}, fill: 5 mL, vessel: large vial", extra=large) == []
    assert len(said(f"{SAMPLE}, fill: 5 mL", extra=large)) == 1


def test_silent_for_a_line_without_injection() -> None:
    assert said(f"{SAMPLE}, fill: 1 mL", "kind: flush, liquid: methanol, fill: 1 L") == []


def test_silent_without_a_fill() -> None:
    assert judged(lines(SAMPLE), RULE).not_checked == []


# Firing --------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("fill", "found", "slip"),
    [
        ("60 mL", 60e3, ""),
        ("300 mL", 300e3, "; it may be 300 uL"),
        ("5 mL", 5e3, ""),
        ("1 L", 1e6, "; it may be 1 mL"),
        ("2.1 mL", 2.1e3, ""),
    ],
)
def test_more_than_the_vial_holds(fill: str, found: float, slip: str) -> None:
    """60 mL are not taken for 60 uL: 80 uL of the rack's vials are out of reach."""
    (finding,) = said(f"{SAMPLE}, fill: {fill}")
    assert finding.grade == "fault"
    assert finding.message == (
        f"line 1: filled with {fill}, a vessel of vial rack holds 2 mL{slip}"
    )
    assert finding.found is not None and finding.found.value == pytest.approx(found)
    assert finding.limit is not None and finding.limit.value == pytest.approx(2000.0)
    assert finding.at.path == ("lines", 0, "fill")
    assert "at most 2 mL" in finding.remedy


def test_one_slip_in_many_lines_is_one_finding() -> None:
    items = [f"{SAMPLE.replace('D1', f'D{n}')}, fill: 1 L" for n in range(1, 6)]
    (finding,) = said(*items)
    assert finding.message.startswith("line 1 and 4 others: filled with 1 L, a vessel of vial rack")
    assert finding.when is not None and finding.when.last_injection == 5


def test_two_different_slips_are_one_finding_each_with_what_may_be_meant() -> None:
    (first, second) = said(f"{SAMPLE}, fill: 1 L", f"{SAMPLE.replace('D1', 'D2')}, fill: 0.3 L")
    assert first.message.endswith("it may be 1 mL")
    assert second.message.endswith("it may be 300 uL")


def test_an_insert_that_the_line_describes_makes_60_microlitres_likely() -> None:
    (finding,) = said(f"{SAMPLE}, fill: 60 mL, dead_volume: 12 uL")
    assert finding.message.endswith("it may be 60 uL")


def test_a_vessel_without_a_capacity_is_not_checked() -> None:
    bare = "---\nkind: instrument\nautosampler: {vessels: [{name: vial rack, rows: 6, columns: 9}]}"
    report = judged(lines(f"{SAMPLE}, fill: 5 mL", extra=bare), RULE)
    assert report.findings == []
    (lacking,) = report.not_checked
    assert lacking.missing == ("instrument.autosampler.vessels[].capacity",)
    assert lacking.reason == "1 fill without it, first in line 1"
