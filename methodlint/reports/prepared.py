"""One analysis, ready for every format: the report, its fingerprints, how it stands to a base."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from methodlint.checking.report import Report
from methodlint.documents.text.visible import visible
from methodlint.judging.finding import GRADES, Finding, NotChecked, severity
from methodlint.reports.base_report import Standing, not_checked_key, standing
from methodlint.reports.fingerprint import Fingerprints
from methodlint.reports.json_report import json_text, report_data
from methodlint.reports.tolerances import tolerance_data
from methodlint.window.corners import Corners


@dataclass
class Prepared:
    """A report with what the formats ask of it.

    Attributes
    ----------
    report
        What was found.
    notes
        Whether formats for people show notes.
    hold_at
        Class of finding from which on a finding is held against the documents.
    base
        A report of another state, as plain data.
    new_only
        Whether only findings that the base did not have are held against the documents.
    compared
        What was compared with the base, in words.
    corners
        Runs rehearsed at the corners of their tolerances, if that was asked for.
    overview, cards
        Whether words begin with a table of all documents, and whether they hold bench cards.
    """

    report: Report
    notes: bool = False
    hold_at: str = "fault"
    base: dict[str, Any] | None = None
    new_only: bool = False
    compared: str = ""
    overview: bool = False
    cards: bool = True
    corners: Sequence[Corners] | None = None

    @cached_property
    def marks(self) -> Fingerprints:
        """Fingerprints of the findings."""
        return Fingerprints(self.report)

    @cached_property
    def _plain(self) -> dict[str, Any]:
        return report_data(self.report, self.marks)

    @cached_property
    def standing(self) -> Standing | None:
        """How the findings stand to the base; None without one."""
        return None if self.base is None else standing(self._plain, self.base)

    @cached_property
    def data(self) -> dict[str, Any]:
        """The report as plain data, with its standing to the base."""
        how = self.standing
        if self.corners is not None:
            self._plain["tolerances"] = tolerance_data(self.corners)
        if how is None:
            return self._plain
        gone = [
            {
                "fingerprint": visible(mark.fingerprint),
                "rule": visible(mark.rule),
                "class": mark.grade,
                "path": visible(mark.path),
                "line": mark.line,
                "message": visible(mark.message),
            }
            for mark in how.gone
        ]
        return {**self._plain, "known_from_base": sorted(how.known), "gone_from_base": gone}

    def state(self, finding: Finding) -> str:
        """`new`, `worse` or `known` beside a base report; empty without one."""
        how = self.standing
        return how.state(self.marks.of(finding)) if how is not None else ""

    @cached_property
    def excused(self) -> frozenset[Finding | NotChecked]:
        """What the base already had, if only what is new counts."""
        how = self.standing
        if how is None or not self.new_only:
            return frozenset()
        paths = {path: self.marks.lab_path(path) for path in self.report.documents}
        old = (item for item in self.report.findings if self.marks.of(item) in how.known)
        lacking = (
            item
            for item in self.report.not_checked
            if not_checked_key(_as_data(item), paths) in how.not_checked
        )
        return frozenset([*old, *lacking])

    def held(self, finding: Finding) -> bool:
        """Whether a finding is held against its document; a stop always is, a note seldom."""
        if finding.grade != "stop" and finding in self.excused:
            return False
        rank = len(GRADES) if self.hold_at == "not-checked" else GRADES.index(self.hold_at)
        return severity(finding.grade) <= rank

    @property
    def exit_status(self) -> int:
        """Exit status of the check; see `Report.exit_status`."""
        status = self.report.exit_status(self.hold_at, self.excused)
        # What fails at a corner only is a caution: it is not what the documents say.
        held = self.hold_at in ("caution", "note", "not-checked")
        fails = held and any(one.failing for one in self.corners or ())
        return max(status, int(fails))

    def worst_first(self, findings: Iterable[Finding]) -> list[Finding]:
        """Order findings: what a change loosens, then by class, new ones first, as they stand."""
        order = {"new": 0, "worse": 0, "": 0, "known": 1}
        return sorted(
            findings, key=lambda f: (not f.loosens, severity(f.grade), order[self.state(f)])
        )


def _as_data(item: NotChecked) -> dict[str, Any]:
    return {
        "rule": item.rule,
        "path": item.at.document.path,
        "subject": item.subject,
        "missing": item.missing,
    }


def prepared_json(prepared: Prepared) -> str:
    """Write a prepared report as JSON text, with what was known from its base."""
    return json_text(prepared.data)
