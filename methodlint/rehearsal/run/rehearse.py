"""Rehearses runs: many plans, all their times, one march per mobile phase."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import numpy.typing as npt

from methodlint.documents.quantities.format import show
from methodlint.fluids.mixtures.mixture import MixtureModel
from methodlint.fluids.validity import OutOfRange
from methodlint.hydraulics.guides import guides_of_runs
from methodlint.hydraulics.layout import Layout, stack_layouts
from methodlint.hydraulics.metering import Metering, SolvedRows, solve_rows
from methodlint.hydraulics.train import Train
from methodlint.rehearsal.plan.missing import Missing
from methodlint.rehearsal.plan.run_plan import RunPlan
from methodlint.rehearsal.plan.surroundings import (
    AIR_PRESSURE,
    AMBIENT,
    booked_co2_density,
    slice_temperatures,
)
from methodlint.rehearsal.run.fronts import (
    Probed,
    Scouted,
    follow_fronts,
    late_pressures,
    probe,
    rows_to_scout,
    storage_lag,
)
from methodlint.rehearsal.run.metered import metered_only
from methodlint.rehearsal.run.rehearsal import Rehearsal
from methodlint.rehearsal.run.side_flows import (
    PlanSides,
    drifts,
    side_streams,
    split_by_restrictor,
    stack_sides,
)

FloatArray = npt.NDArray[np.float64]


def rehearse(plan: RunPlan) -> Rehearsal:
    """Rehearse one run.

    Parameters
    ----------
    plan
        A resolved run; see `methodlint.rehearsal.plan.run_plan.plan_run`.

    Returns
    -------
    Rehearsal
        With `missing` filled where the plan is not ready, and no arrays but those of
        `metered_only`.
    """
    return rehearse_many([plan])[0]


def rehearse_many(plans: Sequence[RunPlan]) -> list[Rehearsal]:
    """Rehearse many runs, stacked so that each mobile phase is marched once.

    Parameters
    ----------
    plans
        Resolved runs, of any methods and instruments.

    Returns
    -------
    list of Rehearsal
        In the order of `plans`.
    """
    results: list[Rehearsal | None] = [None] * len(plans)
    groups: dict[int, list[int]] = {}
    for index, plan in enumerate(plans):
        if plan.ready:
            groups.setdefault(id(plan.fluid), []).append(index)
        else:
            results[index] = metered_only(plan)
    for members in groups.values():
        for index, result in zip(members, _together([plans[i] for i in members]), strict=True):
            results[index] = result
    return [result for result in results if result is not None]


def _together(plans: list[RunPlan]) -> list[Rehearsal]:
    try:
        return _solve(plans)
    except OutOfRange as outside:
        if len(plans) == 1:
            return [Rehearsal(plan=plans[0], missing=(_outside(plans[0], outside),))]
        return [_together([plan])[0] for plan in plans]


def _outside(plan: RunPlan, outside: OutOfRange) -> Missing:
    reason = f"outside what the property model covers: {outside}"
    if outside.quantity == "temperature" and outside.value == plan.head_temperature:
        return Missing("instrument.co2_pump.head_temperature", plan.instrument, reason)
    pressure = "pressure" in outside.quantity
    where = "method.outlet_pressure" if pressure else "method.oven_temperature"
    return Missing(where, plan.method, reason)


def _solve(plans: list[RunPlan]) -> list[Rehearsal]:
    fluid = plans[0].fluid
    assert fluid is not None
    results: list[Rehearsal] = []
    layouts = [_train_of(plan).layout() for plan in plans]
    liquid = float(fluid.modifier_density(AMBIENT, AIR_PRESSURE))
    tables = [_rows_of(plan, liquid, single) for plan, single in zip(plans, layouts, strict=True)]
    scouted = _scout(fluid, plans, layouts, tables)
    sides = [
        side_streams(plan, single, table["time"])
        for plan, single, table in zip(plans, layouts, tables, strict=True)
    ]
    solved = _march(fluid, layouts, tables, sides)
    first, branched = 0, False
    for index, (plan, table) in enumerate(zip(plans, tables, strict=True)):
        rows = slice(first, first + table["time"].size)
        first = rows.stop
        if drifts(plan):
            branched = True
            sides[index] = split_by_restrictor(plan, table["time"], solved.march, rows)
    if branched:
        solved = _march(fluid, layouts, tables, sides)
    first = 0
    for index, (plan, single, table) in enumerate(zip(plans, layouts, tables, strict=True)):
        rows = slice(first, first + table["time"].size)
        first = rows.stop
        left = _range_left(plan, table, fluid)
        if left is not None:
            results.append(Rehearsal(plan=plan, missing=(left,)))
        else:
            run = _cut(plan, single, table, solved, rows, fluid, sides[index])
            known = scouted.get(index)
            results.append(run if known is None else _with_storage(run, known, single))
    return results


def _march(
    fluid: MixtureModel,
    layouts: list[Layout],
    tables: list[dict[str, FloatArray]],
    sides: list[PlanSides],
    scouting: bool = False,
) -> SolvedRows:
    """March the rows of many runs in one call."""
    layout = stack_layouts(layouts, [table["time"].size for table in tables])

    def stacked(name: str) -> FloatArray:
        return np.concatenate([table[name] for table in tables])

    def padded(name: str, width: int = layout.slices) -> FloatArray:
        return np.concatenate([_widened(table[name], width) for table in tables])

    metering = Metering(
        co2_flow=stacked("co2_flow"),
        modifier_flow=stacked("modifier_flow"),
        modifier_density=stacked("modifier_density"),
        head_temperature=stacked("head_temperature"),
        co2_density=stacked("co2_density"),
    )
    return solve_rows(
        fluid,
        layout,
        metering,
        stacked("outlet_pressure"),
        padded("share"),
        padded("temperature"),
        sides=stack_sides(sides, layout),
        guides=None if scouting else guides_of_runs([table["time"] for table in tables]),
        along=None if scouting else padded("along"),
        near=None if scouting else padded("near", layout.slices + 1),
    )


def _scout(
    fluid: MixtureModel,
    plans: list[RunPlan],
    layouts: list[Layout],
    tables: list[dict[str, FloatArray]],
) -> dict[int, tuple[Scouted, Probed]]:
    """March some rows of the runs whose composition changes, and follow their fronts in all rows."""
    chosen = {
        index: rows_to_scout(tables[index]["time"])
        for index, plan in enumerate(plans)
        if plan.programme is not None and not plan.programme.isocratic
    }
    few = [{name: of[rows] for name, of in tables[i].items()} for i, rows in chosen.items()]
    if few:
        sides = [
            side_streams(plans[index], layouts[index], table["time"])
            for index, table in zip(chosen, few, strict=True)
        ]
        solved = _march(fluid, [layouts[index] for index in chosen], few, sides, scouting=True)
    first, all_scouted = 0, []
    for index, table in zip(chosen, few, strict=True):
        rows = slice(first, first + table["time"].size)
        first = rows.stop
        slices = layouts[index].slices
        march = solved.march
        all_scouted.append(
            Scouted(
                time=table["time"],
                pressure=march.pressure[rows, : slices + 1],
                density=march.density[rows, :slices],
                w_modifier=march.w_modifier[rows, :slices],
                temperature=table["temperature"],
                head_density=solved.co2_density_at_pump[rows],
            )
        )
    programmes = [plan.programme for i in chosen if (plan := plans[i]).programme is not None]
    changing = [tables[index] for index in chosen]
    probed = probe(programmes, changing, all_scouted, fluid) if few else []
    found = dict(zip(chosen, zip(all_scouted, probed, strict=True), strict=True))
    for programme, (index, (scouted, dense)) in zip(programmes, found.items(), strict=True):
        plug = _plug_volumes(plans[index], layouts[index])
        stirred = [
            _train_of(plans[index]).slices_of(layouts[index], number).start
            for number in _train_of(plans[index]).mixers[:1]
        ]
        tank = stirred[0] if stirred else None
        shares = follow_fronts(programme, tables[index], plug, tank, scouted, dense)
        tables[index]["share"], tables[index]["along"] = shares
        tables[index]["near"] = scouted.pressure_at(tables[index]["time"])
    for table in tables:
        table.setdefault("along", np.ones(table["share"].shape))
        faces = (table["time"].size, table["share"].shape[1] + 1)
        table.setdefault("near", np.broadcast_to(table["outlet_pressure"][:, None], faces))
    return found


def _with_storage(run: Rehearsal, known: tuple[Scouted, Probed], layout: Layout) -> Rehearsal:
    scouted, probed = known
    flow = run.co2_mass_flow + run.modifier_mass_flow
    flow = np.interp(scouted.time, run.time, flow)
    lag = np.interp(run.time, *storage_lag(scouted, probed, flow, layout.volume))
    # both laws of friction in one pass over the rows; their last face is the same
    places = run.pressure.shape[1] - 1
    both = np.hstack([run.pressure[:, :places], run.pressure_alternative])
    late = late_pressures(run.time, both, lag)
    higher = np.hstack([late[:, :places], late[:, -1:]])
    return replace(run, pressure=higher, pressure_alternative=late[:, places:])


def _plug_volumes(plan: RunPlan, layout: Layout) -> FloatArray:
    """Volume of the slices [m3], (S,); none of the mixer, which delays what passes by mixing it."""
    volume = layout.volume.copy()
    for number in _train_of(plan).mixers:
        volume[_train_of(plan).slices_of(layout, number)] = 0.0
    return volume


def _widened(values: FloatArray, width: int) -> FloatArray:
    missing = width - values.shape[1]
    return np.pad(values, ((0, 0), (0, missing)), "edge") if missing else values


def _range_left(plan: RunPlan, table: dict[str, FloatArray], fluid: MixtureModel) -> Missing | None:
    """Say which setting lies outside the range in which the model's bands hold, and how far.

    Pressures above the range are not a gap: no pump goes there, and the march marks them.
    """
    for quantity, where, values in (
        ("temperature", "method.oven_temperature", table["temperature"]),
        ("pressure", "method.outlet_pressure", table["outlet_pressure"]),
    ):
        limits = getattr(fluid.validity, quantity)
        distance = limits.outside_by(values)
        if distance != 0.0:
            span = f"{show(limits.lower, quantity)} to {show(limits.upper, quantity)}"
            unit = "temperature difference" if quantity == "temperature" else quantity
            reason = (
                f"outside the range of the model of {limits.model} ({span}) "
                f"by {show(abs(distance), unit)}"
            )
            return Missing(where, plan.method, reason)
    return None


def _train_of(plan: RunPlan) -> Train:
    assert plan.train is not None
    return plan.train


def _rows_of(plan: RunPlan, liquid: float, layout: Layout) -> dict[str, FloatArray]:
    programme, train = plan.programme, _train_of(plan)
    assert programme is not None
    plug = _plug_volumes(plan, layout)
    before = np.cumsum(plug) - plug
    bed = train.slices_of(layout, plan.analytical_column)
    first_bed = train.slices_of(layout, train.columns[0])
    marks = np.array(
        [
            before[first_bed.start],
            (before[first_bed.start] + before[bed.stop - 1]) / 2.0,
            before[bed.stop - 1] + plug[bed.stop - 1],
            before[-1] + plug[-1],
        ]
    )
    time = programme.grid(marks)
    flow, share = programme.flow_at(time), programme.share_at(time)
    oven = programme.oven_temperature_at(time)
    booked = booked_co2_density(plan.metering)
    every = np.ones(time.size)
    return {
        "time": time,
        "set_flow": flow,
        "pumped_share": share,
        "co2_flow": flow * (1.0 - share),
        "modifier_flow": flow * share,
        "modifier_density": (liquid if plan.modifier_name else 800.0) * every,
        "head_temperature": plan.head_temperature * every,
        "co2_density": booked * every,
        "outlet_pressure": programme.outlet_pressure_at(time),
        "share": programme.delayed_share(time, before + plug / 2.0),
        "temperature": slice_temperatures(train, layout.segment, oven),
    }


def _cut(
    plan: RunPlan,
    layout: Layout,
    table: dict[str, FloatArray],
    solved: SolvedRows,
    rows: slice,
    fluid: MixtureModel,
    side: PlanSides,
) -> Rehearsal:
    """Take one plan's rows out of the stack and add what follows from its state."""
    march = solved.march
    slices = table["share"].shape[1]
    faces = slice(0, slices + 1)
    pressure = march.pressure[rows, faces]
    w = march.w_modifier[rows, :slices]
    temperature = table["temperature"]
    middle = 0.5 * (pressure[:, 1:] + pressure[:, :-1])
    # Mostly every row has the same temperatures: what depends on them is then computed once.
    same = bool((temperature == temperature[0]).all())
    known = temperature[:1] if same else temperature
    margin = np.broadcast_to(fluid.boundary_margin(w, known, middle), middle.shape)
    return Rehearsal(
        plan=plan,
        time=table["time"],
        pressure=pressure,
        pressure_alternative=march.pressure_alternative[rows, faces],
        temperature=temperature,
        w_modifier=solved.w_modifier[rows, :slices] if side.streams is not None else w,
        w_with_makeup=w,
        mass_flow=march.mass_flow[rows, :slices],
        makeup_mass_flow=side.makeup,
        split_share=side.split_share,
        restrictor=side.restrictor,
        share=table["share"],
        density=march.density[rows, :slices],
        viscosity=march.viscosity[rows, :slices],
        reynolds=march.reynolds[rows, :slices],
        transition=march.transition[rows, :slices],
        beyond_model=march.beyond_model[rows, :slices],
        beyond_friction_law=march.beyond_friction_law[rows, :slices],
        boundary_margin=margin,
        set_flow=table["set_flow"],
        pumped_share=table["pumped_share"],
        outlet_pressure=table["outlet_pressure"],
        co2_mass_flow=solved.co2_mass_flow[rows],
        modifier_mass_flow=solved.modifier_mass_flow[rows],
        head_density=solved.co2_density_at_pump[rows],
        settled=march.settled[rows],
        segment=layout.segment,
        volume=layout.volume,
    )
