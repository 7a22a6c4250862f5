"""Both pumps reach the pressure that the run asks for at their flows.

Reason
    What a pump reaches depends on its flow. The start of a gradient looks easy; the worst moment
    is the end of it plus dwell plus the time to fill the column, when the richest mobile phase
    is in the bed.

Unsound
    kind: instrument
    co2_pump:
      envelope:  # <- here
        - {flow: 1 mL/min, pressure: 280 bar}
        - {flow: 5 mL/min, pressure: 150 bar}

Sound
    kind: instrument
    co2_pump:
      envelope:
        - {flow: 1 mL/min, pressure: 550 bar}
        - {flow: 5 mL/min, pressure: 380 bar}

Remedy
    Lower the flow while the rich mobile phase is in the column.

Source
    Envelope: the instrument card. Caution above 0.9 of it: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.pressure import (
    CLOSE,
    Excess,
    PumpLimit,
    cut_off,
    lower_outlet,
    pump_limits,
    slower,
    worst_against,
)
from methodlint.judging.ask.rule import At, Finding, NotChecked, RunCase, bar, path_text, show

SUBJECT = "run"
LINES = True
CLASSES = ("stop", "fault", "caution")
NEEDS = ("run", "instrument.co2_pump")
CAUSES = ("pressure.high-limit-ends-line",)


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Compare the pressure at the pumps with what each of them reaches at its own flow."""
    over: list[tuple[Excess, PumpLimit]] = []
    for pump in pump_limits(case.run):
        if pump.pressure is None:
            where = f"instrument.{path_text(pump.path)}"
            yield case.not_checked("instrument", where, pump.reason)
            continue
        worst = worst_against(
            case.run,
            case.run.pump_pressure,
            pump.pressure,
            "fault" if cut_off(case) else "stop",
        )
        if worst is not None:
            over.append((worst, pump))
    if over:
        over.sort(key=lambda one: one[0].limit - one[0].value)
        yield _finding(case, *over[0], [pump.name for _, pump in over[1:]])


def _finding(case: RunCase, worst: Excess, pump: PumpLimit, others: list[str]) -> Finding:
    run, row = case.run, worst.row
    assert pump.pressure is not None
    beyond = run.pump_pressure > (CLOSE if worst.close_only else 1.0) * pump.pressure
    first = int(beyond.argmax()) if beyond.any() else row
    share = [100.0 * float(run.share[at].max()) for at in (row, first)]
    begins = show(float(run.time[first]), "time", "min")
    own = show(float(pump.flow[row]), "volume flow", "mL/min")
    reach = (
        f"it reaches {show(worst.limit, 'pressure')} at its flow of {own}"
        if worst.limit > 0.0
        else f"its envelope ends below its flow of {own}"
    )
    return case.finding(
        At(case.documents["instrument"], pump.path),
        worst.verdict.grade,
        f"the {pump.name} {worst.words(run)} with {share[0]:.0f} % modifier in the train; "
        f"{reach}: {worst.margin()}"
        + ("" if run.plan.steady else f"; first at {begins} with {share[1]:.0f} %")
        + "".join(f"; the {other} as well" for other in others)
        + ("" if cut_off(case) else "; no high limit stops the pumps"),
        found=bar(worst.value),
        limit=bar(worst.limit),
        band=bar(worst.band),
        band_below=bar(worst.below),
        when=worst.when,
        possible=worst.verdict.possible,
        first=worst.measure_first(run),
        remedy="lower the flow while the rich mobile phase is in the column",
        candidates=slower(case, worst.when) + lower_outlet(case),
        also=(case.at("method.flow"),),
        cautions=("pressure",) if worst.verdict.grade == "stop" else (),
    )
