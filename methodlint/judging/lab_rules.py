"""A lab's own rules: folders that its document names and that the command line allows.

Rule files are code. A folder is loaded only if `lab.yaml` names it *and* whoever runs the check
allows it by its path; one that is named and not allowed is reported and left alone.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from pathlib import Path as FilePath

from methodlint.documents.kinds.lab import Lab
from methodlint.documents.library import lab_root
from methodlint.documents.loading import Loaded
from methodlint.documents.text.visible import visible
from methodlint.judging.loader import Rule, load_rule, rule_files, rule_id


class RulesNotNamed(ValueError):
    """A folder is allowed on the command line that no lab's document names."""


@dataclass(frozen=True, slots=True)
class RuleFolder:
    """A folder of rules that a lab's document names, and what became of it.

    Attributes
    ----------
    number
        Position in `rule_folders:`.
    name
        As the document writes it.
    rules
        The rules that were loaded from it.
    allowed
        Whether the command line allows it.
    problems
        What is wrong with it or with its files, each with a remedy.
    """

    number: int
    name: str
    rules: tuple[Rule, ...] = ()
    allowed: bool = True
    problems: tuple[tuple[str, str], ...] = ()


def rule_folders(
    lab: Loaded[Lab] | None,
    root: FilePath,
    allowed: Collection[FilePath],
    taken: Collection[str],
) -> tuple[RuleFolder, ...]:
    """Load the rule folders of one lab.

    Parameters
    ----------
    lab
        The lab's document.
    root
        Its folder; a rule folder lies under it.
    allowed
        Folders that the command line allows, resolved.
    taken
        Ids that are in use already.
    """
    names = lab.model.rule_folders if lab is not None else ()
    used = set(taken)
    found = []
    for number, name in enumerate(names):
        folder = _folder(number, name, root.resolve(), allowed, used)
        used |= {rule.id for rule in folder.rules}
        found.append(folder)
    return tuple(found)


def refuse_not_named(
    allowed: Sequence[FilePath],
    labs: Sequence[tuple[Loaded[Lab] | None, FilePath]],
    *,
    changed: bool = False,
) -> None:
    """Refuse what is allowed in vain: somebody believes that these rules are applied.

    Parameters
    ----------
    allowed
        Folders that the command line allows.
    labs
        The labs' documents, and their folders.
    changed
        Only some labs have changed: the folders of others are passed over.

    Raises
    ------
    RulesNotNamed
        If no lab's document names one of the allowed folders.
    """
    named = {
        _resolved(root.resolve(), name)
        for lab, root in labs
        if lab is not None
        for name in lab.model.rule_folders
    }
    roots = [root.resolve() for _, root in labs]
    for folder in allowed:
        here = not changed or lab_root(folder.resolve()) in roots
        if here and folder.resolve() not in named:
            raise RulesNotNamed(
                f"--allow-rules {folder}: no lab.yaml of these documents names it under "
                f"rule_folders{_named_words(labs)}"
            )


def _named_words(labs: Sequence[tuple[Loaded[Lab] | None, FilePath]]) -> str:
    """Paths that would do, as seen from here: the option is no path beneath the lab."""
    here = FilePath.cwd()
    named = []
    for lab, root in labs:
        for name in lab.model.rule_folders if lab is not None else ():
            folder = _resolved(root.resolve(), name)
            if folder is not None and folder.is_dir():
                inside = folder.is_relative_to(here)
                named.append(str(folder.relative_to(here) if inside else folder))
    return f"; named and there: {', '.join(dict.fromkeys(named))}" if named else ""


def _resolved(root: FilePath, name: str) -> FilePath | None:
    try:
        return (root / name).resolve()
    except (OSError, ValueError, RuntimeError):
        return None


def _folder(
    number: int, name: str, root: FilePath, allowed: Collection[FilePath], used: Collection[str]
) -> RuleFolder:
    def wrong(message: str, remedy: str) -> RuleFolder:
        return RuleFolder(number, name, problems=((message, remedy),))

    shown = visible(name)
    folder = _resolved(root, name)
    if folder is None or not folder.is_relative_to(root) or folder == root:
        return wrong(
            f"the rule folder '{shown}' does not lie inside the lab's folder and is never loaded",
            "put the rules in a folder of their own beside lab.yaml",
        )
    if not folder.is_dir():
        return wrong(f"there is no rule folder '{shown}'", "correct the name or take it out")
    if folder not in allowed:
        return RuleFolder(number, name, allowed=False)
    files = rule_files(folder)
    if not files:
        return wrong(
            f"the rule folder '{shown}' holds no rule",
            "put rules in it as family/what_is_wrong.py, or take the name out",
        )
    return _loaded(RuleFolder(number, name), files, root, used)


def _loaded(
    folder: RuleFolder, files: Sequence[FilePath], root: FilePath, used: Collection[str]
) -> RuleFolder:
    rules: list[Rule] = []
    problems: list[tuple[str, str]] = []
    for file in files:
        shown = visible(f"{folder.name}/{file.parent.name}/{file.name}")
        if not file.resolve().is_relative_to(root):
            problems.append((f"{shown} is a link that leaves the lab's folder", "put a file there"))
        elif rule_id(file) in used:
            problems.append(
                (
                    f"{shown}: there is a rule {rule_id(file)} already; it is not loaded",
                    "rename the file, or its family",
                )
            )
        else:
            try:
                rules.append(load_rule(file, of_lab=True))
            except (Exception, SystemExit) as error:  # whatever the file does when it is run
                said = f"{type(error).__name__}: {visible(str(error))}"
                remedy = f"run methodlint try-rules {visible(folder.name)}"
                problems.append((f"{shown} cannot be loaded: {said}", remedy))
    return RuleFolder(folder.number, folder.name, tuple(rules), True, tuple(problems))
