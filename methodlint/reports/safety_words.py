"""The standing safety cautions, printed beside stops and safety findings and on the card.

They are the usual ones of the trade; local codes and trained people decide.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from methodlint.judging.finding import Finding

CAUTIONS: Mapping[str, str] = {
    "pressure": (
        "Pressure: close the CO2, vent, and wait for zero on every gauge before you undo a "
        "fitting or cap a column; a blocked regulator or a closed valve can hold pressure back."
    ),
    "asphyxiation": (
        "CO2 is harmful in itself, long before oxygen runs short, and gathers low. When the alarm "
        "sounds, leave, close the door and call for help; never go in to look."
    ),
    "cold": (
        "Expanding CO2 burns by frost and forms dry ice; an ice plug can let go suddenly. Wear "
        "gloves and eye protection, and never warm a cylinder to raise its pressure."
    ),
    "flammable": (
        "Solvent vapour leaves with the vented CO2: keep flames and sparks away and the vent "
        "ducted. Do not cap a fresh waste bottle, CO2 in the liquid builds pressure."
    ),
    "toxic": (
        "What the sample holds can leave with the vent: lead it to an extraction or a trap fit "
        "for the substance."
    ),
}

DEFER = (
    "Local codes, the makers' manuals and licensed, trained people decide; this tool only computes."
)

ALWAYS = (
    (
        "Isolate CO2, vent, wait for zero on every gauge; never undo a fitting or cap a column "
        "under pressure."
    ),
    (
        "Do not cap a fresh waste bottle: liquid saturated with CO2 builds pressure; glass "
        "separators need a relief."
    ),
    "Never warm a cylinder to raise its pressure. Frost burns; ice plugs let go suddenly.",
    DEFER,
)

COLLECTING = (
    (
        "Fractions and cyclones stay vented while CO2 runs: never clamp or cap a collecting "
        "vessel, and open a cyclone only at zero pressure."
    ),
    (
        "Fractions are flammable liquid under solvent vapour: no flame, spark or hot plate near, "
        "metal vessels earthed, the vents led out of the room."
    ),
)
"""Common practice, no source."""


def cautions_for(findings: Iterable[Finding]) -> list[str]:
    """Cautions that belong to these findings, each once, the deferral last.

    A stop whose rule names no hazard gets the caution on pressure: most stops of a pressurised
    instrument end there.
    """
    tags: set[str] = set()
    stops = False
    for finding in findings:
        tags.update(finding.cautions)
        if finding.grade == "stop":
            stops = True
    if stops and not tags:
        tags.add("pressure")
    chosen = [text for tag, text in CAUTIONS.items() if tag in tags]
    return [*chosen, DEFER] if chosen else []
