"""Figures given for one run on the command line, validated like those of a document."""

from __future__ import annotations

import copy
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from methodlint.checking.changed import put
from methodlint.documents.library import Library
from methodlint.documents.loading import KINDS, Loaded, model_class, validated
from methodlint.documents.not_found import NotFound
from methodlint.judging.case import split_path


class GivenWrong(ValueError):
    """A figure given on the command line cannot be used."""


@dataclass(frozen=True, slots=True)
class Given:
    """One figure: `supply.net_mass="12.5 kg"`.

    Attributes
    ----------
    path
        Kind of document and path.
    text
        The value as typed.
    """

    path: str
    text: str

    @classmethod
    def read(cls, argument: str) -> Given:
        """Read `PATH=VALUE`.

        Raises
        ------
        GivenWrong
            If there is no `=` or the path does not begin with a kind of document.
        """
        path, equals, text = argument.partition("=")
        if not equals or path.partition(".")[0] not in KINDS:
            raise GivenWrong(f"'{argument}' is not PATH=VALUE with a path such as supply.net_mass")
        return cls(path.strip(), text.strip())


@dataclass
class GivenLibrary:
    """A library whose documents carry the figures given for this run."""

    library: Library
    changes: dict[str, list[Given]]

    @cached_property
    def lab(self) -> Loaded | None:
        """The lab's own document, with what is given for it."""
        lab = self.library.lab
        return self.changed(lab) if lab is not None else None

    def find(self, kind: str, name: str, beside: Loaded) -> Loaded | NotFound:
        """Resolve a reference and write the given figures into what it leads to."""
        found = self.library.find(kind, name, beside)
        return self.changed(found) if isinstance(found, Loaded) else found

    def changed(self, document: Loaded) -> Loaded:
        """Write the given figures into a document.

        Raises
        ------
        GivenWrong
            If a figure does not validate.
        """
        given = self.changes.get(document.kind)
        return _with(document, given) if given else document


def with_given(library: Library, given: Sequence[Given]) -> GivenLibrary:
    """Wrap a library so that its documents carry the figures given for this run."""
    changes: dict[str, list[Given]] = {}
    for item in given:
        changes.setdefault(item.path.partition(".")[0], []).append(item)
    return GivenLibrary(library, changes)


def refuse_unused(given: Sequence[Given], documents: Iterable[Loaded]) -> None:
    """Refuse figures for documents of a kind that takes no part: somebody believes that they count.

    Raises
    ------
    GivenWrong
        If no document of the kind of a figure takes part, though others do.
    """
    kinds = {document.kind for document in documents}
    for item in given:
        kind = item.path.partition(".")[0]
        if kinds and kind not in kinds:
            raise GivenWrong(f"{item.path} is given, and no {kind} takes part in this check")


def _with(document: Loaded, given: Sequence[Given]) -> Loaded:
    data = copy.deepcopy(document.data)
    for item in given:
        put(data, split_path(item.path)[1:], item.text)
    model, problems, broken = validated(model_class(document.kind), data, document.read)
    for problem in problems:
        for item in given:
            if problem.path[: len(split_path(item.path)) - 1] == split_path(item.path)[1:]:
                raise GivenWrong(f"{item.path}: {problem.message}; {problem.remedy}")
    kept = {path: problem for path, problem in document.broken.items() if path not in broken}
    given_paths = {split_path(item.path)[1:] for item in given}
    kept = {path: problem for path, problem in kept.items() if path not in given_paths}
    return replace(document, model=model, data=data, broken=kept)
