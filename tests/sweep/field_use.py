"""Which fields of the documents a rule or a model reads.

A recorder stands behind every attribute of the typed documents while the examples of all rules, the
sound examples and a few labs more are judged. What only walks over a document, shows it or asks
whether a figure is plausible is no use.
"""

from __future__ import annotations

import ast
import contextlib
import sys
from collections.abc import Iterator
from pathlib import Path

from pydantic import BaseModel

import methodlint
from methodlint.checking.check import check, judge_documents
from methodlint.checking.review import review, review_loaded
from methodlint.documents.kinds.base import Part
from methodlint.documents.loading import KINDS, model_class
from methodlint.documents.schema_problems import _models_in
from methodlint.judging.loader import built_in_rules
from methodlint.rulebook.examples import _library, examples_of, judge_example, lab_with
from tests.sweep.sound_lab import without_remedies
from tests.text_labs import EXAMPLES

Field = tuple[str, str]
"""Name of the class that defines a field, and of the field."""

_PACKAGE = Path(methodlint.__file__).parent
# Neither the walk over a document, nor its places, its text or its plausibility are a use.
_NO_USE = tuple(
    str(_PACKAGE / name)
    for name in ("documents/contents/walk", "documents/contents/values_hash",
                 "documents/contents/implausible", "documents/contents/placeholders",
                 "documents/contents/liquid_names", "documents/loading", "documents/library",
                 "documents/kinds", "reports", "editor", "commands")
)  # fmt: skip


def fields() -> dict[Field, Field]:
    """Every field of every kind: class that has it, and the class that defines it."""
    models: set[type[BaseModel]] = set()
    waiting = [model_class(kind) for kind in KINDS]
    while waiting:
        model = waiting.pop()
        if model not in models:
            models.add(model)
            for field in model.model_fields.values():
                waiting.extend(_models_in(field.annotation))
    found = {}
    for model in models:
        for name in model.model_fields:
            owner = next(
                base
                for base in reversed(model.__mro__)
                if name in getattr(base, "__annotations__", {})
            )
            found[model.__name__, name] = (owner.__name__, name)
    return found


def _laid_out() -> frozenset[str]:
    """Keys of what is laid out as lines before a document is typed: read from its nodes."""
    files = [*(_PACKAGE / "documents").glob("blocks/*.py"),
             *(_PACKAGE / "documents").glob("tables/*.py"),
             _PACKAGE / "documents" / "sequence_lines.py",
             _PACKAGE / "rehearsal" / "plan" / "scouting_lines.py"]  # fmt: skip
    return frozenset(
        node.value
        for file in files
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8")))
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    )


_LAID_OUT = frozenset(
    {"Block", "Bracket", "Calibrators", "Samples", "Scouting", "TablePart", "LeftOutPair"}
)


@contextlib.contextmanager
def recorded(known: dict[Field, Field]) -> Iterator[set[Field]]:
    """Record what is read of typed documents by anything that counts as a use."""
    reads: set[Field] = set()
    plain = Part.__getattribute__

    def reading(self: Part, name: str) -> object:
        if not name.startswith("_"):
            field = known.get((type(self).__name__, name))
            caller = sys._getframe(1).f_code.co_filename
            if field is not None and not caller.startswith(_NO_USE) and "pydantic" not in caller:
                reads.add(field)
        return plain(self, name)

    Part.__getattribute__ = reading  # type: ignore[method-assign]
    try:
        yield reads
    finally:
        Part.__getattribute__ = plain  # type: ignore[method-assign]


def judge_everything(labs: tuple[str, ...]) -> None:
    """Judge the examples of all rules, the sound examples, and changes of the examples' lab."""
    rules = built_in_rules()
    for rule in rules:
        for example in examples_of(rule):
            judge_example(example, (rule,))
    with without_remedies():
        check(EXAMPLES / "sound")
        review(EXAMPLES / "logbooks" / "autumn-at-bench-a.yaml")
        for changes in labs:
            documents = lab_with(changes)
            if "logbook" in documents:
                review_loaded(_library(documents), documents["logbook"], None, rules)
            targets = [documents["sequence"], documents["method"], documents["lab"]]
            judge_documents(_library(documents), targets, rules)


def inert_fields(labs: tuple[str, ...]) -> set[Field]:
    """Fields that nothing uses."""
    known = fields()
    with recorded(known) as reads:
        judge_everything(labs)
    keys = _laid_out()
    laid_out = {field for field in known.values() if field[0] in _LAID_OUT and field[1] in keys}
    laid_out |= {("Sequence", name) for name in ("blocks", "table", "named_lines") if name in keys}
    return set(known.values()) - reads - laid_out
