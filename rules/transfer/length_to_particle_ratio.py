"""A transfer keeps the ratio of column length to particle size within -25 and +50 %.

Reason
    At the same reduced velocity the number of plates goes with length over particle size. Inside
    this span the harmonised chapter permits the change provided that the suitability test is met;
    outside it the critical pair may close, or the run takes longer than it needs.

Unsound
    kind: method
    purpose: regulated
    transferred_from: assay-on-long-column
    column: column  # <- here
    ---
    kind: method
    x-name: assay-on-long-column
    column: long-column
    ---
    kind: column
    x-name: long-column
    length: 250 mm
    ---
    kind: sequence
    purpose: regulated

Sound
    kind: method
    purpose: regulated
    transferred_from: assay-on-long-column
    ---
    kind: method
    x-name: assay-on-long-column
    column: long-column
    ---
    kind: column
    x-name: long-column
    length: 250 mm
    particle_size: 5 um

Remedy
    Take a column of a length inside the span that the finding gives, or smaller particles in
    the same hardware. Outside regulated work it is a note: a separation with plates in reserve
    may be shortened.

Source
    L/dp -25 to +50 %: USP <621> harmonised with Ph. Eur. 2.2.46 (second-hand), the LC table by
    analogy. The plate number in place of L/dp where the particles are superficially porous: the
    same chapter (second-hand).
"""

from collections.abc import Iterator

from methodlint.judging.ask.column import Column
from methodlint.judging.ask.rule import Finding, Measure, RunCase, show
from methodlint.judging.ask.transfer import length_span, plate_ratio

SUBJECT = "run"
CLASSES = ("fault", "note")
NEEDS = ("run", "source.run")

_LOWEST, _HIGHEST = 0.75, 1.50
_CHIRAL = (
    "coated polysaccharide",
    "immobilised polysaccharide",
    "brush-type chiral",
    "macrocyclic chiral",
)


def applies(case: RunCase) -> bool:
    """Only a transferred method has a column to compare with."""
    return case.transferred


def judge(case: RunCase) -> Iterator[Finding]:
    """Compare L/dp, or the plates measured where the particles are of different kinds."""
    source, target = case.comparison.beds
    ratio, words = plate_ratio(source, target), "L/dp"
    assert case.source is not None
    one, two = case.source.column, case.column
    if one is not None and two is not None and _by_plates(one, two):
        ratio, words = (two.plates or 1.0) / (one.plates or 1.0), "the plate number"
    if _LOWEST <= ratio * (1.0 + 1e-6) and ratio <= _HIGHEST * (1.0 + 1e-6):
        return
    low, high = length_span(source, target.particle_size, _LOWEST, _HIGHEST)
    # A chiral separation lives by its selectivity: plates are seldom what limits it.
    chiral = two is not None and two.phase in _CHIRAL
    regulated = case.purpose == "regulated"
    yield case.finding(
        "method.column",
        "fault" if regulated and not chiral else "note",
        f"{words} is {ratio:.2f} times that of the source's column "
        f"({source.length_to_particle:.0f} to {target.length_to_particle:.0f}); the span is "
        f"{_LOWEST:.2f} to {_HIGHEST:.2f}, inside which the chapter permits the change provided "
        "that suitability is met (second-hand; LC table by analogy)",
        found=Measure(ratio),
        limit=Measure(_LOWEST if ratio < _LOWEST else _HIGHEST),
        remedy=f"take a column of {show(low, 'length', 'mm')} to {show(high, 'length', 'mm')} with "
        f"particles of {show(target.particle_size, 'length', 'um')}",
        also=(case.source.at("method.column"),),
    )


def _by_plates(one: Column, two: Column) -> bool:
    shells = "superficially porous" in (one.particle_type, two.particle_type)
    return shells and one.plates is not None and two.plates is not None
