"""What the pumps and the regulator are told to do, minute by minute.

The programme is piecewise linear in time. What left the pumps arrives at a place further down
when the *pumped volume* between both has gone by, so compositions are looked up by cumulative
volume and not by time; a change of flow on the way is thereby included.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import numpy.typing as npt

from methodlint.hydraulics.distinct import distinct

FloatArray = npt.NDArray[np.float64]

POINTS_IN_RAMP = 20
_POINTS_ON_THE_WAY = 50
"""Points for which a ramp that is brief beside its way through the beds is on that way."""
_STEPS_IN_RAMP_OF_FLOW = 100
_BENDS = np.array([0, 0.05, 0.1, 0.2, 0.3, 0.45, 0.6, 0.8, 1, 1.25, 1.5, 1.8, 2.2, 2.7, 3.5, 5, 8])
"""Volumes of the mixer behind a change at which what leaves it is computed."""
_FRONT = np.array([0.15, 0.4, 0.8, 1.4, 2.3, 4.0, 7.0])
"""Volumes of the mixer behind a jump at which the front that leaves it is worth computing."""
_AFTER_JUMP = np.array([1.0, 3.0])
"""Seconds within which pressures follow a jump, at the pumps and when it has left the beds."""
_JUMP = 1e-6  # seconds between both sides of a step


def _interpolated(at: npt.ArrayLike, known: FloatArray, values: FloatArray) -> FloatArray:
    return np.asarray(np.interp(np.asarray(at, dtype=np.float64), known, values))


@dataclass(frozen=True)
class Programme:
    """Set values over one cycle: the run, then the settling time at the starting values.

    Attributes
    ----------
    time
        Breakpoints [s], shape (N,), rising; both sides of a jump are a microsecond apart.
    share
        Modifier share at the pump, v/v, shape (N,).
    flow
        Total flow at the pumps [m3/s], shape (N,).
    outlet_pressure
        Set pressure of the regulator [Pa], shape (N,).
    oven_temperature
        Set temperature of the oven [K], shape (N,).
    run_length, settling_time
        [s].
    last_row
        Time of the last programme row [s].
    """

    time: FloatArray
    share: FloatArray
    flow: FloatArray
    outlet_pressure: FloatArray
    oven_temperature: FloatArray
    run_length: float
    settling_time: float
    last_row: float
    mixer_volume: float = 0.0

    @property
    def cycle(self) -> float:
        """Run length and settling time together [s]."""
        return self.run_length + self.settling_time

    @cached_property
    def isocratic(self) -> bool:
        """True if the modifier share never changes."""
        share = self.share.tolist()
        return bool(max(share) - min(share) < 1e-9)

    @cached_property
    def constant(self) -> bool:
        """True if nothing at all changes over the cycle."""
        others = (self.flow, self.outlet_pressure, self.oven_temperature)
        return self.isocratic and all(
            max(values) - min(values) <= 1e-9 * max(map(abs, values))
            for values in (other.tolist() for other in others)
        )

    def share_at(self, time: npt.ArrayLike) -> FloatArray:
        """Modifier share at the pump at these times [s]."""
        return _interpolated(time, self.time, self.share)

    def flow_at(self, time: npt.ArrayLike) -> FloatArray:
        """Total set flow [m3/s] at these times [s]."""
        return _interpolated(time, self.time, self.flow)

    def outlet_pressure_at(self, time: npt.ArrayLike) -> FloatArray:
        """Set outlet pressure [Pa] at these times [s]."""
        return _interpolated(time, self.time, self.outlet_pressure)

    def oven_temperature_at(self, time: npt.ArrayLike) -> FloatArray:
        """Set oven temperature [K] at these times [s]."""
        return _interpolated(time, self.time, self.oven_temperature)

    @cached_property
    def _pumped(self) -> tuple[FloatArray, FloatArray]:
        """Times between which volume runs straight, and the volume pumped until then."""
        times = [self.time, np.array([0.0, self.cycle])]
        for index in np.flatnonzero(np.diff(self.flow)).tolist():
            begins, ends = self.time[index : index + 2].tolist()
            if ends - begins > 10 * _JUMP:
                times.append(np.linspace(begins, ends, _STEPS_IN_RAMP_OF_FLOW))
        known = distinct(np.concatenate(times))
        flow = self.flow_at(known)
        volume = np.concatenate([[0.0], np.cumsum(np.diff(known) * (flow[1:] + flow[:-1]) / 2)])
        return known, volume

    @cached_property
    def _mixed(self) -> tuple[FloatArray, FloatArray]:
        """Pumped volume, and the share downstream of a mixer of first order."""
        known, volume = self._pumped
        share, mixer = self.share_at(known), self.mixer_volume
        if mixer <= 0.0 or self.isocratic:
            return volume, share
        # Between two of these times the share runs straight in volume: what leaves the mixer lags
        # behind by its volume, and what it differed by at first dies away.
        step = np.diff(volume)
        flows = step > 0.0
        lag = np.where(flows, np.diff(share) * mixer / np.where(flows, step, 1.0), 0.0)
        kept, behind = np.exp(-step / mixer), np.where(flows, share[1:], share[:-1])
        leaving = float(share[0])
        leaves = [leaving]
        for stays, late, enters, ends in zip(
            kept.tolist(), lag.tolist(), share[:-1].tolist(), behind.tolist(), strict=True
        ):
            leaving = ends - late + stays * (leaving - enters + late)
            leaves.append(leaving)
        # a front bends where it is young
        inside = np.minimum(mixer * _BENDS, step[:, None])
        faded = np.exp(-inside / mixer) * (np.array(leaves[:-1]) - share[:-1] + lag)[:, None]
        straight = share[:-1, None] + lag[:, None] * (inside / mixer - 1.0)
        last = np.array(leaves[-1:])
        points = (volume[:-1, None] + inside).ravel(), (straight + faded).ravel()
        return np.append(points[0], volume[-1]), np.append(points[1], last)

    def pumped_volume(self, time: npt.ArrayLike) -> FloatArray:
        """Volume pumped since the start of the run [m3] at these times [s]."""
        return _interpolated(time, *self._pumped)

    def time_when_pumped(self, volume: npt.ArrayLike) -> FloatArray:
        """Time [s] at which a volume [m3] has been pumped."""
        known, pumped = self._pumped
        return _interpolated(volume, pumped, known)

    def delayed_share(self, time: FloatArray, volume_before: FloatArray) -> FloatArray:
        """Share that has arrived behind a volume.

        Parameters
        ----------
        time
            [s], shape (R,).
        volume_before
            Volume between the mixing point and the place [m3], shape (S,).

        Returns
        -------
        ndarray
            Modifier share v/v, shape (R, S); that of the start where nothing has arrived yet.
        """
        if self.isocratic:
            return np.full((time.size, volume_before.size), float(self.share[0]))
        arrived = self.pumped_volume(time)[:, None] - volume_before[None, :]
        return _interpolated(arrived, *self._mixed)

    def share_leaving_mixer(self, time: npt.ArrayLike) -> FloatArray:
        """Share downstream of the mixer at these times [s], any shape."""
        return _interpolated(self.pumped_volume(time), *self._mixed)

    def grid(self, marks: FloatArray) -> FloatArray:
        """Times worth computing: breakpoints, points inside ramps, both again when delayed.

        Parameters
        ----------
        marks
            Volumes [m3] at which an arriving change matters, rising: inlet, middle and outlet of
            the beds, and the end of the train.

        Returns
        -------
        ndarray
            Times [s] from 0 to the end of the cycle, rising, shape (R,).
        """
        if self.constant:
            return np.array([0.0, self.cycle]) if self.cycle > 0.0 else np.array([0.0])
        # What happens at the pumps happens again at every mark, and these instants are kept to
        # the last digit; downstream of a mixer a jump has one side only. Between them everything moves
        # as smoothly as at the pumps: one set of points, from the start of a ramp until its end
        # has left the train, serves all places.
        apart = np.diff(self.time, append=np.inf) > 10 * _JUMP
        volume = self.pumped_volume(self.time)
        again = volume[apart] if self.mixer_volume > 0.0 else volume
        delayed = [(again[:, None] + marks).ravel()]
        times = [np.array([0.0, self.cycle]), self.time]
        for index in self._changes():
            begins, ends = self.time[index : index + 2].tolist()
            brief = not apart[index]
            if not brief:
                way = volume[index] + marks[0], volume[index + 1] + marks[-1]
                arrives, gone = self.time_when_pumped(way).tolist()
                brief, points = _of_ramp(begins, ends, arrives, gone)
                times += points
            if not apart[index]:
                gone = float(self.time_when_pumped(volume[index + 1] + marks[-2]))
                times += [ends + _AFTER_JUMP, gone + _AFTER_JUMP]
            if self.mixer_volume > 0.0:
                # A jump leaves the mixer as a front that takes some volumes of it, a ramp ends in
                # the same way, which shows when the end of it leaves the beds.
                front = volume[index + 1] + self.mixer_volume * _FRONT
                delayed.append((front[:, None] + marks[0 if brief else -2 : -1]).ravel())
        every = np.concatenate([*times, self.time_when_pumped(np.concatenate(delayed))])
        every = np.round(every[(every >= 0.0) & (every <= self.cycle)], 7)
        kept = distinct(every)
        return np.asarray(kept[np.concatenate([[True], np.diff(kept) > _JUMP / 2])])

    def _changes(self) -> list[int]:
        """Numbers of the breakpoints between which and the next one anything changes."""
        # Numbers of Python: a programme has a handful, and a call of numpy costs more than all.
        found: set[int] = set()
        for values in (self.share, self.flow, self.outlet_pressure, self.oven_temperature):
            known = values.tolist()
            least = 1e-12 * max(map(abs, known))
            found.update(
                index
                for index, (before, behind) in enumerate(itertools.pairwise(known))
                if abs(behind - before) > least
            )
        return sorted(found)


def _of_ramp(
    begins: float, ends: float, arrives: float, gone: float
) -> tuple[bool, list[FloatArray]]:
    """Whether a ramp is brief beside its way through the beds, and times to follow it at."""
    own = (ends - begins) / (POINTS_IN_RAMP + 1)
    coarse = (gone - arrives) / _POINTS_ON_THE_WAY
    if coarse > 2.0 * own:
        # a power of two of seconds, counted from 0: many ramps share these instants
        step = float(2.0 ** np.floor(np.log2(coarse)))
        on_the_way = np.arange(np.floor(arrives / step), gone / step + 1.0) * step
        return True, [np.arange(begins, ends + own, own), on_the_way]
    if arrives - ends > gone - arrives:  # a long way to the beds, on which nothing moves
        return False, [np.arange(begins, ends + own, own), np.arange(arrives, gone + own, own)]
    return False, [np.arange(begins, gone + own, own)]


@dataclass(frozen=True, slots=True)
class SetPoint:
    """One row of a programme with every value filled in [s, -, m3/s, Pa, K].

    Attributes
    ----------
    step
        Reached by a jump.
    index
        Index in the method's `programme`; None for the state before its first row.
    """

    time: float
    share: float
    flow: float
    outlet_pressure: float
    oven_temperature: float
    step: bool = False
    index: int | None = None

    @property
    def state(self) -> tuple[float, float, float, float]:
        """Everything that a settled pressure depends on."""
        return self.share, self.flow, self.outlet_pressure, self.oven_temperature


def programme_from_rows(
    rows: Sequence[SetPoint], run_length: float, settling_time: float, mixer_volume: float
) -> Programme:
    """Lay rows out in time, with jumps where rows are steps and at the return to the start."""
    table: list[tuple[float, ...]] = []

    def put(time: float, row: SetPoint) -> None:
        table.append((time, row.share, row.flow, row.outlet_pressure, row.oven_temperature))

    put(0.0, rows[0])
    for before, row in itertools.pairwise(rows):
        if row.step or row.time <= before.time:
            put(row.time, before)
            put(row.time + _JUMP, row)
        else:
            put(row.time, row)
    last = rows[-1]
    if last.time < run_length:
        put(run_length, last)
    if settling_time > 0.0:
        end = max(run_length, last.time)
        put(end + _JUMP, rows[0])
        put(end + settling_time, rows[0])
    columns = np.array(table).T
    time = np.maximum.accumulate(columns[0])
    keep = np.concatenate([np.diff(time) > 0.0, [True]])
    return Programme(
        time=time[keep],
        share=columns[1][keep],
        flow=columns[2][keep],
        outlet_pressure=columns[3][keep],
        oven_temperature=columns[4][keep],
        run_length=max(run_length, last.time),
        settling_time=settling_time,
        last_row=last.time,
        mixer_volume=mixer_volume,
    )
