"""What a change loosens: documents that go, or count for less; laxer policies; new deviations."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from pathlib import Path as FilePath

from methodlint.changes.files import States
from methodlint.checking.targets import is_table
from methodlint.documents.kinds.lab import Lab
from methodlint.documents.library import ROOT_DOCUMENT, LabFolder
from methodlint.documents.loading import Loaded
from methodlint.documents.text.reach import is_there
from methodlint.judging.change_case import ChangeCase
from methodlint.judging.engine import judge_case
from methodlint.judging.finding import Finding, severity
from methodlint.judging.lab_policy import as_the_lab_says
from methodlint.judging.loader import Rule, built_in_rules
from methodlint.judging.unjudged import RuleFailed


def loosened(
    states: States, before: FilePath, changed: Sequence[str], of_lab: Sequence[Rule] = ()
) -> tuple[list[Finding], list[RuleFailed]]:
    """Say what a change loosens; no deviation moves it aside, and policy may only raise its class.

    Parameters
    ----------
    states
        Both states.
    before
        Folder in which the earlier state was written.
    changed
        What differs.
    of_lab
        The lab's own rules that are run.
    """
    rules = [rule for rule in (*built_in_rules(), *of_lab) if rule.subject == "change"]
    grades = {rule.id: rule.grades for rule in (*built_in_rules(), *of_lab)}
    found, failed = [], []
    for case in _Cases(states, before, changed).each():
        case.rule_grades = grades
        judged = judge_case(case, rules)
        failed += judged.failed
        for finding in judged.findings:
            raised = as_the_lab_says(finding, case.lab_before)
            milder = severity(raised.grade) > severity(finding.grade)
            found.append(replace(finding if milder else raised, loosens=True))
    return found, failed


class _Cases:
    """The documents that differ, each in both states."""

    def __init__(self, states: States, before: FilePath, changed: Sequence[str]) -> None:
        self._states = states
        self._changed = [path for path in changed if not is_table(FilePath(path))]
        self._before = _Documents(before)
        self._after = _Documents(states.root)

    def each(self) -> Iterator[ChangeCase]:
        """Yield a case for each document that is one in either state."""
        moved = self._moved()
        gone = set(moved.values())
        for path in self._changed:
            old = self._before.at(moved.get(path, path))
            new = self._after.at(path)
            if (old is None and new is None) or (new is None and path in gone):
                continue
            kept = new or old
            assert kept is not None
            case = ChangeCase(documents={kept.kind: kept}, before=old, after=new)
            # The policy before the change counts: the change itself cannot lower what it is held by.
            case.lab_before = (
                old if kept.kind == "lab" and old is not None else self._lab_before(path)
            )
            if kept.kind == "lab":
                case.taken_over = tuple(self._taken_over(path)) if old is None else ()
            yield case

    def _lab_before(self, path: str) -> Loaded | None:
        root = self._states.lab_before(path)
        return self._before.at(f"{root}/{ROOT_DOCUMENT}".lstrip("/"))

    def _lab_after(self, path: str) -> Loaded | None:
        return self._after.at(f"{self._states.lab_after(path)}/{ROOT_DOCUMENT}".lstrip("/"))

    def _taken_over(self, path: str) -> Iterator[str]:
        """Documents below a new `lab.yaml` that belonged to another lab."""
        folder = path.removesuffix(ROOT_DOCUMENT)
        for other in sorted(self._states.before):
            if not other.startswith(folder) or self._lab_before(other) is None:
                continue
            if self._before.at(other) is not None and self._after.at(other) is not None:
                yield other

    def _moved(self) -> dict[str, str]:
        """Paths of documents that were elsewhere before, with the paths that they had."""
        places: dict[tuple[str, str], list[str]] = {}
        for path in self._changed:
            old = self._before.at(path)
            if old is not None and self._after.at(path) is None and not self._is_left(old, path):
                places.setdefault((old.read.sha256, _text(self._lab_before(path))), []).append(path)
        moved = {}
        for path in self._changed:
            new = self._after.at(path)
            hidden = any(step.startswith(".") for step in path.split("/"))
            if new is None or hidden or self._before.at(path) is not None:
                continue
            same = places.get((new.read.sha256, _text(self._lab_after(path))))
            if same:
                moved[path] = same.pop()
        return moved

    def _is_left(self, old: Loaded, path: str) -> bool:
        """Whether a lab's own document goes and files of its folder stay."""
        folder = path.removesuffix(ROOT_DOCUMENT)
        return old.kind == "lab" and any(
            other.startswith(folder) and is_there(self._states.root / other)
            for other in self._states.now
        )


def _text(lab: Loaded[Lab] | None) -> str:
    return lab.read.sha256 if lab is not None else ""


class _Documents:
    """Documents below a folder by their paths."""

    def __init__(self, root: FilePath) -> None:
        self._folder = LabFolder(root, root)

    def at(self, path: str) -> Loaded | None:
        """The document at a path; None if there is none that can be used."""
        return self._folder.open(self._folder.root / path)
