"""Nothing runs into a waste vessel that reacts with what is in it or spoils its disposal.

Reason
    Nitric or perchloric acid and peroxides burn or explode with organic liquid; acid sets gas
    free from cyanide, azide and hypochlorite; chloroform with acetone and a base runs away.
    Chlorinated liquid in a vessel of flammable or aqueous waste makes all of it halogenated waste.

Unsound
    kind: room
    waste:
      - {name: separator bottle, capacity: 5 L, level: 1 L, contents: [nitric acid]}  # <- here

Unsound, because chlorinated liquid runs into flammable waste
    kind: method
    mobile_phase: {modifier: {liquid: dichloromethane, line: modifier-1}}
    ---
    kind: room
    waste:
      - {name: separator bottle, capacity: 5 L, level: 1 L, contents: [ethanol]}  # <- here

Sound
    kind: room
    waste:
      - {name: separator bottle, capacity: 5 L, level: 1 L, contents: [ethanol, acetonitrile]}

Remedy
    Give the stream a vessel of its own.

Source
    Hazard charts for mixed chemical waste (unverified); common practice.
"""

from collections.abc import Iterator

from methodlint.judging.ask.liquids import clashes, find_liquid, waste_contents
from methodlint.judging.ask.rule import BatchCase, Finding, counted

SUBJECT = "batch"
CLASSES = ("stop", "caution")
NEEDS = ("room.waste",)


def judge(case: BatchCase) -> Iterator[Finding]:
    """Pair everything in each vessel with itself and with the streams that run into it.

    Additives at the level of a mobile phase are left out: the heat that 0.1 % of an acid and of an
    amine set free is negligible.
    """
    methods = {name: run.documents["method"] for name, run in case.runs.items()}
    for index, inside, running_in in waste_contents(case.documents, methods):
        found = clashes([*inside, *running_in], [*inside, *running_in])
        if not found:
            yield from _halogenated(case, index, inside, running_in)
            continue
        first = found[0]
        more = f" ({counted(len(found) - 1, 'more pair')})" if len(found) > 1 else ""
        name = case.get(f"room.waste[{index}].name")
        yield case.finding(
            f"room.waste[{index}]",
            "stop",
            f"{first.first} and {first.second} meet in waste vessel '{name}': {first.why}{more}",
            remedy="give one of the two a vessel of its own",
            candidates=[
                case.candidate(
                    "empty and rinse the vessel, and keep this stream apart from now on",
                    case.change(f"room.waste[{index}].contents", []),
                )
            ],
            cautions=("toxic", "flammable"),
        )


def _halogenated(
    case: BatchCase, index: int, inside: list[str], running_in: list[str]
) -> Iterator[Finding]:
    """Chlorinated liquid that runs into waste of another kind."""
    arriving = [name for name in running_in if _chlorinated(name)]
    vessel = case.get(f"room.waste[{index}]")
    if not arriving or not inside or vessel.halogenated or any(map(_chlorinated, inside)):
        return
    yield case.finding(
        f"room.waste[{index}]",
        "caution",
        f"{arriving[0]} runs into waste vessel '{vessel.name}' with {inside[0]}: all of it becomes "
        "halogenated waste",
        remedy="give chlorinated liquid a vessel of its own, and write `halogenated: true` there",
    )


def _chlorinated(name: str) -> bool:
    liquid = find_liquid(name)
    return liquid is not None and liquid.family == "chlorinated"
