"""The cylinder gives what the CO2 pump takes in: liquid to one, vapour to the other.

Reason
    A pump with a liquid inlet starves on a cylinder without dip tube. A pump that condenses
    vapour gets, through a dip tube, whatever has settled at the bottom of the cylinder.

Unsound
    kind: supply
    dip_tube: false  # <- here

Sound
    kind: supply
    dip_tube: true

Sound, because the pump takes both
    kind: supply
    dip_tube: false
    withdrawal: vapour
    ---
    kind: instrument
    co2_pump: {inlet: both}

Put right
    Order the cylinder that the message names, with or without dip tube.

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.for_rules import BatchCase, Finding

SUBJECT = "batch"
CLASSES = ("fault",)
NEEDS = ("supply.dip_tube", "instrument.co2_pump.inlet")


def applies(case: BatchCase) -> bool:
    """A bulk tank has no dip tube to order, and a pump may take both."""
    supply = case.supply
    both = case.get("instrument.co2_pump.inlet") == "both"
    return not both and (supply is None or supply.withdrawal != "bulk")


def judge(case: BatchCase) -> Iterator[Finding]:
    """Compare the dip tube with the pump's inlet."""
    inlet = case.get("instrument.co2_pump.inlet")
    gives = "liquid" if case.get("supply.dip_tube") else "vapour"
    if gives == inlet:
        return
    order = "with" if inlet == "liquid" else "without"
    why = "it would starve" if inlet == "liquid" else "residue would be carried into it"
    changes = [case.change("supply.dip_tube", inlet == "liquid")]
    changes.append(case.change("supply.withdrawal", inlet))
    yield case.finding(
        "supply.dip_tube",
        "fault",
        f"the cylinder gives {gives}, the CO2 pump takes in {inlet}: {why}",
        remedy=f"order a cylinder {order} dip tube",
        candidates=[case.candidate(f"order a cylinder {order} dip tube", *changes)],
        also=(case.at("instrument.co2_pump.inlet"),),
    )
