"""Vials that run dry.

The suitability vial (6 injections of 2 uL, 5 uL drawn beside each; an insert with 40 uL of which
12 uL are out of reach) is a worked example by hand: 42 uL against 28 uL, dry at the fifth.
"""

from __future__ import annotations

import pytest

from methodlint.judging.finding import Finding, When
from tests.rules.harness import findings, judged
from tests.work_done import calls_of

RULE = "injection.vial-runs-dry"
SST = "kind: suitability, sample: SST, plate: 1, well: A3, fill: 40 uL, dead_volume: 12 uL"


def lines(*items: str, extra: str = "") -> str:
    listed = "".join(f"  - {{{item}}}\n" for item in items)
    return f"kind: sequence\nlines:\n{listed}{extra}"


def said(*items: str, extra: str = "") -> list[Finding]:
    return findings(lines(*items, extra=extra), RULE)


def test_silent_where_replicate_vials_are_declared() -> None:
    assert said(f"{SST}, count: 6, vials: 2") == []
    assert len(said(f"{SST}, count: 6")) == 1


def test_silent_for_a_sampler_that_draws_nothing_beside() -> None:
    none_extra = "---\nkind: instrument\nautosampler: {extra_drawn: 0 uL}\n"
    assert said(f"{SST}, count: 6", extra=none_extra) == []


def test_silent_at_exactly_enough() -> None:
    assert said(f"{SST}, count: 4") == []
    assert said(f"{SST.replace('40 uL', '54 uL')}, count: 6") == []


def test_silent_for_vials_of_their_own() -> None:
    items = [SST.replace("A3", f"A{n}") for n in range(1, 7)]
    assert said(*items) == []


def test_the_suitability_vial_is_dry_at_the_fifth() -> None:
    (finding,) = said(f"{SST}, count: 6")
    assert finding.grade == "fault"
    assert "dry at injection 5 from this vial, line 1 of 1" in finding.message
    assert "need 42 uL, 28 uL can be drawn, 14 uL too little" in finding.message
    assert finding.found is not None and finding.found.value == pytest.approx(42.0)
    assert finding.limit is not None and finding.limit.value == pytest.approx(28.0)
    assert finding.when == When(injection=5, last_injection=5)


def test_lines_far_apart_share_the_vial_and_spellings_are_one() -> None:
    other = "kind: sample, sample: x, plate: 1, well: D1, fill: 1 mL"
    later = "kind: suitability, sample: SST, plate: 1, well: a03"
    (finding,) = said(f"{SST}, count: 3", other, later, later)
    assert finding.at.path == ("lines", 3)
    assert "line 4 of 4" in finding.message
    assert finding.also[0].path == ("lines", 0, "fill")


def test_the_dead_volume_of_the_vessel_counts_where_the_line_gives_none() -> None:
    # The rack of the sound lab: 80 uL out of reach in a vial; 7 uL a draw.
    item = "kind: sample, sample: x, plate: 1, well: D1, fill: 100 uL"
    assert said(f"{item}, count: 2") == []
    (finding,) = said(f"{item}, count: 3")
    assert "21 uL, 20 uL can be drawn" in finding.message


def test_the_printed_remedy_was_tried() -> None:
    (finding,) = said(f"{SST}, count: 6")
    assert finding.remedy == "fill 54 uL"
    assert said(f"{SST.replace('40 uL', '54 uL')}, count: 6") == []


def test_a_vessel_too_small_is_set_out_twice() -> None:
    insert = (
        "---\nkind: instrument\nautosampler: {vessels: "
        "[{name: vial rack, rows: 6, columns: 9, capacity: 50 uL, dead_volume: 12 uL}]}\n"
    )
    (finding,) = said(f"{SST}, count: 6", extra=insert)
    assert finding.remedy == "set out 2 like vials: 'vials: 2'"


def _vessel(capacity: str, dead_volume: str = "12 uL") -> str:
    rack = f"name: vial rack, rows: 6, columns: 9, capacity: {capacity}, dead_volume: {dead_volume}"
    return f"---\nkind: instrument\nautosampler: {{vessels: [{{{rack}}}]}}\n"


def test_the_fill_proposed_is_never_above_the_capacity() -> None:
    # 100 injections of 7 uL and 80 uL out of reach: 780 uL, and 785 uL with 5 uL more.
    item = "kind: sample, sample: x, plate: 1, well: D1, fill: 100 uL, count: 100"
    (finding,) = said(item, extra=_vessel("782 uL", "81.5 uL"))
    assert finding.remedy == "fill 782 uL"
    (finding,) = said(item, extra=_vessel("782.5 uL", "82.5 uL"))
    assert finding.remedy == "fill 782.5 uL"


def test_many_full_vials_where_one_can_not_hold_it() -> None:
    """700 uL; a vial of 100 uL gives 12 injections of 7 uL: nine vials."""
    item = "kind: sample, sample: x, plate: 1, well: D1, fill: 50 uL, count: 100"
    (finding,) = said(item, extra=_vessel("100 uL"))
    full = "fill 100 uL, which is all that it holds, and set out 9 such: 'vials: 9'"
    assert finding.remedy == full
    assert said(item.replace("50 uL", "100 uL, vials: 9"), extra=_vessel("100 uL")) == []
    assert len(said(item.replace("50 uL", "100 uL, vials: 8"), extra=_vessel("100 uL"))) == 1


def test_a_vessel_too_small_for_one_injection() -> None:
    item = "kind: sample, sample: x, plate: 1, well: D1, fill: 15 uL"
    (finding,) = said(item, extra=_vessel("15 uL"))
    assert finding.remedy == "inject less from it or take a larger vessel; this one holds 15 uL"


def test_a_missing_fill_is_not_checked_and_never_a_pass() -> None:
    report = judged(lines("kind: sample, sample: x, plate: 1, well: D1"), RULE)
    assert report.findings == []
    assert report.not_checked[0].missing == ("sequence.lines[].fill",)


def test_a_missing_dead_volume_is_not_checked() -> None:
    bare = (
        "---\nkind: instrument\nautosampler: {vessels: [{name: vial rack, rows: 6, columns: 9}]}\n"
    )
    report = judged(lines("kind: sample, sample: x, well: D1, fill: 1 mL", extra=bare), RULE)
    assert report.not_checked[0].missing == ("instrument.autosampler.vessels[].dead_volume",)


def test_a_missing_extra_volume_is_not_checked() -> None:
    report = judged("kind: instrument\nautosampler: {extra_drawn: null}", RULE)
    assert report.not_checked[0].missing == ("instrument.autosampler.extra_drawn",)


def test_many_dry_vials_are_gathered_and_no_more_work_than_a_few() -> None:
    items = [
        f"kind: sample, sample: s{n}, plate: 1, well: {'ABCDEF'[n % 6]}{n // 6 + 1}, "
        "fill: 40 uL, dead_volume: 40 uL"
        for n in range(54)
    ]
    found = said(*items)
    assert len(found) == 21
    assert "34 further vials" in " ".join(finding.message for finding in found)
    # Each of them sought a remedy of its own once.
    assert calls_of(lambda: said(*items)) <= 2 * calls_of(lambda: said(*items[:27]))
