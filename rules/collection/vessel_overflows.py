"""Every fraction vessel holds what is collected into it.

Reason
    Stacked injections collect into the same vessels for hours. One that is full spills product
    and solvent into an enclosure full of vapour.

Unsound
    kind: method
    purpose: preparative
    collection: {fractions: [{begins: 2 min, ends: 4 min}]}
    ---
    kind: instrument
    collector: {kind: open bed, vessels: 2, vessel_capacity: 1.5 mL}  # <- here

Sound
    kind: method
    purpose: preparative
    collection: {fractions: [{begins: 2 min, ends: 4 min}]}
    ---
    kind: instrument
    collector: {kind: open bed, vessels: 2, vessel_capacity: 500 mL}

Remedy
    Change the vessels as often as the message says, spread a fraction over several
    (`vessels_per_fraction`), or use larger ones.

Source
    Modifier and added liquid that pass while the valve is open (arithmetic); what the gas carries
    away is not taken off. 90 % of the capacity: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.collection import collected_in
from methodlint.judging.ask.rule import BatchCase, Finding, NotChecked, counted, millilitres, show

SUBJECT = "batch"
CLASSES = ("fault",)
NEEDS = ("batch", "instrument.collector")

_FULL = 0.9


def applies(case: BatchCase) -> bool:
    """A method of the sequence collects."""
    methods = [run.method for run in case.runs.values()]
    return any(method is not None and method.collection is not None for method in methods)


def judge(case: BatchCase) -> Iterator[Finding | NotChecked]:
    """Add up each fraction over all injections."""
    collector = case.get("instrument.collector")
    for name, run in case.runs.items():
        method = run.method
        if method is None or method.collection is None or run.rehearsal is None:
            continue
        found = collected_in(case.batch, name, run.rehearsal, method)
        if not found:
            continue
        each = method.collection.vessels_per_fraction
        needed = each * len(found)
        if collector.vessels is not None and needed > collector.vessels:
            yield case.finding(
                "instrument.collector.vessels",
                "fault",
                f"{name} collects {needed} vessels, {collector.vessels} are set out",
                remedy=f"set out {needed} vessels, or collect fewer fractions",
            )
        if collector.vessel_capacity is None:
            yield case.not_checked("instrument.collector", "instrument.collector.vessel_capacity")
            return
        capacity = _FULL * collector.vessel_capacity.si
        worst = max(found, key=lambda fraction: fraction.total)
        volume = worst.total / each
        if volume <= capacity:
            continue
        after = int(capacity * each / worst.liquid)
        yield case.finding(
            "instrument.collector.vessel_capacity",
            "fault",
            f"fraction {worst.index + 1} of {name} collects {show(worst.liquid, 'volume', 'mL')} "
            f"per injection, {show(volume, 'volume', 'mL')} in a vessel after "
            f"{worst.injections} injections; it may hold {show(capacity, 'volume', 'mL')}",
            found=millilitres(volume),
            limit=millilitres(capacity),
            remedy=f"change the vessels every {counted(after, 'injection')}"
            if after
            else "use larger vessels: one injection does not fit",
            also=(case.at(run.documents["method"], "collection"),),
        )
