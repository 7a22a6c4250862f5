"""What a line of a sequence sets at the pumps and the regulator, apart from its method.

Whether CO2 flows in a step, and at which flow, is defined here and nowhere else.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from methodlint.documents.kinds.base import Liquid
from methodlint.documents.kinds.sequence import Line
from methodlint.fluids.mixtures.mixture import MixtureModel
from methodlint.fluids.mixtures.mixture_choice import is_carbon_dioxide, model_for
from methodlint.fluids.mixtures.neat import NeatLiquid, neat_liquid
from methodlint.rehearsal.plan.column_content import Content, pushing_programme
from methodlint.rehearsal.plan.components import components_of
from methodlint.rehearsal.plan.missing import Missing
from methodlint.rehearsal.plan.programme import Programme, SetPoint, programme_from_rows
from methodlint.rehearsal.plan.run_plan import RunPlan
from methodlint.rehearsal.plan.surroundings import AIR_PRESSURE

__all__ = [
    "RESTING",
    "LineSettings",
    "co2_flows",
    "flowing",
    "line_plan",
    "own_phase",
    "settings_of",
    "step_flow",
    "step_share",
]

RESTING = ("shutdown", "idle")
"""Kinds of line in which the CO2 is off unless they say otherwise."""

_MODIFIER = "method.mobile_phase.modifier"
_STEADY = 60.0
"""Length of a step that gives no duration [s]; its pressure does not depend on it."""


def is_co2(liquid: Liquid | None) -> bool:
    """Whether a flush names CO2 alone, which comes from no bottle."""
    parts = components_of(liquid) if liquid is not None else ()
    return bool(parts) and all(is_carbon_dioxide(name) for name, _ in parts)


def co2_flows(line: Line) -> bool | None:
    """Whether CO2 flows in a step without injection.

    Returns
    -------
    bool or None
        None for a flush with a flow or a volume of its own that does not say: the modifier pump
        may deliver all of it. A flush with neither runs at the starting values of its method.
    """
    if line.co2 is not None:
        return line.co2 == "on"
    if line.kind in RESTING:
        return False
    own_flow = line.flow is not None or line.flush_volume is not None
    if line.kind == "flush" and own_flow and not is_co2(line.liquid):
        return None
    return True


def step_flow(line: Line, start: float) -> float:
    """Total set flow of a step without injection [m3/s].

    Parameters
    ----------
    line
        The line.
    start
        Flow that its method begins with [m3/s]: a step keeps it unless it rests.
    """
    if line.flow is not None:
        return line.flow.si
    if line.flush_volume is not None:
        length = line.duration.si if line.duration is not None else 0.0
        return line.flush_volume.si / length if length > 0.0 else start
    return 0.0 if line.kind in RESTING and not co2_flows(line) else start


def step_share(line: Line) -> float | None:
    """Modifier share that a step with CO2 states [-]; None where it keeps that of its method."""
    if is_co2(line.liquid):
        return 0.0
    return min(max(line.modifier_share.si, 0.0), 1.0) if line.modifier_share is not None else None


@dataclass(frozen=True, slots=True)
class LineSettings:
    """Settings of one line, everything filled in.

    Attributes
    ----------
    injects
        It runs the programme of its method, at a flow of its own.
    co2
        Whether CO2 flows.
    flow
        Total set flow [m3/s].
    share
        Modifier share [-]; 1 with the CO2 off.
    outlet_pressure
        Of the regulator [Pa]; that of the air where it is released.
    liquid
        Components of the modifier with their volume shares.
    bypassed
        The column is out of line.
    length
        [s].
    pushes
        What the line finds in the column and pushes out; None for the line when that has gone.
    """

    injects: bool
    co2: bool
    flow: float
    share: float
    outlet_pressure: float
    liquid: tuple[tuple[str, float], ...]
    bypassed: bool
    length: float
    pushes: Content | None = None


def settings_of(
    line: Line, base: RunPlan, co2: bool, *, injects: bool = False
) -> LineSettings | None:
    """Fill in what a line leaves to the starting values of its method.

    Parameters
    ----------
    line
        The line.
    base
        Plan of its method on the instrument.
    co2
        Whether CO2 flows.
    injects
        Whether the line injects.

    Returns
    -------
    LineSettings or None
        None where the line runs as its method does, where nothing flows, or where the method's
        own plan has no settings to start from.
    """
    both = _own_and_asked(line, base, co2, injects=injects)
    if both is None:
        return None
    own, asked = both
    programme = base.programme
    assert programme is not None
    if injects and (line.flow is None or programme.flow.max() - programme.flow.min() > 0.0):
        return None
    if asked == own or asked.flow <= 0.0 or (not asked.co2 and not asked.liquid):
        return None
    if asked.co2 and base.no_model and asked.liquid == own.liquid:
        return None  # the method's own gap
    return _with_length(asked, line)


def flowing(line: Line, base: RunPlan, co2: bool, *, injects: bool = False) -> LineSettings | None:
    """Fill in all that a line begins with, whether it is its method's or not; see `settings_of`.

    Returns
    -------
    LineSettings or None
        None where nothing flows through the column.
    """
    both = _own_and_asked(line, base, co2, injects=injects)
    if both is None or both[1].flow <= 0.0 or both[1].bypassed:
        return None
    return _with_length(both[1], line)


def _with_length(settings: LineSettings, line: Line) -> LineSettings:
    length = line.duration.si if line.duration is not None else 0.0
    return replace(settings, length=length or _STEADY)


def _own_and_asked(
    line: Line, base: RunPlan, co2: bool, *, injects: bool
) -> tuple[LineSettings, LineSettings] | None:
    """What the method starts with, and what the line makes of it."""
    programme = base.programme
    if programme is None or base.train is None:
        return None
    modifier = _modifier(base)
    start = float(programme.flow[0])
    own = LineSettings(
        injects=injects,
        co2=True,
        flow=start,
        share=float(programme.share[0]),
        outlet_pressure=float(programme.outlet_pressure[0]),
        liquid=components_of(modifier) if modifier is not None else (),
        bypassed=False,
        length=0.0,
    )
    if injects:
        asked = replace(own, flow=line.flow.si if line.flow is not None else start)
    else:
        liquid = line.liquid if line.liquid is not None and not is_co2(line.liquid) else modifier
        stated = step_share(line)
        share = (own.share if stated is None else stated) if co2 else 1.0
        outlet = line.outlet_pressure.si if line.outlet_pressure else own.outlet_pressure
        asked = LineSettings(
            injects=False,
            co2=co2,
            flow=step_flow(line, start),
            share=share,
            # downstream of the regulator lies the room: it holds no less than the air
            outlet_pressure=AIR_PRESSURE if line.regulator_released else max(outlet, AIR_PRESSURE),
            liquid=components_of(liquid) if liquid is not None else (),
            bypassed=line.column_bypassed,
            length=0.0,
        )
    return own, asked


def line_plan(settings: LineSettings, base: RunPlan, liquid_at: Missing) -> RunPlan:
    """Plan one line: a programme of one constant row, or its method's at another flow.

    Parameters
    ----------
    settings
        What the line sets.
    base
        Plan of its method on the instrument.
    liquid_at
        What to report where there is no model for the liquid.
    """
    assert base.programme is not None and base.train is not None
    missing = [item for item in base.missing if not item.where.startswith(_MODIFIER)]
    fluid = _fluid(settings)
    if fluid is None:
        missing.append(liquid_at)
    train = base.train
    liquid = settings.pushes.liquid if settings.pushes is not None else settings.liquid
    if settings.bypassed:
        beds = set(train.columns)
        train = replace(
            train,
            segments=tuple(
                replace(segment, loss=False) if number in beds else segment
                for number, segment in enumerate(train.segments)
            ),
        )
    return replace(
        base,
        fluid=fluid,
        programme=_programme(settings, base, fluid),
        train=train,
        modifier_name=max(liquid, key=lambda part: part[1])[0] if liquid else "",
        missing=tuple(missing),
        no_model=fluid is None,
        steady=not settings.injects and settings.pushes is None,
    )


def own_phase(settings: LineSettings, base: RunPlan) -> bool:
    """Whether a line sets share or regulator itself, and may have two phases on that account."""
    programme = base.programme
    assert programme is not None
    start = float(programme.share[0]), float(programme.outlet_pressure[0])
    return settings.co2 and (settings.share, settings.outlet_pressure) != start


def _programme(settings: LineSettings, base: RunPlan, fluid: MixtureModel | None) -> Programme:
    own = base.programme
    assert own is not None
    if settings.injects and settings.pushes is None:
        return replace(own, flow=np.full(own.flow.shape, settings.flow))
    row = SetPoint(
        time=0.0,
        share=settings.share,
        flow=settings.flow,
        outlet_pressure=settings.outlet_pressure,
        oven_temperature=float(own.oven_temperature[0]),
    )
    if settings.pushes is None:
        return programme_from_rows([row], settings.length, 0.0, own.mixer_volume)
    if isinstance(fluid, NeatLiquid):
        row = replace(row, share=1.0)
    ramp = base.method_model.flow_ramp
    return pushing_programme(
        settings.pushes,
        row,
        ramp.si if ramp is not None else 0.0,
        settings.length,
        own.mixer_volume,
    )


def _fluid(settings: LineSettings) -> MixtureModel | None:
    content = settings.pushes
    parts = content.liquid if content is not None else settings.liquid
    if not parts or (content is None and settings.share == 0.0):
        return model_for("carbon dioxide")
    model = model_for(parts[0][0] if len(parts) == 1 else parts)
    neat = content.share == 1.0 if content is not None else not settings.co2
    return model or (neat_liquid(parts) if neat else None)


def _modifier(base: RunPlan) -> Liquid | None:
    phase = base.method_model.mobile_phase
    return phase.modifier if phase is not None else None
