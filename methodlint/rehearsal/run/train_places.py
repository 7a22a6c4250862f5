"""The places along a flow train whose pressures people watch, in the order of the flow."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from methodlint.rehearsal.run.part_pressures import pump_limits
from methodlint.rehearsal.run.rehearsal import Rehearsal

__all__ = ["TrainPlace", "tightest_row", "train_places"]

FloatArray = npt.NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class TrainPlace:
    """One place of the train over R times.

    Attributes
    ----------
    name, kind
        In words; kind as in the train ("pumps", "column", "column outlet" as well).
    pressure
        [Pa], shape (R,).
    limit
        What the part stands, or the pumps reach at their flow [Pa], shape (R,); None if no card
        gives it.
    """

    name: str
    kind: str
    pressure: FloatArray
    limit: FloatArray | None

    @property
    def headroom(self) -> FloatArray | None:
        """Limit less pressure [Pa], shape (R,); None without a limit."""
        return None if self.limit is None else self.limit - self.pressure


def train_places(run: Rehearsal) -> list[TrainPlace]:
    """List pumps, rated parts, both ends of the columns, and the regulator.

    Parameters
    ----------
    run
        A rehearsal that is done, on an instrument.
    """
    assert run.plan.instrument is not None
    card = run.plan.instrument.model
    columns = dict(zip(run.train.columns, run.plan.columns, strict=True))
    places = [TrainPlace("pumps", "pumps", run.pump_pressure, _pump_limit(run))]
    for number, segment in enumerate(run.train.segments):
        part = run.plan.part_of_segment[number]
        if number in columns:
            rating = columns[number].model.pressure_rating
            where = _rows(run, rating.si if rating is not None else None)
            inlet = run.inlet_pressure_of(number)
            places.append(TrainPlace(f"column {columns[number].name}", "column", inlet, where))
        elif part is not None and card.train[part].part != "tube":
            given = card.train[part].pressure_rating
            where = _rows(run, given.si if given is not None else None)
            pressure = run.inlet_pressure_of(number)
            places.append(TrainPlace(segment.name, card.train[part].part, pressure, where))
        if number == run.plan.analytical_column:
            places.append(
                TrainPlace("column outlet", "column outlet", run.column_outlet_pressure, None)
            )
    regulator = next((part for part in card.train if part.part == "regulator"), None)
    rating = regulator.pressure_rating if regulator is not None else None
    limit = _rows(run, rating.si if rating is not None else None)
    places.append(TrainPlace("regulator", "regulator", run.outlet_pressure, limit))
    return places


def tightest_row(run: Rehearsal, places: list[TrainPlace]) -> int:
    """Row at which a limit is nearest, the band of the pressure included.

    That of the highest pump pressure where no card gives a limit.
    """
    least = np.full(run.time.size, np.inf)
    for place in places:
        headroom = place.headroom
        if headroom is not None:
            least = np.minimum(least, headroom - run.pressure_band(place.pressure).above)
    if not np.isfinite(least).any():
        return int(np.argmax(run.pump_pressure))
    # Of equal rows the first one: a plateau is met when it begins.
    return int(np.argmax(least <= np.min(least) + 1e-3 * abs(np.min(least))))


def _rows(run: Rehearsal, rating: float | None) -> FloatArray | None:
    return None if rating is None else np.full(run.time.size, rating)


def _pump_limit(run: Rehearsal) -> FloatArray | None:
    known = [limit.pressure for limit in pump_limits(run) if limit.pressure is not None]
    if not known:
        return None
    least: FloatArray = known[0]
    for other in known[1:]:
        least = np.minimum(least, other)
    return least if np.isfinite(least).any() else None
