"""Judge the sound lab after every edit, and after the edits that once came out clear."""

from __future__ import annotations

import sys
from dataclasses import dataclass, field

from methodlint.documents.kinds.base import Part
from methodlint.documents.loading import model_class
from methodlint.documents.schema_problems import _models_in
from methodlint.judging.loader import built_in_rules
from tests.sweep.edits import Edit
from tests.sweep.field_use import Field, fields
from tests.sweep.reviewed import row_of
from tests.sweep.sound_lab import all_edits, judged, without_remedies


@dataclass
class Swept:
    """What became of the edits.

    Attributes
    ----------
    tried
        How many.
    clear
        Those that came out clear to run.
    raised
        Those that ended in an internal error, with the error.
    """

    tried: int = 0
    clear: list[Edit] = field(default_factory=list)
    raised: dict[str, str] = field(default_factory=dict)

    @property
    def unexcused(self) -> list[Edit]:
        """Clear edits that no row of the reviewed table excuses."""
        return [edit for edit in self.clear if row_of(edit) is None]


def sweep(step: int = 1) -> Swept:
    """Judge every edit, or every so many."""
    swept = Swept()
    with without_remedies():
        for number, edit in enumerate(all_edits()):
            if number % step:
                continue
            swept.tried += 1
            try:
                report = judged(edit)
            except Exception as error:
                swept.raised[str(edit)] = repr(error)
                continue
            if report.failed:
                swept.raised[str(edit)] = report.failed[0].error
            elif report.verdict == "clear to run":
                swept.clear.append(edit)
    return swept


def read_by_stops() -> set[Field]:
    """Fields that the rehearsal, or a rule that can stop, reads of the sound lab."""
    known = fields()
    reads: set[Field] = set()
    plain = Part.__getattribute__

    def reading(self: Part, name: str) -> object:
        key = known.get((type(self).__name__, name))
        if key is not None and "walk" not in sys._getframe(1).f_code.co_filename:
            reads.add(key)
        return plain(self, name)

    with without_remedies():
        for rule in built_in_rules():
            if "stop" in rule.grades:
                Part.__getattribute__ = reading  # type: ignore[method-assign]
                try:
                    judged(rules=(rule,))
                finally:
                    Part.__getattribute__ = plain  # type: ignore[method-assign]
    return reads


def fields_of(edit: Edit) -> set[Field]:
    """The field, or those of a union, that an edit changes."""
    kind = edit.document.partition("/")[0]
    models, known = {model_class(kind)}, fields()
    names = [step for step in edit.steps if isinstance(step, str)]
    for name in names[:-1]:
        models = {
            inner
            for model in models
            if name in model.model_fields
            for inner in _models_in(model.model_fields[name].annotation)
        } or models
    return {known[model.__name__, names[-1]] for model in models if names[-1] in model.model_fields}
