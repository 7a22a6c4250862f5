"""One document before and after a change, for the rules that say what the change loosens."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from methodlint.documents.loading import Loaded
from methodlint.judging.case import Case
from methodlint.judging.finding import Grade


@dataclass
class ChangeCase(Case):
    """One document in two states. No policy and no deviation moves what is found.

    Attributes
    ----------
    before, after
        The document; None where there is none, or nothing that can be read as one. One that was
        only moved is the same document.
    lab_before
        Document of the lab that it belonged to, to compare policies with.
    taken_over
        For a lab's own document: documents that belonged to another lab before it was there.
    rule_grades
        Classes of every rule by its id.
    """

    before: Loaded | None = None
    after: Loaded | None = None
    lab_before: Loaded | None = None
    taken_over: tuple[str, ...] = ()
    rule_grades: Mapping[str, tuple[Grade, ...]] = field(default_factory=dict)

    @property
    def name(self) -> str:
        """Path of the document."""
        document = self.after or self.before
        assert document is not None
        return document.path
