"""Water in the modifier stays dissolved at every composition of the programme.

Reason
    CO2 hardly dissolves water; the alcohol carries it. Beyond that a second liquid phase forms,
    far above the phase boundary of the mixture without water, and more pressure hardly helps.
    Measured for ethanol; for other modifiers the same limit, guarded by half and not validated.

Unsound
    kind: method
    mobile_phase:
      modifier:  # <- here
        liquids: [{liquid: methanol, share: 91 % v/v}, {liquid: water, share: 9 % v/v}]
        line: modifier-1
    programme:
      - {time: 0 min, modifier_share: 3 % v/v}
      - {time: 5 min, modifier_share: 40 % v/v}

Sound
    kind: method
    mobile_phase:
      modifier:
        liquids: [{liquid: methanol, share: 95 % v/v}, {liquid: water, share: 5 % v/v}]
        line: modifier-1
    programme:
      - {time: 0 min, modifier_share: 3 % v/v}
      - {time: 5 min, modifier_share: 40 % v/v}

Unsound, because 10 % water in ethanol are 26 % by moles
    kind: method
    outlet_pressure: 110 bar
    mobile_phase:
      modifier:  # <- here
        liquids: [{liquid: ethanol, share: 90 % v/v}, {liquid: water, share: 10 % v/v}]
        line: modifier-2
    programme: [{time: 0 min, modifier_share: 14 % v/v}]

Sound, because 2 % water stay dissolved
    kind: method
    outlet_pressure: 110 bar
    mobile_phase:
      modifier:
        liquids: [{liquid: ethanol, share: 98 % v/v}, {liquid: water, share: 2 % v/v}]
        line: modifier-2
    programme: [{time: 0 min, modifier_share: 14 % v/v}]

Remedy
    Start with more modifier, or with less water in it; 1-5 % water in methanol is a useful
    additive.

Source
    Tie lines of CO2 + ethanol + water, ThermoML archive: doi 10.1016/j.fluid.2019.02.015 and
    10.1016/j.fluid.2015.07.025. At the leanest point a working table (unverified): 0.1 % v/v water
    of all in CO2 alone, 1 % with 10 % alcohol, half of that with acetonitrile.
"""

from collections.abc import Iterator

from methodlint.judging.ask.flow import filled_rows
from methodlint.judging.ask.phase import (
    LEAST_WATER_AT,
    less_water,
    more_modifier,
    mostly_acetonitrile,
    volume_share_of_water,
    water_by_table,
    water_closest_to_limit,
    water_in_modifier,
)
from methodlint.judging.ask.rule import Finding, RunCase, When, number, percent, show

SUBJECT = "run"
CLASSES = ("fault", "caution")
NEEDS = ("method.mobile_phase.modifier",)

_USUAL_STARTS = (3, 5, 8, 10, 15)


def applies(case: RunCase) -> bool:
    """Neat CO2 brings no water; a run without its modifier is asked for it."""
    return case.method_liquid() is not None or not case.run.done


def judge(case: RunCase) -> Iterator[Finding]:
    """Compare water in the modifier with what the leanest and what every composition carries."""
    water = water_in_modifier(case)
    if water <= 0.0:
        return
    lean = _at_leanest(case, water)
    if lean is not None:
        yield lean
    elif case.run.done:
        yield from _against_limit(case, water)


def _against_limit(case: RunCase, water: float) -> Iterator[Finding]:
    run = case.run
    found = water_closest_to_limit(run, water)
    if found is None:
        return
    place, row, spans = found.place, found.row, run.windows(found.excess)
    limit = volume_share_of_water(run, found.limit)
    safe = volume_share_of_water(run, (1.0 - found.band) * found.limit)
    doubt = "" if found.validated else ", not validated here"
    forms = "forms" if found.certain else "may form"
    yield case.finding(
        "method.mobile_phase.modifier",
        "fault" if found.certain else "caution",
        f"the {number(100 * water, 3)} % water in the modifier {forms} a second liquid phase at the "
        f"{place.name} from {show(spans[0][0], 'time', 'min')} to "
        f"{show(spans[-1][1], 'time', 'min')}: {run.plan.modifier_name} carries {number(100 * limit, 3)} % there "
        f"(band from {number(100 * safe, 3)} %{doubt}) at {number(100 * float(place.share[row]), 2)} % "
        f"modifier, {show(float(place.temperature[row]), 'temperature')} and "
        f"{show(float(place.pressure[row]), 'pressure')}; pressure hardly moves that limit",
        found=percent(water),
        limit=percent(limit),
        band=percent(limit - safe),
        when=When(spans[0][0], spans[-1][1]),
        possible=not found.certain,
        remedy=f"keep the modifier at {number(100 * safe, 2)} % water or less, or use more modifier",
        candidates=(*less_water(case, water), *more_modifier(case)),
        also=(case.at("method.programme"),),
    )


def _at_leanest(case: RunCase, water: float) -> Finding | None:
    rows = filled_rows(case.method) if case.method else ()
    shares = [row.share for row in rows if row.share is not None]
    if not shares:
        return None
    lean = min(max(min(shares), LEAST_WATER_AT), max(shares))
    factor = 0.5 if mostly_acetonitrile(case) else 1.0
    limit = factor * water_by_table(lean)
    total = water * lean
    if total <= limit * (1.0 + 1e-6):
        return None
    starts = (n for n in _USUAL_STARTS if n > 100 * lean)
    passes = next((n for n in starts if water * n / 100 <= factor * water_by_table(n / 100)), None)
    at_least = f"start with {passes} % modifier or " if passes else ""
    return case.finding(
        "method.mobile_phase.modifier",
        "fault",
        f"at the leanest point, {number(100 * lean, 3)} % modifier, the {number(100 * water, 3)} % water in it "
        f"are {number(100 * total, 2)} % of the mobile phase, and {number(100 * limit, 2)} % stay dissolved "
        f"there ({number(100 * (total - limit), 2)} % too much)",
        found=percent(total),
        limit=percent(limit),
        remedy=f"{at_least}keep the modifier at {number(100 * limit / lean, 2)} % water or less",
        also=(case.at("method.programme"),),
    )
