"""What a check is asked to look at: paths in, documents and their lab folders out."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path as FilePath

from methodlint.documents.library import LabFolder, lab_root
from methodlint.documents.loading import Loaded
from methodlint.documents.tables.files import SUFFIXES as TABLE_SUFFIXES
from methodlint.judging.dependents import SUFFIXES, dependents, yaml_files

NOTHING = (
    "no document with a 'kind:' of this tool is among these files; `methodlint new KIND` writes one "
    "to start from"
)


class NothingToCheck(ValueError):
    """The paths name no document of this tool."""


def targets_of(
    paths: Iterable[str | FilePath], *, changed: bool = False
) -> list[tuple[LabFolder, list[Loaded]]]:
    """Load the documents that paths name, each folder's with what depends on them if `changed`."""
    folders: dict[FilePath, LabFolder] = {}
    found: dict[FilePath, list[Loaded]] = {}
    here = FilePath.cwd()
    removed: dict[FilePath, list[FilePath]] = {}
    tables: dict[FilePath, list[FilePath]] = {}
    for file, asked_for in files_of(paths, changed=changed):
        root = lab_root(file)
        folder = folders.setdefault(root, LabFolder(root, here))
        own = found.setdefault(root, [])
        if changed and file.suffix in TABLE_SUFFIXES:
            tables.setdefault(root, []).append(file)
            continue
        if changed and not file.exists():
            removed.setdefault(root, []).append(file)
            continue
        document = folder.open(file)
        if document is None:
            document = folder.unreadable(file, asked_for=asked_for and not changed)
        if document is not None:
            own.append(document)
    if changed:
        for root, folder in folders.items():
            found[root] += dependents(
                folder, found[root], removed.get(root, ()), tables.get(root, ())
            )
    return [(folder, found[root]) for root, folder in folders.items()]


def files_of(
    paths: Iterable[str | FilePath], *, changed: bool = False
) -> list[tuple[FilePath, bool]]:
    """Files of all paths, each once and with whether it was asked for by name.

    Raises
    ------
    FileNotFoundError
        If a path does not exist, unless `changed`; then files that are gone are listed too, and
        files that can be neither documents nor tables are not.
    NothingToCheck
        If a path is a sample table, which is no document, unless `changed`.
    """
    files: dict[FilePath, bool] = {}
    for path in paths:
        gone = changed and not FilePath(path).exists()
        for file, asked_for in [(FilePath(path).absolute(), True)] if gone else _files(path):
            if asked_for and not changed and file.suffix in TABLE_SUFFIXES:
                raise NothingToCheck(
                    f"{path} is a table: check the sequence that names it, or the table with "
                    "--dependents"
                )
            if not changed or file.suffix in (*SUFFIXES, *TABLE_SUFFIXES):
                files[file] = files.get(file, False) or asked_for
    return list(files.items())


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
