"""The pump's cooler can take the heat that the CO2 brings.

Reason
    A pump that meters volume delivers the mass that its head holds, so the head has to stay as
    cold as it says. From a hot store the heat is large: about 170 kJ/kg from 34 degC and 76 bar
    down to 8 degC. A cooler that cannot follow lets the head warm up and the flow fall.

Unsound
    kind: supply
    store_temperature: 25 degC
    line_temperature: 30 degC
    ---
    kind: instrument
    co2_pump: {chiller_capacity: 4 W}  # <- here

Sound
    kind: supply
    store_temperature: 25 degC
    line_temperature: 30 degC
    ---
    kind: instrument
    co2_pump: {chiller_capacity: 40 W}

Remedy
    Lower the flow to the figure of the message, keep line and store cooler, or use a larger
    cooler.

Source
    Enthalpies: Span and Wagner, J. Phys. Chem. Ref. Data 25, 1509 (1996). 0.8 of the rated heat,
    and no question where nothing arrives 10 K warmer than the head: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.room import highest_co2_flow
from methodlint.judging.ask.rule import BatchCase, Finding, Measure, NotChecked, show
from methodlint.judging.ask.supply import COOLER_SHARE, cooler_heat_per_mass, store_temperature

SUBJECT = "batch"
CLASSES = ("caution",)
NEEDS = (
    "batch",
    "supply.store_temperature",
    "instrument.co2_pump.chiller_capacity",
    "instrument.co2_pump.head_temperature",
)

_COOL_ENOUGH = 10.0


def applies(case: BatchCase) -> bool:
    """Liquid that arrives hardly warmer than the head brings little heat."""
    supply = case.supply
    store = store_temperature(supply) if supply is not None else None
    head = case.get("instrument.co2_pump.head_temperature")
    if supply is None or store is None or head is None or supply.withdrawal == "vapour":
        return True
    line = supply.line_temperature.si if supply.line_temperature else store.highest
    return bool(max(line, store.highest) >= head.si + _COOL_ENOUGH)


def judge(case: BatchCase) -> Iterator[Finding | NotChecked]:
    """Compare the heat at the highest flow with the part of the rating that counts."""
    supply = case.supply
    assert supply is not None
    rated = case.get("instrument.co2_pump.chiller_capacity").si
    head = case.get("instrument.co2_pump.head_temperature").si
    heat = cooler_heat_per_mass(supply, head, case.batch.co2_demand)
    if heat is None:
        yield case.not_checked("supply", "supply.net_mass", "the store is above 31.0 degC")
        return
    flow = highest_co2_flow(case.batch)
    usable = COOLER_SHARE * rated
    if heat <= 0.0 or flow * heat <= usable:
        return
    wanted = flow * heat / COOLER_SHARE
    passes = show(usable / heat, "mass flow")
    yield case.finding(
        "instrument.co2_pump.chiller_capacity",
        "caution",
        f"the pump's cooler has to take {show(flow * heat, 'power')} at "
        f"{show(flow, 'mass flow')} of CO2 ({heat / 1e3:.0f} kJ/kg), {show(usable, 'power')} of "
        f"its {show(rated, 'power')} count: {show(flow * heat - usable, 'power')} too much",
        found=Measure(flow * heat, "W"),
        limit=Measure(usable, "W"),
        remedy=f"draw at most {passes} of CO2, or fit a cooler of {show(wanted, 'power')}",
        candidates=[
            case.candidate(
                f"draw at most {passes} of CO2, or fit a cooler of {show(1.05 * wanted, 'power')}",
                case.change(
                    "instrument.co2_pump.chiller_capacity", show(1.05 * wanted, "power", "W")
                ),
            )
        ],
        also=(case.at("supply.store_temperature"),),
    )
