"""Flow, composition, outlet pressure and times of the proposed method."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import pairwise

from methodlint.documents.quantities.format import number, show
from methodlint.documents.quantities.quantity import Quantity
from methodlint.rehearsal.plan.programme import SetPoint
from methodlint.scaling.geometry import time_ratio
from methodlint.scaling.rounding import significant, time_decimals
from methodlint.scaling.rows import changes_composition
from methodlint.transfer.attempt import Attempt
from methodlint.transfer.draft import Draft, in_unit_of, minutes
from methodlint.transfer.dwell_part import draft_dwell
from methodlint.transfer.entry import How
from methodlint.transfer.flow_choice import FlowChoice, flow_words
from methodlint.transfer.sides import Sides
from methodlint.transfer.time_map import TimeMap

__all__ = ["draft_programme"]

_ML_MIN = 1e-6 / 60.0


def draft_programme(draft: Draft, sides: Sides, choice: FlowChoice, times: TimeMap) -> None:
    """Write flow, shares, pressures and times of the target."""
    assert choice.attempt is not None
    _flows(draft, sides, choice)
    _shares(draft, sides, choice.attempt)
    _pressures(draft, sides, choice.attempt)
    _times(draft, sides, choice, times)


def _per_row(
    sides: Sides, tried: Attempt, top: Quantity | None, key: str, value: Callable[[SetPoint], float]
) -> tuple[float, list[tuple[int, Quantity, float]]]:
    """What the top-level key becomes, and every row that gives the value itself."""
    rows = []
    for source, target in zip(sides.rows, tried.rows, strict=True):
        if source.index is None:
            continue
        given: Quantity | None = getattr(sides.typed.programme[source.index], key)
        if given is not None:
            rows.append((source.index, given, value(target)))
    first = value(tried.rows[0])
    if top is not None and sides.rows[0].index is not None and rows and rows[0][0] == 0:
        # A row at time 0 overrules the top-level value: scale it like the row.
        ratio = first / value(sides.rows[0]) if value(sides.rows[0]) else 1.0
        first = top.si * ratio if key == "flow" else first
    return first, rows


def _flows(draft: Draft, sides: Sides, choice: FlowChoice) -> None:
    tried = choice.attempt
    assert tried is not None
    one, two = sides.source.bed, sides.target.bed
    formula = (
        f"x {number(choice.geometry, 4)} = ({number(two.inner_diameter * 1e3)}/"
        f"{number(one.inner_diameter * 1e3)})^2 x ({number(one.particle_size * 1e6)}/"
        f"{number(two.particle_size * 1e6)}), d^2/dp"
    )
    how: How = "derived"
    limit = ""
    why = formula
    if choice.limited_by:
        how, limit = "limited by", choice.limited_by
        why = f"{flow_words(tried.factor, choice.geometry)}; by geometry {formula}"
    elif abs(choice.wanted / choice.geometry - 1.0) > 1e-6:
        why = f"x {number(choice.wanted, 4)}, {flow_words(tried.factor, choice.geometry)}"
    if sides.metering_differs:
        why += "; corrected so that the mass flow scales, see composition"
    method = sides.typed
    first, rows = _per_row(sides, tried, method.flow, "flow", lambda row: row.flow)
    if method.flow is not None:
        by_geometry = in_unit_of(method.flow, _three(method.flow.si * choice.geometry))
        draft.quantity(
            "flow", ("flow",), method.flow, _three_or_same(first, method.flow.si), how=how,
            limit=limit, why=why, geometry=by_geometry,
        )  # fmt: skip
    for index, given, si in rows:
        by_geometry = in_unit_of(given, _three(given.si * choice.geometry))
        draft.quantity(
            f"flow in row {index + 1}", ("programme", index, "flow"), given, si, how=how,
            limit=limit, why=why, geometry=by_geometry, note=f"flow x {number(si / given.si, 4)}",
        )  # fmt: skip


def _three(flow: float) -> float:
    return significant(flow / _ML_MIN) * _ML_MIN


def _three_or_same(flow: float, source: float) -> float:
    return source if abs(flow / source - 1.0) < 1e-9 else _three(flow)


def _shares(draft: Draft, sides: Sides, tried: Attempt) -> None:
    first = tried.matches[0]
    w_source, w_target = first.source.w_modifier, tried.states[0].w_modifier
    figures = (
        f"mass fraction {w_source * 100:.2f} % on the source, {w_target * 100:.2f} % here; CO2 in "
        f"the head {show(first.source.head_density, 'density')} and "
        f"{show(tried.states[0].head_density, 'density')}"
    )
    why = (
        f"equal {figures}"
        if sides.metering_differs
        else f"same head temperature and metering; {figures}"
    )
    phase = sides.typed.mobile_phase
    top = phase.modifier_share if phase else None
    value, rows = _per_row(sides, tried, top, "modifier_share", lambda row: row.share)
    if top is not None:
        if rows and rows[0][0] == 0 and sides.rows[0].index is not None:
            value = top.si
        draft.quantity(
            "modifier share", ("mobile_phase", "modifier_share"), top, value, why=why,
            geometry=top.text,
        )  # fmt: skip
    for index, given, si in rows:
        draft.quantity(
            f"modifier share in row {index + 1}", ("programme", index, "modifier_share"), given, si,
            why=why, geometry=given.text, note="share for the same mass fraction",
        )  # fmt: skip


def _pressures(draft: Draft, sides: Sides, tried: Attempt) -> None:
    method = sides.typed
    words = [_pressure_words(sides, tried, corner) for corner in range(len(tried.states))]
    first, rows = _per_row(
        sides, tried, method.outlet_pressure, "outlet_pressure", lambda row: row.outlet_pressure
    )
    constant = (
        max(r.outlet_pressure for r in tried.rows) - min(r.outlet_pressure for r in tried.rows)
        < 1.0
    )
    if method.outlet_pressure is not None:
        how, limit, why = words[0]
        if constant and len(words) > 1:
            why = f"one setting for all rows; {why}"
            limit = next((lim for _, lim, _ in words if lim), limit)
            how = "limited by" if limit else how
        draft.quantity(
            "outlet pressure", ("outlet_pressure",), method.outlet_pressure, first, how=how,
            limit=limit, why=why, geometry=method.outlet_pressure.text,
        )  # fmt: skip
    for index, given, si in rows:
        how, limit, why = words[_corner(sides, index)]
        draft.quantity(
            f"outlet pressure in row {index + 1}", ("programme", index, "outlet_pressure"), given,
            si, how=how, limit=limit, why=why, geometry=given.text,
        )  # fmt: skip
    known = {index for index, _, _ in rows}
    if not constant:
        for source, target in zip(sides.rows, tried.rows, strict=True):
            if source.index is None or source.index in known or method.outlet_pressure is None:
                continue
            how, limit, why = words[_corner(sides, source.index)]
            path = ("programme", source.index, "outlet_pressure")
            text = in_unit_of(method.outlet_pressure, target.outlet_pressure)
            head = f"limited by {limit}" if limit else how
            draft.words(
                f"outlet pressure in row {source.index + 1}", path, method.outlet_pressure.text, text,
                how, f"{head}: {why}", note="outlet pressure for equal density",
            )  # fmt: skip
            if text == method.outlet_pressure.text:
                draft.edits.add(path, text)


def _corner(sides: Sides, index: int) -> int:
    position = next(i for i, row in enumerate(sides.rows) if row.index == index)
    return sides.corner_of[position]


def _pressure_words(sides: Sides, tried: Attempt, corner: int) -> tuple[How, str, str]:
    match, state = tried.matches[corner], tried.states[corner]
    left = tried.residuals[corner]
    why = (
        f"mean density {show(match.source.mean_density, 'density')} on the source, "
        f"{show(state.mean_density, 'density')} here ({left * 100:+.2f} %); at the column outlet "
        f"{show(match.source.outlet_density, 'density')} and {show(state.outlet_density, 'density')}"
    )
    if corner in tried.limited:
        limit = tried.limits[corner]
        words = limit.lowest_because
        if match.setting > limit.highest:
            words = limit.highest_because
        return "limited by", words, f"equal density at {show(match.setting, 'pressure')}; {why}"
    return "derived", "", why


def _times(draft: Draft, sides: Sides, choice: FlowChoice, times: TimeMap) -> None:
    tried = choice.attempt
    assert tried is not None
    method = sides.typed
    geometry = time_ratio(sides.source.bed, sides.target.bed, tried.factor)
    moments = [times.row(row.time) for row in sides.rows]
    length = times.end(method.run_length.si if method.run_length else 0.0)
    decimals = time_decimals([b - a for a, b in pairwise([*moments, length])])
    low, high = min(times.factors), max(times.factors)
    span = number(low, 4) if high - low < 5e-4 else f"{number(low, 4)} to {number(high, 4)}"
    why = (
        f"x {span}, hold-up times {minutes(tried.matches[0].source.hold_up_time, 3)} and "
        f"{minutes(tried.states[0].hold_up_time, 3)} by mass; x {number(geometry, 4)} by geometry"
    )
    _programme_times(draft, sides, tried, times, moments, decimals, why, geometry)
    last = max([0.0, *moments])
    if method.run_length is not None:
        draft.quantity(
            "run length", ("run_length",), method.run_length, _rounded(max(length, last), decimals),
            why=why, geometry=_text(method.run_length, method.run_length.si * geometry, decimals),
            decimals=_decimals(method.run_length, decimals),
        )  # fmt: skip
    if method.settling_time is not None:
        draft.quantity(
            "settling time", ("settling_time",), method.settling_time,
            _rounded(method.settling_time.si * times.first_factor, decimals),
            why=f"the same number of hold-up volumes, {why}",
            geometry=_text(method.settling_time, method.settling_time.si * geometry, decimals),
            decimals=_decimals(method.settling_time, decimals),
        )  # fmt: skip


def _decimals(quantity: Quantity, decimals: int) -> int | None:
    return decimals if quantity.unit == "min" else None


def _rounded(seconds: float, decimals: int) -> float:
    return round(seconds / 60.0, decimals) * 60.0


def _text(quantity: Quantity, si: float, decimals: int) -> str:
    return in_unit_of(quantity, _rounded(si, decimals), decimals=_decimals(quantity, decimals))


def _programme_times(
    draft: Draft,
    sides: Sides,
    tried: Attempt,
    times: TimeMap,
    moments: Sequence[float],
    decimals: int,
    why: str,
    geometry: float,
) -> None:
    programme = sides.typed.programme
    for row, moment in zip(sides.rows, moments, strict=True):
        if row.index is None:
            continue
        given = programme[row.index].time
        path = ("programme", row.index, "time")
        if row.index > 0 and row.time > 0.0 and moment <= 0.0 and not row.step:
            draft.remove_row(row.index, "the hold is not needed")
            continue
        draft.quantity(
            f"time of row {row.index + 1}", path, given, _rounded(moment, decimals), why=why,
            geometry=_text(given, given.si * geometry, decimals),
            decimals=_decimals(given, decimals),
            note=f"times x {number(times.first_factor, 4)}" if changes_composition(sides.rows)
            else "",
        )  # fmt: skip
    draft_dwell(draft, sides, tried, times, decimals, geometry)
