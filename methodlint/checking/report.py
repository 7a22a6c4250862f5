"""What a check has found, ready for any report format."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Iterator, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, field
from typing import Any, Literal

from methodlint.documents.loading import Loaded
from methodlint.documents.tables.files import TableFile
from methodlint.judging.case import BatchCase, RunCase
from methodlint.judging.finding import (
    GRADES,
    At,
    Finding,
    Grade,
    NotChecked,
    at_judged,
    severity,
)
from methodlint.judging.judged import SetAside
from methodlint.judging.loader import Rule
from methodlint.judging.unjudged import RuleFailed, Unjudged
from methodlint.rehearsal.calendar.calendar import Calendar

Verdict = Literal["clear to run", "run with care", "do not run"]


@dataclass(frozen=True, slots=True)
class PlainRun:
    """What reports say of a run: figures and words, without its arrays.

    Attributes
    ----------
    key
        Paths of the method and of the instrument.
    name
        What the run is called in findings.
    instrument
        Name of the instrument; empty without one.
    with_bench
        Whether a sequence runs it.
    summary
        One line in words; empty if it could not be rehearsed.
    data
        The same as plain data.
    row
        Its row in the overview of many documents.
    """

    key: tuple[str, str]
    name: str
    instrument: str
    with_bench: bool
    summary: str
    data: dict[str, Any]
    row: Any


@dataclass(frozen=True, slots=True)
class PlainBatch:
    """What reports say of a sequence: its figures, its bench card as blocks of words.

    Attributes
    ----------
    documents
        Hash of the documents that it was made of.
    row
        Its row in the overview of many documents.
    """

    path: str
    data: dict[str, Any]
    card: tuple[Any, ...]
    documents: str
    row: Any


@dataclass
class Report:
    """Result of a check.

    Attributes
    ----------
    documents
        Every document that took part, by path.
    findings
        Findings in order of document, place and rule; consequences lie in `because`.
    not_checked
        Rules that apply but lack a figure.
    set_aside
        Findings that a deviation moves aside.
    failed
        Rules that raised: errors of this tool.
    unusable
        Documents that take part and cannot be used, or refer to one that cannot.
    as_of
        Date that was given to judge by.
    lab_paths
        Path of every document under its lab's root, by its path as shown: the same wherever
        the lab folder lies.
    raised
        Paths of the documents whose judgement raised a finding: methods of runs, sequences of
        batches. Two methods share a finding that says the same of the same place.
    said_of
        What a finding, or what was not checked, is said of, each: names of runs, paths of
        documents and sequences.
    made
        Ids of the rules that were applied, by the path of the document that they judged: the
        method of a run, the sequence of a batch.
    rules_of_lab
        The lab's own rules that took part.
    calendar
        Sequences in the order of their starts, where several have one.
    runs, batches
        Runs and sequences with all that was computed; empty in the report of `check_many`.
    plain_runs, plain_batches
        What reports say of them; filled by `check_many` only.
    """

    documents: dict[str, Loaded]
    findings: list[Finding] = field(default_factory=list)
    not_checked: list[NotChecked] = field(default_factory=list)
    set_aside: list[SetAside] = field(default_factory=list)
    failed: list[RuleFailed] = field(default_factory=list)
    runs: list[RunCase] = field(default_factory=list)
    batches: list[BatchCase] = field(default_factory=list)
    checked: int = 0
    unusable: list[Unjudged] = field(default_factory=list)
    given: tuple[tuple[str, str], ...] = ()
    as_of: datetime.date | None = None
    lab_paths: dict[str, str] = field(default_factory=dict)
    raised: dict[Finding, set[str]] = field(default_factory=dict)
    said_of: dict[Finding | NotChecked, set[str]] = field(default_factory=dict)
    made: dict[str, set[str]] = field(default_factory=dict)
    rules_of_lab: tuple[Rule, ...] = ()
    plain_runs: list[PlainRun] = field(default_factory=list)
    plain_batches: list[PlainBatch] = field(default_factory=list)
    calendar: Calendar | None = None

    @property
    def tables(self) -> list[TableFile]:
        """Tables that sequences took their lines from, by path."""
        found = {table.path: table for d in self.documents.values() for table in d.tables}
        return [found[path] for path in sorted(found)]

    @property
    def lowered(self) -> list[Finding]:
        """Findings that the lab's policy has made milder, those beneath others included."""
        return list(_lowered([*self.findings, *(item.finding for item in self.set_aside)]))

    @property
    def in_part(self) -> list[str]:
        """Paths of methods that name no column or no instrument: judged as far as can be."""
        return sorted(
            {
                item.at.document.path
                for item in self.not_checked
                if item.at.document.kind == "method"
                and not item.reason
                and any(ask.refers and ask.file == item.at.file for ask in item.asks)
            }
        )

    @property
    def only_in_part(self) -> bool:
        """Whether nothing but such methods was judged."""
        judged = {d.path for d in self.documents.values() if d.kind in ("method", "sequence")}
        return bool(judged) and judged == set(self.in_part)

    @property
    def unreadable(self) -> bool:
        """Whether a document or a reference that the verdict needs could not be used."""
        return bool(self.unusable)

    @property
    def unjudged(self) -> list[Unjudged]:
        """Why nothing is cleared: what cannot be used, and rules that failed."""
        return [*self.unusable, *(failed.unjudged for failed in self.failed)]

    @property
    def verdict(self) -> Verdict:
        """The verdict in words; what could not be judged is not to be run."""
        grades = {finding.grade for finding in self.findings}
        if grades & {"stop", "fault"} or self.unusable or self.failed:
            return "do not run"
        stop_aside = any(item.finding.grade == "stop" for item in self.set_aside)
        if "caution" in grades or stop_aside or self.unchecked_stops:
            return "run with care"
        return "clear to run"

    def put_in_order(self) -> None:
        """Sort what was found, and say everything once."""
        self.findings = list(dict.fromkeys(sorted(self.findings, key=finding_order)))
        self.not_checked = sorted(dict.fromkeys(self.not_checked), key=not_checked_order)
        self.set_aside = list(dict.fromkeys(self.set_aside))
        self.failed = list(dict.fromkeys(self.failed))

    def add(self, judged: str, findings: Sequence[Finding]) -> None:
        """Add what the judgement of one document raised."""
        self.findings += findings
        for finding in findings:
            self.raised.setdefault(finding, set()).add(judged)
            self.said_of.setdefault(finding, set()).add(finding.subject)

    def add_not_checked(self, items: Iterable[NotChecked]) -> None:
        """Add what the judgement of one document could not check."""
        for item in items:
            self.not_checked.append(item)
            self.said_of.setdefault(item, set()).add(item.subject)

    def judged(self, finding: Finding) -> list[str]:
        """Paths of the documents whose judgement raised a finding, in order."""
        return sorted(self.raised.get(finding, ())) or [finding.at.document.path]

    def subject(self, finding: Finding) -> str:
        """The run that a finding is about; empty if several share it, or it is a document."""
        own = finding.subject == finding.at.document.path or len(self.judged(finding)) > 1
        return "" if own else finding.subject

    def judged_at(self, finding: Finding) -> list[At]:
        """Places of a finding in the documents whose judgement raised it; see `at_judged`."""
        return [at_judged(finding, self.documents.get(path)) for path in self.judged(finding)]

    @property
    def unchecked_stops(self) -> list[NotChecked]:
        """Rules that could have found a stop and were not checked."""
        return [item for item in self.not_checked if item.can_stop]

    def count(self, grade: Grade) -> int:
        """Number of findings of one class."""
        return sum(finding.grade == grade for finding in self.findings)

    @property
    def counts(self) -> dict[str, int]:
        """Findings by class, not-checked rules and deviations."""
        counts: dict[str, int] = {grade: self.count(grade) for grade in GRADES}
        counts["not_checked"] = len(self.not_checked)
        counts["deviations"] = len(self.set_aside)
        return counts

    def exit_status(
        self, hold_at: str = "fault", excused: AbstractSet[Finding | NotChecked] = frozenset()
    ) -> int:
        """Exit status: the highest of the conditions that apply.

        Parameters
        ----------
        hold_at
            Class of finding from which on the status is 1; also `not-checked`.
        excused
            What was known before and does not count; a stop counts always.
        """
        if self.failed:
            return 3
        if self.unusable:
            return 2
        findings = [f for f in self.findings if f.grade == "stop" or f not in excused]
        if hold_at == "not-checked":
            counted = [i for i in self.not_checked if i.can_stop or i not in excused]
            return 1 if findings or counted else 0
        held = any(severity(f.grade) <= GRADES.index(hold_at) for f in findings)
        # A batch, or a method without its bench, whose stops could not be looked for does not pass
        # unacknowledged.
        sequences = bool(self.batches or self.plain_batches)
        lacking = self.unchecked_stops if sequences else self._stops_of_parts(excused)
        unseen = bool(lacking) and hold_at != "stop"
        return 1 if held or unseen else 0

    def _stops_of_parts(self, excused: AbstractSet[Finding | NotChecked]) -> list[NotChecked]:
        parts = set(self.in_part)
        stops = (item for item in self.unchecked_stops if item not in excused)
        return [item for item in stops if item.at.document.path in parts]


def _lowered(findings: Iterable[Finding]) -> Iterator[Finding]:
    for finding in findings:
        if finding.lowered:
            yield finding
        yield from _lowered(finding.because)


def finding_order(finding: Finding) -> tuple[str, int, int, str, str, str]:
    """Order of findings in every report: document, line, column, rule."""
    place = finding.at.place
    return (
        finding.at.file,
        place.line,
        place.column,
        finding.rule,
        finding.message,
        finding.subject,
    )


def not_checked_order(item: NotChecked) -> tuple[str, str, str]:
    """Order of what was not checked in every report: document, rule, subject."""
    return item.at.document.path, item.rule, item.subject
