"""Every expected ion lies in the range that is scanned, with the polarity that is set.

Reason
    An ion outside the range, or of the other polarity, is never recorded; the run looks clean.

Unsound
    kind: method
    expected_peaks: [{name: analyte A, ion: 650.4, polarity: positive}]
    detectors:
      - {type: MS, source: ESI, polarity: positive, rate: 10 Hz, scan: [100, 600]}  # <- here

Sound
    kind: method
    expected_peaks: [{name: analyte A, ion: 650.4, polarity: positive}]
    detectors:
      - {type: MS, source: ESI, polarity: positive, rate: 10 Hz, scan: [100, 800]}

Sound, because a doubly charged ion is given by its m/z
    kind: method
    expected_peaks: [{name: dimer, ion: 451.3, polarity: positive}]
    detectors:
      - {type: MS, source: ESI, polarity: positive, rate: 10 Hz, scan: [100, 600]}

Remedy
    Widen the range or set the polarity. The ion is given as m/z, charge state and adduct
    included.

Source
    Common practice, no source.
"""

import math
from collections.abc import Iterator

from methodlint.judging.ask.detector import traces
from methodlint.judging.ask.rule import Finding, Measure, NotChecked, RunCase, number

SUBJECT = "run"
CLASSES = ("fault",)
NEEDS = ("method.detectors",)


def applies(case: RunCase) -> bool:
    """Only where a range or a polarity is set."""
    return any(detector.scan or detector.polarity for _, detector in traces(case, "MS"))


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Hold the peaks' ions and polarities against each mass spectrometer."""
    assert case.method is not None
    peaks = case.method.expected_peaks
    for index, detector in traces(case, "MS"):
        at = f"method.detectors[{index}]"
        if detector.scan is not None and peaks and all(peak.ion is None for peak in peaks):
            yield case.not_checked("method.expected_peaks", "method.expected_peaks[0].ion")
        if detector.scan is not None:
            yield from _range(case, at, detector.scan)
        yield from _polarity(case, at, detector.polarity)


def _range(case: RunCase, at: str, scan: tuple[float, float]) -> Iterator[Finding]:
    assert case.method is not None
    low, high = scan
    outside = [
        (index, peak, peak.ion)
        for index, peak in enumerate(case.method.expected_peaks)
        if peak.ion is not None and not low <= peak.ion <= high
    ]
    if not outside:
        return
    ions = [ion for _, _, ion in outside]
    wider = [min(low, math.floor(min(ions) - 5.0)), max(high, math.ceil(max(ions) + 5.0))]
    changes = [
        case.change(f"{at}.scan[{end}]", float(wider[end]))
        for end in (0, 1)
        if wider[end] != scan[end]
    ]
    text = f"scan from {wider[0]:g} to {wider[1]:g}"
    first = outside[0]
    beyond = first[2] - high if first[2] > high else low - first[2]
    yield case.finding(
        f"{at}.scan",
        "fault",
        f"the range m/z {low:g} to {high:g} misses "
        + ", ".join(f"'{peak.name}' at {ion:g}" for _, peak, ion in outside)
        + f": {number(beyond, 3)} outside",
        found=Measure(first[2]),
        limit=Measure(high if first[2] > high else low),
        remedy=text,
        candidates=[case.candidate(text, *changes)],
        also=(case.at(f"method.expected_peaks[{first[0]}].ion"),),
    )


def _polarity(case: RunCase, at: str, polarity: str | None) -> Iterator[Finding]:
    assert case.method is not None
    if polarity in (None, "both"):
        return
    transitions = case.get(f"{at}.transitions") or ()
    if any(item.polarity is not None and item.polarity != polarity for item in transitions):
        return  # the transitions switch by themselves
    other = [
        (index, peak)
        for index, peak in enumerate(case.method.expected_peaks)
        if peak.polarity is not None and peak.polarity != polarity
    ]
    if not other:
        return
    every = len(other) == len(case.method.expected_peaks)
    wanted = str(other[0][1].polarity) if every else "both"
    yield case.finding(
        f"{at}.polarity",
        "fault",
        f"polarity is {polarity}; {', '.join(f'{peak.name!r}' for _, peak in other)} "
        f"{'gives' if len(other) == 1 else 'give'} {other[0][1].polarity} ions",
        remedy=f"set the polarity to {wanted}",
        candidates=[
            case.candidate(f"set the polarity to {wanted}", case.change(f"{at}.polarity", wanted))
        ],
        also=(case.at(f"method.expected_peaks[{other[0][0]}].polarity"),),
    )
