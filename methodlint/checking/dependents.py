"""Which documents of a lab depend on documents that have changed."""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path as FilePath

from methodlint.checking.assemble import Assembly
from methodlint.documents.library import LabFolder, lab_root
from methodlint.documents.loading import Loaded
from methodlint.documents.not_found import NotFound
from methodlint.documents.quantities.number_findings import is_placeholder
from methodlint.documents.text.reach import is_folder, real

SUFFIXES = (".yaml", ".yml")


@dataclass
class _Following:
    """A lab folder that remembers to which files names were followed, and whether one was lost."""

    folder: LabFolder
    reached: list[str] = field(default_factory=list)
    lost: bool = False

    @property
    def lab(self) -> Loaded | None:
        return self.folder.lab

    def find(self, kind: str, name: str, beside: Loaded) -> Loaded | NotFound:
        found = self.folder.find(kind, name, beside)
        if isinstance(found, Loaded):
            self.reached.append(found.path)
        elif not is_placeholder(name):
            self.lost = True
        return found


def dependents(
    folder: LabFolder, changed: Sequence[Loaded], tables: Iterable[FilePath] = ()
) -> list[Loaded]:
    """Find the methods and sequences whose judgement a change may alter.

    Whoever refers to something that is not there is one of them, whatever has changed: the card
    may have been removed, renamed, or broken by the change.

    Parameters
    ----------
    folder
        The lab folder; every document under its root is looked at.
    changed
        Documents that have changed. A change of the lab's own document concerns all.
    tables
        Tables that have changed.

    Returns
    -------
    list of Loaded
        In order of their paths, without the changed documents themselves.
    """
    own = {document.path for document in changed}
    # Links lead to a card by another path than that of the file that has changed.
    files = {real(folder.shown_from / path) for path in own} | {real(file) for file in tables}
    leads = cache(lambda path: real(folder.shown_from / path) in files)
    everything = folder.lab is not None and folder.lab.path in own
    found = []
    for document in _judged_on_their_own(folder):
        if document.path in own:
            continue
        following = _Following(folder)
        assembly = Assembly(following)
        if document.kind == "sequence":
            assembly.add_sequence(document)
        else:
            assembly.add_method(document)
        read = [document.path, *following.reached, *(table.path for table in document.tables)]
        if everything or following.lost or _lacks_a_table(document) or any(map(leads, read)):
            found.append(document)
    return found


def _lacks_a_table(document: Loaded) -> bool:
    return any(problem.rule == "document.reference-unresolved" for problem in document.problems)


def _judged_on_their_own(folder: LabFolder) -> list[Loaded]:
    return [one for one in documents_of(folder) if one.kind in ("method", "sequence")]


def documents_of(folder: LabFolder) -> Iterator[Loaded]:
    """Yield the documents of a lab folder, in the order of their paths."""
    for file in yaml_files(folder.root):
        # Below may lie another lab, or what belongs to none.
        if folder.leaves(file) or lab_root(file, folder.root) != folder.root:
            continue
        document = folder.open(file)
        if document is not None:
            yield document


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
