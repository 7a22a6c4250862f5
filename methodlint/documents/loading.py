"""From a document's text to its typed form, with every problem found in one pass.

A value that cannot be used is reported, taken out and remembered as broken, and the rest is
validated again: one wrong unit hides neither the next problem nor the sound values, and no
later step ever sees a guessed value.
"""

from __future__ import annotations

import importlib
from collections import ChainMap, Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Any, Generic

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails
from typing_extensions import TypeVar

from methodlint.documents.joined_problems import MAX_REPORTED, first_of_each_rule, joined_rows
from methodlint.documents.kinds.base import Document
from methodlint.documents.schema_problems import problem_from_error
from methodlint.documents.synonyms import SYNONYMS
from methodlint.documents.tables.files import TableFile, TableSource
from methodlint.documents.text.places import Path, Place
from methodlint.documents.text.problems import Problem
from methodlint.documents.text.reader import Read

if TYPE_CHECKING:
    from methodlint.documents.sequence_lines import LaidOut

KINDS: tuple[str, ...] = (
    "method",
    "column",
    "instrument",
    "supply",
    "solvents",
    "room",
    "sequence",
    "logbook",
    "lab",
)

# Each pass removes at least one broken value; a document with more broken values than this
# has told its reader enough.
_PASSES = 200

# Problems of one rule that are told line by line where lines come from a table or from blocks.
_MAX_REPORTED_LINES = 100


# Errors in one pass beyond which a document is not used at all: more than any table has rows.
_MOST_ERRORS = 20_000

# Unknown keys whose values are looked at; each costs one more validation.
_SYNONYMS = 10


DocumentT_co = TypeVar("DocumentT_co", bound=Document, covariant=True, default=Any)


@dataclass(frozen=True, slots=True, eq=False, repr=False)
class Loaded(Generic[DocumentT_co]):
    """A document as read: typed values, the data they came from, what was wrong.

    Attributes
    ----------
    name
        Name by which other documents refer to it (the file's stem).
    path
        Path as shown to the user, with forward slashes.
    kind
        One of `KINDS`.
    model
        The typed document, without its broken values.
    data
        Plain data that the model was built from, `x-` keys and broken values removed.
    broken
        Paths whose value could not be used, each with the problem that says why.
    tables
        Tables that it takes lines from.
    made_from
        Path, as shown, of the document that this one was made from; empty if it was written.
    """

    name: str
    path: str
    kind: str
    model: DocumentT_co
    data: dict[str, Any]
    read: Read
    problems: tuple[Problem, ...] = ()
    broken: Mapping[Path, Problem] = field(default_factory=dict)
    tables: tuple[TableFile, ...] = ()
    made_from: str = ""

    @property
    def file(self) -> str:
        """Path, as shown, of the file that its text stands in."""
        return self.made_from or self.path

    def __repr__(self) -> str:
        """Name the document; its values would fill pages."""
        return f"Loaded({self.kind} {self.path!r})"

    def place(self, path: Path, *, key: bool = False) -> Place:
        """Give the place of a value, or of its nearest parent that is written down."""
        return self.read.place(path, key=key)


def model_class(kind: str) -> type[Document]:
    """Import the model of one kind of document.

    Raises
    ------
    KeyError
        If `kind` is none of `KINDS`.
    """
    if kind not in KINDS:
        raise KeyError(kind)
    module = importlib.import_module(f"methodlint.documents.kinds.{kind}")
    found: type[Document] = getattr(module, kind.capitalize())
    return found


def own_keys(data: Any) -> Any:
    """Copy plain data without the keys that belong to the lab (`x-...`)."""
    if isinstance(data, dict):
        return {
            key: own_keys(value)
            for key, value in data.items()
            if not (isinstance(key, str) and key.startswith("x-"))
        }
    if isinstance(data, list):
        return [own_keys(item) for item in data]
    return data


def without(data: Any, path: Path) -> None:
    """Take the value at a path out of plain data; list items leave a hole filled by None."""
    for step in path[:-1]:
        try:
            data = data[step]
        except (KeyError, IndexError, TypeError):
            return
    last = path[-1]
    if isinstance(data, dict):
        data.pop(last, None)
    elif isinstance(data, list) and isinstance(last, int) and last < len(data):
        data[last] = None


def validated(
    model: type[Document], data: dict[str, Any], read: Read
) -> tuple[Document, list[Problem], dict[Path, Problem]]:
    """Build the model, removing what is broken until the rest is sound.

    Returns
    -------
    tuple
        The model, the problems in order of place, and the broken paths.
    """
    problems: list[Problem] = []
    told: set[tuple[str, Path]] = set()
    broken: dict[Path, Problem] = {}
    known = ChainMap(broken, read.broken)
    for _ in range(_PASSES):
        try:
            return model.model_validate(data), problems, broken
        except ValidationError as error:
            if error.error_count() > _MOST_ERRORS:
                few = _few_of_many(error, model, data, read)
                bare = {"kind": data.get("kind")}
                return model.model_validate(bare), problems + few, {(): few[0], **broken}
            found = _problems_of(error.errors(include_url=False), model, data, read)
        for problem, path in found:
            gone = _taken_out_before(problem, path, known)
            if gone is not None:
                broken.setdefault(path, gone)
                continue
            if (problem.rule, problem.path) not in told:
                told.add((problem.rule, problem.path))
                problems.append(problem)
            if problem.breaks:
                broken.setdefault(path, problem)
        # Deepest and last first, so that taking one out does not move another.
        for path in sorted({path for _, path in found}, key=_order, reverse=True):
            _take_out(data, path)
    bare = {"kind": data.get("kind")}
    return model.model_validate(bare), problems, {(): problems[0], **broken}


def _taken_out_before(
    problem: Problem, path: Path, broken: Mapping[Path, Problem]
) -> Problem | None:
    """Tell whether a key is missing only because its value was taken out, and why."""
    if problem.missing is None:
        return None
    return broken.get((*path, problem.missing))


def _order(path: Path) -> tuple[tuple[int, str], ...]:
    return tuple((step, "") if isinstance(step, int) else (-1, step) for step in path)


def _take_out(data: Any, path: Path) -> None:
    """Remove a value; a list that loses an item loses it whole, so that indices stay true."""
    lists = [i for i, step in enumerate(path) if isinstance(step, int)]
    if path and isinstance(path[-1], int) and lists:
        path = path[: lists[-1]]
    without(data, path) if path else data.clear()


def _few_of_many(
    error: ValidationError, model: type[BaseModel], data: dict[str, Any], read: Read
) -> list[Problem]:
    """Tell the first errors of a document that has too many to take out one by one."""
    # The first lines of every list mostly show enough, and the whole would take much memory.
    begun = {k: v[: MAX_REPORTED + 1] if isinstance(v, list) else v for k, v in data.items()}
    details: list[ErrorDetails] = []
    try:
        model.model_validate(begun)
    except ValidationError as of_begun:
        details = of_begun.errors(include_url=False)
    if len(details) < MAX_REPORTED:
        details = error.errors(include_url=False)
    *told, last = [p for p, _ in _problems_of(details[:MAX_REPORTED], model, data, read)]
    further = error.error_count() - MAX_REPORTED
    message = f"{last.message}; {further} further values of this document cannot be used either"
    return [*told, replace(last, message=message)]


def _problems_of(
    details: Sequence[ErrorDetails], model: type[BaseModel], data: dict[str, Any], read: Read
) -> list[tuple[Problem, Path]]:
    best: dict[Path, tuple[Problem, Path]] = {}
    unknown = 0
    for detail in details:
        # To look for what was meant takes long; who needs it so often has another trouble.
        unknown += detail["type"] == "extra_forbidden"
        problem, path = problem_from_error(
            detail, model, data, read, suggest=unknown <= MAX_REPORTED
        )
        known = best.get(path)
        if known is None or (
            known[0].rule.endswith("shape-wrong") and problem.rule != known[0].rule
        ):
            best[path] = (problem, path)
    # A union reports the failure of every member: keep the deepest, which is the one meant.
    above = {path[:length] for path in best for length in range(len(path))}
    deepest = [item for path, item in best.items() if path not in above]
    return sorted(deepest, key=lambda item: (item[0].place, item[0].rule))


def _problems_of_repeated(read: Read, model: type[Document]) -> list[Problem]:
    """Look at the first values of keys that stand twice: they are not used, but may be wrong."""
    repeated = {path for path, p in read.broken.items() if p.rule.endswith("duplicate-key-or-id")}
    if not repeated:
        return []
    others = {path: p for path, p in read.broken.items() if path not in repeated}
    plain = own_keys(replace(read, broken=others).plain())
    _, problems, _ = validated(model, plain, read)
    return [p for p in problems if any(p.path[: len(path)] == path for path in repeated)]


def _problems_under_synonyms(
    read: Read, model: type[Document], unknown: Sequence[Problem]
) -> list[Problem]:
    """Look at values under a trade word for a known key (`bpr`): not used, but may be wrong."""
    found: list[Problem] = []
    for problem in unknown:
        *parent, key = problem.path
        meant = SYNONYMS.get(str(key).lower().replace("-", "_").replace(" ", "_"))
        if meant is None:
            continue
        data: Any = own_keys(read.plain())
        holder = data
        for step in parent:
            holder = holder[step]
        if meant in holder:
            continue
        holder[meant] = holder.pop(key)
        _, problems, _ = validated(model, data, read)
        as_meant = (*parent, meant)
        found += [
            replace(
                p,
                path=(*problem.path, *p.path[len(as_meant) :]),
                place=read.place((*problem.path, *p.path[len(as_meant) :])),
            )
            for p in problems
            if p.path[: len(as_meant)] == as_meant and p.rule != "document.unknown-key"
        ]
    return found


def nothing_read(read: Read, path: str, name: str, problems: Sequence[Problem]) -> Loaded:
    """Stand for a file that is no document, so that its problems can be reported."""
    return Loaded(
        name=name,
        path=path,
        kind="",
        model=Document(),
        data={},
        read=read,
        problems=tuple(problems),
        broken={(): problems[0]},
    )


def load(read: Read, path: str, name: str, tables: TableSource | None = None) -> Loaded | None:
    """Turn a text that was read into a typed document.

    Parameters
    ----------
    read
        The text with its nodes and places.
    path
        Path as shown to the user.
    name
        Name by which other documents refer to it.
    tables
        Gives the tables that a sequence takes its lines from; None if there is no folder.

    Returns
    -------
    Loaded or None
        None if the text has no usable `kind`: it is not a document of this tool.
    """
    plain = read.plain()
    if not isinstance(plain, dict) or plain.get("kind") not in KINDS:
        return None
    made = _laid_out(read, tables, plain["kind"])
    if made is not None:
        read = made.read
        plain = read.plain()
    data: dict[str, Any] = own_keys(plain)
    twice = _problems_of_repeated(read, model_class(data["kind"]))
    model, problems, broken = validated(model_class(data["kind"]), data, read)
    unknown = [p for p in problems if p.rule == "document.unknown-key"]
    twice += _problems_under_synonyms(read, model_class(data["kind"]), unknown[:_SYNONYMS])
    problems = joined_rows(problems, plain, read)
    if made is not None:
        problems = _deduplicate(problems, made)
    everything = sorted([*read.problems, *problems, *twice], key=lambda p: (p.place, p.rule))
    everything = first_of_each_rule(everything)
    return Loaded(
        name=name,
        path=path,
        kind=model.kind,  # type: ignore[attr-defined]
        model=model,
        data=data,
        read=read,
        problems=tuple(everything),
        broken={**read.broken, **broken},
        tables=made.tables if made is not None else (),
    )


def _laid_out(read: Read, tables: TableSource | None, kind: str) -> LaidOut | None:
    if kind == "logbook":
        from methodlint.documents.logbook_entries import entries_laid_out

        return entries_laid_out(read, tables)
    if kind != "sequence":
        return None
    # Imported here: most documents are no sequences.
    from methodlint.documents.sequence_lines import laid_out

    return laid_out(read, tables)


def _deduplicate(problems: Sequence[Problem], made: LaidOut) -> list[Problem]:
    """Join what is wrong with the lines' sources; a value that many lines share is told once."""
    found: dict[tuple[str, Place], Problem] = {}
    several: list[Problem] = []
    number: Counter[str] = Counter()
    for problem in problems:
        key = problem.rule, problem.place
        if problem.path[:1] not in (("lines",), ("entries",)):
            several.append(problem)
        elif key not in found:
            number[problem.rule] += 1
            found[key] = problem
            if number[problem.rule] > _MAX_REPORTED_LINES:
                del found[key]
    for rule, count in number.items():
        if count > _MAX_REPORTED_LINES:
            last = max((p for p in found.values() if p.rule == rule), key=lambda p: p.place)
            message = (
                f"{last.message}; {count - _MAX_REPORTED_LINES} further lines have the same trouble"
            )
            found[(rule, last.place)] = replace(last, message=message)
    explained = any(p.path[:1] and p.path[0] in ("table", "blocks", "named_lines") for p in several)
    if made.unexplained is not None and not explained:
        several.append(made.unexplained)
    return [*made.problems, *several, *found.values()]
