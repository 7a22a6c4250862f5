"""What the rules said about one case."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from methodlint.documents.kinds.base import Deviation
from methodlint.documents.loading import Loaded
from methodlint.documents.text.places import Path
from methodlint.judging.case import Case
from methodlint.judging.finding import Finding, Grade, NotChecked
from methodlint.judging.unjudged import RuleFailed

OwnGrades = Mapping[tuple[tuple[str, str, Path], str], Grade]
"""Class of each finding by key and message, before it takes the class of what is grouped under it."""


@dataclass(frozen=True, slots=True)
class SetAside:
    """A finding that a deviation moves aside, with the deviation and its document."""

    finding: Finding
    deviation: Deviation
    document: Loaded


@dataclass
class Judged:
    """What the rules said about one case.

    Attributes
    ----------
    own
        Class of each finding by key and message, before it takes the class of what is grouped under it.
    ended_by
        The rule whose finding ended the judgement early; the rules after it were not asked.
    """

    case: Case
    findings: list[Finding] = field(default_factory=list)
    not_checked: list[NotChecked] = field(default_factory=list)
    set_aside: list[SetAside] = field(default_factory=list)
    failed: list[RuleFailed] = field(default_factory=list)
    checked: int = 0
    applied: set[str] = field(default_factory=set)
    made: set[str] = field(default_factory=set)
    own: OwnGrades = field(default_factory=dict)
    ended_by: str = ""
