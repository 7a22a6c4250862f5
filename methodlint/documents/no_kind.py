"""What is wrong with a document that has no valid kind, and with a lab's own that cannot be used."""

from __future__ import annotations

from dataclasses import replace

from methodlint.documents.kinds.lab import Lab
from methodlint.documents.loading import KINDS, Loaded, nothing_read
from methodlint.documents.text.names import nearest
from methodlint.documents.text.problems import Problem
from methodlint.documents.text.reader import Read
from methodlint.documents.text.visible import visible
from methodlint.documents.whose import Meant, meant

__all__ = ["problems_of_no_kind", "unusable_lab"]

_MOST_KEYS = 3
_ELSEWHERE = (
    "if another program reads this file, keep it outside the lab's folder or in a folder whose "
    "name begins with a dot"
)


def problems_of_no_kind(read: Read) -> list[Problem]:
    """List what is wrong with a text that has no valid kind, the kind first.

    A text that cannot be read as a whole says why; nothing is known of its kind.
    """
    plain = read.plain()
    if not isinstance(plain, dict) or ("kind",) in read.broken:
        return sorted(read.problems, key=lambda problem: problem.path != ("kind",))
    return [_no_kind(read, plain.get("kind"), meant(plain)), *read.problems]


def _no_kind(read: Read, kind: object, guess: Meant | None) -> Problem:
    path = ("kind",) if kind is not None else (guess.key,) if guess and guess.key else ()
    near = [name for name, _ in nearest(str(kind), list(KINDS), limit=2)] if kind else []
    if kind is None:
        message = "this document does not say what it is: 'kind:' is missing"
        if guess is not None and guess.key:
            message += f", and '{visible(guess.key)}' is no key of any document"
    else:
        message = f"'{visible(str(kind)[:80])}' is not a kind of document"
    remedy = f"kinds are: {', '.join(KINDS)}"
    if guess is not None and guess.beneath:
        message += f"; a {guess.kind} is indented below '{visible(guess.beneath)}'"
        remedy = "write its keys at the beginning of the line"
    elif guess is not None and guess.kind not in near[:1]:
        keys = ", ".join(guess.keys[:_MOST_KEYS])
        because = f" ({keys} are keys of that kind)" if keys and not guess.key else ""
        own = f"write kind: {guess.kind}{because}"
        remedy = own if guess.key else f"{own}; {_ELSEWHERE}"
    elif near:
        remedy = f"did you mean kind: {near[0]}? {remedy}"
    return Problem(
        rule="document.shape-wrong",
        grade="fault",
        path=path,
        place=read.place(path, key=kind is None),
        message=message,
        remedy=remedy,
    )


def unusable_lab(read: Read, path: str) -> Loaded:
    """Stand for a lab's own document that is there and cannot be used: no policy, and a fault."""
    plain = read.plain()
    kind = plain.get("kind") if isinstance(plain, dict) else None
    if kind in KINDS:
        problems = [
            Problem(
                rule="document.shape-wrong",
                grade="fault",
                path=("kind",),
                place=read.place(("kind",)),
                message=f"it is the lab's own document and says kind: {kind}",
                remedy=f"write kind: lab, or give the {kind} another name",
            )
        ]
    else:
        problems = problems_of_no_kind(read)
        if isinstance(plain, dict) and not any(p.path == ("kind",) for p in problems):
            problems[0] = replace(problems[0], remedy="write kind: lab")
    stand_in = nothing_read(read, path, "lab", problems)
    return replace(stand_in, kind="lab", model=Lab(kind="lab"))
