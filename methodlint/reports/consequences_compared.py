"""Two reports side by side: which figures move, which findings appear and vanish."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from methodlint.judging.finding import Measure
from methodlint.reports.base_report import Mark, Standing, marks_of, standing
from methodlint.reports.consequences import BATCH_QUANTITIES, RUN_QUANTITIES, ConsequenceQuantity
from methodlint.reports.wording import figure

_OF_A_NEW_RUN = frozenset(
    {
        "highest_pump_pressure",
        "least_boundary_margin",
        "mean_column_density_at_start",
        "co2_per_run",
        "injections",
        "duration",
        "co2",
    }
)


@dataclass(frozen=True, slots=True)
class FigureChange:
    """One figure on both sides, in its unit; None where it is not known or without bound."""

    quantity: ConsequenceQuantity
    old: float | None
    new: float | None

    @property
    def moves(self) -> bool:
        """Whether people can tell the two apart."""
        return self.words(self.old) != self.words(self.new)

    def words(self, value: float | None) -> str:
        """Write one side."""
        if value is None:
            boundary = self.quantity.key == "least_boundary_margin"
            return "one phase at any pressure" if boundary else "not known"
        return figure(Measure(value, self.quantity.unit))

    @property
    def difference(self) -> str:
        """Write new minus old with its sign; empty if either is not known."""
        if self.old is None or self.new is None:
            return ""
        delta = self.new - self.old
        return ("+" if delta > 0 else "") + figure(Measure(delta, self.quantity.unit))


@dataclass(frozen=True, slots=True)
class SubjectChange:
    """One run or batch on both sides.

    Attributes
    ----------
    subject
        Its name as the newer report shows it.
    only
        `old` or `new` if it is there on one side only; empty otherwise.
    figures
        All figures; empty if one side has none.
    why
        Why there is nothing to compare; empty if there is.
    """

    subject: str
    only: str
    figures: tuple[FigureChange, ...] = ()
    why: str = ""

    @property
    def moving(self) -> tuple[FigureChange, ...]:
        """Figures that differ; of a new run those that say most about it."""
        if self.only:
            return tuple(each for each in self.figures if each.quantity.key in _OF_A_NEW_RUN)
        return tuple(each for each in self.figures if each.moves)


@dataclass(frozen=True, slots=True)
class ComparedConsequences:
    """What changes from one report to another.

    Attributes
    ----------
    verdicts
        Old and new verdict.
    documents
        Paths of documents that differ, appear or vanish, each with the word for it.
    subjects
        Runs, then batches.
    appearing, worse, vanishing, staying
        Findings that are new, that were there in a milder class, that are no longer there, and
        the number of those that stay.
    """

    verdicts: tuple[str, str]
    documents: tuple[tuple[str, str], ...]
    subjects: tuple[SubjectChange, ...]
    appearing: tuple[Mark, ...]
    worse: tuple[Mark, ...]
    vanishing: tuple[Mark, ...]
    staying: int

    @property
    def moving(self) -> tuple[SubjectChange, ...]:
        """Runs and batches of which anything differs."""
        return tuple(each for each in self.subjects if each.only or each.why or each.moving)


def compared(
    old: dict[str, Any], new: dict[str, Any], *, whole: bool = True
) -> ComparedConsequences:
    """Compare two reports as plain data.

    Parameters
    ----------
    old, new
        The reports.
    whole
        Whether both sides are complete. If not, the new one judged a part of what the old one
        did: what it did not look at has not vanished.
    """
    how = standing(new, old)
    by_print = {mark.fingerprint: mark for mark in marks_of(new, beneath=False)}
    subjects = [*_subjects(old, new, "runs", RUN_QUANTITIES, whole)]
    subjects += _subjects(old, new, "batches", BATCH_QUANTITIES, whole)
    return ComparedConsequences(
        verdicts=(str(old.get("verdict", "")), str(new.get("verdict", ""))),
        documents=tuple(_documents(old, new, whole)),
        subjects=tuple(subjects),
        appearing=_of(by_print, how.new),
        worse=_of(by_print, how.worse),
        vanishing=_vanishing(how, whole),
        staying=len(how.known),
    )


def _of(by_print: dict[str, Mark], wanted: Iterable[str]) -> tuple[Mark, ...]:
    marks = [by_print[fingerprint] for fingerprint in wanted]
    return tuple(sorted(marks, key=_worst_first))


def _vanishing(how: Standing, whole: bool) -> tuple[Mark, ...]:
    marks = [*how.gone, *how.elsewhere] if whole else how.gone
    return tuple(sorted(marks, key=_worst_first))


def _worst_first(mark: Mark) -> tuple[int, str, int, str, str]:
    return mark.rank, mark.path, mark.line, mark.rule, mark.fingerprint


def _documents(old: dict[str, Any], new: dict[str, Any], whole: bool) -> Iterator[tuple[str, str]]:
    before = {item["lab_path"]: item for item in old["documents"]}
    after = {item["lab_path"]: item for item in new["documents"]}
    for path in sorted(before.keys() | after.keys()):
        if path not in before:
            yield after[path]["path"], "added"
        elif path not in after:
            if whole:
                yield before[path]["path"], "removed"
        elif before[path]["sha256"] != after[path]["sha256"]:
            yield after[path]["path"], "changed"


def _subjects(
    old: dict[str, Any],
    new: dict[str, Any],
    key: str,
    quantities: tuple[ConsequenceQuantity, ...],
    whole: bool,
) -> Iterator[SubjectChange]:
    before, after = _keyed(old, key), _keyed(new, key)
    for name in sorted(before.keys() | after.keys()):
        one, other = before.get(name), after.get(name)
        if other is None:
            assert one is not None
            if whole:
                yield SubjectChange(one["subject"], "old")
        elif one is None:
            yield SubjectChange(other["subject"], "new", _figures(None, other, quantities))
        elif one["figures"] is None or other["figures"] is None:
            yield SubjectChange(other["subject"], "", (), _why(one, other))
        else:
            yield SubjectChange(other["subject"], "", _figures(one, other, quantities))


def _keyed(report: dict[str, Any], key: str) -> dict[tuple[str, str], dict[str, Any]]:
    paths = {item["path"]: item["lab_path"] for item in report["documents"]}
    return {
        (str(paths.get(item["path"], item["path"])), str(item["instrument"] or "")): item
        for item in report[key]
    }


def _why(one: dict[str, Any], other: dict[str, Any]) -> str:
    if one["figures"] is None and other["figures"] is None:
        return "" if one["missing"] == other["missing"] else "neither could be rehearsed"
    side = "before" if one["figures"] is None else "now"
    item = one if one["figures"] is None else other
    lacking = ", ".join(str(name) for name in item["missing"])
    return f"could not be rehearsed {side}" + (f": give {lacking}" if lacking else "")


def _figures(
    one: dict[str, Any] | None, other: dict[str, Any], quantities: tuple[ConsequenceQuantity, ...]
) -> tuple[FigureChange, ...]:
    if other["figures"] is None:
        return ()
    return tuple(
        FigureChange(
            quantity,
            _value(one, quantity.key),
            _value(other, quantity.key),
        )
        for quantity in quantities
    )


def _value(item: dict[str, Any] | None, key: str) -> float | None:
    if item is None or item["figures"] is None:
        return None
    value = item["figures"].get(key, {}).get("value")
    return float(value) if isinstance(value, int | float) else None
