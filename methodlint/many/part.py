"""One batch of documents judged, as a worker does it: paths and settings in, plain results out."""

from __future__ import annotations

import datetime
import threading
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path as FilePath

from methodlint.checking.check import (
    CheckJudgement,
    case_key,
    judge_cases,
    judged_document,
    lab_paths,
    rejudge_documents,
)
from methodlint.checking.given import Given
from methodlint.checking.purposes import Waiting
from methodlint.checking.report import PlainBatch, PlainRun
from methodlint.checking.week import bookings_of
from methodlint.documents.library import LabFolder
from methodlint.documents.loading import Loaded
from methodlint.documents.text.places import Path
from methodlint.documents.text.problems import Problem
from methodlint.judging.case import DocumentCase, RunCase
from methodlint.judging.deviations import DeviationUse
from methodlint.judging.finding import Finding, Grade, NotChecked, at_judged
from methodlint.judging.judged import Judged, SetAside
from methodlint.judging.lab_rules import RuleFolder, rule_folders
from methodlint.judging.line_case import LineCase
from methodlint.judging.loader import built_in_rules
from methodlint.judging.unjudged import RuleFailed
from methodlint.many.plain import (
    Pruner,
    Shelf,
    TextKey,
    places_of,
    plain_batch,
    plain_run,
    text_key,
)
from methodlint.rehearsal.calendar.booking import Booking

Asked = tuple[str, bool]
"""A file, and whether it was asked for by name."""


@dataclass(frozen=True, slots=True)
class Settings:
    """What a worker has to know beside the paths.

    Attributes
    ----------
    call
        Name of one call of `check_many`: cards are read once in a call and anew in the next.
    root
        Root of the lab folder.
    shown_from
        Folder that paths are shown relative to.
    allow_rules
        Folders of the lab's own rules that may be run, resolved.
    begins
        Latest date at which a sequence of any batch begins.
    not_before, remedies
        See `methodlint.check`.
    """

    call: str
    root: str
    shown_from: str
    as_of: datetime.date | None = None
    given: tuple[Given, ...] = ()
    allow_rules: tuple[str, ...] = ()
    begins: datetime.date | None = None
    not_before: datetime.date | None = None
    remedies: bool = True


@dataclass(frozen=True)
class ExternalFacts:
    """What other cases tell about a document: it has to be judged again if that is not all.

    Attributes
    ----------
    unresolved
        References of the document that lead nowhere.
    idle
        Numbers of its deviations that set nothing aside.
    waiting
        What waits for a purpose to be said.
    """

    unresolved: frozenset[Problem] = frozenset()
    idle: frozenset[int] = frozenset()
    waiting: Mapping[str, Mapping[str, Grade]] = field(default_factory=dict)


@dataclass
class CaseResult:
    """What the rules said about one case, plain.

    Attributes
    ----------
    kind
        `document`, `run`, `line` or `batch`.
    key
        What the case is about: the same key in two batches is the same case.
    with_bench
        Whether it is a run of a sequence.
    judged
        Path of the document that it judges.
    waiting
        What waits in it for a purpose to be said.
    told
        What the other cases of the batch had told about the document when it was judged.
    """

    kind: str
    key: tuple[str, ...]
    with_bench: bool
    judged: str
    findings: list[Finding]
    not_checked: list[NotChecked]
    set_aside: list[SetAside]
    failed: list[RuleFailed]
    checked: int
    made: set[str]
    uses: dict[str, DeviationUse]
    waiting: Waiting
    told: ExternalFacts


@dataclass
class WorkerPart:
    """Result of one batch."""

    documents: dict[str, Loaded] = field(default_factory=dict)
    whole: set[str] = field(default_factory=set)
    lost: set[str] = field(default_factory=set)
    reference_problems: dict[str, list[Problem]] = field(default_factory=dict)
    results: list[CaseResult] = field(default_factory=list)
    runs: list[PlainRun] = field(default_factory=list)
    batches: list[PlainBatch] = field(default_factory=list)
    bookings: list[Booking] = field(default_factory=list)
    lab_paths: dict[str, str] = field(default_factory=dict)


class _Kept(threading.local):
    """Lab folders of this thread; a call keeps those of its own roots only."""

    def __init__(self) -> None:
        self.folders: dict[tuple[str, str, str], LabFolder] = {}
        self.rules: dict[tuple[str, str, str], tuple[RuleFolder, ...]] = {}


_kept = _Kept()


def folder_of(settings: Settings) -> LabFolder:
    """The lab folder of a call, with the cards that were read already in this process."""
    key = (settings.call, settings.root, settings.shown_from)
    if key not in _kept.folders:
        for old in [known for known in _kept.folders if known[0] != settings.call]:
            del _kept.folders[old]
            _kept.rules.pop(old, None)
        _kept.folders[key] = LabFolder(FilePath(settings.root), FilePath(settings.shown_from))
    return _kept.folders[key]


def rules_of_lab(settings: Settings) -> tuple[RuleFolder, ...]:
    """The lab's own rules, as far as they are allowed; loaded once in a call."""
    key = (settings.call, settings.root, settings.shown_from)
    folder = folder_of(settings)
    if key not in _kept.rules:
        allowed = {FilePath(name) for name in settings.allow_rules}
        taken = {rule.id for rule in built_in_rules()}
        _kept.rules[key] = rule_folders(folder.lab, folder.root, allowed, taken)
    return _kept.rules[key]


def ready() -> None:
    """Load what every batch needs: a worker does so while its batches are still being cut."""
    built_in_rules()


def judge_part(settings: Settings, files: Sequence[Asked]) -> WorkerPart:
    """Judge some files of one lab folder.

    Rules are loaded here, in the process that runs this: functions that were loaded by path
    cannot be sent.
    """
    folder = folder_of(settings)
    targets = []
    for name, asked_for in files:
        file = FilePath(name)
        document = folder.open(file)
        if document is None:
            document = folder.unreadable(file, asked_for=asked_for)
        if document is not None:
            targets.append(document)
    part = WorkerPart()
    if targets:
        judgement = judge_cases(
            folder,
            targets,
            built_in_rules(),
            settings.as_of,
            settings.given,
            rules_of_lab(settings),
            settings.begins,
            settings.not_before,
            settings.remedies,
        )
        rejudge_documents(judgement)
        part = _plain(judgement, {document.path for document in targets}, folder)
    # Cards are worth keeping for the next batch, the documents of this one are not.
    for name, _ in files:
        folder.documents.pop(FilePath(name), None)
        folder.reads.pop(FilePath(name), None)
    return part


def _plain(judgement: CheckJudgement, targets: set[str], folder: LabFolder) -> WorkerPart:
    assembly = judgement.assembly
    # Shared cards stay whole: other batches may point elsewhere in them.
    whole = {text_key(d) for path, d in assembly.documents.items() if path not in targets}
    wanted: dict[TextKey, list[Path]] = {
        text_key(document): [] for path, document in assembly.documents.items() if path in targets
    }
    for result in judgement.judged:
        found = [*result.findings, *(item.finding for item in result.set_aside)]
        judged = assembly.documents.get(judged_document(result.case).path)
        references = [at_judged(finding, judged) for finding in found]
        for at in (*places_of(found), *references, *(item.at for item in result.not_checked)):
            key = text_key(at.document)
            if key not in whole:
                wanted.setdefault(key, []).append(at.path)
    pruner = Pruner(wanted)
    shelf = Shelf(pruner)
    return WorkerPart(
        documents={path: pruner(document) for path, document in assembly.documents.items()},
        whole=set(assembly.documents) - targets,
        reference_problems=assembly.reference_problems,
        results=[
            plain_result(result, shelf, uses, waiting, assembly.reference_problems)
            for result, uses, waiting in zip(
                judgement.judged, judgement.uses, judgement.waiting, strict=True
            )
        ],
        runs=[plain_run(run) for run in judgement.runs],
        batches=[plain_batch(batch) for batch in assembly.batches],
        bookings=bookings_of(assembly.batches),
        lab_paths=lab_paths(folder, assembly.documents, judgement.runs),
    )


def plain_result(
    result: Judged,
    shelf: Shelf,
    uses: dict[str, DeviationUse],
    waiting: Waiting,
    unresolved: Mapping[str, Sequence[Problem]],
) -> CaseResult:
    """Take away what a result was computed from."""
    case, path = result.case, judged_document(result.case).path
    key: tuple[str, ...] = (path, "")
    kind, told = "batch", ExternalFacts()
    if isinstance(case, LineCase):
        kind, key = "line", (path, case.name, str(case.assumed))
    elif isinstance(case, RunCase):
        kind, key = "run", case_key(case)
    elif isinstance(case, DocumentCase):
        kind = "document"
        told = ExternalFacts(frozenset(unresolved.get(path, ())), case.idle, case.waiting)
    return CaseResult(
        kind=kind,
        key=key,
        with_bench="sequence" in case.documents,
        judged=path,
        findings=[shelf.finding(finding) for finding in result.findings],
        not_checked=[shelf.not_checked(item) for item in result.not_checked],
        set_aside=[shelf.set_aside(item) for item in result.set_aside],
        failed=result.failed,
        checked=result.checked,
        made=result.made,
        uses=uses,
        waiting=waiting,
        told=told,
    )
