"""The files of two states: those of a commit, those of the work tree, and which of them differ."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from pathlib import Path as FilePath

from methodlint.changes.git import Git, NoAnswer, TreeEntry
from methodlint.checking.dependents import SUFFIXES, yaml_files
from methodlint.checking.targets import is_table
from methodlint.documents.library import ROOT_DOCUMENT, lab_root
from methodlint.documents.tables.grid import LIMITS
from methodlint.documents.text.limits import SEQUENCE
from methodlint.documents.text.opening import CannotOpen, bytes_of
from methodlint.documents.text.reach import is_link, is_there

_MOST_BYTES = max(SEQUENCE.size, LIMITS.size)
_CODE = ".py"


@dataclass
class States:
    """The files that a check may read, in a commit and in the work tree.

    Attributes
    ----------
    root
        Folder of the work tree; paths are relative to it.
    before, now
        Files and links by path. Contents of `now` are those that lie in the work tree.
    owners
        Repositories by the folders that they lie in: this one, and its submodules.
    absent
        Submodules that are not checked out, and whether another commit of them is wanted.
    """

    root: FilePath
    before: dict[str, TreeEntry] = field(default_factory=dict)
    now: dict[str, TreeEntry] = field(default_factory=dict)
    owners: dict[str, Git] = field(default_factory=dict)
    absent: dict[str, bool] = field(default_factory=dict)

    def add(self, git: Git, commit: str, below: str = "") -> None:
        """Add the files of a repository and of its submodules, which lies at a path `below`."""
        self.owners[below] = git
        before, now = git.tree(commit), git.index()
        for path in {**before, **now}:
            old, new = before.get(path), now.get(path)
            if not any(entry is not None and entry.is_submodule for entry in (old, new)):
                if old is not None and _may_be_read(path, old):
                    self.before[below + path] = old
                if new is not None and _may_be_read(path, new):
                    self.now[below + path] = new
                continue
            if is_there(git.root / path / ".git"):
                self._add_submodule(Git(git.root / path), old, f"{below}{path}/")
            else:
                differs = old is None or new is None or old.oid != new.oid
                self.absent[below + path] = differs

    def _add_submodule(self, git: Git, old: TreeEntry | None, below: str) -> None:
        if old is None or not old.is_submodule:
            self.now |= {below + p: e for p, e in git.index().items() if _may_be_read(p, e)}
        elif git.commit(old.oid) is None:
            raise NoAnswer(
                f"the submodule {below} does not hold the commit that it had before; run: "
                f"git -C {below} fetch origin {old.oid}"
            )
        else:
            self.add(git, old.oid, below)

    # What differs --------------------------------------------------------------------------

    def changed(self, code: Sequence[str] = ()) -> list[str]:
        """Paths of documents and tables that are not the same in both states, in order.

        A link that is no document may lead to a folder of cards, and a submodule may hold them:
        with it, every document of its lab has changed; so it has with a rule of the lab's own.

        Parameters
        ----------
        code
            Folders of a lab's own rules that are run.

        Raises
        ------
        NoAnswer
            If a file that concerns a lab which has changed is not in the work tree.
        """
        everything = sorted({*self.before, *self.now})
        looked_at = [p for p in everything if not p.endswith(_CODE) or _is_under(p, code)]
        differ = {path for path in looked_at if not self._is_same(path)}
        whole = {path for path in differ if not _is_read(path)}
        for path in whole | {path for path, differs in self.absent.items() if differs}:
            differ.update(
                _below(self.root, file) for file in yaml_files(self.root / self.lab_after(path))
            )
        found = sorted(differ - whole)
        self._refuse_what_is_not_here(found)
        return found

    def _is_same(self, path: str) -> bool:
        old, new, file = self.before.get(path), self.now.get(path), self.root / path
        if new is not None and not new.here:
            return old is not None and old.oid == new.oid
        if old is None or not is_there(file):
            return (old is None) == (not is_there(file))
        if old.is_link or is_link(file):
            content = os.fsencode(os.readlink(file)) if is_link(file) else b""
            return old.is_link and is_link(file) and _oid(content, old) == old.oid
        try:
            content = bytes_of(os.fspath(file), _MOST_BYTES + 1)
        except CannotOpen:
            return False
        # A checkout may have changed the ends of lines.
        return old.oid in (_oid(content, old), _oid(content.replace(b"\r\n", b"\n"), old))

    def _refuse_what_is_not_here(self, differ: Iterable[str]) -> None:
        differ = list(differ)
        now, before = set(map(self.lab_after, differ)), set(map(self.lab_before, differ))

        def concerned(path: str) -> bool:
            return self.lab_after(path) in now or self.lab_before(path) in before

        for path, entry in self.now.items():
            if not entry.here and _is_read(path) and (path in differ or concerned(path)):
                raise NoAnswer(
                    f"{path} is left out of this sparse checkout, and the change concerns it; "
                    "run: git sparse-checkout disable"
                )
        for path in self.absent:
            if concerned(path) and is_there(self.root / path):
                raise NoAnswer(
                    f"the submodule {path} is not checked out, and the change concerns its lab; "
                    "run: git submodule update --init"
                )

    def lab_after(self, path: str) -> str:
        """Root of the lab that a path belongs to now."""
        return _below(self.root, lab_root((self.root / path).parent, self.root))

    def lab_before(self, path: str) -> str:
        """Root of the lab that a path belonged to; empty for the folder of the work tree."""
        folder = os.path.dirname(path)
        at = folder
        while f"{at}/{ROOT_DOCUMENT}".lstrip("/") not in self.before:
            if not at:
                return folder
            at = os.path.dirname(at)
        return at

    # The state before ----------------------------------------------------------------------

    def write_before(
        self, changed: Sequence[str], folder: FilePath, code: Sequence[str] = ()
    ) -> None:
        """Write the earlier state of the labs that a change concerns below an empty folder.

        Parameters
        ----------
        changed
            What has changed.
        folder
            Where to.
        code
            Folders of a lab's own rules that are run.

        Raises
        ------
        NoAnswer
            If this clone does not hold a content, or a file cannot be written.
        """
        labs = {self.lab_before(path) for path in changed}
        labs |= {self.lab_after(path) for path in changed}
        wanted = {
            path: entry
            for path, entry in self.before.items()
            if (_is_under(path, labs) and not path.endswith(_CODE))
            or (path.endswith(_CODE) and _is_under(path, code))
        }
        contents = self._contents(wanted)
        # Links last: nothing is ever written through one.
        for path in sorted(wanted, key=lambda path: (wanted[path].is_link, path)):
            file = folder / path
            try:
                file.parent.mkdir(parents=True, exist_ok=True)
                content = contents[path]
                if isinstance(content, int):
                    # Too large to be read by a check: its size is what counts.
                    file.touch()
                    os.truncate(file, content)
                elif wanted[path].is_link:
                    os.symlink(content, os.fsencode(file))
                else:
                    file.write_bytes(content)
            except (OSError, ValueError) as error:
                raise NoAnswer(f"the earlier {path} cannot be written: {error}") from error

    def _contents(self, wanted: dict[str, TreeEntry]) -> dict[str, bytes | int]:
        found: dict[str, bytes | int] = {}
        owner = {path: max(o for o in self.owners if path.startswith(o)) for path in wanted}
        for name, git in self.owners.items():
            own = {path: entry.oid for path, entry in wanted.items() if owner[path] == name}
            known = git.contents(own.values(), _MOST_BYTES)
            found |= {path: known[oid] for path, oid in own.items()}
        return found


def _below(root: FilePath, file: FilePath) -> str:
    """Path below a folder: empty for the folder itself."""
    path = os.path.relpath(file, root)
    return "" if path == os.curdir else path


def _is_under(path: str, folders: Iterable[str]) -> bool:
    return any(not folder or path.startswith(f"{folder}/") for folder in folders)


def _is_read(path: str) -> bool:
    """Whether a check reads files of this name."""
    return path.endswith(SUFFIXES) or is_table(FilePath(path))


def _may_be_read(path: str, entry: TreeEntry) -> bool:
    return _is_read(path) or entry.is_link or path.endswith(_CODE)


def _oid(content: bytes, like: TreeEntry) -> str:
    """Name that git gives a content, by the same hash as another name."""
    kind = hashlib.sha256 if len(like.oid) == 64 else hashlib.sha1
    return kind(b"blob %d\0" % len(content) + content, usedforsecurity=False).hexdigest()
