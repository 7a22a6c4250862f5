"""The pressure at the column inlet stays below the column's rating.

Reason
    The highest pressure comes when the richest mobile phase has *filled* the column, which is
    later than the programme says by the dwell and the column itself. A column pressed beyond
    its rating loses its bed or its fittings, and fittings under pressure let go.

Unsound
    kind: column
    pressure_rating: 250 bar  # <- here

Sound
    kind: column
    pressure_rating: 400 bar

Put right
    Lower the flow while the rich mobile phase is in the column, lower the outlet pressure if
    the phase boundary allows, or choose a column with larger particles.

Source
    Limit: the column card. Caution above 0.9 of the rating: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.for_rules import Finding, RunCase, When, bar, judge_limit, show

SUBJECT = "run"
CLASSES = ("stop", "caution")
NEEDS = ("run", "column.pressure_rating")
CAUSES = ("pressure.component-rating-exceeded",)

_CAUTION_ABOVE = 0.9
_LOWER_FLOWS = (0.9, 0.8, 0.7, 0.6, 0.5)


def judge(case: RunCase) -> Iterator[Finding]:
    """Compare the highest inlet pressure of the whole cycle with the rating."""
    run = case.run
    rating = case.get("column.pressure_rating").si
    worst = run.highest(run.column_inlet_pressure)
    verdict = judge_limit(worst.value, rating, worst.band, "stop")
    if verdict is None:
        verdict = judge_limit(worst.value, _CAUTION_ABOVE * rating, 0.0, "caution")
    if verdict is None:
        return
    certain = "" if verdict.grade == "caution" else ("possibly " if verdict.possible else "")
    yield case.finding(
        "column.pressure_rating",
        verdict.grade,
        f"column inlet {certain}reaches {show(worst.value, 'pressure')} "
        f"(band {show(worst.band, 'pressure')}) at {show(worst.time, 'time', 'min')}, "
        f"the column is rated {show(rating, 'pressure')}: "
        f"{show(rating - worst.value, 'pressure')} left",
        found=bar(worst.value),
        limit=bar(rating),
        band=bar(worst.band),
        when=When(worst.time, worst.time),
        possible=verdict.possible,
        remedy="lower the flow while the rich mobile phase is in the column",
        candidates=_candidates(case),
        also=(case.at("method.outlet_pressure"),),
        cautions=("pressure",),
    )


def _candidates(case: RunCase):  # type: ignore[no-untyped-def]
    flow = case.get("method.flow")
    if flow is None or any(row.flow is not None for row in case.method.programme):
        return []
    found = []
    for part in _LOWER_FLOWS:
        text = show(flow.si * part, "volume flow", "mL/min")
        change = case.change("method.flow", text)
        found.append(case.candidate(f"set the flow to {text}", change))
    return found
