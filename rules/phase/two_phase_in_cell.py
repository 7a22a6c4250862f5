"""The mobile phase is one phase in every detector cell upstream of the regulator.

Reason
    Drops or bubbles in the cell give spikes and noise. The cell sees less pressure than the
    column outlet and has a temperature of its own; a cell that is warmer than the oven can part
    what left the column as one phase.

Unsound
    kind: method
    oven_temperature: 35 degC
    outlet_pressure: 100 bar  # <- here
    programme: [{time: 0 min, modifier_share: 20 % v/v}]
    ---
    kind: instrument
    train:
      - {part: injector, name: injection valve, volume: 10 uL, pressure_rating: 550 bar}
      - {part: column}
      - {part: tube, name: column to cell, length: 0.3 m, bore: 0.15 mm}
      - {part: cell, name: UV cell, volume: 11 uL, pressure_rating: 350 bar, temperature: 70 degC}
      - {part: tube, name: cell to regulator, length: 0.3 m, bore: 0.25 mm, temperature: 35 degC}
      - {part: regulator, name: regulator, pressure_rating: 380 bar, temperature: 35 degC}

Sound
    kind: method
    oven_temperature: 35 degC
    outlet_pressure: 150 bar

Remedy
    Raise the outlet pressure, or cool the cell.

Source
    Phase boundary: Peng and Robinson 1976 with parameters fitted to published isotherms; the
    rest common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.phase import higher_outlet, parting_in_cells, settings_at
from methodlint.judging.ask.rule import Finding, RunCase, bar, show

SUBJECT = "run"
CLASSES = ("fault", "caution")
NEEDS = ("run",)
CAUSES = ("pressure.margin-to-boundary-thin",)

_OPTICAL = ("UV", "PDA", "DAD")


def applies(case: RunCase) -> bool:
    """A method that detects by mass or aerosol alone does not look into the cell."""
    detectors = case.method.detectors if case.method else ()
    return not detectors or any(one.type in _OPTICAL for one in detectors)


def judge(case: RunCase) -> Iterator[Finding]:
    """Judge each cell that is not bypassed at its own pressure and temperature."""
    for found in parting_in_cells(case.run):
        place, row = found.place, found.row
        pressure, boundary = float(place.pressure[row]), float(place.boundary[row])
        warm = float(place.temperature[row])
        said = "may have two phases" if found.verdict.possible else "has two phases"
        yield case.finding(
            settings_at(case),
            found.verdict.grade,
            f"the mobile phase {said} in the {place.name} {found.window()} "
            f"({found.shares(case.run)}): {show(pressure, 'pressure')} at "
            f"{show(warm, 'temperature')}, the boundary there is {show(boundary, 'pressure')} "
            f"({found.band_words}), margin "
            f"{show(pressure - boundary, 'pressure')}",
            found=bar(pressure),
            limit=bar(boundary),
            band=bar(found.band),
            when=found.when,
            possible=found.verdict.possible,
            remedy="raise the outlet pressure or cool the cell",
            candidates=higher_outlet(case, above=boundary),
            also=() if place.part is None else (case.at(f"instrument.train[{place.part}]"),),
        )
