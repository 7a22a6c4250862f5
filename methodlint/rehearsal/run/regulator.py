"""Heat that the regulator has to supply over a cycle."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from methodlint.documents.kinds.instrument import Instrument
from methodlint.documents.kinds.method import Method
from methodlint.documents.loading import Loaded
from methodlint.fluids.co2 import properties as co2
from methodlint.fluids.liquids.known import find_liquid
from methodlint.hydraulics.expansion import ATMOSPHERE, ExpandedLiquid, regulator_heats
from methodlint.rehearsal.contacts.contact import Components
from methodlint.rehearsal.plan.run_plan import AMBIENT, components_of
from methodlint.rehearsal.run.states import RunStates

FloatArray = npt.NDArray[np.float64]

__all__ = ["RegulatorLoad", "worst_regulator_load", "worst_regulator_loads"]

HEAT_BAND = 0.15
"""Relative half width of the heat: heats of mixing and dissolved CO2 are left out. Estimate."""


@dataclass(frozen=True, slots=True)
class RegulatorLoad:
    """The moment of a cycle that needs most heat at the regulator.

    Attributes
    ----------
    watts, band
        Heat that brings CO2 to the set temperature as gas, and the liquids with it, and its half
        width [W]. Warmth that the liquids bring along counts.
    co2_watts
        Heat for CO2 alone [W].
    time
        When it is needed [s].
    set_temperature
        To which the stream is brought back [K].
    end_temperature
        Of CO2 alone downstream of the regulator, without any heat [K]: the coldest there can be.
    mixed_end_temperature
        The same with the warmth of the liquids [K].
    solid
        Solid CO2 forms from CO2 alone.
    co2_mass_flow
        [kg/s].
    share
        Volume share of modifier that arrives at the regulator then [-].
    least_share
        Least share that arrives at any time of the cycle [-].
    """

    watts: float
    band: float
    co2_watts: float
    time: float
    set_temperature: float
    end_temperature: float
    mixed_end_temperature: float
    solid: bool
    co2_mass_flow: float
    share: float
    least_share: float


def worst_regulator_load(
    run: RunStates, method: Loaded[Method], instrument: Loaded[Instrument] | None
) -> RegulatorLoad | None:
    """Find the moment of the cycle at which the regulator needs most heat.

    Parameters
    ----------
    run
        A rehearsal.
    method
        Its method, for the liquid of modifier and makeup.
    instrument
        The instrument card, for the temperature of the regulator; 20 degC is taken where it
        gives none, which is room temperature: enough to leave gas.

    Returns
    -------
    RegulatorLoad or None
        None without a rehearsal, or where the state lies outside the property model.
    """
    return worst_regulator_loads([(run, method, instrument)])[0]


def worst_regulator_loads(
    runs: Sequence[tuple[RunStates, Loaded, Loaded | None]],
) -> list[RegulatorLoad | None]:
    """The same for many runs, each with its method and its instrument, in few calls."""
    found: list[RegulatorLoad | None] = [None] * len(runs)
    with_rows = [k for k, (run, _, _) in enumerate(runs) if run.done and run.time.size]
    if not with_rows:
        return found
    arrivals = [_Arrival.of(*runs[k]) for k in with_rows]
    try:
        loads = _loads(arrivals)
    except co2.OutOfRange:
        if len(arrivals) == 1:
            return found
        loads = [worst_regulator_load(*runs[k]) for k in with_rows]
    for k, load in zip(with_rows, loads, strict=True):
        found[k] = load
    return found


@dataclass(frozen=True)
class _Arrival:
    """What arrives at the regulator over a cycle, and to which temperature it is brought.

    `liquids` are flows (R,) [kg/s] with their heat capacities [J/(kg K)].
    """

    run: RunStates
    target: float
    temperature: FloatArray
    pressure: FloatArray
    co2_flow: FloatArray
    liquids: list[tuple[FloatArray, float]]

    @classmethod
    def of(
        cls, run: RunStates, method: Loaded[Method], instrument: Loaded[Instrument] | None
    ) -> _Arrival:
        """Take it from a run."""
        typed = method.model
        card = instrument.model if instrument else None
        wanted = card.regulator.temperature if card and card.regulator else None
        modifier = typed.mobile_phase.modifier if typed.mobile_phase else None
        parts = components_of(modifier) if modifier else ()
        # What arrives is what was pumped before and no splitter has taken.
        arriving = run.w_modifier[:, -1]
        total = run.mass_flow[:, -1] - run.makeup_mass_flow
        flows = [(total * arriving, _heat_capacity(parts))]
        makeup = typed.makeup
        if makeup is not None and run.makeup_mass_flow.any():
            added = components_of(makeup) or parts
            flows.append((run.makeup_mass_flow, _heat_capacity(added)))
        return cls(
            run=run,
            target=wanted.si if wanted is not None else AMBIENT,
            temperature=run.temperature[:, -1],
            pressure=run.pressure[:, -1],
            co2_flow=total * (1.0 - arriving),
            liquids=flows,
        )

    def worst_row(self, before: FloatArray, after: float) -> int:
        """Row that needs most heat, from enthalpies before and behind [J/kg]."""
        need = np.maximum(self.co2_flow * (after - before), 0.0)
        for flow, capacity in self.liquids:
            need = need + flow * capacity * (self.target - self.temperature)
        return int(np.argmax(need))


def _loads(arrivals: list[_Arrival]) -> list[RegulatorLoad | None]:
    targets = np.array([one.target for one in arrivals])
    temperature = np.concatenate([one.temperature for one in arrivals])
    pressure = np.concatenate([one.pressure for one in arrivals])
    ends = np.cumsum([one.run.time.size for one in arrivals])
    before = np.split(np.asarray(co2.enthalpy(temperature, pressure)), ends[:-1])
    after = co2.enthalpy(targets, np.full(targets.shape, ATMOSPHERE))
    rows = [
        one.worst_row(own, float(end))
        for one, own, end in zip(arrivals, before, after, strict=True)
    ]

    def worst(name: str) -> FloatArray:
        return np.array([getattr(one, name)[row] for one, row in zip(arrivals, rows, strict=True)])

    heats = regulator_heats(
        worst("temperature"),
        worst("pressure"),
        worst("co2_flow"),
        targets,
        [
            tuple(ExpandedLiquid(float(flow[row]), capacity) for flow, capacity in one.liquids)
            for one, row in zip(arrivals, rows, strict=True)
        ],
    )
    return [
        RegulatorLoad(
            watts=heat.total,
            band=HEAT_BAND * heat.total,
            co2_watts=heat.carbon_dioxide,
            time=float(one.run.time[row]),
            set_temperature=one.target,
            end_temperature=heat.end_temperature,
            mixed_end_temperature=heat.mixed_end_temperature,
            solid=heat.solid,
            co2_mass_flow=float(one.co2_flow[row]),
            share=float(one.run.share[row, -1]),
            least_share=float(np.min(one.run.share[:, -1])),
        )
        for one, row, heat in zip(arrivals, rows, heats, strict=True)
    ]


def _heat_capacity(parts: Components) -> float:
    """Heat capacity of a blend [J/(kg K)] by volume share; parts that have none are left out."""
    known = [
        (liquid.heat_capacity, share)
        for name, share in parts
        if (liquid := find_liquid(name)) is not None and liquid.heat_capacity is not None
    ]
    return _mean(known)


def _mean(values: Sequence[tuple[float, float]]) -> float:
    whole = sum(share for _, share in values)
    return sum(value * share for value, share in values) / whole if whole > 0.0 else 0.0
