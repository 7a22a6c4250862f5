"""The mobile phase cools by less than 5 K on its way through the column.

Reason
    Compressible mobile phase cools as it expands along the bed; friction does not make up for
    it. The cold end retains otherwise than the warm inlet, and a gradient of temperature across
    the bed broadens peaks. Rich or cold mobile phases hardly cool or even warm up.

Unsound
    kind: method
    oven_temperature: 60 degC  # <- here
    outlet_pressure: 130 bar
    flow: 1.2 mL/min
    mobile_phase: {modifier: {liquid: methanol, line: modifier-1}, modifier_share: 3 % v/v}
    programme: []
    ---
    kind: column
    particle_size: 1.7 um

Sound
    kind: method
    oven_temperature: 40 degC
    outlet_pressure: 180 bar
    flow: 1.2 mL/min
    mobile_phase: {modifier: {liquid: methanol, line: modifier-1}, modifier_share: 3 % v/v}
    programme: []

Sound, because rich mobile phase does not cool
    kind: method
    mobile_phase: {modifier: {liquid: methanol, line: modifier-1}, modifier_share: 60 % v/v}
    flow: 0.8 mL/min
    programme: []

Remedy
    Raise the outlet pressure, lower the temperature of the oven or the flow.

Source
    0.8 K along a conventional column and 6.5 K along a small-particle one: Glenne et al., Anal.
    Chem. 2020, 10.1021/acs.analchem.0c03106 (abstract only). Limit of 5 K: common practice, no
    source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.column import denser_when_cooled, greatest_cooling
from methodlint.judging.ask.phase import cooler, higher_outlet
from methodlint.judging.ask.pressure import slower
from methodlint.judging.ask.rule import Finding, Measure, RunCase, When, number, show

SUBJECT = "run"
CLASSES = ("caution",)
NEEDS = ("run",)

_LIMIT = 5.0


def judge(case: RunCase) -> Iterator[Finding]:
    """Follow the expansion without heat from the oven at the moment when it cools most."""
    run = case.run
    fall = greatest_cooling(run)
    if fall.value <= _LIMIT:
        return
    row = int(run.time.searchsorted(fall.time))
    oven = float(run.programme.oven_temperature_at(fall.time))
    when = When(fall.time, fall.time)
    density = denser_when_cooled(run, row, fall.value)
    pressure = float(run.column_outlet_pressure[row])
    yield case.finding(
        "method.oven_temperature",
        "caution",
        f"the mobile phase cools by up to {show(fall.value, 'temperature difference')} along the "
        f"column (limit 5 K), from {show(oven, 'temperature')} to "
        f"{show(oven - fall.value, 'temperature')} at {show(fall.time, 'time', 'min')}; at the "
        f"outlet that makes it about {number(100 * density, 1)} % denser. No heat from the oven is "
        f"counted, so the fall is at most this",
        found=Measure(fall.value, "K"),
        limit=Measure(_LIMIT, "K"),
        band=Measure(fall.band, "K"),
        when=when,
        remedy="raise the outlet pressure, or lower the oven temperature or the flow",
        candidates=higher_outlet(case, above=pressure) + cooler(case) + slower(case, when),
        also=(case.at("method.outlet_pressure"),),
    )
