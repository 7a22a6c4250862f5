"""Read one document: bytes to a tree whose values know their places.

Reading never raises and never hangs, whatever the file holds: what is wrong becomes a `Problem`.
The bytes are read once; hash, tree and places all come from the same bytes.
"""

from __future__ import annotations

import codecs
import hashlib
import os
import re
from dataclasses import dataclass, field
from pathlib import Path as FilePath
from typing import Any

from ruamel.yaml.cyaml import CParser  # type: ignore[attr-defined]
from ruamel.yaml.error import YAMLError

from methodlint.documents.text.assembly import TOO_LARGE, UNREADABLE, TextRefused
from methodlint.documents.text.characters import encoding_problem, refusal, unseen_characters
from methodlint.documents.text.limits import DOCUMENT, SEQUENCE, Limits
from methodlint.documents.text.nodes import Mapping, Node, Scalar, child, children
from methodlint.documents.text.opening import CannotOpen, bytes_of
from methodlint.documents.text.places import START, LineTable, Path, Place
from methodlint.documents.text.problems import Problem
from methodlint.documents.text.syntax import syntax_problem
from methodlint.documents.text.tree import TreeBuilder

_UNENDED = re.compile(rb"[\r\n] +\Z")


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
    return Place(place.line, place.column, place.line, place.column + 1, place.file, place.cell)


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
        data = bytes_of(name, limits.size + 1)
    except CannotOpen as error:
        message = f"the file cannot be opened: {error}"
        return _without_bytes(name, UNREADABLE, message, "check its name and who may read it")
    return read_text(data, name, limits=limits)


def not_read(file: FilePath, message: str, remedy: str) -> Read:
    """Stand for a file that is not opened, and say why."""
    return _without_bytes(os.fspath(file), UNREADABLE, message, remedy)


def _without_bytes(name: str, rule: str, message: str, remedy: str) -> Read:
    problem = Problem(rule, "fault", (), START, message, remedy)
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
        message = f"more than {limits.size} bytes; the limit for a document of its kind is that"
        remedy = "split the document, or move rows into a table that it refers to"
        return _without_bytes(name, TOO_LARGE, message, remedy)
    read = Read(name, data, hashlib.sha256(data).hexdigest())
    bare = data.removeprefix(codecs.BOM_UTF8)
    try:
        text = bare.decode("utf-8")
    except UnicodeDecodeError as error:
        return _refused(read, encoding_problem(bare, error))
    lines = LineTable(text)
    refused_at_once = refusal(text, lines, limits)
    if refused_at_once is not None:
        return _refused(read, refused_at_once)
    builder = TreeBuilder(text, lines, limits)
    try:
        # The parser takes a last line of blanks without an end for no line (L24T/01).
        builder.build(CParser(bare + b"\n" if _UNENDED.search(bare) else bare))
    except TextRefused as refused:
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
                    "write at least its kind, such as kind: method"),
        )  # fmt: skip
    if not isinstance(root, Mapping):
        return _refused(
            read,
            Problem(UNREADABLE, "fault", (), _beginning(root),
                    "the document is not made of keys and values",
                    "start it with a key and a value, such as kind: method"),
        )  # fmt: skip
    read.root = root
    if builder.unusable:
        read.broken = dict(_broken(root, (), builder.unusable))
    read.problems += unseen_characters(text, lines)
    return read


def _broken(
    node: Node, path: Path, unusable: dict[tuple[int, str | int], Problem]
) -> list[tuple[Path, Problem]]:
    found: list[tuple[Path, Problem]] = []
    for step, below in children(node):
        problem = unusable.get((id(node), step))
        if problem is not None:
            found.append(((*path, step), problem))
        else:
            found += _broken(below, (*path, step), unusable)
    return found
