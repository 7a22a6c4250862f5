"""The pressure at the column inlet stays below the column's rating.

Reason
    The highest pressure comes when the richest mobile phase has *filled* the column, which is
    later than the programme says by the dwell and the column itself; raising the flow again
    while rich mobile phase is still inside is the same mistake. A column pressed beyond its
    rating loses its bed or its fittings, and fittings under pressure let go.

Unsound
    kind: column
    pressure_rating: 250 bar  # <- here

Unsound, because neat liquid is pumped at a flow for CO2
    kind: sequence
    lines:
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}
      - {kind: flush, liquid: ethanol, co2: "off", flow: 3 mL/min, duration: 5 min}  # <- here
      - {kind: shutdown, duration: 5 min, co2: "off", makeup: "off", source: "off"}

Sound
    kind: column
    pressure_rating: 400 bar

Sound, because the flush is slow
    kind: sequence
    lines:
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}
      - {kind: flush, liquid: ethanol, co2: "off", flow: 0.3 mL/min, duration: 50 min}
      - {kind: shutdown, duration: 5 min, co2: "off", makeup: "off", source: "off"}

Sound, because what the card gives is a limit of the drop
    kind: column
    pressure_rating: 400 bar
    drop_rating: 200 bar

Remedy
    Lower the flow while the rich mobile phase is in the column, lower the outlet pressure if
    the phase boundary allows, or choose a column with larger particles.

Source
    Limit: the column card. Caution above 0.9 of the rating: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.pressure import cut_off_protects, lower_outlet, slower, worst_against
from methodlint.judging.ask.rule import Finding, RunCase, bar, show

SUBJECT = "run"
LINES = True
CLASSES = ("stop", "caution")
NEEDS = ("run", "column.pressure_rating")
CAUSES = (
    "pressure.column-drop-exceeded",
    "pressure.component-rating-exceeded",
    "pressure.high-limit-ends-line",
    "pressure.pump-envelope-exceeded",
    "pressure.shock-at-start-or-valve",
)


def judge(case: RunCase) -> Iterator[Finding]:
    """Compare the highest inlet pressure of the whole cycle with the rating."""
    run = case.run
    rating = case.get("column.pressure_rating").si
    protected = cut_off_protects(case, rating)
    worst = worst_against(run, run.column_inlet_pressure, rating, "stop", protected=protected)
    if worst is None:
        return
    share = 100.0 * float(run.share[worst.row].max())
    yield case.finding(
        "column.pressure_rating",
        worst.verdict.grade,
        f"the column inlet {worst.words(run)} with {share:.0f} % modifier in the column; it is "
        f"rated {show(rating, 'pressure')}: {worst.margin()}",
        found=bar(worst.value),
        limit=bar(rating),
        band=bar(worst.band),
        band_below=bar(worst.below),
        when=worst.when,
        possible=worst.verdict.possible,
        first=worst.measure_first(run),
        remedy="lower the flow while the rich mobile phase is in the column",
        candidates=slower(case, worst.when) + lower_outlet(case),
        also=(case.at("method.outlet_pressure"),),
        cautions=("pressure",),
    )
