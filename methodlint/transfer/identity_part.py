"""What the proposed method is called, where it runs, and what must not come along."""

from __future__ import annotations

from methodlint.scaling.allowances import Name as AllowanceName
from methodlint.transfer.draft import Draft
from methodlint.transfer.sides import Sides
from methodlint.transfer.text_edits import as_scalar

__all__ = ["draft_identity"]


def draft_identity(
    draft: Draft,
    sides: Sides,
    allowances: AllowanceName,
    flow_reason: str,
    verification: tuple[str, str],
) -> None:
    """Write column, instrument and origin; take out approval, deviations, measured pressures."""
    method = sides.typed
    target = sides.target
    if not sides.same_column:
        old = method.column if isinstance(method.column, str) else ", ".join(method.column or ())
        draft.words(
            "column",
            ("column",),
            old,
            as_scalar(target.columns[-1].name),
            "derived",
            "as asked for",
        )
    runs_on = f"[{as_scalar(target.instrument.name)}]"
    old = f"[{', '.join(as_scalar(name) for name in method.runs_on)}]"
    draft.words("runs on", ("runs_on",), old, runs_on, "derived", "as asked for")
    notes = [f"source_instrument: {as_scalar(sides.source.instrument.name)}"]
    notes.append(f"allowances: {allowances}")
    if flow_reason:
        notes.append(f"flow_reason: {as_scalar(flow_reason)}")
    notes.append(f"verification: [{', '.join(as_scalar(name) for name in verification)}]")
    edits = draft.edits
    if edits.has(("transfer",)):
        edits.comment_out(("transfer",), "the transfer before this one")
    lines = [f"transfer: {{{', '.join(notes)}}}"]
    origin = as_scalar(sides.method.name)
    if edits.has(("transferred_from",)):
        edits.set(("transferred_from",), origin)
        edits.add_behind("transfer" if edits.has(("transfer",)) else "transferred_from", lines)
    else:
        anchor = "runs_on" if edits.has(("runs_on",)) else "kind"
        edits.add_behind(anchor, [f"transferred_from: {origin}", *lines])
    if method.status is not None and method.status != "draft":
        draft.words("status", ("status",), method.status, "draft", "derived", "not yet verified")
    if method.edition is not None and str(method.edition) != "1":
        draft.words(
            "edition", ("edition",), str(method.edition), "1", "derived", "a document of its own"
        )
    for key, why in (
        ("approval", "not carried over, it is the source's"),
        ("deviations", "not carried over, approved for the source"),
    ):
        if edits.has((key,)):
            edits.comment_out((key,), why)
            draft.figure(key, "given", "", "none", "derived", why)
    same = sides.same_column and sides.source.instrument.path == target.instrument.path
    if edits.has(("measured_pressures",)) and not same:
        edits.comment_out(("measured_pressures",), "not carried over, read on the source")
    if method.oven_temperature is not None:
        draft.kept(
            "oven temperature",
            ("oven_temperature",),
            method.oven_temperature.text,
            "kept: 40 to 50 degC at 120 bar moves the density of neat CO2 by 19 %",
        )
