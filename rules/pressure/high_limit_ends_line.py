"""A line with settings of its own stays below the pressure at which the pumps stop.

Reason
    A flush of neat liquid meets several times the pressure of the method. When the pumps stop at
    their high limit in the middle of it, the lines that follow are not run, and the column is left
    in whatever was in it.

Unsound
    kind: sequence
    lines:
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}
      - {kind: flush, liquid: 2-propanol, co2: "off", flow: 1.2 mL/min, duration: 10 min}  # <- here
      - {kind: shutdown, duration: 5 min, co2: "off", makeup: "off", source: "off"}

Sound
    kind: sequence
    lines:
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}
      - {kind: flush, liquid: 2-propanol, co2: "off", flow: 0.1 mL/min, duration: 2 h}
      - {kind: shutdown, duration: 5 min, co2: "off", makeup: "off", source: "off"}

Remedy
    Lower the flow of the line and give it more time.

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.pressure import cut_off, worst_against
from methodlint.judging.ask.rule import Finding, RunCase, bar, show

SUBJECT = "run"
LINES = True
CLASSES = ("caution",)
NEEDS = ("run",)


def applies(case: RunCase) -> bool:
    """The limit of a method's own run is judged where it is set."""
    return case.rehearsal is not None and case.rehearsal.plan.steady


def judge(case: RunCase) -> Iterator[Finding]:
    """Compare the pressure at the pumps with the lowest limit at which they stop."""
    limit = cut_off(case)
    if limit is None:
        return
    worst = worst_against(case.run, case.run.pump_pressure, limit[0], "fault")
    if worst is None or worst.close_only:
        return
    yield case.finding(
        "method.flow",
        "caution",
        f"the pump pressure {worst.words(case.run)} and the pumps stop at {show(limit[0], 'pressure')}: "
        f"{worst.margin()}; the lines after it are then not run",
        found=bar(worst.value),
        limit=bar(limit[0]),
        band=bar(worst.band),
        possible=worst.verdict.possible,
        also=(limit[1],),
    )
