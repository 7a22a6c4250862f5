"""A lab folder: finds its root, reads each document once, resolves names under the root.

A reference is a plain name. It is looked for beside the document that names it and then in
the folder of its kind (`column: amylose-3um` -> `columns/amylose-3um.yaml`). A name can never
lead out of the root, and what a link outside points to is never opened.
"""

from __future__ import annotations

import os
import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path as FilePath
from typing import Protocol

from methodlint.documents.kinds.lab import Lab
from methodlint.documents.loading import Loaded, load, nothing_read
from methodlint.documents.no_kind import problems_of_no_kind, unusable_lab
from methodlint.documents.not_found import NotFound, no_card, without_path
from methodlint.documents.tables.files import TableFile, open_table
from methodlint.documents.text.limits import DOCUMENT, SEQUENCE
from methodlint.documents.text.reach import is_file, is_folder, is_link, is_there, names_in, real
from methodlint.documents.text.reader import Read, not_read, read_document, read_text
from methodlint.documents.whose import is_methodlint_file

FOLDERS = {
    "method": "methods",
    "column": "columns",
    "instrument": "instruments",
    "supply": "supplies",
    "solvents": "solvents",
    "room": "rooms",
    "sequence": "sequences",
    "logbook": "logbooks",
}
ROOT_DOCUMENT = "lab.yaml"
_SUFFIXES = (".yaml", ".yml")
_NAME = re.compile(r"[^\W_][\w .+()-]*\Z")


class Library(Protocol):
    """Anything that can resolve a reference of one document to another."""

    def find(self, kind: str, name: str, beside: Loaded) -> Loaded | NotFound:
        """Resolve a name of a kind, as written in the document `beside`."""
        ...

    @property
    def lab(self) -> Loaded[Lab] | None:
        """The lab's own document, if there is one."""
        ...


@dataclass
class MemoryLibrary:
    """Documents held in memory: for examples and for candidates of a remedy."""

    documents: dict[tuple[str, str], Loaded]
    lab: Loaded[Lab] | None = None

    def find(self, kind: str, name: str, beside: Loaded) -> Loaded | NotFound:
        """Resolve a name among the documents held."""
        found = self.documents.get((kind, name))
        if found is not None:
            return found
        names = [known for of_kind, known in self.documents if of_kind == kind]
        return no_card(kind, FOLDERS[kind], name, names)


@dataclass
class LabFolder:
    """A lab folder on disk.

    Parameters
    ----------
    root
        Folder that holds `lab.yaml`, or the folder of the document checked if there is none.
    shown_from
        Folder that paths are shown relative to.
    open_texts
        Texts that stand for files, by their real paths: what an editor holds and has not saved.
    """

    root: FilePath
    shown_from: FilePath
    open_texts: Mapping[FilePath, bytes] = field(default_factory=dict)
    reads: dict[FilePath, Read] = field(default_factory=dict)
    documents: dict[FilePath, Loaded | None] = field(default_factory=dict)
    # A folder of methods names the same cards again and again: where they lie is looked up once.
    _cards: dict[tuple[str, str, FilePath], FilePath] = field(default_factory=dict, repr=False)
    _folders: dict[FilePath, FilePath] = field(default_factory=dict, repr=False)
    _listed: dict[FilePath, tuple[str, ...]] = field(default_factory=dict, repr=False)

    @property
    def lab(self) -> Loaded[Lab] | None:
        """The lab's own document, if there is one; one that cannot be used is broken as a whole."""
        file = self.root / ROOT_DOCUMENT
        return self.open(file) if is_there(file) or self._is_there(file) else None

    def open(self, file: FilePath) -> Loaded | None:
        """Read a file of this folder once; None if it is not a document of this tool.

        The lab's own document is one whatever it holds: all others are judged by it.
        """
        if file not in self.documents:
            read = self.read(file)
            found = load(read, self.shown(file), file.stem, lambda name: self.table(name, file))
            if file == self.root / ROOT_DOCUMENT and (found is None or found.kind != "lab"):
                found = unusable_lab(read, self.shown(file))
            self.documents[file] = found
        return self.documents[file]

    def read(self, file: FilePath) -> Read:
        """Read the text of a file once."""
        if file not in self.reads:
            self.reads[file] = self._read(file)
        return self.reads[file]

    def _read(self, file: FilePath) -> Read:
        if self.leaves(file):
            message = "it is a link that leaves the lab folder; what it leads to is not opened"
            return not_read(file, message, "put the document itself into the lab folder")
        in_sequence_folder = file.parent.name == FOLDERS["sequence"]
        if self.open_texts and (text := self.open_texts.get(real(file))) is not None:
            limits = SEQUENCE if in_sequence_folder else DOCUMENT
            return read_text(text, os.fspath(file), limits=limits)
        return read_document(file, sequence_limits=in_sequence_folder)

    def _is_there(self, file: FilePath) -> bool:
        return is_file(file) or (bool(self.open_texts) and real(file) in self.open_texts)

    def leaves(self, file: FilePath) -> bool:
        """Whether links on the way to a file lead out of this folder."""
        return not self._real(file).is_relative_to(self._real_folder(self.root))

    def _real(self, file: FilePath) -> FilePath:
        return real(file) if is_link(file) else self._real_folder(file.parent) / file.name

    def _real_folder(self, folder: FilePath) -> FilePath:
        if folder not in self._folders:
            self._folders[folder] = real(folder)
        return self._folders[folder]

    def table(self, name: str, beside: FilePath) -> TableFile:
        """Read a table beside a sequence or under the root.

        Raises
        ------
        NoTable
            When there is none, or it must not be read.
        """
        return open_table(name, beside.parent, self.root, self.shown)

    def unreadable(self, file: FilePath, *, asked_for: bool) -> Loaded | None:
        """Stand for a file that is no document, so that its problems can be reported.

        Parameters
        ----------
        file
            The file.
        asked_for
            Whether it was named on its own; a YAML file that merely lies in a folder and has
            nothing to do with this tool is somebody else's and passed over.
        """
        read = self.read(file)
        if not asked_for and not self._is_methodlint_file(read, file):
            return None
        return nothing_read(read, self.shown(file), file.stem, problems_of_no_kind(read))

    def _is_methodlint_file(self, read: Read, file: FilePath) -> bool:
        lab = is_there(self.root / ROOT_DOCUMENT)
        return is_methodlint_file(read, file, folders=FOLDERS.values(), lab=lab)

    def shown(self, file: FilePath) -> str:
        """Path of a file as it is shown to the user."""
        try:
            return file.relative_to(self.shown_from).as_posix()
        except ValueError:
            return file.as_posix()

    def under_root(self, shown: str) -> str:
        """Path under the root of a document by its path as shown."""
        try:
            return (self.shown_from / shown).relative_to(self.root).as_posix()
        except ValueError:
            return shown

    def find(self, kind: str, name: str, beside: Loaded) -> Loaded | NotFound:
        """Resolve a name of a kind, as written in the document `beside`."""
        if not _NAME.match(name) or ".." in name or name.startswith("~"):
            plain = without_path(name, _SUFFIXES)
            return NotFound(
                "a reference is a plain name without folders, '..' or a drive",
                remedy=f"write {plain}"
                if _NAME.match(plain)
                else "write the name of the card alone",
            )
        beside_folder = (self.shown_from / beside.path).parent
        known = self._cards.get((kind, name, beside_folder))
        if known is not None and (card := self.open(known)) is not None and card.kind == kind:
            return card
        folders = dict.fromkeys([self.root / FOLDERS[kind], beside_folder, self.root])
        found: dict[FilePath, Loaded] = {}
        unreadable = ""
        for folder in folders:
            for suffix in _SUFFIXES:
                file = folder / f"{name}{suffix}"
                if not self._is_there(file):
                    continue
                if self.leaves(file):
                    return NotFound("it is a link that leaves the lab folder")
                document = self.open(file)
                if document is not None and document.kind == kind:
                    found[self._real(file)] = document
                    last = file
                else:
                    why = (
                        problems_of_no_kind(self.read(file))[0].message
                        if document is None
                        else f"it says kind: {document.kind}"
                    )
                    unreadable = f"{self.shown(file)} cannot be read as a {kind}: {why}"
        if len(found) == 1:
            self._cards[kind, name, beside_folder] = last
            return next(iter(found.values()))
        if found:
            places = " and ".join(sorted(document.path for document in found.values()))
            return NotFound(f"it is found more than once: {places}", remedy="rename one of them")
        if unreadable:
            return NotFound(unreadable, remedy="put that file right")
        names = self._names(kind, list(folders))
        alone = "" if self._is_there(self.root / ROOT_DOCUMENT) else self.shown(self.root)
        method = beside.kind == "method"
        return no_card(kind, FOLDERS[kind], name, names, alone, method=method)

    def card(self, kind: str, name: str, beside: Loaded) -> Loaded:
        """Resolve a name of a kind that has to lead somewhere.

        Raises
        ------
        ValueError
            If it does not; the message says what to write instead.
        """
        found = self.find(kind, name, beside)
        if isinstance(found, NotFound):
            said = f"did you mean {found.near[0][0]}?" if found.near else found.remedy
            raise ValueError(f"{kind} '{name}': {found.reason}; {said}")
        return found

    def names_of(self, kind: str) -> list[str]:
        """Names of the cards of a kind in the lab's folder for them."""
        return self._names(kind, [self.root / FOLDERS[kind]])

    def _names(self, kind: str, folders: list[FilePath]) -> list[str]:
        names: set[str] = set()
        for folder in folders:
            if folder.name == FOLDERS[kind]:
                names.update(self._stems(folder))
            else:
                names.update(
                    file.stem
                    for file, document in self.documents.items()
                    if document is not None and document.kind == kind and file.parent == folder
                )
        return sorted(names)

    def _stems(self, folder: FilePath) -> tuple[str, ...]:
        """Names of the files of a folder that may be documents, listed once."""
        if folder not in self._listed:
            parts = (name.rpartition(".") for name in names_in(folder))
            self._listed[folder] = tuple(
                stem for stem, dot, suffix in parts if stem and dot + suffix in _SUFFIXES
            )
        return self._listed[folder]


def lab_root(start: FilePath, within: FilePath | None = None) -> FilePath:
    """Find the folder with `lab.yaml` at or above a path; without one, the nearest folder.

    Parameters
    ----------
    within
        Folder above which none is looked for.
    """
    folder = start if is_folder(start) else start.parent
    for candidate in (folder, *folder.parents):
        if is_there(candidate / ROOT_DOCUMENT):
            return candidate
        if candidate == within:
            break
    return folder
