"""Vented gas is kept away from fire where it mixes with air and can burn.

Reason
    CO2 that leaves a separator or a waste vessel is saturated with the modifier. Undiluted it
    does not burn, because oxygen is missing; mixed with air it may, at the outlet and in the headspace of
    a vessel that breathes. How far the CO2 protects depends on the vapour pressure and on the
    lower flammable limit of the liquid.

Unsound
    kind: method
    mobile_phase: {modifier: {liquid: acetonitrile, line: modifier-1}}
    ---
    kind: room
    outlets:
      - {name: separator, of: separator, ducted: true}  # <- here

Sound, because nitrogen sweeps it
    kind: method
    mobile_phase: {modifier: {liquid: acetonitrile, line: modifier-1}}
    ---
    kind: room
    outlets:
      - {name: separator, of: separator, ducted: true, inerted: true}

Sound, because the CO2 leaves too little oxygen
    kind: method
    mobile_phase: {modifier: {liquid: ethanol, line: modifier-1}}
    ---
    kind: room
    highest_temperature: 20 degC
    outlets:
      - {name: separator, of: separator, ducted: true}

Remedy
    Lead the outlet outdoors away from anything that sparks, and earth metal vessels. Waste stays
    vented while it gives off CO2. A note; a caution where an outlet ends in the room.

Source
    Lower flammable limits: IEC 60079-20-1:2010 and NFPA 497:2008, the lower of both (open data).
    Mixtures: rule of Le Chatelier. Oxygen below which nothing burns with CO2, 12 %: NFPA 69
    (unverified).
"""

from collections.abc import Iterator

from methodlint.judging.ask.liquids import find_liquid
from methodlint.judging.ask.room import (
    flammable_dilution,
    highest_co2_flow,
    liquid_flows,
    vapour_flows,
)
from methodlint.judging.ask.rule import BatchCase, Finding, percent, show

SUBJECT = "batch"
CLASSES = ("caution", "note")
NEEDS = ("batch", "room.outlets", "room.highest_temperature")

_BURNS_FROM = 0.12
_CARRIERS = ("separator", "waste bottle", "collector")


def applies(case: BatchCase) -> bool:
    """An outlet carries the modifier's vapour, and no nitrogen sweeps it."""
    outlets = case.room.outlets if case.room is not None else ()
    return any(one.of in _CARRIERS and not one.inerted for one in outlets)


def judge(case: BatchCase) -> Iterator[Finding]:
    """Dilute the saturated gas of every method with air down to the limit."""
    temperature = case.get("room.highest_temperature").si
    worst: tuple[float, float, str] | None = None
    for run in case.runs.values():
        if run.method is None or run.rehearsal is None or not run.rehearsal.metered:
            continue
        flows, _ = liquid_flows(run.run, run.method, case.solvents)
        gas = float(run.run.co2_mass_flow.max())
        vapours = vapour_flows(flows, gas, temperature, all_evaporates=False)
        known = {name: flow for name, flow in vapours.items() if flow}
        liquids = {name: find_liquid(name) for name in known}
        limits = {n: q.lower_flammable_limit for n, q in liquids.items() if q is not None}
        burning = {name: limit for name, limit in limits.items() if limit is not None}
        found = flammable_dilution(known, burning, gas)
        if found is not None and (worst is None or found[1] > worst[1]):
            worst = (*found, " + ".join(sorted(burning)))
    if worst is None or worst[1] <= _BURNS_FROM or highest_co2_flow(case.batch) <= 0.0:
        return
    share, oxygen, names = worst
    outlets = case.room.outlets if case.room is not None else ()
    index = next(i for i, one in enumerate(outlets) if one.of in _CARRIERS and not one.inerted)
    in_room = [one for one in outlets if one.of in _CARRIERS and one.ducted is False]
    yield case.finding(
        f"room.outlets[{index}]",
        "caution" if in_room else "note",
        f"vented CO2 with vapour of {names} burns where {100 * share:.0f} % of it are mixed with "
        f"air, {100 * oxygen:.1f} % oxygen there, at {show(temperature, 'temperature')}; below "
        f"{100 * _BURNS_FROM:.0f} % nothing burns (unverified)",
        found=percent(oxygen),
        limit=percent(_BURNS_FROM),
        remedy="lead the outlet outdoors, away from anything that sparks, and earth metal vessels",
        cautions=("flammable",),
    )
