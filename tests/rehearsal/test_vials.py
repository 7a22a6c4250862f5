"""What is drawn from vials, by hand arithmetic.

The suitability vial (6 injections of 2 uL, 5 uL drawn beside each, 40 uL in an insert of which 12 uL
are out of reach) is a worked example: 42 uL needed, 28 uL available, dry at the fifth.
"""

from __future__ import annotations

from typing import Any

import pytest

from methodlint.documents.kinds.sequence import Line
from methodlint.rehearsal.batch.lines import LineRun
from methodlint.rehearsal.batch.tray import Tray
from methodlint.rehearsal.batch.vials import VialAccount, vial_accounts
from tests.work_done import calls_of

UL = 1e-9


def runs(
    *lines: dict[str, Any], volume: float | None = 2 * UL, extra: float = 5 * UL
) -> list[LineRun]:
    """Lines as a rehearsed sequence holds them; all inject."""
    found = []
    injection = 0
    for index, data in enumerate(lines):
        line = Line.model_validate({"kind": "sample", "plate": "1", **data})
        injects = line.kind not in ("flush", "shutdown")
        drawn = None if volume is None else volume + extra
        count = line.count
        found.append(
            LineRun(
                index=index,
                line=line,
                method="m",
                first_injection=injection + 1 if injects else 0,
                last_injection=injection + count if injects else 0,
                begins=0.0,
                ends=0.0,
                co2=0.0,
                co2_per_injection=0.0,
                modifier=0.0,
                makeup=0.0,
                volume=volume,
                drawn_per_injection=drawn,
            )
        )
        injection += count if injects else 0
    return found


def one(*lines: dict[str, Any], **options: Any) -> VialAccount:
    accounts = vial_accounts(runs(*lines, **options), Tray())
    assert len(accounts) == 1
    return accounts[0]


SST = {
    "kind": "suitability",
    "sample": "SST",
    "well": "A3",
    "fill": "40 uL",
    "dead_volume": "12 uL",
}


def test_the_suitability_vial_is_dry_at_the_fifth_injection() -> None:
    account = one({**SST, "count": 6})
    assert account.needed == pytest.approx(42 * UL)
    assert account.available == pytest.approx(28 * UL)
    assert (account.dry_line, account.dry_injection, account.dry_draw) == (0, 5, 5)
    assert account.fill_needed == pytest.approx(54 * UL)


def test_six_lines_of_one_are_like_one_line_of_six() -> None:
    account = one(*[SST] * 6)
    assert (account.dry_line, account.dry_injection, account.dry_draw) == (4, 5, 5)


def test_exactly_enough_is_enough() -> None:
    assert one({**SST, "count": 4}).dry_line is None
    assert one({**SST, "count": 6, "fill": "54 uL"}).dry_line is None


def test_injections_before_it_are_counted_in_the_sequence() -> None:
    first = {"sample": "x", "well": "B1", "fill": "1 mL", "dead_volume": "80 uL", "count": 3}
    accounts = vial_accounts(runs(first, {**SST, "count": 6}), Tray())
    assert (accounts[1].dry_line, accounts[1].dry_injection, accounts[1].dry_draw) == (1, 8, 5)


def test_one_place_in_two_spellings_is_one_vial() -> None:
    account = one({**SST, "count": 4}, {**SST, "well": "a03", "fill": None, "dead_volume": None})
    assert account.dry_line == 1
    assert account.lines == [0, 1]


def test_steps_without_injection_draw_nothing() -> None:
    account = one({**SST, "count": 4}, {"kind": "flush", "well": "A3"})
    assert account.draws == 4
    assert account.dry_line is None


def test_like_vials_share_the_injections_and_lose_what_is_no_whole_draw() -> None:
    # 28 uL hold four draws of 7; 27 uL hold three: two such vials give six.
    assert one({**SST, "count": 8, "vials": 2}).dry_line is None
    assert one({**SST, "count": 9, "vials": 2}).dry_draw == 9
    assert one({**SST, "count": 6, "vials": 2, "fill": "39 uL"}).dry_line is None
    assert one({**SST, "count": 7, "vials": 2, "fill": "39 uL"}).dry_draw == 7


def test_an_empty_vial_is_dry_at_once() -> None:
    account = one({**SST, "fill": "10 uL"})
    assert account.available == 0.0
    assert account.dry_draw == 1


def test_an_unknown_figure_leaves_it_unknown() -> None:
    assert not one({**SST, "fill": None}).known
    assert not one({**SST, "dead_volume": None}).known
    account = one({**SST, "count": 9}, volume=None)
    assert not account.known
    assert account.dry_line is None


def test_nothing_drawn_never_runs_dry() -> None:
    assert one({**SST, "count": 1000}, volume=0.0, extra=0.0).dry_line is None


def test_ten_thousand_lines_take_time_in_proportion() -> None:
    lines = [{"sample": f"s{n}", "well": f"{'ABCDEFGH'[n % 8]}{n % 12 + 1}", "fill": "1 mL",
              "dead_volume": "20 uL"} for n in range(10_000)]  # fmt: skip
    prepared = runs(*lines)
    accounts = vial_accounts(prepared, Tray())
    assert sum(account.draws for account in accounts) == 10_000
    fewer = runs(*lines[:1_000])
    some = calls_of(lambda: vial_accounts(fewer, Tray()))
    assert calls_of(lambda: vial_accounts(prepared, Tray())) <= 12 * some
