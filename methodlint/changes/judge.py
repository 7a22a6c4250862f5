"""Judges what has changed since a revision, in both states: what is new, and what it loosens."""

from __future__ import annotations

import datetime
import os
import tempfile
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path as FilePath
from typing import Any

from methodlint.changes.files import States
from methodlint.changes.git import Git, NoAnswer
from methodlint.changes.loosened import loosened
from methodlint.checking.given import Given
from methodlint.checking.report import Report, finding_order
from methodlint.documents.library import LabFolder, lab_root
from methodlint.documents.quantities.format import counted
from methodlint.documents.text.reach import real
from methodlint.judging.lab_rules import RulesNotNamed, refuse_not_named
from methodlint.many.check_many import check_with_workers
from methodlint.reports.json_report import report_data


@dataclass(frozen=True)
class StatesJudged:
    """A change as it is judged.

    Attributes
    ----------
    report
        The work tree: what has changed, and what depends on it.
    base
        The same before the change, as plain data.
    root
        Folder that paths are shown relative to.
    words
        What was compared, for people.
    absent
        Submodules of which another commit is wanted, and that are not checked out.
    """

    report: Report
    base: dict[str, Any]
    root: FilePath
    words: str
    absent: tuple[str, ...] = ()


def judge_change(
    revision: str,
    check: Callable[..., Report],
    *,
    as_of: datetime.date | None,
    given: Sequence[Given],
    allow_rules: Sequence[str],
    workers: int | None,
    remedies: bool = True,
) -> StatesJudged:
    """Judge what differs between the work tree and its last common commit with a revision.

    Parameters
    ----------
    revision
        What git knows a commit by.
    check
        Judges the work tree: takes paths, and the options of `methodlint.check`.
    as_of
        Date that dates are judged against; without one, the later day of the two commits, or that
        on which a sequence begins if that is later still.

    Raises
    ------
    NoAnswer
        If git cannot tell; the message says what mends it.
    """
    git = Git(FilePath.cwd())
    base, head = _base_of(git, revision)
    states = States(git.root)
    states.add(git, base)
    code = [path for name in allow_rules if (path := _in_repository(git, name))]
    changed = states.changed(code)
    day = max(git.day(base), git.day(head))
    options = {"as_of": as_of, "given": given, "changed": True, "not_before": day}
    root = git.root
    report = Report(documents={})
    if changed:
        report = check(
            [root / path for path in changed],
            shown_from=root,
            allow_rules=allow_rules,
            remedies=remedies,
            **options,
        )
    with tempfile.TemporaryDirectory(prefix="methodlint-") as scratch:
        folder = real(FilePath(scratch)) / "before"
        folder.mkdir()
        states.write_before(changed, folder, code)
        own = [d.path for d in report.documents.values() if d.kind in ("method", "sequence")]
        paths = [folder / path for path in dict.fromkeys([*changed, *own])]
        before = Report(documents={})
        if paths:
            allowed = [folder / path for path in code if _is_named(folder / path, paths, folder)]
            before = check_with_workers(
                paths, workers, shown_from=folder, allow_rules=allowed, remedies=False, **options
            )
        data = report_data(before)
        found, failed = loosened(states, folder, changed, report.rules_of_lab)
    report.findings = sorted([*found, *report.findings], key=finding_order)
    report.failed += failed
    words = (
        f"changed since {base[:12]}, the last common commit of HEAD and {revision}: "
        f"{counted(len(changed), 'file')} that a check reads"
    )
    if as_of is None:
        words += f"; dates are judged by {day} or a later start of a sequence"
    absent = tuple(path for path, differs in sorted(states.absent.items()) if differs)
    return StatesJudged(report, data, root, words, absent)


def _base_of(git: Git, revision: str) -> tuple[str, str]:
    tip, head = git.commit(revision), git.commit("HEAD")
    fetch = "origin '+refs/heads/*:refs/remotes/origin/*'"
    if revision.startswith("-"):
        raise NoAnswer(f"--changed-from {revision}: a revision does not begin with '-'")
    if head is None:
        raise NoAnswer("--changed-from: this repository has no commit yet")
    base = git.merge_base(tip, head) if tip is not None else None
    if base is not None:
        return base, head
    if git.is_shallow:
        raise NoAnswer(
            f"--changed-from {revision}: this clone is shallow and its history does not reach the "
            f"last common commit of HEAD and {revision}; run: git fetch --unshallow {fetch}"
        )
    if tip is None:
        raise NoAnswer(
            f"--changed-from {revision}: there is no such commit here; correct the name, or fetch "
            f"it first: git fetch {fetch}"
        )
    raise NoAnswer(f"--changed-from {revision}: HEAD and {revision} have no commit in common")


def _in_repository(git: Git, name: str) -> str:
    """Path of a folder below the work tree; empty if it does not lie there."""
    folder, root = real(FilePath(name)), real(git.root)
    inside = folder.is_relative_to(root) and folder != root
    return os.path.relpath(folder, root) if inside else ""


def _is_named(rules: FilePath, paths: Sequence[FilePath], top: FilePath) -> bool:
    """Whether a lab's document of the earlier state names a folder of rules."""
    roots = {lab_root(path, top) for path in paths}
    try:
        refuse_not_named([rules], [(LabFolder(root, top).lab, root) for root in roots])
    except RulesNotNamed:
        return False
    return rules.is_dir()
