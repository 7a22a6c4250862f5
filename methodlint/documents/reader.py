"""Read one document: bytes to a tree whose values know their places.

Reading never raises and never hangs, whatever the file holds: what is wrong becomes a `Problem`.
The bytes are read once; hash, tree and places all come from the same bytes.
"""

from __future__ import annotations

import codecs
import errno
import hashlib
import os
import re
import stat
from dataclasses import dataclass, field
from pathlib import Path as FilePath
from typing import Any

from ruamel.yaml.cyaml import CParser
from ruamel.yaml.error import YAMLError

from methodlint.documents.limits import DOCUMENT, SEQUENCE, Limits
from methodlint.documents.nodes import Mapping, Node, Scalar, child, children
from methodlint.documents.places import START, LineTable, Path, Place
from methodlint.documents.problems import Problem
from methodlint.documents.syntax import UNREADABLE, syntax_problem
from methodlint.documents.tree import TOO_LARGE, Refused, TreeBuilder
from methodlint.documents.visible import escape

# What the parser refuses, found here first so that its exact place is known.
_FORBIDDEN = re.compile(
    "[^\t\n\r\x20-\x7e\x85\xa0-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]|[\ufffe\uffff]"
)
# The parser ends a line at these although no editor does, so a comment could hide a key behind one.
_UNSEEN_BREAK = re.compile("[\x85\u2028\u2029]")
# Characters that reorder or join what the reader sees.
_REORDERING = re.compile("[\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069\ufeff]")
_DIRECTIVE = re.compile("^%", re.MULTILINE)


@dataclass(slots=True)
class Read:
    """A document as read.

    Attributes
    ----------
    name : str
        What to call it in messages; show it through `visible`.
    data : bytes
        The bytes it was read from; empty when it could not be opened or is too large.
    sha256 : str
        Their hash in hexadecimal digits; empty when there are none.
    root : Node or None
        The tree; None when the text cannot be read as a whole.
    problems : list of Problem
        What is wrong with it.
    broken : dict of Path to Problem
        Values that cannot be used. Whoever finds more may add them.
    """

    name: str
    data: bytes = b""
    sha256: str = ""
    root: Node | None = None
    problems: list[Problem] = field(default_factory=list)
    broken: dict[Path, Problem] = field(default_factory=dict)

    def plain(self) -> Any:
        """Return the tree as dict, list and plain values, broken ones left out.

        A broken key is absent from its mapping; a broken item of a list is None, so that the
        others keep their indices. None when there is no tree.
        """
        if self.root is None or () in self.broken:
            return None
        if not self.broken:
            return _plain(self.root)
        return self._plain_without_broken(self.root, ())

    def _plain_without_broken(self, node: Node, path: Path) -> Any:
        if isinstance(node, Scalar):
            return node.value
        if isinstance(node, Mapping):
            return {
                key: self._plain_without_broken(below, (*path, key))
                for key, below in node.entries.items()
                if (*path, key) not in self.broken
            }
        return [
            None
            if (*path, index) in self.broken
            else self._plain_without_broken(below, (*path, index))
            for index, below in enumerate(node.items)
        ]

    def node(self, path: Path) -> Node | None:
        """Return the node at `path`, or None when there is none."""
        found = self.root
        for step in path:
            if found is None:
                return None
            found = child(found, step)
        return found

    def broken_at(self, path: Path) -> Problem | None:
        """Return the problem that makes the value at `path`, or one that holds it, unusable."""
        if not self.broken:
            return None
        for length in range(len(path) + 1):
            problem = self.broken.get(path[:length])
            if problem is not None:
                return problem
        return None

    def place(self, path: Path, *, key: bool = False) -> Place:
        """Return where the value at `path` stands, or its key.

        When there is nothing at `path`, such as for a key that is missing, it is the key of the
        nearest parent that exists, else that parent's beginning, and the document's first
        character when there is no tree.
        """
        if self.root is None:
            return START
        found: Node = self.root
        name: Place | None = None
        for step in path:
            below = child(found, step)
            known = found.key_places.get(step) if isinstance(found, Mapping) else None  # type: ignore[arg-type]
            if below is None:
                return known or name or _beginning(found)
            found, name = below, known
        return name if key and name is not None else found.place


def _beginning(node: Node) -> Place:
    place = node.place
    return Place(place.line, place.column, place.line, place.column + 1)


def _plain(node: Node) -> Any:
    if isinstance(node, Scalar):
        return node.value
    if isinstance(node, Mapping):
        return {key: _plain(below) for key, below in node.entries.items()}
    return [_plain(below) for below in node.items]


def read_document(file: FilePath, *, sequence_limits: bool = False) -> Read:
    """Read a document from a regular file.

    Parameters
    ----------
    file : pathlib.Path
        The file. Links are followed: whoever resolves names keeps them inside the lab's folder.
    sequence_limits : bool
        Allow for the size of a sequence.

    Returns
    -------
    Read
        With a problem when the file is missing, no regular file, unreadable or too large.
    """
    limits = SEQUENCE if sequence_limits else DOCUMENT
    name = os.fspath(file)
    try:
        data = _bytes_of(name, limits.size + 1)
    except _NotAFile:
        return _unopened(name, "it is no regular file", "Give the name of a text file.")
    except (OSError, ValueError) as error:
        return _unopened(name, _reason(error), "Check its name and who may read it.")
    return read_text(data, name, limits=limits)


class _NotAFile(Exception):
    pass


def _bytes_of(name: str, most: int) -> bytes:
    # Without O_NONBLOCK opening a named pipe waits for a writer that may never come.
    flags = os.O_RDONLY
    for option in ("O_NONBLOCK", "O_CLOEXEC", "O_NOCTTY", "O_BINARY"):
        flags |= getattr(os, option, 0)
    descriptor = os.open(name, flags)
    try:
        if not stat.S_ISREG(os.fstat(descriptor).st_mode):
            raise _NotAFile
        parts = []
        left = most
        while left > 0:
            part = os.read(descriptor, min(left, 1 << 20))
            if not part:
                break
            parts.append(part)
            left -= len(part)
        return b"".join(parts)
    finally:
        os.close(descriptor)


_REASONS = {
    errno.ENOENT: "there is no such file",
    errno.ENOTDIR: "there is no such file",
    errno.EACCES: "it may not be read",
    errno.EPERM: "it may not be read",
    errno.EISDIR: "it is a folder",
    errno.ELOOP: "its links lead in a circle",
    errno.ENXIO: "it is no regular file",
    errno.ENAMETOOLONG: "its name is too long",
}


def _reason(error: Exception) -> str:
    number = error.errno if isinstance(error, OSError) else None
    return _REASONS.get(number or 0, "it could not be read")


def _unopened(name: str, reason: str, remedy: str) -> Read:
    problem = Problem(
        UNREADABLE, "fault", (), START, f"the file cannot be opened: {reason}", remedy
    )
    return Read(name, problems=[problem], broken={(): problem})


def read_text(data: bytes, name: str, *, limits: Limits = DOCUMENT) -> Read:
    """Read a document from bytes.

    Parameters
    ----------
    data : bytes
        UTF-8 with or without a byte-order mark.
    name : str
        What to call it.
    limits : Limits
        Bounds to keep.

    Returns
    -------
    Read
        Never raises: what is wrong is in its `problems`.
    """
    if len(data) > limits.size:
        problem = Problem(
            TOO_LARGE, "fault", (), START,
            f"the file holds more than {limits.size} bytes, the limit for a document of its kind",
            "Split the document, or move rows into a table that it refers to.",
        )  # fmt: skip
        return Read(name, problems=[problem], broken={(): problem})
    read = Read(name, data, hashlib.sha256(data).hexdigest())
    bare = data.removeprefix(codecs.BOM_UTF8)
    try:
        text = bare.decode("utf-8")
    except UnicodeDecodeError as error:
        return _refused(read, _encoding_problem(bare, error))
    lines = LineTable(text)
    problem_before = _before_parsing(text, lines, limits)
    if problem_before is not None:
        return _refused(read, problem_before)
    builder = TreeBuilder(text, lines, limits)
    try:
        builder.build(CParser(bare))
    except Refused as refused:
        read.problems = builder.problems
        return _refused(read, refused.problem)
    except YAMLError as error:
        return _refused(read, syntax_problem(error, text, lines))
    return _finish(read, builder, text, lines)


def _refused(read: Read, problem: Problem) -> Read:
    read.root = None
    read.problems.append(problem)
    read.broken = {(): problem}
    return read


def _finish(read: Read, builder: TreeBuilder, text: str, lines: LineTable) -> Read:
    read.problems = builder.problems
    root = builder.root
    if root is None or (isinstance(root, Scalar) and root.value is None):
        return _refused(
            read,
            Problem(UNREADABLE, "fault", (), START, "the document is empty",
                    "Write at least its kind, such as kind: method."),
        )  # fmt: skip
    if not isinstance(root, Mapping):
        return _refused(
            read,
            Problem(UNREADABLE, "fault", (), _beginning(root),
                    "the document is not made of keys and values",
                    "Start it with a key and a value, such as kind: method."),
        )  # fmt: skip
    read.root = root
    if builder.unusable:
        read.broken = dict(_broken(root, (), builder.unusable))
    read.problems += _hidden(text, lines)
    return read


def _broken(
    node: Node, path: Path, unusable: dict[tuple[int, str | int], Problem]
) -> list[tuple[Path, Problem]]:
    found: list[tuple[Path, Problem]] = []
    steps = set()
    for step, below in children(node):
        steps.add(step)
        problem = unusable.get((id(node), step))
        if problem is not None:
            found.append(((*path, step), problem))
        else:
            found += _broken(below, (*path, step), unusable)
    return found


def _encoding_problem(bare: bytes, error: UnicodeDecodeError) -> Problem:
    if bare.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)) or b"\x00" in bare[:4]:
        message = "the text is UTF-16 or UTF-32, not UTF-8"
        return Problem(UNREADABLE, "fault", (), START, message, "Save it as UTF-8.")
    before = bare[: error.start].decode("utf-8")
    line, column = LineTable(before).position(len(before))
    message = f"the byte {bare[error.start]:#04x} is not UTF-8"
    place = Place(line, column, line, column + 1)
    return Problem(UNREADABLE, "fault", (), place, message, "Save the file as UTF-8.")


def _before_parsing(text: str, lines: LineTable, limits: Limits) -> Problem | None:
    match = _FORBIDDEN.search(text)
    if match is not None:
        return Problem(
            UNREADABLE, "fault", (), lines.place(match.start(), match.end()),
            f"the control character {escape(match.group())} may not stand in a document",
            "Delete it, or write it as an escape in double quotation marks.",
        )  # fmt: skip
    # The parser compares every directive with all before it.
    match = next(
        (m for n, m in enumerate(_DIRECTIVE.finditer(text)) if n >= limits.directives), None
    )
    if match is not None:
        return Problem(
            TOO_LARGE, "fault", (), lines.place(match.start(), match.end()),
            f"more than {limits.directives} lines start with %; the limit is {limits.directives}",
            "Indent such lines, or take them out.",
        )  # fmt: skip
    return None


_MOST_HIDDEN = 10


def _hidden(text: str, lines: LineTable) -> list[Problem]:
    problems: list[Problem] = []
    if text.isascii():
        return problems
    for match in _UNSEEN_BREAK.finditer(text):
        problems.append(
            Problem(
                "document.hidden-character", "fault", (), lines.place(match.start(), match.end()),
                f"{escape(match.group())} ends a line for some readers and not for others",
                "Delete it.", breaks=False,
            )
        )  # fmt: skip
        if len(problems) >= _MOST_HIDDEN:
            break
    for number, match in enumerate(_REORDERING.finditer(text)):
        if number >= _MOST_HIDDEN:
            break
        problems.append(
            Problem(
                "document.hidden-character", "caution", (),
                lines.place(match.start(), match.end()),
                f"{escape(match.group())} hides or reorders the text around it",
                "Delete it.", breaks=False,
            )
        )  # fmt: skip
    return problems
