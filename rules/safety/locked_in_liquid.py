"""Liquid that valves lock into the instrument is not warmed beyond what its walls withstand.

Reason
    A column that a selector parks closed keeps its mobile phase. When the oven warms for the next
    method nothing can leave, and the pressure climbs by several bar for every degree. The same
    holds for a loop or a line between two closed valves.

Unsound
    kind: instrument
    closed_sections:
      - name: loop between both valves  # <- here
        holds: CO2
        closed_at: 8 degC
        closed_pressure: 200 bar
        pressure_rating: 250 bar

Sound
    kind: instrument
    closed_sections:
      - name: loop between both valves
        holds: CO2
        closed_at: 8 degC
        closed_pressure: 200 bar
        pressure_rating: 250 bar
        relief: 240 bar

Remedy
    Run the methods in order of falling oven temperature, or have the selector park columns
    vented; give a closed section a relief.

Source
    Density at constant composition: Span and Wagner, J. Phys. Chem. Ref. Data 25, 1509 (1996) for
    CO2, the mobile phase's own model otherwise. Rigid walls, so the pressure is an upper bound.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import BatchCase, Finding, NotChecked, bar, show
from methodlint.judging.ask.supply import Parked, locked_section, parked_columns

SUBJECT = "batch"
CLASSES = ("stop",)
NEEDS = ("batch",)


def applies(case: BatchCase) -> bool:
    """Only where a column can be parked, or a closed section is declared."""
    instrument = case.instrument
    columns = {run.documents["column"].name for run in case.runs.values() if run.column}
    sections = instrument is not None and bool(instrument.closed_sections)
    return sections or (
        len(columns) > 1 and instrument is not None and instrument.parked_columns != "vented"
    )


def judge(case: BatchCase) -> Iterator[Finding | NotChecked]:
    """Warm parked columns to the oven of the lines that follow, and closed sections."""
    instrument = case.instrument
    assert instrument is not None
    hottest = case.get("room.highest_temperature")
    warmest = hottest.si if hottest is not None else None
    yield from _sections(case, warmest)
    parked = list(parked_columns(case.batch, warmest))
    if not parked or instrument.parked_columns == "vented":
        return
    if instrument.parked_columns is None:
        yield case.not_checked("instrument", "instrument.parked_columns")
        return
    for column in parked:
        yield from _column(case, column)


def _column(case: BatchCase, parked: Parked) -> Iterator[Finding | NotChecked]:
    run, locked = case.runs[parked.method], parked.locked
    rating = run.get("column.pressure_rating")
    if rating is None or locked is None:
        missing = "column.pressure_rating" if rating is None else "method.mobile_phase.modifier"
        yield case.not_checked("instrument.parked_columns", missing)
        return
    if locked.pressure <= rating.si:
        return
    least = "at least " if locked.at_least else ""
    text = (
        "have the selector park columns vented, or run the methods in order of falling oven "
        "temperature"
    )
    yield case.finding(
        "instrument.parked_columns",
        "stop",
        f"column {parked.column} is parked closed with the mobile phase of {parked.method} at "
        f"{show(locked.closed_temperature, 'temperature')} and "
        f"{show(locked.closed_pressure, 'pressure')}; by line {parked.line + 1} it has warmed to "
        f"{show(locked.warmest, 'temperature')} and reaches {least}"
        f"{show(locked.pressure, 'pressure')}, rated {show(rating.si, 'pressure')} (margin "
        f"{show(rating.si - locked.pressure, 'pressure')})",
        found=bar(locked.pressure),
        limit=bar(rating.si),
        remedy=text,
        candidates=[case.candidate(text, case.change("instrument.parked_columns", "vented"))],
        also=(case.line_at(parked.line),),
        cautions=("pressure",),
    )


def _sections(case: BatchCase, room: float | None) -> Iterator[Finding | NotChecked]:
    instrument = case.instrument
    assert instrument is not None
    fluids = [run.run.fluid for run in case.runs.values() if run.rehearsal and run.run.done]
    for index, section in enumerate(instrument.closed_sections):
        place = f"instrument.closed_sections[{index}]"
        rating, relief = section.pressure_rating, section.relief
        if relief is not None and (rating is None or relief.si <= rating.si):
            continue
        warmest = section.warmest.si if section.warmest else room
        if rating is None or warmest is None:
            what = f"{place}.pressure_rating" if rating is None else "room.highest_temperature"
            yield case.not_checked(place, what)
            continue
        locked = locked_section(section, warmest, fluids[0] if fluids else None)
        if locked is None:
            reason = f"there is no model of the {section.holds} in it"
            yield case.not_checked(place, f"{place}.holds", reason)
        elif locked.pressure > rating.si:
            least = "at least " if locked.at_least else ""
            limit = show(rating.si, "pressure")
            text = f"give it a relief that opens at {limit} or below, or empty it before closing"
            yield case.finding(
                place,
                "stop",
                f"'{section.name}' locks in {section.holds} at "
                f"{show(locked.closed_temperature, 'temperature')} and "
                f"{show(locked.closed_pressure, 'pressure')}; warmed to "
                f"{show(warmest, 'temperature')} it reaches {least}"
                f"{show(locked.pressure, 'pressure')}, rated {limit} (margin "
                f"{show(rating.si - locked.pressure, 'pressure')})",
                found=bar(locked.pressure),
                limit=bar(rating.si),
                remedy=text,
                candidates=[case.candidate(text, case.change(f"{place}.relief", limit))],
                cautions=("pressure",),
            )
