"""The detector cell withstands the pressure upstream of the regulator.

Reason
    A cell sees the regulator's pressure plus what the tube downstream of it costs, and in a narrow tube
    at high flow that is turbulent and large: the law for slow flow would pass it. With a plugged
    regulator it sees the pressure at which the pumps stop.

Unsound
    kind: instrument
    train:
      - {part: injector, name: injection valve, volume: 10 uL, pressure_rating: 550 bar}
      - {part: column}
      - {part: cell, name: UV cell, volume: 11 uL, pressure_rating: 200 bar}  # <- here
      - {part: tube, name: cell to regulator, length: 2.6 m, bore: 0.15 mm}
      - {part: regulator, name: regulator, pressure_rating: 380 bar}
    ---
    kind: column
    inner_diameter: 4.6 mm
    ---
    kind: method
    flow: 4.0 mL/min
    programme: [{time: 0 min, modifier_share: 5 % v/v}]

Sound
    kind: instrument
    train:
      - {part: injector, name: injection valve, volume: 10 uL, pressure_rating: 550 bar}
      - {part: column}
      - {part: cell, name: UV cell, volume: 11 uL, pressure_rating: 350 bar}
      - {part: tube, name: cell to regulator, length: 2.6 m, bore: 0.15 mm}
      - {part: regulator, name: regulator, pressure_rating: 380 bar}

Sound, because the cell lies downstream of the regulator
    kind: instrument
    train:
      - {part: injector, name: injection valve, volume: 10 uL, pressure_rating: 550 bar}
      - {part: column}
      - {part: regulator, name: regulator, pressure_rating: 380 bar}
      - {part: cell, name: UV cell, volume: 11 uL, pressure_rating: 20 bar}

Remedy
    A wider tube downstream of the cell, a lower outlet pressure, or a lower flow.

Source
    Limit: the instrument card. Turbulent above Re 4000: Tarafder, J. Chromatogr. A 2018. Caution
    above 0.9 of the rating: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.pressure import (
    PartPressure,
    cut_off,
    cut_off_protects,
    lower_outlet,
    part_pressures,
    slower,
    wider_tube,
    worst_against,
)
from methodlint.judging.ask.rule import At, Finding, NotChecked, RunCase, bar, path_text, show

SUBJECT = "run"
LINES = True
CLASSES = ("stop", "caution")
NEEDS = ("run",)
CAUSES = ("pressure.outlet-far-above-set", "pressure.high-limit-ends-line")


def applies(case: RunCase) -> bool:
    """There is a cell in the train."""
    train = case.instrument.train if case.instrument else ()
    return any(part.part == "cell" for part in train)


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Judge every cell upstream of the regulator."""
    for cell in case.run.ask(part_pressures):
        if cell.kind != "cell":
            continue
        if cell.rating is None:
            where = f"instrument.{path_text(cell.path)}"
            yield case.not_checked("instrument.train", where, f"no rating of the {cell.name}")
            continue
        yield from _cell(case, cell, cell.rating)


def _cell(case: RunCase, cell: PartPressure, rating: float) -> Iterator[Finding]:
    run = case.run
    protected = cell.protected or cut_off_protects(case, rating)
    worst = worst_against(run, cell.pressure, rating, "stop", protected=protected)
    if worst is None:
        return
    behind = worst.value - float(run.outlet_pressure[worst.row])
    limit = cut_off(case)
    plugged = (
        f"with a plugged regulator it sees {show(limit[0], 'pressure')}, where the pumps stop"
        if limit
        else "with a plugged regulator nothing holds the pumps back"
    )
    yield case.finding(
        At(cell.document, cell.path),
        worst.verdict.grade,
        f"the {cell.name} {worst.words(run)}, {show(behind, 'pressure')} of it lost downstream of the "
        f"cell; it is rated {show(rating, 'pressure')}: {worst.margin()}; {plugged}",
        found=bar(worst.value),
        limit=bar(rating),
        band=bar(worst.band),
        band_below=bar(worst.below),
        when=worst.when,
        possible=worst.verdict.possible,
        first=worst.measure_first(run),
        remedy="fit a wider tube downstream of the cell, or lower the outlet pressure or the flow",
        candidates=wider_tube(case, worst.row, int(cell.path[1]))
        + lower_outlet(case)
        + slower(case, worst.when),
        also=(case.at("method.outlet_pressure"),),
        cautions=("pressure",),
    )
