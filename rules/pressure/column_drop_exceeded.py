"""The pressure drop over the column stays below what its bed allows.

Reason
    Compressible or wide-pore phases often state a highest *difference* from inlet to outlet, well under
    the rating of the tube. The bed settles or breaks long before the tube does. A rating of the
    tube says nothing about the bed and is not used for it.

Unsound
    kind: column
    drop_rating: 90 bar  # <- here

Sound
    kind: column
    drop_rating: 350 bar

Remedy
    Lower the flow while the rich mobile phase is in the column; the outlet pressure changes
    nothing.

Source
    Limit: the column card. Caution above 0.9 of it: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.pressure import slower, worst_against
from methodlint.judging.ask.rule import Finding, RunCase, bar, show

SUBJECT = "run"
LINES = True
CLASSES = ("fault", "caution")
NEEDS = ("run", "column.drop_rating")


def judge(case: RunCase) -> Iterator[Finding]:
    """Compare the highest drop over the column of the card with its limit."""
    run = case.run
    limit = case.get("column.drop_rating").si
    drop = run.drop_over(run.plan.analytical_column)
    worst = worst_against(run, drop, limit, "fault", band=run.drop_band(drop))
    if worst is None:
        return
    share = 100.0 * float(run.share[worst.row].max())
    yield case.finding(
        "column.drop_rating",
        worst.verdict.grade,
        f"the drop over the column {worst.words(run)} with {share:.0f} % modifier in it; its bed "
        f"allows {show(limit, 'pressure')}: {worst.margin()}",
        found=bar(worst.value),
        limit=bar(limit),
        band=bar(worst.band),
        band_below=bar(worst.below),
        when=worst.when,
        possible=worst.verdict.possible,
        first=worst.measure_first(run),
        remedy="lower the flow while the rich mobile phase is in the column",
        candidates=slower(case, worst.when),
        also=(case.at("method.flow"),),
    )
