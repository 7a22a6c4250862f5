"""What is said of documents whose worker ended before they were judged."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path as FilePath

from methodlint.documents.loading import nothing_read
from methodlint.documents.text.places import START
from methodlint.documents.text.problems import Problem
from methodlint.documents.text.reader import Read
from methodlint.judging.finding import At, NotChecked
from methodlint.many.part import Asked, CaseResult, ExternalFacts, Settings, WorkerPart, folder_of

RULE = "document.unreadable"
_REASON = "the process that judged this batch ended before it was done; check it on its own"


def lost_part(settings: Settings, files: Sequence[Asked]) -> WorkerPart:
    """Stand for a batch whose worker ended: every document of it is not checked."""
    folder, part = folder_of(settings), WorkerPart()
    for name, _ in files:
        file = FilePath(name)
        shown = folder.shown(file)
        problem = Problem(RULE, "fault", (), START, f"it was not judged: {_REASON}")
        document = nothing_read(Read(shown), shown, file.stem, [problem])
        lacking = NotChecked(
            RULE, At(document, ()), ("a worker that lives",), _REASON, can_stop=True, subject=shown
        )
        part.documents[shown] = document
        part.lost.add(shown)
        part.lab_paths[shown] = folder.under_root(shown)
        part.results.append(
            CaseResult(
                "document",
                (shown, ""),
                False,
                shown,
                [],
                [lacking],
                [],
                [],
                0,
                set(),
                {},
                {},
                ExternalFacts(),
            )
        )
    return part
