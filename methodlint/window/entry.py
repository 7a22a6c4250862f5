"""Opens a method and finds the windows of its settings, on each instrument that it runs on."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path as FilePath

from methodlint.checking.check import CheckJudgement, judge_cases
from methodlint.checking.targets import targets_of
from methodlint.judging.case import RunCase
from methodlint.judging.lab_rules import rule_folders
from methodlint.judging.loader import built_in_rules
from methodlint.judging.unjudged import unusable_documents
from methodlint.window.axis import Axis, axes_of
from methodlint.window.edges import Edge, edges_of
from methodlint.window.region import Region
from methodlint.window.region_search import region_of
from methodlint.window.spans import span_of
from methodlint.window.trials import Outcome, Trials

__all__ = ["NoWindow", "Window", "window"]


class NoWindow(ValueError):
    """The document has no settings to move, or cannot be judged."""


@dataclass(frozen=True)
class Window:
    """How far the settings of a method may move on one instrument.

    Attributes
    ----------
    own
        What became of the method as it is.
    axes
        The settings that were moved.
    edges
        Two of each setting, down and up.
    region
        The map of two settings; None if the method does not give both.
    """

    run: RunCase
    own: Outcome
    axes: tuple[Axis, ...]
    edges: tuple[Edge, ...]
    region: Region | None = None

    @property
    def holds(self) -> bool:
        """Whether every check holds for the method as it is."""
        return self.own.state in ("holds", "with care")


USUAL = ("outlet_pressure", "oven_temperature")
"""Settings that a map is made of if none are named."""


def window(
    path: str | FilePath,
    of: Sequence[str] = USUAL,
    *,
    on: str | None = None,
    as_of: datetime.date | None = None,
) -> list[Window]:
    """Find how far the settings of a method may move, one window for each instrument.

    Parameters
    ----------
    of
        Keys of the two settings of the map, or none for no map.
    on
        Name of one of the instruments; all that the method runs on if None.

    Raises
    ------
    FileNotFoundError
        If there is no such file.
    NoWindow
        If it is no method, has no such instrument, or cannot be judged.
    """
    if of and len(set(of)) != 2:
        raise NoWindow("a map is made of two settings")
    judgement = judged_method(path, as_of)
    runs = _runs_on(judgement.runs, on)
    found = []
    for run in runs:
        trials = Trials.of(judgement, run)
        axes = tuple(axes_of(run.documents["method"]).values())
        if not axes:
            raise NoWindow(f"{path} gives no setting that could be moved")
        mapped = _mapped(axes, of)
        edges = tuple(edges_of(trials, axes))
        region = None
        if mapped is not None:
            along, up = mapped
            region = region_of(trials, along, up, span_of(along, edges), span_of(up, edges))
        found.append(Window(run, trials.own, axes, edges, region))
    return found


def _mapped(axes: Iterable[Axis], of: Sequence[str]) -> tuple[Axis, Axis] | None:
    """The settings along and up the map; None for no map."""
    given = {axis.key: axis for axis in axes}
    missing = [key for key in of if key not in given]
    if not of or (missing and tuple(of) == USUAL):
        return None
    if missing:
        raise NoWindow(f"the method gives no {missing[0]}; it gives: {', '.join(given)}")
    # What a regulator or a pump holds goes up, what an oven holds goes along.
    along, up = sorted((given[key] for key in of), key=lambda axis: axis.key != "oven_temperature")
    return along, up


def judged_method(path: str | FilePath, as_of: datetime.date | None = None) -> CheckJudgement:
    """Judge one method as `check` does; see `window` for what is raised."""
    targets = targets_of([path])
    if not FilePath(path).is_file() or len(targets) != 1 or len(targets[0][1]) != 1:
        raise NoWindow(f"{path} is not one document: name a method")
    ((folder, documents),) = targets
    if documents[0].kind and documents[0].kind != "method":
        raise NoWindow(f"{path} is a {documents[0].kind}: the settings of a method are moved")
    rules = built_in_rules()
    of_lab = rule_folders(folder.lab, folder.root, set(), {rule.id for rule in rules})
    judgement = judge_cases(folder, documents, rules, as_of, of_lab=of_lab)
    assembly = judgement.assembly
    unusable = unusable_documents(assembly.documents.values(), assembly.reference_problems)
    if unusable:
        first = unusable[0]
        raise NoWindow(f"{first.subject}, line {first.line}: {first.reason}; correct it first")
    return judgement


def _runs_on(runs: Iterable[RunCase], on: str | None) -> Sequence[RunCase]:
    runs = list(runs)
    names = [run.documents["instrument"].name for run in runs if "instrument" in run.documents]
    if on is None:
        return runs
    wanted = [run for run in runs if on in names and run.documents["instrument"].name == on]
    if not wanted:
        raise NoWindow(f"the method does not run on {on}; it runs on: {', '.join(names) or 'none'}")
    return wanted
