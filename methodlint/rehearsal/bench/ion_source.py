"""What reaches the source of a mass spectrometer: liquid, gas, heat to evaporate."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from methodlint.documents.kinds.instrument import Instrument
from methodlint.documents.kinds.method import Method
from methodlint.documents.loading import Loaded
from methodlint.fluids.liquids.known import find_liquid
from methodlint.rehearsal.bench.room_air import GAS_DENSITY
from methodlint.rehearsal.contacts.contact import Components
from methodlint.rehearsal.plan.makeup_flow import makeup_flow_at
from methodlint.rehearsal.plan.makeup_tee import MakeupJoins, makeup_joins, splitter_of
from methodlint.rehearsal.plan.run_plan import AIR_PRESSURE, AMBIENT, components_of
from methodlint.rehearsal.run.rehearsal import Rehearsal

FloatArray = npt.NDArray[np.float64]

__all__ = [
    "SourceLoad",
    "SplitDrift",
    "source_load",
    "split_drift",
    "splitter_of",
    "uses_mass_spectrometer",
]


@dataclass(frozen=True)
class SourceLoad:
    """Flows into the source over the cycle.

    Attributes
    ----------
    time
        [s], shape (R,).
    modifier, makeup
        Liquid that arrives [m3/s], shape (R,), measured at room temperature; see `MakeupJoins`
        for the makeup of a stream that is split.
    gas
        CO2 that arrives, at 20 degC and 1 atm [m3/s], shape (R,).
    evaporation
        Heat that evaporates the liquids [W], shape (R,); None where a liquid has no enthalpy of
        vaporization in the tables.
    split
        Share of the stream that a splitter sends to the source, shape (R,); 1 without a splitter.
    splitter
        Number of the splitter in the instrument's train; None without one.
    joins
        Where the makeup joins; what is not stated counts as on the branch.
    """

    time: FloatArray
    modifier: FloatArray
    makeup: FloatArray
    gas: FloatArray
    evaporation: FloatArray | None
    split: FloatArray
    splitter: int | None
    joins: MakeupJoins = "whole stream"

    @property
    def liquid(self) -> FloatArray:
        """Modifier and makeup together [m3/s], shape (R,)."""
        return self.modifier + self.makeup


def uses_mass_spectrometer(method: Method) -> bool:
    """Whether a method names a mass spectrometer among its detectors."""
    return any(detector.type == "MS" for detector in method.detectors)


def source_load(
    run: Rehearsal,
    method: Loaded[Method],
    instrument: Loaded[Instrument],
    makeup_content: Components = (),
    *,
    makeup_off: bool = False,
) -> SourceLoad | None:
    """Flows into the source, with the composition that arrives at the end of the train.

    Parameters
    ----------
    run
        A rehearsal that is done.
    method, instrument
        Documents of the run.
    makeup_content
        Makeup liquid where the method itself does not name it.
    makeup_off
        The makeup pump stands still in this line of a sequence.

    Returns
    -------
    SourceLoad or None
        None where a splitter has neither a ratio nor a restrictor to compute it from.
    """
    typed, card = method.model, instrument.model
    number, joins = splitter_of(card), makeup_joins(card, typed)
    split = np.ones(run.time.size)
    if number is not None:
        ratio = card.train[number].split_ratio
        if run.split_share.any():
            split = run.split_share
        elif ratio is None:
            return None
        else:
            split = split * ratio.si
    modifier = run.set_flow * run.share[:, -1] * split
    total = run.co2_mass_flow + run.modifier_mass_flow
    makeup = makeup_flow_at(None if makeup_off else typed.makeup, run.time)
    if number is not None and joins in ("whole stream", "main line"):
        makeup = makeup * (split if joins == "whole stream" else 0.0)
    phase = typed.mobile_phase.modifier if typed.mobile_phase else None
    parts = components_of(phase) if phase else ()
    added = (components_of(typed.makeup) if typed.makeup else ()) or makeup_content or parts
    heats = _heat(parts), _heat(added)
    evaporation = None
    if heats[0] is not None and heats[1] is not None:
        evaporation = modifier * heats[0] + makeup * heats[1]
    return SourceLoad(
        time=run.time,
        modifier=modifier,
        makeup=makeup,
        gas=split * total * (1.0 - run.w_modifier[:, -1]) / GAS_DENSITY,
        evaporation=evaporation,
        split=split,
        splitter=number,
        joins=joins,
    )


def _heat(parts: Components) -> float | None:
    """Heat of vaporization of a blend per volume of liquid [J/m3]; None if not known."""
    total = 0.0
    for name, share in parts:
        liquid = find_liquid(name)
        if liquid is None or liquid.enthalpy_of_vaporization is None or liquid.density is None:
            return None
        total += share * liquid.enthalpy_of_vaporization * float(liquid.density(AMBIENT))
    return total


@dataclass(frozen=True, slots=True)
class SplitDrift:
    """How the flow through a fixed restrictor changes over the cycle.

    Attributes
    ----------
    highest, lowest
        Flow through it over that at the start of the run [-].
    change
        Highest over lowest, less 1 [-].
    thinnest, thickest
        Viscosity upstream of the regulator [Pa s].
    thin_time, thick_time
        When they are met [s], the earlier one first.
    """

    highest: float
    lowest: float
    change: float
    thinnest: float
    thickest: float
    thin_time: float
    thick_time: float


def split_drift(run: Rehearsal) -> SplitDrift:
    """Change of the flow through a fixed restrictor that ends in the open.

    Laminar: the flow goes as the pressure above that of the air over the viscosity, both as they
    are upstream of the regulator.

    Parameters
    ----------
    run
        A rehearsal that is done.
    """
    viscosity = run.viscosity[:, -1]
    flow = (run.pressure[:, -1] - AIR_PRESSURE) / viscosity
    flow = flow / flow[0]
    high, low = int(np.argmax(flow)), int(np.argmin(flow))
    times = sorted((float(run.time[high]), float(run.time[low])))
    return SplitDrift(
        highest=float(flow[high]),
        lowest=float(flow[low]),
        change=float(flow[high] / flow[low]) - 1.0,
        thinnest=float(viscosity[high]),
        thickest=float(viscosity[low]),
        thin_time=times[0],
        thick_time=times[1],
    )
