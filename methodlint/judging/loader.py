"""Finds and loads rule files by their path; the path is the id.

Rule files are data of the package to everybody but Python: they are loaded by path, under a
module name of their own (`family.name`), so that a wheel, an editable install and a plain
checkout all work and nobody imports them.
"""

from __future__ import annotations

import importlib.util
import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache
from importlib.machinery import SourceFileLoader
from pathlib import Path
from types import CodeType, ModuleType
from typing import Any, Literal, cast, get_args

from methodlint.judging.finding import GRADES, Grade

Subject = Literal["document", "run", "batch", "calendar", "history", "change"]
Parts = Literal["purpose", "method"]
"""What divides a batch for a rule: what its lines are for, or for each purpose the method too."""
_PACKAGE = Path(__file__).resolve().parent.parent


class RulesMissing(RuntimeError):
    """The folder of rules is not where the package expects it."""


@dataclass(frozen=True, slots=True)
class Rule:
    """One loaded rule.

    Attributes
    ----------
    id
        `family.what-is-wrong`, derived from the file's path.
    page
        The docstring: the page that the user reads.
    subject
        What it judges: a document, a run (one method on one instrument), a batch, a calendar (a
        sequence among those checked with it), a history (a logbook with what was predicted for
        it), or a change: a document in two states.
    grades
        Classes that its findings may have, worst first.
    needs
        Figures without which it is "not checked".
    causes
        Ids of rules whose findings fold beneath this one's.
    tags
        Purpose tags that it waits for: without one of them it may be silent.
    lines
        Whether a rule of runs judges the lines of a sequence with settings of their own too.
    parts
        Into what a batch is divided before a rule of batches judges it; None if it sees it whole.
    """

    id: str
    page: str
    subject: Subject
    grades: tuple[Grade, ...]
    needs: tuple[str, ...]
    causes: tuple[str, ...]
    judge: Callable[[Any], Iterator[Any]]
    applies: Callable[[Any], bool]
    file: Path
    tags: tuple[str, ...] = ()
    lines: bool = False
    parts: Parts | None = None

    @property
    def title(self) -> str:
        """First line of the page: the requirement in one sentence."""
        return self.page.strip().splitlines()[0]


def rules_folder() -> Path:
    """Give the folder that holds the rules that come with the package.

    Raises
    ------
    RulesMissing
        If neither an installed package nor a checkout holds them.
    """
    inside = _PACKAGE / "rules"
    if inside.is_dir():
        return inside
    beside = _PACKAGE.parent / "rules"
    if beside.is_dir() and (_PACKAGE.parent / "pyproject.toml").is_file():
        return beside
    raise RulesMissing(f"no rules at {inside}: the installation is incomplete, install again")


def rule_id(file: Path) -> str:
    """Derive a rule's id from its path: `rules/pressure/low_limit_missing.py`."""
    return f"{file.parent.name}.{file.stem.replace('_', '-')}"


def load_rule(file: Path, *, of_lab: bool = False) -> Rule:
    """Load one rule file.

    Parameters
    ----------
    file
        Path of the file.
    of_lab
        It is a lab's own: exactly its text is run, no bytecode beside it is read or written.

    Raises
    ------
    AttributeError
        If the file lacks one of the parts of a rule.
    ValueError
        If one of its parts is not what it has to be.
    """
    module = _module(file, of_lab=of_lab)
    for name in ("CLASSES", "NEEDS", "CAUSES", "TAGS"):
        if not isinstance(getattr(module, name, ()), tuple):
            raise ValueError(f"{name} is not a tuple")
    if module.SUBJECT not in get_args(Subject):
        raise ValueError(f"SUBJECT is none of {', '.join(get_args(Subject))}")
    if getattr(module, "PARTS", None) not in (None, *get_args(Parts)):
        raise ValueError(f"PARTS is none of {', '.join(get_args(Parts))}")
    return Rule(
        id=rule_id(file),
        page=module.__doc__ or "",
        subject=cast(Subject, module.SUBJECT),
        grades=tuple(sorted(module.CLASSES, key=GRADES.index)),
        needs=tuple(module.NEEDS),
        causes=tuple(getattr(module, "CAUSES", ())),
        judge=module.judge,
        applies=getattr(module, "applies", _always),
        file=file,
        tags=tuple(getattr(module, "TAGS", ())),
        lines=bool(getattr(module, "LINES", False)),
        parts=cast("Parts | None", getattr(module, "PARTS", None)),
    )


def _always(_case: object) -> bool:
    return True


class _TextOnly(SourceFileLoader):
    """Runs the text of a file as it stands; what may lie in `__pycache__` is never looked at."""

    def get_code(self, fullname: str) -> CodeType:
        """Compile the text."""
        code: CodeType = self.source_to_code(self.get_data(self.path), self.path)
        return code


def _module(file: Path, *, of_lab: bool) -> ModuleType:
    package = "methodlint_lab_rules" if of_lab else "methodlint_rules"
    name = f"{package}.{file.parent.name}.{file.stem}"
    loader = _TextOnly(name, str(file)) if of_lab else None
    spec = importlib.util.spec_from_file_location(name, file, loader=loader)
    if spec is None or spec.loader is None:
        raise ImportError(f"cannot load {file}")
    module = importlib.util.module_from_spec(spec)
    sys.modules[spec.name] = module
    spec.loader.exec_module(module)
    return module


def rule_files(folder: Path) -> list[Path]:
    """List the rule files of a folder of families, in order of id."""
    return sorted(file for file in folder.glob("*/*.py") if not file.name.startswith("_"))


@cache
def built_in_ids() -> frozenset[str]:
    """Ids of the rules that come with the package, without loading them."""
    return frozenset(rule_id(file) for file in rule_files(rules_folder()))


@cache
def built_in_rules() -> tuple[Rule, ...]:
    """Load every rule that comes with the package, once."""
    return tuple(load_rule(file) for file in rule_files(rules_folder()))
