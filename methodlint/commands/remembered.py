"""What a check of folders said last time, as long as nothing that it depends on has changed.

One JSON file per set of folders lies in the user's cache folder. It answers only for the very
same contents of every file below the labs' roots, the same code, rules and property tables of
this tool, the same libraries and the same options; anything else, and anything odd about the
file, means that the answer is computed. Each answer is sealed with a key that only this user has:
a file that somebody else left in a folder is not believed. Nothing heavy is imported here.
"""

from __future__ import annotations

import hashlib
import json
import os
import sys
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path as FilePath
from typing import Any

from methodlint.commands.answer import Answer, seal, stored_answer, user_key
from methodlint.documents.text.opening import CannotOpen, bytes_of

__all__ = ["READ", "Remembered", "cache_folder"]

READ = (".yaml", ".yml", ".csv", ".tsv", ".txt", ".xlsx")
"""Suffixes of the files that a check may read below a lab's root."""

_LAB = "lab.yaml"
_EDITION = 1
_MOST_ANSWERS = 8
_MOST_BYTES = 64 * 1024 * 1024
_PACKAGE = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))


class _CannotTell(Exception):
    """What a check depends on cannot be told with certainty."""


def cache_folder(option: str | None, environment: dict[str, str] | os._Environ[str]) -> str | None:
    """Folder to remember answers in; None to remember nothing.

    Parameters
    ----------
    option
        What the command line says: a folder, `off`, or nothing.
    environment
        Environment variables: nothing is remembered where CI is set, unless asked for.
    """
    if option is not None:
        return None if option == "off" else option
    if environment.get("CI", "").lower() not in ("", "0", "false"):
        return None
    return user_folder(environment)


def user_folder(environment: dict[str, str] | os._Environ[str]) -> str | None:
    """Folder of this user's own for what is remembered; None if the environment names none."""
    given = environment.get("XDG_CACHE_HOME", "")
    if os.path.isabs(given):
        return os.path.join(given, "methodlint")
    if sys.platform == "win32":
        home = environment.get("LOCALAPPDATA", "")
        return os.path.join(home, "methodlint", "cache") if os.path.isabs(home) else None
    home = environment.get("HOME", "")
    return os.path.join(home, ".cache", "methodlint") if os.path.isabs(home) else None


class Remembered:
    """Answers about one set of folders.

    Parameters
    ----------
    folder
        The cache folder.
    paths
        What is checked: files and folders, as typed.
    options
        Everything else that the answer depends on, as plain data.
    code
        Folders of a lab's own rules that may be run.
    key
        Secret of this user that answers are sealed with.
    """

    def __init__(
        self,
        folder: str,
        paths: Sequence[str],
        options: dict[str, Any],
        code: Sequence[str] = (),
        *,
        key: bytes,
    ) -> None:
        self._key = key
        self._paths = list(paths)
        here = os.getcwd()
        name = _digest([here, *self._paths])[:32]
        self._file = os.path.join(folder, f"{name}.json")
        self._question = _digest([here, self._paths, options, list(code), _this_tool(code)])
        self._inputs = self._state()

    @classmethod
    def of(
        cls,
        folder: str | None,
        paths: Sequence[str],
        options: dict[str, Any],
        code: Sequence[str] = (),
    ) -> Remembered | None:
        """Open the answers about folders; None if there is no cache, or no folder among paths."""
        if folder is None or not any(os.path.isdir(path) for path in paths):
            return None
        own = user_folder(os.environ)
        key = user_key(own) if own is not None else None
        if key is None:
            return None
        try:
            return cls(folder, paths, options, code, key=key)
        except (OSError, _CannotTell):
            return None

    def answer(self) -> Answer | None:
        """What was said about exactly this; None if it has to be computed."""
        return stored_answer(self._stored().get(self._question), self._sealed)

    def keep(self, answer: Answer) -> None:
        """Remember an answer, unless a file has changed meanwhile or the folder cannot be used."""
        try:
            if self._state() != self._inputs:
                return
            plain = json.loads(json.dumps(answer.plain()))
            answers = self._stored()
            answers.pop(self._question, None)
            for old in list(answers)[: max(0, len(answers) - _MOST_ANSWERS + 1)]:
                del answers[old]
            answers[self._question] = {"seal": self._sealed(plain), "answer": plain}
            text = json.dumps({"edition": _EDITION, "inputs": self._inputs, "answers": answers})
            if len(text) <= _MOST_BYTES:
                self._write(text)
        except (OSError, _CannotTell, ValueError):
            return

    def _sealed(self, answer: Any) -> str:
        return seal(self._key, [self._question, self._inputs, answer])

    def _stored(self) -> dict[str, Any]:
        try:
            stored = json.loads(bytes_of(self._file, _MOST_BYTES + 1, own=True))
        except (CannotOpen, ValueError, RecursionError):
            return {}
        if not isinstance(stored, dict) or stored.get("edition") != _EDITION:
            return {}
        answers = stored.get("answers")
        fits = stored.get("inputs") == self._inputs and isinstance(answers, dict)
        return answers if fits and isinstance(answers, dict) else {}

    def _write(self, text: str) -> None:
        import tempfile

        folder = os.path.dirname(self._file)
        os.makedirs(folder, mode=0o700, exist_ok=True)
        descriptor, part = tempfile.mkstemp(dir=folder)
        try:
            with open(descriptor, "w", encoding="ascii") as stream:
                stream.write(text)
            os.replace(part, self._file)
        except BaseException:
            os.unlink(part)
            raise

    def _state(self) -> str:
        """Hash of all that the check may read, names and contents."""
        roots: dict[str, None] = {}
        known: dict[str, str] = {}
        for path in self._paths:
            start = os.path.abspath(path)
            folders = _folders_below(start) if os.path.isdir(start) else [os.path.dirname(start)]
            for folder in folders:
                roots.setdefault(folder)
                # That of the folder above it is known by then.
                above = known.get(os.path.dirname(folder))
                own = above is None or os.path.lexists(os.path.join(folder, _LAB))
                known[folder] = _lab_root(folder) if own or above is None else above
                roots.setdefault(known[folder])
        files: dict[str, str] = {}
        walked: set[str] = set()
        for root in roots:
            for file in _files_below(root, walked) if root not in walked else ():
                if file not in files:
                    files[file] = _content_in_lab(file)
        for path in self._paths:
            if not os.path.isdir(path):
                files[os.path.abspath(path)] = _content_in_lab(os.path.abspath(path))
        return _digest([list(roots), sorted(files.items())])


def _digest(data: Any) -> str:
    text = json.dumps(data, sort_keys=True, separators=(",", ":"), ensure_ascii=True)
    return hashlib.sha256(text.encode("ascii")).hexdigest()


def _content_in_lab(file: str) -> str:
    """Hash of what a check reads of a file: it never opens what a link out of the lab leads to."""
    where = os.path.realpath(file)
    root = os.path.realpath(_lab_root(os.path.dirname(file)))
    if where != file and os.path.commonpath([where, root]) != root:
        return f"leaves {where}"
    return _content(file)


def _content(file: str) -> str:
    """Hash of a file's content, with where it lies if it is a link."""
    where = os.path.realpath(file) if os.path.islink(file) else ""
    try:
        if not os.path.isfile(file):
            return f"no file {where}"
        if os.path.getsize(file) > _MOST_BYTES:
            # Longer to hash than the check takes, which refuses it by its size.
            raise _CannotTell
        with open(file, "rb") as stream:
            return f"{hashlib.sha256(stream.read()).hexdigest()} {where}"
    except OSError as error:
        return f"error {error.errno} {where}"


def _entries(folder: str) -> list[os.DirEntry[str]]:
    try:
        with os.scandir(folder) as entries:
            return sorted(entries, key=lambda entry: entry.name)
    except OSError:
        return []


def _folders_below(folder: str) -> Iterator[str]:
    """Yield a folder and those below it that are not hidden."""
    waiting = [folder]
    while waiting:
        folder = waiting.pop()
        yield folder
        for entry in _entries(folder):
            if entry.name.startswith(".") or not entry.is_dir():
                continue
            if entry.is_symlink():
                # What lies behind a linked folder may change without a trace here.
                raise _CannotTell
            waiting.append(entry.path)


def _files_below(folder: str, walked: set[str]) -> Iterator[str]:
    for below in _folders_below(folder):
        if below in walked:
            continue
        walked.add(below)
        for entry in _entries(below):
            if entry.name.lower().endswith(READ) and not entry.is_dir():
                yield entry.path


def _lab_root(folder: str) -> str:
    """Folder with the lab's document at or above a folder; the folder itself without one."""
    at = folder
    while True:
        if os.path.lexists(os.path.join(at, _LAB)):
            return at
        above = os.path.dirname(at)
        if above == at:
            return folder
        at = above


def _this_tool(code: Sequence[str] = ()) -> list[Any]:
    """What the answer depends on beside the documents: code, rules, tables and libraries."""
    beside = os.path.join(os.path.dirname(_PACKAGE), "rules")
    rules = [] if os.path.isdir(os.path.join(_PACKAGE, "rules")) else [beside]
    content = hashlib.sha256()
    for folder in (_PACKAGE, *rules, *map(os.path.abspath, code)):
        for file in _code_below(folder):
            content.update(os.path.relpath(file, folder).encode("utf-8", "backslashreplace"))
            content.update(hashlib.sha256(FilePath(file).read_bytes()).digest())
    return [content.hexdigest(), sys.version, *_libraries()]


def _code_below(folder: str) -> Iterator[str]:
    for entry in _entries(folder):
        if entry.is_dir():
            if entry.name != "__pycache__":
                yield from _code_below(entry.path)
        else:
            yield entry.path


def _libraries() -> Iterable[str]:
    """Versions of the libraries that figures and wording depend on, without importing them."""
    for name in ("numpy", "pydantic", "pydantic_core", "ruamel.yaml"):
        for place in sys.path:
            start = os.path.join(place, *name.split("."))
            for file in ("version.py", "_version.py", "__init__.py"):
                if os.path.isfile(os.path.join(start, file)):
                    yield f"{name} {_content(os.path.join(start, file))}"
                    break
            else:
                continue
            break
