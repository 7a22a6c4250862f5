"""Controls test a calibration in three places of its range, and from a stock of their own.

Reason
    Three controls close together say nothing of the rest of the range. A control from the stock of
    the calibrators carries the same error of weighing, and passes.

Unsound
    kind: sequence
    purpose: bioanalysis
    lines:
      - {kind: calibrator, sample: C1, level: 1, plate: 1, well: B1, fill: 1 mL}
      - {kind: calibrator, sample: C2, level: 100, plate: 1, well: B2, fill: 1 mL}
      - {kind: control, sample: QL, control_level: lower, level: 20, plate: 1, well: C1, fill: 1 mL}  # <- here
      - {kind: control, sample: QM, control_level: middle, level: 40, plate: 1, well: C2, fill: 1 mL}
      - {kind: control, sample: QH, control_level: upper, level: 80, plate: 1, well: C3, fill: 1 mL}

Unsound, because both come from one stock
    kind: sequence
    purpose: bioanalysis
    lines:
      - {kind: calibrator, sample: C1, level: 1, stock: S-17, plate: 1, well: B1, fill: 1 mL}
      - {kind: control, sample: QL, control_level: lower, level: 3, stock: S-17, plate: 1, well: C1, fill: 1 mL}  # <- here

Sound
    kind: sequence
    purpose: bioanalysis
    lines:
      - {kind: calibrator, sample: C1, level: 1, stock: S-17, plate: 1, well: B1, fill: 1 mL}
      - {kind: calibrator, sample: C2, level: 100, stock: S-17, plate: 1, well: B2, fill: 1 mL}
      - {kind: control, sample: QL, control_level: lower, level: 3, stock: S-18, plate: 1, well: C1, fill: 1 mL}
      - {kind: control, sample: QM, control_level: middle, level: 40, stock: S-18, plate: 1, well: C2, fill: 1 mL}
      - {kind: control, sample: QH, control_level: upper, level: 80, stock: S-18, plate: 1, well: C3, fill: 1 mL}

Remedy
    Prepare the controls at the levels that the message gives, from a second stock; a stock that
    was compared with an independent one says so: `stock_verified: true`.

Source
    Low within three times the lowest level, middle at 30 to 50 % of the range, high at 75 % and
    above of the highest level; separate stocks unless verified: ICH M10 (step 4, 2022), sections
    3.2.4 and 3.3.2 (second-hand).
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import BatchCase, Finding, Measure, NotChecked
from methodlint.judging.ask.sequence import LineRun

SUBJECT = "batch"
PARTS = "purpose"
CLASSES = ("caution",)
NEEDS = ("sequence.lines", "sequence.lines[].level", "sequence.lines[].concentration")
TAGS = ("bioanalysis",)

_LOW, _MIDDLE, _HIGH = 3.0, (0.3, 0.5), 0.75
_HAIR = 1.0 + 1e-9


def applies(case: BatchCase) -> bool:
    """The guideline is one of bioanalysis."""
    return case.purpose == "bioanalysis"


def judge(case: BatchCase) -> Iterator[Finding | NotChecked]:
    """Place the controls of every method, then compare their stocks."""
    by_method: dict[str, list[LineRun]] = {}
    for line in case.batch.lines:
        if line.line.kind in ("calibrator", "control"):
            by_method.setdefault(line.method, []).append(line)
    for lines in by_method.values():
        standards = [line for line in lines if line.line.kind == "calibrator"]
        controls = [line for line in lines if line.line.kind == "control"]
        yield from _stocks(case, standards, controls)
        amounts: dict[str, list[float]] = {}
        for line in standards:
            for terms, value in _amounts(line):
                amounts.setdefault(terms, []).append(value)
        if amounts:
            yield from _places(case, controls, amounts)


def _amounts(line: LineRun) -> list[tuple[str, float]]:
    """What is told of a standard above zero, by the terms that it is told in."""
    level, amount = line.line.level, line.line.concentration
    found = [("level", float(level))] if level is not None else []
    found += [(amount.dimension, amount.si)] if amount is not None else []
    return [item for item in found if item[1] > 0.0]


def _places(
    case: BatchCase, controls: list[LineRun], amounts: dict[str, list[float]]
) -> Iterator[Finding | NotChecked]:
    seen = set()
    for line in controls:
        place = line.line.control_level
        if place is None or place in seen:
            continue
        seen.add(place)
        told = [(terms, value) for terms, value in _amounts(line) if terms in amounts]
        if not told:
            yield case.not_checked(
                case.line_at(line.index),
                f"sequence.lines[{line.index}].level",
                f"where the {place} control lies is not known in the calibrators' terms",
            )
            continue
        value = told[0][1]
        lowest, highest = min(amounts[told[0][0]]), max(amounts[told[0][0]])
        least, most, words = _span(place, lowest, highest)
        if not least / _HAIR <= value <= most * _HAIR:
            yield case.finding(
                case.line_at(line.index),
                "caution",
                f"the {place} control is at {value / lowest:.3g} times the lowest level, "
                f"{value / highest:.0%} of the highest; it belongs at {words}: "
                f"{least / lowest:.3g} to {most / lowest:.3g} times the lowest",
                found=Measure(value / lowest),
                limit=Measure((least if value < least else most) / lowest),
                remedy=f"prepare it at {least / lowest:.3g} to {most / lowest:.3g} times the lowest "
                "level",
            )


def _span(place: str, lowest: float, highest: float) -> tuple[float, float, str]:
    if place == "lower":
        return lowest, _LOW * lowest, "at most three times the lowest level"
    if place == "upper":
        return _HIGH * highest, highest, "75 % and more of the highest level"
    low, high = (lowest + part * (highest - lowest) for part in _MIDDLE)
    return low, high, "30 to 50 % of the range"


def _stocks(
    case: BatchCase, standards: list[LineRun], controls: list[LineRun]
) -> Iterator[Finding]:
    verified = {line.line.stock for line in (*standards, *controls) if line.line.stock_verified}
    own = {line.line.stock for line in standards} - {None} - verified
    for line in controls:
        if line.line.stock in own:
            yield case.finding(
                case.line_at(line.index),
                "caution",
                f"calibrators and controls are made from one stock, '{line.line.stock}'",
                remedy="make the controls from a second stock, or compare the stock with one",
            )
            return
