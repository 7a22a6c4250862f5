"""CO2 under helium is used only by methods that were developed on it.

Reason
    Helium dissolves in liquid CO2 under its own pressure: the liquid is less dense, more
    compressible, and elutes less, and the effect drifts as the cylinder empties.
    Retention times and pressures of a method that was developed on plain CO2 shift.

Unsound
    kind: supply
    padded: true  # <- here

Sound
    kind: supply
    padded: false

Sound, because the method was developed on it
    kind: supply
    padded: true
    ---
    kind: method
    developed_on_padded_co2: true

Remedy
    Connect a cylinder without helium and cool the pump head, or write `developed_on_padded_co2:
    true` into a method that was developed on it.

Source
    Longer retention on CO2 under helium than on pure CO2, and less so the less liquid is left:
    "Effect of Helium in Helium Headspace Carbon Dioxide Cylinders on Packed-Column Supercritical
    Fluid Chromatography" (abstract only). Density and metering: follows from helium in the liquid.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import BatchCase, Finding

SUBJECT = "batch"
CLASSES = ("caution",)
NEEDS = ("supply",)


def applies(case: BatchCase) -> bool:
    """Only CO2 under helium is another fluid."""
    return bool(case.get("supply.padded"))


def judge(case: BatchCase) -> Iterator[Finding]:
    """Name the methods that do not say that they were developed on it."""
    others = [
        name
        for name, run in case.runs.items()
        if run.method is not None and not run.method.developed_on_padded_co2
    ]
    if others:
        yield case.finding(
            "supply.padded",
            "caution",
            f"the CO2 is under helium, and {', '.join(sorted(others))} was not developed on it: "
            "retention is longer and drifts (abstract only)",
            remedy="connect a cylinder without helium",
        )
