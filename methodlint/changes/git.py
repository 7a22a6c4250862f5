"""Questions to git, asked so that nothing which a repository brings along is run.

Only commands that read are used: no hook, external diff, text conversion, filter, alias, pager or
monitor of files is started, no object is replaced or fetched, and no name is taken for an option or
a pattern. The environment says nothing about the repository either (`GIT_DIR` of a hook, say).
"""

from __future__ import annotations

import datetime
import os
import re
import shutil
import subprocess
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path as FilePath

from methodlint.documents.text.reach import real
from methodlint.documents.text.visible import visible

_OPTIONS = (
    "--no-pager", "--no-replace-objects", "--literal-pathspecs",
    "-c", "core.fsmonitor=", "-c", "core.hooksPath=/dev/null", "-c", "core.untrackedCache=false",
    "-c", "protocol.allow=never", "-c", "safe.bareRepository=explicit",
)  # fmt: skip
_ENVIRONMENT = {
    "GIT_ALLOW_PROTOCOL": "none",
    "GIT_NO_LAZY_FETCH": "1",
    "GIT_NO_REPLACE_OBJECTS": "1",
    "GIT_OPTIONAL_LOCKS": "0",
    "GIT_TERMINAL_PROMPT": "0",
    "LC_ALL": "C",
}
_NOT_HERE = (
    "this clone does not hold all earlier contents of the documents; if it was made with --filter, "
    "run: git fetch --refetch --no-filter origin"
)
_NO_NAMES = frozenset([b"", b".", b"..", b".git"])
_COMMITTED = re.compile(rb"^committer [^\n]*> (\d{1,11}) ([+-])(\d\d)(\d\d)$", re.MULTILINE)


class NoAnswer(ValueError):
    """Git is not there or cannot tell; the message says what would mend it."""


@dataclass(frozen=True, slots=True)
class TreeEntry:
    """A file as a tree or the index of a repository has it.

    Attributes
    ----------
    mode
        Six octal digits: `120000` is a link, `160000` a submodule.
    oid
        Name of the content.
    here
        Whether it belongs into the work tree; a sparse checkout leaves files out.
    """

    mode: str
    oid: str
    here: bool = True

    @property
    def is_link(self) -> bool:
        """Whether it is a link."""
        return self.mode == "120000"

    @property
    def is_submodule(self) -> bool:
        """Whether another repository lies there."""
        return self.mode == "160000"


class Git:
    """The repository that a folder belongs to.

    Raises
    ------
    NoAnswer
        If git is not there, or the folder belongs to no repository with a work tree.
    """

    def __init__(self, folder: FilePath) -> None:
        # A relative entry of PATH would find a file of the working folder.
        places = os.environ.get("PATH", os.defpath).split(os.pathsep)
        program = shutil.which("git", path=os.pathsep.join(p for p in places if os.path.isabs(p)))
        if program is None:
            raise NoAnswer("git is not there, and --changed-from asks it; install it, or name the "
                           "changed files with --dependents --paths-from")  # fmt: skip
        self._program = program
        self.root = folder
        said = self._run("rev-parse", "--show-toplevel")
        if said.returncode:
            raise NoAnswer(f"git finds no work tree here: {_words(said.stderr)}")
        self.root = FilePath(os.fsdecode(said.stdout.removesuffix(b"\n")))
        if not real(folder).is_relative_to(real(self.root)):
            raise NoAnswer(f"this folder is not in the work tree {self.root} that git names")

    def _run(self, *arguments: str, text: bytes = b"") -> subprocess.CompletedProcess[bytes]:
        kept = {name: value for name, value in os.environ.items() if not name.startswith("GIT_")}
        return subprocess.run(
            [self._program, *_OPTIONS, *arguments],
            cwd=self.root,
            env=kept | _ENVIRONMENT,
            input=text,
            capture_output=True,
            check=False,
        )

    def ask(self, *arguments: str, text: bytes = b"") -> bytes:
        """Give the answer of one command.

        Raises
        ------
        NoAnswer
            If it fails, with what git says.
        """
        said = self._run(*arguments, text=text)
        if said.returncode:
            raise NoAnswer(f"git {arguments[0]} fails: {_words(said.stderr)}")
        return said.stdout

    # Commits -------------------------------------------------------------------------------

    def commit(self, name: str) -> str | None:
        """Object name of the commit that a name stands for; None if there is none."""
        if not name or name.startswith("-") or "\0" in name:
            return None
        asked = ("rev-parse", "--verify", "--quiet", "--end-of-options", f"{name}^{{commit}}")
        said = self._run(*asked)
        return said.stdout.decode("ascii", "replace").strip() if said.returncode == 0 else None

    @property
    def is_shallow(self) -> bool:
        """Whether the history of this clone is cut off."""
        return self.ask("rev-parse", "--is-shallow-repository").strip() == b"true"

    def merge_base(self, one: str, other: str) -> str | None:
        """Last common commit of two; None if none is known, or where it may be cut off."""
        said = self._run("merge-base", one, other)
        base = said.stdout.decode("ascii", "replace").strip()
        if said.returncode or not base:
            return None
        if base not in (one, other) and self.is_shallow:
            # Between the base and both tips nothing may be missing, or another one may be nearer.
            between = set(self.ask("rev-list", one, other, "--not", base, "--").split())
            cut = self.root / os.fsdecode(
                self.ask("rev-parse", "--git-path", "shallow").removesuffix(b"\n")
            )
            if between & set(cut.read_bytes().split()):
                return None
        return base

    def day(self, commit: str) -> datetime.date:
        """Day of a commit by the clock of who made it."""
        header = self.ask("cat-file", "commit", commit).partition(b"\n\n")[0]
        found = _COMMITTED.search(header)
        if found is None:
            raise NoAnswer(f"the commit {commit} has no readable date; give --as-of DATE")
        seconds, sign, hours, minutes = found.groups()
        ahead = datetime.timedelta(hours=int(hours), minutes=int(minutes))
        moment = datetime.datetime(1970, 1, 1) + datetime.timedelta(seconds=int(seconds))
        return (moment - ahead if sign == b"-" else moment + ahead).date()

    # Files ---------------------------------------------------------------------------------

    def tree(self, commit: str) -> dict[str, TreeEntry]:
        """Files of a commit by their paths, as they are named in bytes (`os.fsdecode`).

        Raises
        ------
        NoAnswer
            If a name would lead out of the folder; git itself makes no such commit.
        """
        entries = {}
        for line in _lines(self.ask("ls-tree", "-r", "-z", "--full-tree", commit)):
            facts, _, name = line.partition(b"\t")
            mode, _, oid = facts.decode("ascii").split()
            if not _NO_NAMES.isdisjoint(name.lower().split(b"/")):
                raise NoAnswer(f"the commit {commit} holds a name that is none of a file: {name!r}")
            entries[os.fsdecode(name)] = TreeEntry(mode, oid)
        return entries

    def index(self) -> dict[str, TreeEntry]:
        """Files that belong to the work tree: those of the index, and new ones not ignored."""
        entries = {}
        for line in _lines(self.ask("ls-files", "-z", "-s", "-t")):
            facts, _, name = line.partition(b"\t")
            tag, mode, oid, _ = facts.decode("ascii").split()
            entries[os.fsdecode(name)] = TreeEntry(mode, oid, here=tag != "S")
        for line in _lines(self.ask("ls-files", "-z", "-o", "--exclude-standard")):
            entries.setdefault(os.fsdecode(line), TreeEntry("", ""))
        return entries

    def contents(self, oids: Iterable[str], most: int) -> dict[str, bytes | int]:
        """Contents by their names; only the size of one that has more bytes than `most`.

        Raises
        ------
        NoAnswer
            If this clone does not hold them all.
        """
        wanted = list(dict.fromkeys(oids))
        sizes = [line.split() for line in self._batch("--batch-check", wanted).splitlines()]
        if any(len(line) != 3 for line in sizes):
            raise NoAnswer(_NOT_HERE)
        found: dict[str, bytes | int] = {line[0].decode(): int(line[2]) for line in sizes}
        few = [oid for oid in wanted if int(found[oid]) <= most]
        answer, at = self._batch("--batch", few), 0
        for oid in few:
            begin, size = answer.index(b"\n", at) + 1, int(found[oid])
            found[oid] = answer[begin : begin + size]
            at = begin + size + 1
        return found

    def _batch(self, how: str, oids: Iterable[str]) -> bytes:
        said = self._run("cat-file", how, text="".join(f"{oid}\n" for oid in oids).encode())
        if said.returncode:
            raise NoAnswer(_NOT_HERE)
        return said.stdout


def _lines(answer: bytes) -> Iterator[bytes]:
    yield from (line for line in answer.split(b"\0") if line)


def _words(answer: bytes) -> str:
    return visible(" ".join(answer.decode("utf-8", "backslashreplace").split()))
