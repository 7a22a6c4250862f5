"""Applies a remedy to the texts, as a person would, and judges the whole lab again."""

from __future__ import annotations

import copy
from dataclasses import dataclass

from methodlint.checking.changed import put
from methodlint.checking.report import Report
from methodlint.judging.finding import Candidate, Finding, severity
from methodlint.rulebook.examples import Example, lab_with
from tests.text_labs import TextLab, as_yaml, everything
from tests.untried import untried_rules


@dataclass(frozen=True)
class Trial:
    """A printed remedy with what came of it.

    Attributes
    ----------
    left
        The finding is still there.
    worse
        Findings of equal or worse class that were not there before.
    """

    finding: Finding
    left: bool
    worse: tuple[str, ...]

    @property
    def good(self) -> bool:
        """Whether it clears its finding and adds nothing of equal or worse class."""
        return not self.left and not self.worse


def lab_of(example: Example) -> TextLab:
    """The texts of the lab that an example describes."""
    documents = lab_with(example.text)
    texts = {f"{one.kind}/{one.name}": as_yaml(one.data) for one in documents.values()}
    return TextLab(texts, ("sequence/sequence", "method/method"), {})


def printed(finding: Finding) -> Candidate | None:
    """The changes behind a printed remedy; None if it is words alone."""
    fitting = [one for one in finding.candidates if finding.remedy.startswith(one.text)]
    return max(fitting, key=lambda one: len(one.text), default=None)


def applied(lab: TextLab, candidate: Candidate) -> TextLab:
    """Make the changes of a remedy in the texts."""
    for change in candidate.changes:
        document = f"{change.at.document.kind}/{change.at.document.name}"
        data = copy.deepcopy(lab.plain(document))
        put(data, change.at.path, change.value, insert=change.insert)
        lab = lab.with_text(document, as_yaml(data))
    return lab


def trials(lab: TextLab) -> list[Trial]:
    """Apply every printed remedy with a figure, each by itself."""
    before = lab.judged()
    found = []
    for finding in before.findings:
        candidate = printed(finding)
        if candidate is not None:
            after = applied(lab, candidate).judged(untried_rules())
            found.append(_compared(finding, before, after))
    return found


def _compared(finding: Finding, before: Report, after: Report) -> Trial:
    known = {one.key: one.grade for one in everything(before.findings)}
    now = everything(after.findings)
    left = any(one.rule == finding.rule and one.at.path == finding.at.path for one in now)
    worse = tuple(
        f"{one.grade} {one.rule}: {one.message}"
        for one in now
        if severity(one.grade) <= severity(finding.grade)
        and (one.key not in known or severity(one.grade) < severity(known[one.key]))
    )
    return Trial(finding, left, worse)
