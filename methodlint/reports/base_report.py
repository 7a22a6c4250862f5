"""A report of another state as reference: what is new, what was known, what is gone.

Both sides are plain data of a report in JSON, so that a base branch needs no second analysis.
"""

from __future__ import annotations

import json
import os
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

from methodlint.documents.text.opening import CannotOpen, bytes_of
from methodlint.judging.finding import GRADES

_MOST_BYTES = 256 * 1024 * 1024
EDITION = 1


class BaseUnusable(ValueError):
    """The file is no report that this version can compare with."""


@dataclass(frozen=True, slots=True)
class Mark:
    """One finding of a report as plain data."""

    fingerprint: str
    rule: str
    grade: str
    path: str
    lab_path: str
    line: int
    message: str
    subject: str

    @property
    def rank(self) -> int:
        """Rank of its class: 0 is the worst."""
        return GRADES.index(self.grade)


@dataclass(frozen=True)
class Standing:
    """How the findings of a report stand to a base report.

    Attributes
    ----------
    new
        Fingerprints of findings that the base did not have.
    worse
        Fingerprints of findings that the base had in a milder class; they count as new.
    known
        Fingerprints of findings that the base had in this class or a worse one.
    gone
        Findings of the base that are no longer there, although their document was judged.
    elsewhere
        Findings of the base in documents or runs that were not judged this time.
    not_checked
        What the base already had not checked.
    base
        The base report.
    """

    new: frozenset[str]
    worse: frozenset[str]
    known: frozenset[str]
    gone: tuple[Mark, ...]
    elsewhere: tuple[Mark, ...]
    not_checked: frozenset[tuple[str, ...]]
    base: dict[str, Any] = field(repr=False)

    def state(self, fingerprint: str) -> str:
        """`new`, `worse` or `known`."""
        if fingerprint in self.new:
            return "new"
        return "worse" if fingerprint in self.worse else "known"


def read_base(file: str) -> dict[str, Any]:
    """Read a report that was written with `--write json=FILE`.

    Raises
    ------
    BaseUnusable
        If it cannot be opened, is too large, is no report or has no fingerprints.
    """
    try:
        data = bytes_of(os.fspath(file), _MOST_BYTES + 1)
    except CannotOpen as error:
        raise BaseUnusable(f"the report {file} cannot be opened: {error}") from error
    if len(data) > _MOST_BYTES:
        raise BaseUnusable(f"the report {file} has more than {_MOST_BYTES} bytes")
    try:
        report = json.loads(data)
    except (ValueError, RecursionError) as error:
        raise BaseUnusable(f"{file} is not a report in JSON") from error
    if not isinstance(report, dict) or not isinstance(report.get("findings"), list):
        raise BaseUnusable(f"{file} is not a report of methodlint: it has no findings")
    if report.get("edition") != EDITION:
        raise BaseUnusable(f"{file} is a report of edition {report.get('edition')}, not {EDITION}")
    try:
        list(marks_of(report))
        _lab_paths(report)
        _not_checked(report)
        _look_at_figures(report)
    except (KeyError, TypeError, ValueError, AttributeError, RecursionError) as error:
        raise BaseUnusable(
            f"{file} is not a whole report of this version; write it again with --write json=FILE"
        ) from error
    return report


def marks_of(report: dict[str, Any], *, beneath: bool = True) -> Iterator[Mark]:
    """Yield the findings of a report as plain data, those beneath others included if wanted."""
    paths = _lab_paths(report)
    for finding in report["findings"]:
        yield from _marks(finding, paths, beneath)


def _marks(finding: dict[str, Any], paths: dict[str, str], beneath: bool) -> Iterator[Mark]:
    texts = [finding[key] for key in ("fingerprint", "rule", "class", "path", "message", "subject")]
    line = finding["line"]
    if not all(isinstance(text, str) for text in texts) or not isinstance(line, int):
        raise TypeError("a finding's fields have other types")
    mark = Mark(
        fingerprint=finding["fingerprint"],
        rule=finding["rule"],
        grade=finding["class"],
        path=finding["path"],
        lab_path=paths.get(finding["path"], finding["path"]),
        line=line,
        message=finding["message"],
        subject=finding["subject"],
    )
    if mark.grade not in GRADES:
        raise ValueError(mark.grade)
    yield mark
    if beneath:
        for child in finding["because"]:
            yield from _marks(child, paths, beneath)


def _lab_paths(report: dict[str, Any]) -> dict[str, str]:
    return {str(item["path"]): str(item["lab_path"]) for item in report["documents"]}


def not_checked_key(item: dict[str, Any], paths: dict[str, str]) -> tuple[str, ...]:
    """What makes something not checked the same in two reports."""
    subject = str(item["subject"])
    return (
        str(item["rule"]),
        paths.get(item["path"], str(item["path"])),
        paths.get(subject, subject),
        *(str(missing) for missing in item["missing"]),
    )


def _not_checked(report: dict[str, Any]) -> frozenset[tuple[str, ...]]:
    paths = _lab_paths(report)
    return frozenset(not_checked_key(item, paths) for item in report["not_checked"])


def _look_at_figures(report: dict[str, Any]) -> None:
    for item in [*report["runs"], *report["batches"]]:
        texts = [item["subject"], item["path"], item["instrument"] or ""]
        figures = item["figures"] or {}
        if not all(isinstance(text, str) for text in texts) or not isinstance(figures, dict):
            raise TypeError("a run's fields have other types")
        for measure in figures.values():
            if not isinstance(measure["value"], int | float | None):
                raise TypeError("a figure is no number")
        list(item["missing"])


def standing(now: dict[str, Any], base: dict[str, Any]) -> Standing:
    """Compare the findings of a report with those of a base report.

    Parameters
    ----------
    now, base
        Reports as plain data, the base as read by `read_base`.
    """
    before = {mark.fingerprint: mark for mark in marks_of(base)}
    every = list(marks_of(now))
    present = {mark.fingerprint for mark in every}
    aside = {item["finding"]["fingerprint"] for item in now["deviations"]}
    missing = {
        fingerprint: mark
        for fingerprint, mark in before.items()
        if fingerprint not in present and fingerprint not in aside
    }
    # One sentence about one place that two runs share is told of the first of them: when that one
    # is put right it is told of the other, and is still the same finding.
    shared: dict[tuple[str, str, str], list[str]] = {}
    for fingerprint, mark in missing.items():
        shared.setdefault((mark.rule, mark.lab_path, mark.message), []).append(fingerprint)
    new, worse, known = set(), set(), set()
    for mark in marks_of(now, beneath=False):
        old = before.get(mark.fingerprint)
        if old is None:
            same = shared.get((mark.rule, mark.lab_path, mark.message))
            old = missing.pop(same.pop()) if same else None
        if old is None:
            new.add(mark.fingerprint)
        elif mark.rank < old.rank:
            worse.add(mark.fingerprint)
        else:
            known.add(mark.fingerprint)
    judged = set(_lab_paths(now).values())
    paths_before = _lab_paths(base)
    runs_now = {run["subject"] for run in now["runs"]}
    runs_before = {run["subject"] for run in base["runs"]}
    gone: list[Mark] = []
    elsewhere: list[Mark] = []
    for mark in sorted(missing.values(), key=_mark_order):
        looked_at = mark.subject not in runs_before or mark.subject in runs_now
        # A row of a table that belongs to a sequence lies in a file of its own.
        there = {mark.lab_path, paths_before.get(mark.subject)} & judged
        (gone if there and looked_at else elsewhere).append(mark)
    return Standing(
        new=frozenset(new),
        worse=frozenset(worse),
        known=frozenset(known),
        gone=tuple(gone),
        elsewhere=tuple(elsewhere),
        not_checked=_not_checked(base),
        base=base,
    )


def _mark_order(mark: Mark) -> tuple[str, int, str, str, str]:
    return mark.path, mark.line, mark.rule, mark.message, mark.fingerprint
