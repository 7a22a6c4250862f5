"""The initial hold, or the delayed injection, that makes up for another dwell."""

from __future__ import annotations

from methodlint.documents.kinds.method import ProgrammeRow
from methodlint.documents.quantities.format import number, show
from methodlint.transfer.attempt import Attempt
from methodlint.transfer.draft import Draft, in_unit_of, minutes
from methodlint.transfer.sides import Sides
from methodlint.transfer.time_map import TimeMap

__all__ = ["draft_dwell"]


def draft_dwell(
    draft: Draft,
    sides: Sides,
    tried: Attempt,
    times: TimeMap,
    decimals: int,
    geometry: float,
) -> None:
    """Write the hold or the delay, and say what it comes from.

    Parameters
    ----------
    decimals
        Of the minutes that times are written with.
    geometry
        Time scale by geometry [-].
    """
    programme = sides.typed.programme
    dwell = times.dwell
    if dwell is None:
        return
    needs_hold = times.hold == 0.0 and dwell.hold > 0.3 / 10 ** (decimals - 2)
    one, two = sides.source, sides.target
    figures = (
        f"({minutes(times.hold - times.source_delay)} + dwell {show(one.dwell_volume, 'volume')} / flow) "
        f"x {number(times.first_factor, 4)} - {show(two.dwell_volume, 'volume')} / flow = "
        f"{minutes(dwell.wanted, 3)}"
    )
    if needs_hold:
        first = next((i for i, row in enumerate(sides.rows) if row.index is not None), 0)
        at = sides.rows[first].index or 0
        before = programme[at]
        behind = at + 1 if sides.rows[first].time <= 0.0 and len(programme) > at + 1 else at
        text = _hold_row(draft, sides, tried, before if behind > at else None, dwell.hold, decimals)
        draft.insert_row(behind, text)
    names = {
        "hold": "initial hold",
        "negligible": "initial hold",
        "delayed injection": "injection after the start",
        "not possible": "initial hold",
    }
    proposed = minutes(dwell.delay or dwell.hold, decimals)
    if dwell.way == "not possible":
        proposed = "not possible"
    by_geometry = minutes(times.hold * geometry, decimals)
    draft.figure(
        names[dwell.way], minutes(times.hold), by_geometry, proposed, "derived",
        f"so that the gradient reaches the column at the same column volume: {figures}",
    )  # fmt: skip
    if dwell.way == "delayed injection":
        note = f"derived: inject {proposed} after the programme begins, {figures}"
        draft.edits.set(("injection", "after_start"), proposed, note)
        draft.changed += 1
    elif times.source_delay > 0.0:
        draft.edits.comment_out(("injection", "after_start"), "not needed here")
        draft.changed += 1


def _hold_row(
    draft: Draft, sides: Sides, tried: Attempt, row: ProgrammeRow | None, hold: float, decimals: int
) -> str:
    """The text of a row that holds the starting values until this time."""
    read = draft.edits.read
    first = tried.rows[0]
    time = f"{round(hold / 60.0, decimals):g} min"
    share = row.modifier_share if row is not None else None
    phase = sides.typed.mobile_phase
    given = share or (phase.modifier_share if phase else None)
    text = in_unit_of(given, first.share) if given is not None else f"{first.share * 100:g} % v/v"
    note = "# derived: holds until the gradient is due"
    if read.node(("programme", 0)) is not None and draft.edits._is_flow(
        read.node(("programme",))  # type: ignore[arg-type]
    ):
        return f"{{time: {time}, modifier_share: {text}}}"
    return f"{{time: {time}, modifier_share: {text}}}  {note}"
