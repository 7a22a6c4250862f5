"""What a check could not judge: documents and references that cannot be used, rules that failed."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Literal

from methodlint.documents.loading import Loaded
from methodlint.documents.quantities.format import counted
from methodlint.documents.text.problems import Problem

__all__ = ["RuleFailed", "Unjudged", "unusable_documents"]


@dataclass(frozen=True, slots=True)
class Unjudged:
    """Something without which there is no verdict but *do not run*.

    Attributes
    ----------
    subject
        Path of the document that cannot be used, or what the failed rule was applied to.
    reason
        Why, in words.
    rule
        The rule that failed, or the one that names what is wrong with the document.
    line
        Line of the document; 0 where a rule failed.
    status
        Exit status that it leads to: 2 for a document, 3 for an error of this tool.
    """

    subject: str
    reason: str
    rule: str
    line: int = 0
    status: Literal[2, 3] = 2


@dataclass(frozen=True, slots=True)
class RuleFailed:
    """A rule that raised: an error of this tool, not of the document."""

    rule: str
    subject: str
    error: str
    trace: str

    @property
    def unjudged(self) -> Unjudged:
        """The same as a reason why there is no verdict."""
        return Unjudged(self.subject, f"rule {self.rule} failed: {self.error}", self.rule, status=3)


def unusable_documents(
    documents: Iterable[Loaded], references: Mapping[str, Iterable[Problem]]
) -> list[Unjudged]:
    """List documents that take part and cannot be used as they stand, each once.

    Parameters
    ----------
    documents
        Every document that takes part.
    references
        References that lead nowhere, by the path of the document that makes them.
    """
    found = []
    for document in documents:
        problems = [*document.problems, *references.get(document.path, ())]
        breaking = [p for p in problems if p.breaks and p.grade == "fault"]
        if not breaking:
            continue
        first = min(breaking, key=lambda problem: problem.place)
        more = f"; and {counted(len(breaking) - 1, 'more fault')}" if breaking[1:] else ""
        reason = f"{first.message}{more}"
        found.append(Unjudged(document.path, reason, first.rule, first.place.line))
    return found
