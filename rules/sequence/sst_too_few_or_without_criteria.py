"""Suitability has enough replicates, and limits for at least two of what it measures.

Reason
    A spread taken from two or three injections says little, and a suitability test without limits
    cannot fail. What spread an assay may have follows from its upper limit of content and from the
    number of injections; impurities near a reporting threshold need a signal above the noise.

Unsound
    kind: sequence
    lines:
      - {kind: suitability, sample: SST, plate: 1, well: A3, fill: 1 mL, count: 2}  # <- here
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}

Unsound, because there is only one limit
    kind: method
    suitability: {replicates: 5, resolution: 1.5, tailing: null, rsd: null}  # <- here

Unsound, because 2 % are too wide for a content of 98 to 102 %
    kind: method
    purpose: regulated
    suitability: {replicates: 6, resolution: 1.5, rsd: 2 %, content_margin: 2 %}  # <- here
    ---
    kind: sequence
    purpose: regulated
    lines:
      - {kind: suitability, sample: SST, plate: 1, well: A3, fill: 1 mL, count: 6}

Unsound, because nothing says that the smallest impurity is seen
    kind: method
    suitability: {replicates: 5, resolution: 1.5, tailing: 1.8, reporting_threshold: 0.05 %}  # <- here

Sound
    kind: sequence
    lines:
      - {kind: suitability, sample: SST, plate: 1, well: A3, fill: 1 mL, count: 5}
      - {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}

Remedy
    Inject it five times, six where the limit of the spread is above 2 %, and give limits for two
    of resolution, tailing, plates, spread and signal to noise: 10 at the reporting threshold.

Source
    Five replicates up to 2 %, six above; spread by content and injections; signal to noise of 10
    at the reporting threshold: USP <621> harmonised with Ph. Eur. 2.2.46 (unverified). Two limits:
    common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import BatchCase, Finding, Measure, RunCase, counted, percent
from methodlint.judging.ask.sequence import highest_spread

SUBJECT = "batch"
CLASSES = ("caution",)
NEEDS = ("sequence.lines", "sequence.lines[].count")

_REPLICATES = 5
_REPLICATES_ABOVE = 6
_SPREAD = 0.02
_LIMITS = ("resolution", "tailing", "plates", "rsd", "signal_to_noise")
_LIMITS_WANTED = 2
_SIGNAL = 10.0
_FREE = ("research", "screening")


def judge(case: BatchCase) -> Iterator[Finding]:
    """Count the replicates before the first sample of every method, and its limits."""
    counts: dict[str, int] = {}
    places: dict[str, int] = {}
    closed: set[str] = set()
    for line in case.batch.lines:
        if line.line.kind == "sample":
            closed.add(line.method)
        elif line.line.kind == "suitability" and line.method not in closed:
            counts[line.method] = counts.get(line.method, 0) + line.injections
            places.setdefault(line.method, line.index)
    for name, count in counts.items():
        run = case.runs.get(name)
        if run is None or run.method is None:
            continue
        suitability = run.method.suitability
        if suitability is not None and suitability.calibrators_serve:
            continue
        wanted = _wanted(case, run)
        if count < wanted:
            yield case.finding(
                case.line_at(places[name]),
                "caution",
                f"suitability is injected {count} times before the samples, {wanted} are recommended",
                found=Measure(count),
                limit=Measure(wanted),
                remedy=f"set count: {wanted}",
            )
        yield from _of_assay(case, run, count)
        given = [key for key in _LIMITS if suitability and getattr(suitability, key) is not None]
        if len(given) < _LIMITS_WANTED:
            where = "suitability" if suitability is not None else ""
            yield case.finding(
                case.at(run.documents["method"], where),
                "caution",
                f"suitability has {counted(len(given), 'limit')} ({', '.join(given) or 'none'}), "
                f"{_LIMITS_WANTED} are recommended",
                found=Measure(len(given)),
                limit=Measure(_LIMITS_WANTED),
                remedy=f"give limits for two of {', '.join(_LIMITS)}",
            )


def _of_assay(case: BatchCase, run: RunCase, count: int) -> Iterator[Finding]:
    """The spread that suits the limit of content, and a signal at the reporting threshold."""
    suits = run.method.suitability if run.method is not None else None
    if suits is None:
        return
    method = run.documents["method"]
    content, spread = suits.content_margin, suits.rsd
    most = highest_spread(content.si, count) if content is not None else None
    if (
        case.purpose not in _FREE
        and most
        and content
        and spread
        and spread.si > most * (1.0 + 1e-3)
    ):
        yield case.finding(
            case.at(method, "suitability.rsd"),
            "caution",
            f"a spread of {spread.text} over {count} injections is too wide for a content up to "
            f"{content.text} above 100 %: {100 * most:.2g} % suits it (unverified)",
            found=percent(spread.si),
            limit=percent(most),
            remedy=f"limit the spread to {100 * most:.2g} %",
        )
    least, threshold = suits.signal_to_noise, suits.reporting_threshold
    if threshold is not None and (least is None or least < _SIGNAL):
        said = "no limit of signal to noise" if least is None else f"{least:g} of signal to noise"
        yield case.finding(
            case.at(method, "suitability.reporting_threshold"),
            "caution",
            f"{said} where impurities are reported from {threshold.text} on; {_SIGNAL:g} is asked "
            "for (unverified)",
            remedy=f"write signal_to_noise: {_SIGNAL:g}, measured at the threshold",
        )


def _wanted(case: BatchCase, run: RunCase) -> int:
    if case.policy.suitability_replicates is not None:
        return case.policy.suitability_replicates
    suitability = run.method.suitability if run.method is not None else None
    if suitability is None:
        return _REPLICATES
    if suitability.replicates is not None:
        return max(suitability.replicates, _REPLICATES)
    spread = suitability.rsd
    return _REPLICATES_ABOVE if spread is not None and spread.si > _SPREAD else _REPLICATES
