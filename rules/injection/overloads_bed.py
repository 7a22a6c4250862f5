"""The mass injected is small compared with the mass of packing.

Reason
    An overloaded bed gives fronting or tailing triangles, retention falls, and neighbours run into
    each other. Preparative work overloads on purpose, up to a few per cent of the packing.

Unsound
    kind: method
    purpose: preparative
    injection: {volume: 2 mL, mode: metered, stream: modifier, sample_concentration: 50 mg/mL}  # <- here
    ---
    kind: sequence
    purpose: preparative

Sound
    kind: method
    injection: {volume: 2 uL, mode: metered, stream: modifier, sample_concentration: 1 mg/mL}

Remedy
    Inject less or more dilute, or use a wider column. `mass_load` in the lab's policy sets
    another limit for preparative work.

Source
    0.1 % of the packing in analysis, 2 % in preparative work, 0.6 g of packing per mL of column:
    common practice, no source.
"""

import math
from collections.abc import Iterator

from methodlint.judging.ask.collection import bed_mass
from methodlint.judging.ask.rule import Finding, Grade, NotChecked, RunCase, percent, show

SUBJECT = "run"
CLASSES = ("caution", "note")
NEEDS = (
    "method.injection.volume",
    "method.injection.sample_concentration",
    "column.length",
    "column.inner_diameter",
)

_ANALYTICAL, _PREPARATIVE = 1e-3, 0.02


def applies(case: RunCase) -> bool:
    """The concentration of what is injected is stated."""
    return case.get("method.injection.sample_concentration") is not None


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Compare sample and packing."""
    level = case.get("method.injection.sample_concentration")
    if level.dimension != "mass concentration":
        at = "method.injection.sample_concentration"
        yield case.not_checked(at, at, "a mass per volume is needed, such as 50 mg/mL")
        return
    packing = bed_mass(case.get("column.length").si, case.get("column.inner_diameter").si)
    sample = level.si * case.get("method.injection.volume").si
    preparative = case.purpose == "preparative"
    own = case.policy.mass_load
    limit = (own.si if own is not None else _PREPARATIVE) if preparative else _ANALYTICAL
    if sample <= limit * packing:
        return
    grade: Grade = "caution" if preparative else "note"
    yield case.finding(
        "method.injection.volume",
        grade,
        f"{show(sample, 'mass')} of sample are injected on about {show(packing, 'mass', 'g')} of "
        f"packing, {show(sample / packing, 'share')} (limit {show(limit, 'share')})",
        found=percent(sample / packing),
        limit=percent(limit),
        remedy=f"inject at most {math.floor(1e9 * limit * packing / level.si)} uL, or use a wider "
        "column",
        also=(case.at("column.inner_diameter"),),
    )
