"""A transferred run held against the run that it comes from."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise

from methodlint.documents.kinds.instrument import Instrument
from methodlint.documents.kinds.method import Method
from methodlint.rehearsal.plan.programme import SetPoint
from methodlint.rehearsal.plan.run_plan import RunPlan
from methodlint.rehearsal.plan.set_points import complete_rows
from methodlint.rehearsal.run.rehearsal import Rehearsal
from methodlint.scaling.density_match import Match, is_stiff, residual, solve_outlet_pressures
from methodlint.scaling.dwell import DwellPlan, plan_dwell
from methodlint.scaling.geometry import Bed, flow_ratio, volume_ratio
from methodlint.scaling.metering import metering_differs
from methodlint.scaling.rows import changes_composition, initial_hold
from methodlint.scaling.setting_limits import BOUNDARY_MARGIN, SettingLimits, setting_limits
from methodlint.scaling.settled import (
    NotCovered,
    Settled,
    calibrated,
    flow_resistance_of,
    settled_states,
    with_flow_resistance,
)

__all__ = ["Comparison", "Corner", "ProgrammeSegment", "bed_of", "measured_states"]

_SAME_SHARE = 0.05


@dataclass(frozen=True, slots=True)
class Corner:
    """The same composition settled on both systems."""

    source: Settled
    target: Settled

    @property
    def residual(self) -> float:
        """Mean density of the target over that of the source, minus one [-]."""
        return residual(self.source, self.target)

    @property
    def stiff(self) -> bool:
        """Whether the density hardly depends on any setting."""
        return is_stiff(self.source.row) or is_stiff(self.target.row)


@dataclass(frozen=True, slots=True)
class ProgrammeSegment:
    """One stretch of a gradient behind the initial hold.

    Attributes
    ----------
    row
        Where it ends.
    duration
        [s].
    flat
        The composition does not change in it.
    """

    row: SetPoint
    duration: float
    flat: bool = False


def bed_of(plan: RunPlan) -> Bed:
    """Geometry of the analytical column of a plan."""
    assert plan.train is not None
    found = plan.train.segments[plan.analytical_column]
    return Bed(found.length, found.bore, found.particle_size, found.total_porosity)


def measured_states(method: Method, first: SetPoint) -> list[tuple[float, SetPoint]]:
    """Pump pressures that were read [Pa], and what was set then."""
    found = []
    for item in method.measured_pressures:
        outlet = item.outlet_pressure.si if item.outlet_pressure else first.outlet_pressure
        state = replace(
            first,
            share=item.modifier_share.si,
            flow=item.flow.si if item.flow else first.flow,
            outlet_pressure=outlet,
        )
        found.append((item.pump_pressure.si, state))
    return found


@dataclass(frozen=True)
class Comparison:
    """Two finished rehearsals, source and target.

    Attributes
    ----------
    source, target
        The runs.
    """

    source: Rehearsal
    target: Rehearsal

    @cached_property
    def source_rows(self) -> tuple[SetPoint, ...]:
        """Rows of the source's programme, gaps filled."""
        return complete_rows(self.source.plan.method_model)

    @cached_property
    def target_rows(self) -> tuple[SetPoint, ...]:
        """Rows of the target's programme, gaps filled."""
        return complete_rows(self.target.plan.method_model)

    @property
    def _card(self) -> Instrument:
        # a run that was rehearsed has an instrument
        assert self.target.plan.instrument is not None
        return self.target.plan.instrument.model

    @cached_property
    def beds(self) -> tuple[Bed, Bed]:
        """Geometry of both columns."""
        return bed_of(self.source.plan), bed_of(self.target.plan)

    @property
    def gradient(self) -> bool:
        """Whether either method changes its composition."""
        return changes_composition(self.source_rows) or changes_composition(self.target_rows)

    @property
    def flow_by_geometry(self) -> float:
        """Starting flow of the target by geometry [m3/s]."""
        return self.source_rows[0].flow * flow_ratio(*self.beds)

    @property
    def column_flows(self) -> tuple[float, float]:
        """Mean volume flow inside the columns at the start [m3/s]."""
        volumes = (self.source.hold_up_volume, self.target.hold_up_volume)
        times = (float(self.source.hold_up_time[0]), float(self.target.hold_up_time[0]))
        return volumes[0] / times[0], volumes[1] / times[1]

    @cached_property
    def time_factors(self) -> tuple[float, float]:
        """Time scale by geometry and by hold-up times counted by mass [-]."""
        flow = self.target_rows[0].flow / self.source_rows[0].flow
        by_mass = float(self.target.hold_up_time[0] / self.source.hold_up_time[0])
        return volume_ratio(*self.beds) / flow, by_mass

    def segments(self, rows: Sequence[SetPoint]) -> list[ProgrammeSegment]:
        """Stretches of a gradient, the initial hold and doubled holds left out."""
        hold = initial_hold(rows)
        found: list[ProgrammeSegment] = []
        for before, row in pairwise(rows):
            if row.time <= hold + 1e-9 and not row.step:
                continue
            flat = abs(row.share - before.share) < 1e-9
            begins = max(before.time, hold)
            if flat and found and found[-1].flat:
                found[-1] = ProgrammeSegment(row, found[-1].duration + row.time - begins, True)
            else:
                found.append(ProgrammeSegment(row, row.time - begins, flat))
        return found

    def dwell(self, factor: float) -> DwellPlan:
        """Initial hold that the target needs, by the times of the source."""
        sampler = self._card.autosampler
        return plan_dwell(
            initial_hold(self.source_rows) - _injected_at(self.source),
            self.source.dwell_volume / self.source_rows[0].flow,
            self.target.dwell_volume / self.target_rows[0].flow,
            factor,
            float(self.target.hold_up_time[0]),
            self.target_rows[0].flow,
            can_delay=bool(sampler and sampler.injects_after_start),
        )

    @property
    def hold_found(self) -> float:
        """Initial hold of the target, counted from the injection [s]."""
        return initial_hold(self.target_rows) - _injected_at(self.target)

    @property
    def metering_differs(self) -> bool:
        """Whether the pumps turn the same setting into different masses by design."""
        return metering_differs(self.source.plan, self.target.plan)

    # Densities -----------------------------------------------------------------------------

    @cached_property
    def plans(self) -> tuple[RunPlan, RunPlan]:
        """Both plans, with the flow resistance that a measured pressure of the source gives."""
        one, two = self.source.plan, self.target.plan
        if not one.method_model.measured_pressures:
            return one, two
        try:
            one = calibrated(one, measured_states(one.method_model, self.source_rows[0]))
        except ValueError:
            return self.source.plan, two
        if one.columns[-1].path == two.columns[-1].path:
            two = with_flow_resistance(two, flow_resistance_of(one))
        return one, two

    @cached_property
    def corners(self) -> tuple[Corner, ...]:
        """Every settled composition of the target beside the nearest one of the source.

        Empty where `without_corners` says why.
        """
        return self._corners_or_reason[0]

    @property
    def without_corners(self) -> str:
        """Why no composition can be compared; empty if one can."""
        return self._corners_or_reason[1]

    @cached_property
    def _corners_or_reason(self) -> tuple[tuple[Corner, ...], str]:
        if not self.source_rows or not self.target_rows:
            return (), "a programme does not say what is set at its start"
        pairs: dict[tuple[float, ...], tuple[SetPoint, SetPoint]] = {}
        for row in self.target_rows:
            near = min(self.source_rows, key=lambda other: abs(other.share - row.share))
            if abs(near.share - row.share) <= _SAME_SHARE:
                pairs.setdefault(row.state, (near, row))
        if not pairs:
            return (), f"no composition of the source is set here within {100 * _SAME_SHARE:g} %"
        one, two = self.plans
        try:
            states = settled_states(
                [(one, a) for a, _ in pairs.values()] + [(two, b) for _, b in pairs.values()]
            )
        except NotCovered as gap:
            return (), str(gap)
        half = len(pairs)
        corners = (Corner(a, b) for a, b in zip(states[:half], states[half:], strict=True))
        return tuple(corners), ""

    @property
    def matches(self) -> tuple[Match, ...]:
        """Settings of the target at which the densities are equal, one per corner.

        Empty where `without_matches` says why.
        """
        return self._matches_or_reason[0]

    @property
    def without_matches(self) -> str:
        """Why no setting can be solved for; empty if one can."""
        return self._matches_or_reason[1]

    @cached_property
    def _matches_or_reason(self) -> tuple[tuple[Match, ...], str]:
        corners = self.corners
        if not corners:
            return (), self.without_corners
        rows = [corner.target.row for corner in corners]
        try:
            found = solve_outlet_pressures([c.source for c in corners], self.plans[1], rows)
        except NotCovered as gap:
            return (), str(gap)
        return tuple(found), ""

    def limits(self, margin: float | None) -> list[SettingLimits]:
        """Spans of the regulator setting, one per corner."""
        w = [corner.target.w_modifier for corner in self.corners]
        span = (min(w), max(w)) if w else (0.0, 0.0)
        kept = BOUNDARY_MARGIN if margin is None else margin
        return [
            setting_limits(corner.target, corner.source, self._card, span, kept, usable=1.0)
            for corner in self.corners
        ]


def _injected_at(run: Rehearsal) -> float:
    """Time of the injection from the start of the programme [s]."""
    typed = run.plan.method_model.injection
    return typed.after_start.si if typed and typed.after_start else 0.0
