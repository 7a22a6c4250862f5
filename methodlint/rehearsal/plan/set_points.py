"""The rows of a programme with every value filled in, and where each value is written."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from methodlint.documents.kinds.method import Method, ProgrammeRow
from methodlint.documents.memo import memoize_last
from methodlint.rehearsal.plan.programme import SetPoint
from methodlint.rehearsal.plan.settings_by_mass import by_volume

_SAME = 1e-9
SETTINGS = {
    "modifier_share": "method.mobile_phase.modifier_share",
    "flow": "method.flow",
    "outlet_pressure": "method.outlet_pressure",
    "temperature": "method.oven_temperature",
}


@dataclass(frozen=True)
class FilledRow:
    """Set values at one row.

    Attributes
    ----------
    index
        Index in the method's programme; None for the values that the method opens with.
    time
        [s].
    share, flow, outlet_pressure, temperature
        [-], [m3/s], [Pa], [K]; None if nobody sets it.
    step
        The row is reached by a jump.
    reason
        Why the row is there, as written.
    places
        Where each value is written, by the keys of a programme row.
    """

    index: int | None
    time: float
    share: float | None
    flow: float | None
    outlet_pressure: float | None
    temperature: float | None
    step: bool = False
    reason: str | None = None
    places: Mapping[str, str] = field(default_factory=dict)

    def value(self, key: str) -> float | None:
        """Value by the key of a programme row [SI]."""
        found: float | None = getattr(self, "share" if key == "modifier_share" else key)
        return found

    def same_as(self, other: FilledRow) -> bool:
        """Whether both rows set the same composition, flow, outlet pressure and temperature."""
        return all(
            mine == theirs
            or (
                mine is not None
                and theirs is not None
                and abs(mine - theirs) <= _SAME * max(abs(mine), abs(theirs))
            )
            for mine, theirs in zip(self._values(), other._values(), strict=True)
        )

    def _values(self) -> tuple[float | None, ...]:
        return self.share, self.flow, self.outlet_pressure, self.temperature

    @property
    def number(self) -> str:
        """The row in words, counted from 1."""
        return "the start" if self.index is None else f"row {self.index + 1}"


@memoize_last
def filled_rows(method: Method) -> tuple[FilledRow, ...]:
    """Fill each row's gaps from the row before, in the order in which they are written.

    Parameters
    ----------
    method
        The typed method.

    Returns
    -------
    tuple of FilledRow
        At least one; the first holds the values that the run starts with.
    """
    share = method.mobile_phase.modifier_share if method.mobile_phase is not None else None
    flow = method.flow if method.flow is not None and by_volume(method.flow) else None
    share = share if share is not None and by_volume(share) else None
    values: dict[str, float | None] = {
        "modifier_share": share.si if share is not None else None,
        "flow": flow.si if flow is not None else None,
        "outlet_pressure": method.outlet_pressure.si if method.outlet_pressure else None,
        "temperature": method.oven_temperature.si if method.oven_temperature else None,
    }
    places = dict(SETTINGS)
    rows: list[FilledRow] = []
    first = method.programme[0] if method.programme else None
    if first is None or first.time.si > 0.0:
        if (
            first is not None
            and first.modifier_share is not None
            and by_volume(first.modifier_share)
        ):
            values["modifier_share"] = first.modifier_share.si
            places["modifier_share"] = "method.programme[0].modifier_share"
        rows.append(_row(None, 0.0, None, values, places))
    for index, row in enumerate(method.programme):
        for key in values:
            given = getattr(row, key)
            if given is not None and by_volume(given):
                values[key] = given.si
                places[key] = f"method.programme[{index}].{key}"
        rows.append(_row(index, row.time.si, row, values, places))
    return tuple(rows)


def missing_setting(rows: tuple[FilledRow, ...], *keys: str) -> str | None:
    """Path of the first value that some row lacks, by the keys of a programme row."""
    for key in keys:
        if any(row.value(key) is None for row in rows):
            return SETTINGS[key]
    return None


def complete_rows(method: Method) -> tuple[SetPoint, ...]:
    """Rows of a method whose every value is set, one for an isocratic method.

    Returns
    -------
    tuple of SetPoint
        Empty if a figure that some row needs is nowhere given, or not by volume.
    """
    points = []
    for row in filled_rows(method):
        flow, pressure, temperature = row.flow, row.outlet_pressure, row.temperature
        if row.share is None or flow is None or pressure is None or temperature is None:
            return ()
        share = min(max(row.share, 0.0), 1.0)
        flow = max(flow, 0.0)
        point = SetPoint(row.time, share, flow, pressure, temperature, row.step, row.index)
        points.append(point)
    return tuple(points)


def _row(
    index: int | None,
    time: float,
    row: ProgrammeRow | None,
    values: Mapping[str, float | None],
    places: Mapping[str, str],
) -> FilledRow:
    return FilledRow(
        index=index,
        time=time,
        share=values["modifier_share"],
        flow=values["flow"],
        outlet_pressure=values["outlet_pressure"],
        temperature=values["temperature"],
        step=row.step if row is not None else False,
        reason=row.reason if row is not None else None,
        places=dict(places),
    )


def last_to_be_seen(rows: tuple[FilledRow, ...], *, settles: bool) -> FilledRow | None:
    """The row whose composition has to reach the detector within the run.

    A return to the starting values that is followed by settling is not meant to be seen, and of a
    closing hold only its begin is.

    Parameters
    ----------
    rows
        Rows in rising time.
    settles
        Whether settling time follows the run.

    Returns
    -------
    FilledRow or None
        None if nothing ever changes.
    """
    left = list(rows)
    if settles:
        while len(left) > 1 and left[-1].same_as(left[0]):
            left.pop()
        # A return in two moves: first the composition, later the flow.
        if any(row.share != left[0].share for row in left):
            while left[-1].share == left[0].share:
                left.pop()
    while len(left) > 1 and left[-1].same_as(left[-2]):
        left.pop()
    return left[-1] if len(left) > 1 else None
