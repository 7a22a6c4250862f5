"""The sound lab of the sweep: a day's batch and a method with makeup and mass spectrometer."""

from __future__ import annotations

import contextlib
from collections.abc import Iterator
from functools import cache
from typing import Any

from methodlint.checking import check
from methodlint.checking.report import Report
from methodlint.documents.library import MemoryLibrary
from methodlint.documents.loading import Loaded
from methodlint.judging.loader import Rule, built_in_rules
from tests.sweep.edits import Edit, edits
from tests.text_labs import TextLab, _loaded, as_yaml, example

BATCH, METHOD = "sequence/triazole-day-batch", "method/sulfonamides-in-honey"
_LINES = frozenset({0, 1, 2, 3, 13, 28, 29})
"""One line of each kind; the others repeat them."""


@cache
def lab() -> TextLab:
    """Texts of the example lab."""
    return example(BATCH)


@cache
def _own() -> dict[str, Loaded]:
    return {key: _loaded(key, text) for key, text in lab().texts.items()}


@cache
def documents() -> dict[str, tuple[str, ...]]:
    """Documents that are edited, with what is judged anew for each."""
    of_method = example(METHOD).meant
    found = dict.fromkeys(lab().meant.values(), (BATCH,))
    found |= {of_method["column"]: (METHOD,), METHOD: (METHOD,)}
    for shared in ("instrument", "lab"):
        found[lab().meant[shared]] = (BATCH, METHOD)
    return found


@cache
def data(document: str) -> dict[str, Any]:
    """Plain data of a document as it is."""
    plain: dict[str, Any] = lab().plain(document)
    return plain


def all_edits() -> Iterator[Edit]:
    """Every edit of the sweep."""
    for document in documents():
        for edit in edits(document, data(document)):
            line = edit.steps[1] if edit.steps[0] == "lines" and len(edit.steps) > 1 else 0
            if document != BATCH or line in _LINES:
                yield edit


@contextlib.contextmanager
def without_remedies() -> Iterator[None]:
    """Judge without trying remedies, which change no verdict."""
    own = check.add_remedies
    check.add_remedies = lambda *arguments: None  # type: ignore[assignment]
    try:
        yield
    finally:
        check.add_remedies = own


def judged(edit: Edit | None = None, rules: tuple[Rule, ...] | None = None) -> Report:
    """Judge the lab with one edit; documents that are not edited are read once."""
    loaded, targets = dict(_own()), (BATCH, METHOD)
    if edit is not None:
        text = as_yaml(edit.applied(data(edit.document)))
        loaded[edit.document] = _loaded(edit.document, text)
        targets = documents()[edit.document]
    library = MemoryLibrary(
        {(one.kind, one.name): one for one in loaded.values() if one.kind},
        lab=loaded.get("lab/lab"),
    )
    return check.judge_documents(library, [loaded[t] for t in targets], rules or built_in_rules())
