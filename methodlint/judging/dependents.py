"""Which documents of a lab depend on documents that have changed."""

from __future__ import annotations

import os
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from pathlib import Path as FilePath

from methodlint.documents.library import LabFolder
from methodlint.documents.loading import Loaded
from methodlint.documents.not_found import NotFound
from methodlint.documents.reach import is_folder
from methodlint.judging.assemble import Assembly

SUFFIXES = (".yaml", ".yml")


@dataclass
class _Following:
    """A lab folder that remembers which names were followed and to which files."""

    folder: LabFolder
    reached: set[str] = field(default_factory=set)
    lost: set[str] = field(default_factory=set)

    @property
    def lab(self) -> Loaded | None:
        return self.folder.lab

    def find(self, kind: str, name: str, beside: Loaded) -> Loaded | NotFound:
        found = self.folder.find(kind, name, beside)
        if isinstance(found, NotFound):
            self.lost.add(name)
        else:
            self.reached.add(found.path)
        return found


def dependents(
    folder: LabFolder,
    changed: Sequence[Loaded],
    removed: Iterable[FilePath] = (),
    tables: Iterable[FilePath] = (),
) -> list[Loaded]:
    """Find the methods and sequences whose judgement a change may alter.

    Parameters
    ----------
    folder
        The lab folder; every document under its root is looked at.
    changed
        Documents that have changed. A change of the lab's own document concerns all.
    removed
        Files that are no longer there; whoever still names them depends on them.
    tables
        Tables that have changed or are no longer there.

    Returns
    -------
    list of Loaded
        In order of their paths, without the changed documents themselves.
    """
    paths = {document.path for document in changed}
    # A card that no longer reads is found under no name, like one that was removed.
    names = {file.stem for file in removed}
    names |= {document.name for document in changed if not document.kind}
    everything = bool(folder.lab is not None and folder.lab.path in paths)
    shown = {folder.shown(file) for file in tables}
    gone = {file.name for file in tables if not file.exists()}
    found = []
    for document in _judged_on_their_own(folder):
        if document.path in paths:
            continue
        following = _Following(folder)
        assembly = Assembly(following)
        if document.kind == "sequence":
            assembly.add_sequence(document)
        else:
            assembly.add_method(document)
        reads = {table.path for table in document.tables}
        if (
            reads & shown
            or _misses(document, gone)
            or everything
            or following.reached & paths
            or following.lost & names
        ):
            found.append(document)
    return found


def _misses(document: Loaded, gone: set[str]) -> bool:
    """Whether a sequence names a table that is no longer there."""
    return any(
        problem.path == ("table",) and any(f"'{name}'" in problem.message for name in gone)
        for problem in document.problems
    )


def _judged_on_their_own(folder: LabFolder) -> list[Loaded]:
    documents = []
    for file in yaml_files(folder.root):
        if folder.leaves(file):
            continue
        document = folder.open(file)
        if document is not None and document.kind in ("method", "sequence"):
            documents.append(document)
    return documents


def yaml_files(folder: FilePath) -> list[FilePath]:
    """List the YAML files under a folder that are not hidden, in order; links are not descended.

    A folder that may not be listed stands for the files that it hides.
    """
    found: list[FilePath] = []
    # Not by os.walk, which calls itself for every folder inside another.
    waiting = [os.fspath(folder)]
    while waiting:
        where = waiting.pop()
        try:
            with os.scandir(where) as entries:
                seen = [entry for entry in entries if not entry.name.startswith(".")]
        except OSError:
            found.append(FilePath(where))
            continue
        for entry in seen:
            if is_folder(FilePath(entry.path)):
                if not entry.is_symlink():
                    waiting.append(entry.path)
            elif entry.name.endswith(SUFFIXES):
                found.append(FilePath(entry.path))
    return sorted(file.absolute() for file in found)
