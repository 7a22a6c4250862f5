"""The sequence rehearsed line by line: clock, CO2, bottles, vials, waste."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from methodlint.documents.kinds.base import Liquid
from methodlint.documents.kinds.instrument import Instrument
from methodlint.documents.kinds.method import Method
from methodlint.documents.kinds.sequence import Line, Sequence
from methodlint.documents.loading import Loaded
from methodlint.rehearsal.batch.co2_draw import Co2Draw
from methodlint.rehearsal.plan.line_settings import co2_flows, step_flow, step_share
from methodlint.rehearsal.plan.makeup_flow import mean_makeup_flow
from methodlint.rehearsal.plan.missing import Missing
from methodlint.rehearsal.run.rehearsal import Rehearsal

INJECTING = frozenset(
    {
        "blank",
        "zero",
        "matrix blank",
        "conditioning",
        "suitability",
        "calibrator",
        "control",
        "sample",
    }
)
"""Kinds of line that inject something."""

BLANKS = frozenset({"blank", "matrix blank"})
STANDARDS = frozenset({"calibrator", "control", "suitability"})

_YEAR = 365.25 * 86400.0
# Longer than any sequence; from here on clocks leave the calendar and counts their integers.
_LONGEST = 10.0 * _YEAR


@dataclass(frozen=True, slots=True)
class LineRun:
    """What one line of the sequence does.

    Attributes
    ----------
    index
        Index of the line in the document.
    line
        The line as written.
    method
        Name of its method; empty for a step that needs none.
    first_injection, last_injection
        Numbers of its injections, counted from 1; both 0 if it injects nothing.
    begins, ends
        Clock [s] from the start of the sequence.
    co2
        CO2 taken by the line [kg].
    co2_per_injection
        From the start of one injection to that of the next [kg].
    modifier, makeup
        Liquid taken from the bottles [m3].
    drawn_per_injection
        Volume taken from the vial each time [m3]; None if it is not known.
    stacked_every
        Time from one injection to the next [s] where the next one starts before the run of the
        one before has ended; 0 where every injection has its own run.
    """

    index: int
    line: Line
    method: str
    first_injection: int
    last_injection: int
    begins: float
    ends: float
    co2: float
    co2_per_injection: float
    modifier: float
    makeup: float
    volume: float | None
    drawn_per_injection: float | None
    stacked_every: float = 0.0

    @property
    def injects(self) -> bool:
        """Whether the line injects something."""
        return self.first_injection > 0

    @property
    def injections(self) -> int:
        """Number of its injections; 0 for a step without one."""
        return self.last_injection - self.first_injection + 1 if self.injects else 0

    @property
    def last_start(self) -> float:
        """Clock [s] at which the last injection starts, all of them taken as equally long."""
        count = max(self.injections, 1)
        return self.begins + (self.ends - self.begins) * (count - 1) / count

    def injection_at(self, part: float) -> int:
        """Number of the injection during which this part of what the line takes is taken."""
        return self.first_injection + min(
            int(max(part, 0.0) * self.injections), self.injections - 1
        )

    @property
    def position(self) -> tuple[str, str] | None:
        """Plate and well, in one spelling; None if none is given."""
        if self.line.well is None:
            return None
        return (self.line.plate or "1", plain_well(self.line.well))


@dataclass(frozen=True)
class Batch:
    """A rehearsed sequence.

    Attributes
    ----------
    runs
        Rehearsals by method name.
    lines
        One `LineRun` per line of the document, in order.
    equilibration_co2, equilibration_modifier
        Taken before the first line [kg], [m3].
    missing
        Figures without which the clock and the masses are not known.
    """

    sequence: Loaded[Sequence]
    runs: Mapping[str, Rehearsal]
    methods: Mapping[str, Loaded[Method]]
    lines: tuple[LineRun, ...]
    equilibration: float
    equilibration_co2: float
    equilibration_modifier: float
    missing: tuple[Missing, ...] = ()

    @property
    def typed(self) -> Sequence:
        """The typed sequence."""
        return self.sequence.model

    @property
    def injections(self) -> int:
        """Number of injections."""
        return max((line.last_injection for line in self.lines), default=0)

    @property
    def duration(self) -> float:
        """From the start of the equilibration to the end of the last line [s]."""
        return self.lines[-1].ends if self.lines else self.equilibration

    @property
    def co2_demand(self) -> float:
        """CO2 of the whole sequence [kg]."""
        return self.equilibration_co2 + sum(line.co2 for line in self.lines)

    @property
    def modifier_demand(self) -> float:
        """Modifier of the whole sequence [m3]."""
        return self.equilibration_modifier + sum(line.modifier for line in self.lines)

    @property
    def makeup_demand(self) -> float:
        """Makeup liquid of the whole sequence [m3]."""
        return sum(line.makeup for line in self.lines)

    @cached_property
    def metering_band(self) -> float:
        """Relative half width of the CO2 mass of runs whose pressures are not known [-]."""
        return max((run.metering_band for run in self.runs.values()), default=0.0)

    @cached_property
    def injection_starts(self) -> tuple[tuple[int, float, float], ...]:
        """Line index, clock [s] and CO2 [kg] used until the *start* of every injection."""
        starts: list[tuple[int, float, float]] = []
        used = self.equilibration_co2
        for line in self.lines:
            for number in range(line.injections):
                every = line.stacked_every or (line.ends - line.begins) / line.injections
                clock = line.begins + every * number
                starts.append((line.index, clock, used + number * line.co2_per_injection))
            used += line.co2
        return tuple(starts)

    @cached_property
    def co2_draw(self) -> Co2Draw:
        """CO2 taken over the sequence, as plain figures."""
        starts = tuple((clock, used) for _, clock, used in self.injection_starts)
        return Co2Draw(self.co2_demand, starts, self.duration, self.metering_band)

    def injection_when_used(self, mass: float) -> int | None:
        """See `Co2Draw.injection_when_used`."""
        return self.co2_draw.injection_when_used(mass)

    def liquid_of(self, line: Line, method: Method | None) -> Liquid | None:
        """Diluent of a line: its own, the sequence's, or the method's."""
        if line.diluent is not None:
            return line.diluent
        if self.typed.diluent is not None:
            return self.typed.diluent
        if method is not None and method.injection is not None:
            return method.injection.diluent
        return None


def plain_well(well: str) -> str:
    """Write a well in one spelling: `A01`, `a1` and `A1` are the same place."""
    text = well.strip().upper()
    letters = text.rstrip("0123456789")
    digits = text[len(letters) :]
    return f"{letters}{int(digits)}" if digits else text


def rehearse_batch(
    sequence: Loaded[Sequence],
    methods: Mapping[str, Loaded[Method]],
    runs: Mapping[str, Rehearsal],
    instrument: Loaded[Instrument] | None,
) -> Batch:
    """Rehearse a sequence from the rehearsals of its methods; linear in its lines.

    Parameters
    ----------
    sequence
        The sequence document.
    methods
        Method documents by the name that the lines use.
    runs
        Rehearsals of those methods on the sequence's instrument, by the same names.
    instrument
        The instrument card, for what is drawn beside the injection and the overhead.
    """
    typed = sequence.model
    card = instrument.model if instrument else None
    overhead = card.cycle_overhead.si if card and card.cycle_overhead else 0.0
    sampler = card.autosampler if card else None
    extra = sampler.extra_drawn.si if sampler and sampler.extra_drawn else None
    missing: list[Missing] = []
    for rehearsed in runs.values():
        if rehearsed.metered:  # clock, CO2 and liquids go by the set flows
            continue
        missing.extend(item for item in rehearsed.missing if item not in missing)
    first = _method_name(typed, next(iter(typed.lines), None))
    start = runs.get(first)
    equilibration = typed.equilibration.si if typed.equilibration else 0.0
    rates = _start_rates(start)
    clock = equilibration
    injection = 0
    lines: list[LineRun] = []
    for index, line in enumerate(typed.lines):
        name = _method_name(typed, line)
        run = runs.get(name)
        method = methods[name].model if name in methods else None
        injects = line.kind in INJECTING
        count = line.count if injects else 1
        usage = _usage(line, run, method, overhead if injects else 0.0)
        stacked = _stacked_every(method) if count > 1 else 0.0
        between = _between(stacked, run, method, line) if stacked else usage
        volume = _volume(line, method)
        drawn = None if volume is None or extra is None else volume + extra
        lines.append(
            LineRun(
                index=index,
                line=line,
                method=name,
                first_injection=injection + 1 if injects else 0,
                last_injection=injection + count if injects else 0,
                begins=clock,
                ends=clock + between.duration * (count - 1) + usage.duration,
                co2=between.co2 * (count - 1) + usage.co2,
                co2_per_injection=between.co2,
                modifier=between.modifier * (count - 1) + usage.modifier,
                makeup=between.makeup * (count - 1) + usage.makeup,
                volume=volume,
                drawn_per_injection=drawn,
                stacked_every=stacked,
            )
        )
        clock = lines[-1].ends
        injection += count if injects else 0
    if clock > _LONGEST:
        why = f"together they take {clock / _YEAR:.3g} years"
        missing.append(Missing("sequence.lines that can be rehearsed", sequence, why))
    return Batch(
        sequence=sequence,
        runs=dict(runs),
        methods=dict(methods),
        lines=tuple(lines),
        equilibration=equilibration,
        equilibration_co2=rates[0] * equilibration,
        equilibration_modifier=rates[1] * equilibration,
        missing=tuple(missing),
    )


@dataclass(frozen=True, slots=True)
class _Usage:
    duration: float
    co2: float
    modifier: float
    makeup: float


def _method_name(sequence: Sequence, line: Line | None) -> str:
    if line is not None and line.method is not None:
        return line.method
    return sequence.method or ""


def _start_rates(run: Rehearsal | None) -> tuple[float, float]:
    """CO2 [kg/s] and modifier [m3/s] at the starting values."""
    if run is None or not run.metered:
        return 0.0, 0.0
    return float(run.co2_mass_flow[0]), float(run.set_flow[0] * run.pumped_share[0])


def _stacked_every(method: Method | None) -> float:
    """Interval of stacked injections [s]; 0 where every injection has its own run."""
    injection = method.injection if method is not None else None
    every = injection.stacked_every if injection is not None else None
    return every.si if every is not None else 0.0


def _between(every: float, run: Rehearsal | None, method: Method | None, line: Line) -> _Usage:
    """From one stacked injection to the next: the mobile phase flows at its starting values."""
    co2, modifier = _start_rates(run)
    makeup = method.makeup if method is not None and line.makeup != "off" else None
    return _Usage(every, co2 * every, modifier * every, mean_makeup_flow(makeup, 0.0) * every)


def _volume(line: Line, method: Method | None) -> float | None:
    if line.volume is not None:
        return line.volume.si
    if method is not None and method.injection is not None and method.injection.volume is not None:
        return method.injection.volume.si
    return None


def _usage(line: Line, run: Rehearsal | None, method: Method | None, overhead: float) -> _Usage:
    makeup = method.makeup if method is not None and line.makeup != "off" else None
    cycle = run.programme.cycle if run is not None and run.metered else 0.0
    makeup_flow = mean_makeup_flow(makeup, cycle)
    if line.kind not in INJECTING:
        return _step_usage(line, run, makeup_flow)
    if run is None or not run.metered:
        length = line.run_length.si if line.run_length else 0.0
        if not length and method is not None and method.run_length is not None:
            length = method.run_length.si
            length += method.settling_time.si if method.settling_time else 0.0
        return _Usage(length + overhead, 0.0, 0.0, makeup_flow * (length + overhead))
    cycle = run.programme.cycle
    co2, modifier = run.co2_per_cycle, run.modifier_per_cycle
    if line.run_length is not None and run.programme.run_length > 0.0:
        part = (line.run_length.si + run.programme.settling_time) / cycle
        co2, modifier, cycle = co2 * part, modifier * part, cycle * part
    rates = _start_rates(run)
    start = float(run.set_flow[0])
    if line.flow is not None and start > 0.0:
        part = line.flow.si / start
        co2, modifier, rates = co2 * part, modifier * part, (rates[0] * part, rates[1] * part)
    return _Usage(
        cycle + overhead,
        co2 + rates[0] * overhead,
        modifier + rates[1] * overhead,
        makeup_flow * (cycle + overhead),
    )


def _step_usage(line: Line, run: Rehearsal | None, makeup_flow: float) -> _Usage:
    """A step without injection; where it does not say if CO2 flows, the most of either is taken."""
    duration = line.duration.si if line.duration else 0.0
    co2, modifier = _start_rates(run)
    start = float(run.set_flow[0]) if run is not None and run.metered else 0.0
    flow, flows = step_flow(line, start), co2_flows(line)
    if line.flush_volume is not None and flow > 0.0:
        duration = max(duration, line.flush_volume.si / flow)
    part = flow / start if start > 0.0 else 0.0
    co2, modifier = co2 * part, modifier * part
    share = step_share(line)
    if run is not None and share is not None and part > 0.0:
        own = float(run.pumped_share[0])
        co2 *= (1.0 - share) / (1.0 - own) if own < 1.0 else 1.0
        modifier = flow * share
    if flows is False:
        co2 = 0.0
    if not flows:
        modifier = flow
    return _Usage(duration, co2 * duration, modifier * duration, makeup_flow * duration)
