"""The column of a transferred method has the chemistry of the column that it comes from.

Reason
    Ligand or selector, the way it is bound, and the particle decide selectivity. Scaling moves
    a separation between sizes of one phase, never between phases.

Unsound
    kind: method
    transferred_from: assay-on-cyano
    column: column  # <- here
    ---
    kind: method
    x-name: assay-on-cyano
    column: cyano-column
    ---
    kind: column
    x-name: cyano-column
    selector: cyanopropyl

Sound
    kind: method
    transferred_from: assay-on-longer-diol
    ---
    kind: method
    x-name: assay-on-longer-diol
    column: longer-column
    ---
    kind: column
    x-name: longer-column
    length: 200 mm

Remedy
    Take a column of the same phase, or write where the data of the equivalence are:
    `transfer: {equivalence: ...}`, or the source's `equivalent_columns`.

Source
    Same substituent identity: USP <621> harmonised with Ph. Eur. 2.2.46 (second-hand).
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import Finding, NotChecked, RunCase

SUBJECT = "run"
CLASSES = ("fault",)
NEEDS = ("method.column", "source.method.column", "column", "source.column")

_FIELDS = (
    ("phase", "class of phase"),
    ("selector", "ligand or selector"),
    ("particle_type", "particle"),
)


def applies(case: RunCase) -> bool:
    """Silent where the data of an equivalence are on record."""
    if not case.transferred or case.method is None:
        return False
    return not (case.method.transfer is not None and case.method.transfer.equivalence)


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Compare both cards field by field."""
    assert case.source is not None
    one, two = case.source.column, case.column
    own = case.documents["column"].name
    source = case.source.method
    if one is None or two is None or case.source.documents["column"].name == own:
        return
    if source is not None and own in source.equivalent_columns:
        return
    differs = []
    for key, words in _FIELDS:
        before, now = getattr(one, key), getattr(two, key)
        if before is None and now is None:
            continue
        if before is None or now is None:
            card = case.at("column") if now is None else case.source.at("column")
            yield case.not_checked(card, f"column.{key}", f"{words} of both columns")
        elif _plain(str(before)) != _plain(str(now)):
            differs.append(f"{words}: {before} -> {now}")
    if differs:
        yield case.finding(
            "method.column",
            "fault",
            f"another chemistry than the source's column {case.source.documents['column'].name}: "
            + "; ".join(differs),
            remedy="take a column of the same phase, or record the data under transfer.equivalence",
            also=(case.source.at("method.column"),),
        )


def _plain(text: str) -> str:
    return " ".join(text.lower().split())
