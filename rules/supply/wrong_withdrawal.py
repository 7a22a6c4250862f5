"""The cylinder gives what the CO2 pump takes in: liquid to one, vapour to the other.

Reason
    A pump with a liquid inlet starves on a cylinder without dip tube. A pump that condenses
    vapour gets, through a dip tube, whatever has settled at the bottom of the cylinder.

Unsound
    kind: supply
    dip_tube: false  # <- here

Unsound, because the card says that vapour is drawn
    kind: supply
    withdrawal: vapour  # <- here

Sound
    kind: supply
    dip_tube: true

Sound, because a booster lifts the pressure of the vapour
    kind: supply
    withdrawal: vapour
    dip_tube: false
    booster: true

Sound, because the pump takes both
    kind: supply
    dip_tube: false
    withdrawal: vapour
    ---
    kind: instrument
    co2_pump: {inlet: both}

Remedy
    Order the cylinder that the message names, with or without dip tube.

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import BatchCase, Finding, NotChecked

SUBJECT = "batch"
CLASSES = ("fault",)
NEEDS = ("supply", "instrument.co2_pump.inlet")


def applies(case: BatchCase) -> bool:
    """A bulk tank has no dip tube to order, and a pump may take both."""
    supply = case.supply
    both = case.get("instrument.co2_pump.inlet") == "both"
    return not both and (supply is None or supply.withdrawal != "bulk")


def judge(case: BatchCase) -> Iterator[Finding | NotChecked]:
    """Compare withdrawal and dip tube, each where it is given, with the pump's inlet."""
    supply, inlet = case.supply, case.get("instrument.co2_pump.inlet")
    assert supply is not None
    says = _says(case)
    if not says:
        yield case.not_checked("supply", "supply.dip_tube")
        return
    # Both figures are looked at: where they differ, only one of them can be the slip.
    wrong = [name for name, gives in says.items() if gives != inlet]
    if not wrong or (supply.booster and inlet == "liquid"):
        return
    gives = says[wrong[0]]
    order = "with" if inlet == "liquid" else "without"
    why = "it would starve" if inlet == "liquid" else "residue would be carried into it"
    says_twice = ""
    if len(set(says.values())) > 1:
        tube = "true" if supply.dip_tube else "false"
        says_twice = (
            f"; the card contradicts itself: 'withdrawal' says {supply.withdrawal}, "
            f"'dip_tube' says {tube}"
        )
    changes = [case.change("supply.dip_tube", inlet == "liquid")]
    changes.append(case.change("supply.withdrawal", inlet))
    text = f"order a cylinder {order} dip tube"
    if says_twice and wrong == ["withdrawal"]:
        text = f"write {inlet} at 'withdrawal' if that is how it is drawn, else {text}"
    others = [name for name in says if name != wrong[0]] if says_twice else []
    yield case.finding(
        f"supply.{wrong[0]}",
        "fault",
        f"the cylinder gives {gives}, the CO2 pump takes in {inlet}: {why}{says_twice}",
        remedy=text,
        candidates=[case.candidate(text, *changes)],
        also=(
            case.at("instrument.co2_pump.inlet"),
            *(case.at(f"supply.{name}") for name in others),
        ),
    )


def _says(case: BatchCase) -> dict[str, str]:
    """What the cylinder gives, by the field of the card that says so."""
    says: dict[str, str] = {}
    tube, withdrawal = case.get("supply.dip_tube"), case.get("supply.withdrawal")
    if tube is not None:
        says["dip_tube"] = "liquid" if tube else "vapour"
    if withdrawal is not None:
        says["withdrawal"] = withdrawal
    return says
