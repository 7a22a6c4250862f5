"""The gas from the regulator leaves through an open vent, never into a closed bottle.

Reason
    One millilitre of pumped CO2 becomes half a litre of gas. A closed bottle holds that for
    seconds, then bursts. Liquid that comes fresh from the separator still gives off CO2, so its
    bottle is not capped either.

Unsound
    kind: instrument
    regulator: {gas_separation: closed bottle}  # <- here

Sound
    kind: instrument
    regulator: {gas_separation: vented separator}

Remedy
    Lead the outlet into a separator or vessel with an open vent of its own.

Source
    Density of CO2 at 20 degC and 1 atm, 1.839 kg/m3: Span and Wagner 1996.
"""

from collections.abc import Iterator

from methodlint.judging.ask.room import gas_litres_per_minute
from methodlint.judging.ask.rule import Finding, Measure, RunCase, number

SUBJECT = "run"
CLASSES = ("stop", "caution")
NEEDS = ("instrument.regulator.gas_separation",)


def judge(case: RunCase) -> Iterator[Finding]:
    """Look at where gas and liquid go downstream of the regulator."""
    if case.get("instrument.regulator.gas_separation") == "closed bottle":
        gas = gas_litres_per_minute(case.rehearsal)
        rate = (
            f": {number(gas, 2)} L/min of CO2 gas" if gas is not None else ": CO2 expands 500 times"
        )
        yield case.finding(
            "instrument.regulator.gas_separation",
            "stop",
            f"the regulator's outlet goes into a closed bottle{rate} with no way out",
            found=Measure(gas, "L/min") if gas is not None else None,
            limit=Measure(0.0, "L/min"),
            remedy="lead it into a separator or vessel with an open vent",
            candidates=[
                case.candidate(
                    f"lead it into a {kind}",
                    case.change("instrument.regulator.gas_separation", kind),
                )
                for kind in ("vented separator", "vented vessel")
            ],
            cautions=("pressure", "asphyxiation"),
        )
    for index, vessel in enumerate(case.room.waste if case.room else ()):
        takes = "mobile phase" in vessel.receives or not vessel.receives
        if vessel.vented is False and takes and not vessel.drain:
            yield case.finding(
                f"room.waste[{index}].vented",
                "caution",
                f"waste vessel '{vessel.name}' is closed: fresh liquid from the separator still "
                "gives off CO2 and builds up pressure",
                remedy="leave a vent in its cap",
                candidates=[
                    case.candidate(
                        "leave a vent in its cap", case.change(f"room.waste[{index}].vented", True)
                    )
                ],
                cautions=("pressure",),
            )
