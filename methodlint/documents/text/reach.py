"""What may be reached from a lab's folder; asking never raises, whatever lies there.

The methods of `pathlib` raise for folders that may not be entered, for links in a circle and for
names that are too long; a document can hold such a name, and a folder such a link.
"""

from __future__ import annotations

import os
from pathlib import Path as FilePath


def is_file(file: FilePath) -> bool:
    """Whether a path leads to a regular file that can be seen."""
    try:
        return file.is_file()
    except (OSError, ValueError):
        return False


def is_there(file: FilePath) -> bool:
    """Whether anything has this name: a file, a folder, also a link that leads nowhere."""
    try:
        return os.path.lexists(file)
    except ValueError:
        return False


def is_folder(file: FilePath) -> bool:
    """Whether a path leads to a folder that can be seen."""
    try:
        return file.is_dir()
    except (OSError, ValueError):
        return False


def is_link(file: FilePath) -> bool:
    """Whether a path is a link itself."""
    return os.path.islink(file)


def names_in(folder: FilePath) -> list[str]:
    """Names of what lies in a folder, in order; empty if it cannot be listed."""
    try:
        return sorted(os.listdir(folder))
    except (OSError, ValueError):
        return []


def real(file: FilePath) -> FilePath:
    """Follow every link of a path as far as that is possible."""
    try:
        return FilePath(os.path.realpath(file))
    except (OSError, ValueError):
        return file.absolute()


def leaves(file: FilePath, root: FilePath) -> bool:
    """Whether links on the way to a file lead out of a folder; the folder may be a link itself."""
    return not real(file).is_relative_to(real(root))
