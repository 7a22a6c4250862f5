"""The mobile phase lets light through at the wavelength that is measured.

Reason
    Below its cutoff a modifier absorbs; in a gradient the baseline then rises with its share,
    and noise with it. A constant composition only takes a part of the detector's range: an amine
    in the modifier at 220 nm is customary. Carbon dioxide is transparent, so a few per cent of
    modifier do little harm: 5 % methanol at 200 nm is workable. A diluent alone only shows in
    the front.

Unsound
    kind: method
    detectors:
      - {type: UV, cell: UV cell, wavelength: 195 nm, rate: 20 Hz, filter: 0.1 s}  # <- here

Sound
    kind: method
    detectors:
      - {type: UV, cell: UV cell, wavelength: 210 nm, rate: 20 Hz, filter: 0.1 s}

Sound, because there is little of the modifier
    kind: method
    programme: []
    mobile_phase: {modifier_share: 5 % v/v}
    detectors:
      - {type: UV, cell: UV cell, wavelength: 200 nm, rate: 20 Hz, filter: 0.1 s}

Remedy
    Measure at the wavelength that the message prints, or take a modifier with a lower cutoff.

Source
    Methanol, acetonitrile, 2-propanol, tetrahydrofuran, acids, triethylamine, ammonium salts:
    J. B. Li, LC-GC 10 (1992) 856, as reprinted in textbooks (unverified). Cutoffs and shifts by
    additives: tables of solvents for liquid chromatography (unverified). The figure is the least
    that the liquid absorbs: published values, else 1 in 1 cm below its cutoff and 10 where the
    liquid is a ketone or an aromatic. An additive whose absorbance below 210 nm is not published,
    such as diethylamine, is not checked there. A rise of 0.2 in 1 cm or a constant 0.5 a caution,
    1 a fault: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.detector import (
    ULTRAVIOLET,
    cell_of,
    least_absorbance,
    makeup_in_cell,
    row_absorbance,
    traces,
    unpublished_absorber,
)
from methodlint.judging.ask.flow import FilledRow, filled_rows
from methodlint.judging.ask.rule import Finding, Measure, NotChecked, RunCase, When, number, show

SUBJECT = "run"
CLASSES = ("fault", "caution")
NEEDS = ("method.detectors",)

_RISE, _CONSTANT, _FAULT = 20.0, 50.0, 100.0  # absorbance per metre, decadic
_LONGEST = 400  # nm
_READABLE = 200.0  # above it no detector tells one absorbance from another


def applies(case: RunCase) -> bool:
    """Only light through a cell is absorbed."""
    return next(traces(case, *ULTRAVIOLET), None) is not None


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Weigh what the liquids absorb by their share at every row of the programme."""
    assert case.method is not None
    rows = filled_rows(case.method)
    for index, detector in traces(case, *ULTRAVIOLET):
        at = f"method.detectors[{index}].wavelength"
        if detector.wavelength is None:
            yield case.not_checked(f"method.detectors[{index}]", at)
            continue
        makeup = makeup_in_cell(case, cell_of(case, detector))
        for liquid, place in ((case.method_liquid(), "mobile_phase.modifier"), (makeup, "makeup")):
            if liquid is not None and least_absorbance(liquid, detector.wavelength.si) is None:
                reason = "the ultraviolet cutoff of this liquid or of an additive is not known"
                yield case.not_checked(at, f"method.{place}", reason)
                break
        else:
            if any(row.share is None or row.flow is None for row in rows):
                lacks = "flow" if rows[0].flow is None else "mobile_phase.modifier_share"
                yield case.not_checked(at, f"method.{lacks}")
                continue
            yield from _judge(case, at, detector.wavelength.si, rows, makeup is not None)


def _unknown(case: RunCase, wavelength: float, with_makeup: bool) -> tuple[str, str] | None:
    """An additive that absorbs nobody has published how much, and where it is written."""
    makeup = case.method.makeup if case.method is not None and with_makeup else None
    for liquid, place in ((case.method_liquid(), "mobile_phase.modifier"), (makeup, "makeup")):
        name = unpublished_absorber(liquid, wavelength) if liquid is not None else None
        if name is not None:
            return name, f"method.{place}"
    return None


def _levels(
    case: RunCase, wavelength: float, rows: tuple[FilledRow, ...], with_makeup: bool
) -> list[float]:
    modifier = case.method_liquid()
    own = least_absorbance(modifier, wavelength) if modifier is not None else 0.0
    makeup = case.method.makeup if case.method is not None and with_makeup else None
    added = least_absorbance(makeup, wavelength) if makeup is not None else 0.0
    flow = makeup.flow.si if makeup is not None and makeup.flow is not None else 0.0
    return [row_absorbance(row, own or 0.0, added or 0.0, flow) for row in rows]


def _over(by: float) -> str:
    return f" ({number(by / 100.0, 2)} too much)" if by <= _READABLE else ""


def _workable(levels: list[float]) -> bool:
    return max(levels) - min(levels) < _RISE and max(levels) < _CONSTANT


def _judge(
    case: RunCase, at: str, wavelength: float, rows: tuple[FilledRow, ...], with_makeup: bool
) -> Iterator[Finding | NotChecked]:
    levels = _levels(case, wavelength, rows, with_makeup)
    highest = max(levels)
    unknown = _unknown(case, wavelength, with_makeup)
    if _workable(levels):
        if unknown is not None:
            name, place = unknown
            reason = (
                f"how much {name} absorbs at {show(wavelength, 'length', 'nm')} is not published "
                "here; measure a blank at this wavelength, or measure at 220 nm or above"
            )
            yield case.not_checked(at, place, reason)
        return
    usable = round(wavelength * 1e9)
    while usable < _LONGEST and (
        _unknown(case, usable * 1e-9, with_makeup) is not None
        or not _workable(_levels(case, usable * 1e-9, rows, with_makeup))
    ):
        usable += 1
    text = f"{usable} nm"
    rise = highest - min(levels)
    found, limit, what = (
        (rise, _RISE, "a rise of") if rise >= _RISE else (highest, _CONSTANT, "a constant")
    )
    when = rows[levels.index(highest)].time
    least = "more than 2" if highest > _READABLE else f"at least {number(highest / 100.0, 2)}"
    rises = (
        f", rising by {number(rise / 100.0, 2)} over the run"
        if 0.1 * highest < rise <= _READABLE
        else ""
    )
    yield case.finding(
        at,
        "fault" if highest >= _FAULT else "caution",
        f"at {show(wavelength, 'length', 'nm')} the mobile phase absorbs {least} "
        f"in 1 cm at {show(when, 'time', 'min')}{rises} (unverified data); "
        f"{what} {number(limit / 100.0, 2)} is workable"
        f"{_over(found - limit)}; "
        f"usable from {text}",
        found=Measure(min(found, _READABLE) / 100.0, "1/cm"),
        limit=Measure(limit / 100.0, "1/cm"),
        when=When(when, when),
        remedy=f"measure at {text} or above",
        candidates=[case.candidate(f"measure at {text}", case.change(at, text))],
        also=(case.at("method.mobile_phase.modifier"),),
    )
