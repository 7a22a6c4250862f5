"""What a check is asked to look at: paths in, documents and their lab folders out."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path as FilePath

from methodlint.checking.dependents import SUFFIXES, dependents, yaml_files
from methodlint.documents.library import ROOT_DOCUMENT, LabFolder, lab_root
from methodlint.documents.loading import Loaded
from methodlint.documents.tables.files import SUFFIXES as TABLE_SUFFIXES
from methodlint.documents.text.reach import is_folder, is_there

NOTHING = (
    "no document with a 'kind:' of this tool is among these files; `methodlint new KIND` writes one "
    "to start from"
)


class NothingToCheck(ValueError):
    """The paths name no document of this tool."""


def targets_of(
    paths: Iterable[str | FilePath],
    *,
    changed: bool = False,
    within: FilePath | None = None,
    texts: Mapping[FilePath, bytes] | None = None,
) -> list[tuple[LabFolder, list[Loaded]]]:
    """Load the documents that paths name, each folder's with what depends on them if `changed`.

    Parameters
    ----------
    within
        Folder that paths are shown relative to; no lab's document is looked for above it. The
        working folder, and any above it, if None.
    texts
        Texts that stand for files, by their real paths.
    """
    folders: dict[FilePath, LabFolder] = {}
    found: dict[FilePath, list[Loaded]] = {}
    tables: dict[FilePath, list[FilePath]] = {}
    for file, asked_for in files_of(paths, changed=changed):
        root = lab_root(file, within)
        folder = folders.setdefault(root, LabFolder(root, within or FilePath.cwd(), texts or {}))
        own = found.setdefault(root, [])
        if changed and is_table(file):
            tables.setdefault(root, []).append(file)
            continue
        if changed and not is_there(file):
            continue
        document = folder.open(file)
        if document is None:
            document = folder.unreadable(file, asked_for=asked_for and not changed)
        if document is not None:
            own.append(document)
    if changed:
        for root, folder in folders.items():
            found[root] += dependents(folder, found[root], tables.get(root, ()))
    return [(folder, found[root]) for root, folder in folders.items()]


def files_of(
    paths: Iterable[str | FilePath], *, changed: bool = False
) -> list[tuple[FilePath, bool]]:
    """Files of all paths, each once and with whether it was asked for by name.

    Raises
    ------
    FileNotFoundError
        If a path does not exist, unless `changed`; then files that are gone are listed too, files
        that can be neither documents nor tables are not, and a lab's own document stands for all
        that lie below it: it concerns them if it changes, and they belong to another lab if it
        comes or goes.
    NothingToCheck
        If a path is a sample table, which is no document, unless `changed`.
    """
    files: dict[FilePath, bool] = {}
    for path in paths:
        for file, asked_for in _changed(path) if changed else _files(path):
            if asked_for and not changed and is_table(file):
                raise NothingToCheck(
                    f"{path} is a table: check the sequence that names it, or the table with "
                    "--dependents"
                )
            if not changed or file.suffix in SUFFIXES or is_table(file):
                files[file] = files.get(file, False) or asked_for
    return list(files.items())


def is_table(file: FilePath) -> bool:
    """Whether a file is a sample table by its name."""
    return file.name.lower().endswith(TABLE_SUFFIXES)


def _changed(name: str | FilePath) -> Iterable[tuple[FilePath, bool]]:
    """Files that a changed path concerns; it may be gone."""
    path = FilePath(name).absolute()
    if path.name == ROOT_DOCUMENT:
        yield from ((file, False) for file in yaml_files(path.parent))
    yield from _files(path) if is_folder(path) else [(path, True)]


def _files(name: str | FilePath) -> Iterable[tuple[FilePath, bool]]:
    """Files of a path, each with whether it was asked for by name."""
    path = FilePath(name)
    if path.is_dir():
        for file in yaml_files(path):
            yield file, False
        return
    if not path.exists():
        raise FileNotFoundError(f"there is no file or folder {path}")
    yield path.absolute(), True
