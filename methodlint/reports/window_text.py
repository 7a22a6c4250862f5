"""How far the settings of a method may move, in words."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from methodlint.reports.lines import Line, Tone, Words, line, wrapped
from methodlint.window.edges import Edge
from methodlint.window.entry import Window
from methodlint.window.region import SIDE, Region
from methodlint.window.trials import Reason, State

__all__ = ["edge_words", "own_words", "reason_words", "window_lines"]

_INDENT = 8


def window_lines(windows: Iterable[Window], width: int = 96) -> Iterator[Line]:
    """Lay windows out: the method as it is, then each setting with its edges down and up."""
    for number, found in enumerate(windows):
        if number:
            yield []
        yield from _window(found, width)


def own_words(found: Window) -> str:
    """Say in one line what becomes of the method as it is."""
    said = {
        "fails": "a check does not hold at the method's own settings",
        "not judged": "a check that could stop the run was not made at the method's own settings",
        "in the band": "a limit lies within the band at the method's own settings",
    }
    return said.get(found.own.state, "every check holds at the method's own settings")


def _window(found: Window, width: int) -> Iterator[Line]:
    tone: Tone = "good" if found.holds else "fault"
    yield line(Words(found.run.name, "head"))
    yield from wrapped(Words("", tone), own_words(found), 2, width)
    for reason in () if found.holds else found.own.reasons[:3]:
        yield from wrapped("", reason_words(reason), 4, width)
    by_axis: dict[str, list[Edge]] = {}
    for edge in found.edges:
        by_axis.setdefault(edge.axis.key, []).append(edge)
    for edges in by_axis.values():
        axis = edges[0].axis
        yield []
        yield line(Words(f"{axis.name} {axis.words(axis.value)}", "head"))
        if all(edge.last is None for edge in edges):
            ends = f"from {axis.words(axis.low)} to {axis.words(axis.high)}"
            yield from wrapped("", f"no value {ends} at which every check holds", 2, width)
            continue
        for edge in edges:
            for count, words in enumerate(edge_words(edge)):
                yield from wrapped(
                    f"  {edge.direction}" if not count else "", words, _INDENT, width
                )
    if found.region is not None:
        yield []
        yield from _map(found.region, width)
    yield []
    yield from wrapped("", "each edge is a run on either side of it, judged by the rules of "
                       "`check`; one setting moves, all others stay; predicted; verify", 2, width)  # fmt: skip


_LETTERS: dict[State, str] = {
    "holds": ".", "with care": ",", "in the band": "/", "fails": "x", "not judged": "?",
}  # fmt: skip
_ACROSS, _UP = 48, 16


def _map(region: Region, width: int) -> Iterator[Line]:
    """Draw the plane with letters; the method stands at its own place."""
    x, y = region.x, region.y
    yield line(Words(f"{y.name} [{y.unit}] against {x.name} [{x.unit}]", "head"))
    own = [round(at / SIDE * count) for at, count in
           zip(region.place(x.value, y.value), (_ACROSS, _UP), strict=True)]  # fmt: skip
    for row in range(_UP, -1, -1):
        letters = ""
        for column in range(_ACROSS + 1):
            values = region.values((SIDE * column / _ACROSS, SIDE * row / _UP))
            letters += "@" if [column, row] == own else _LETTERS[region.state(*values)]
        value = f"{region.values((0, SIDE * row / _UP))[1]:.4g}" if row % 4 == 0 else ""
        yield line(f"{value:>8} {letters}")
    ends = [f"{region.values((SIDE * part, 0))[0]:.4g}" for part in (0, 0.5, 1)]
    half = _ACROSS // 2
    yield line(f"{'':9}{ends[0]:<{half}}{ends[1]:<{half - len(ends[2]) + 1}}{ends[2]}")
    legend = ", ".join(f"{letter} {state}" for state, letter in _LETTERS.items())
    yield from wrapped("", f"@ the method, {legend}", 2, width)
    rules: dict[str, str] = {}
    for border in region.judged.borders:
        if border.inner == "holds":
            rules.setdefault(border.rule, border.outer)
    ended = ", ".join(f"{rule} ({state})" for rule, state in sorted(rules.items()))
    yield from wrapped("", f"the region ends at: {ended or 'the ends of the map'}", 2, width)
    judged = f"{len(region.points)} runs were judged for the map, most of them along its edges"
    yield from wrapped("", judged, 2, width)


def edge_words(edge: Edge) -> list[str]:
    """Sentences about one edge: how far, what then, from where for certain, where cautions begin."""
    axis = edge.axis
    if edge.last is None:
        return [f"no value to {axis.words(_end(edge))} at which every check holds"]
    said = []
    start = (
        f"from {axis.words(edge.from_)} on every check holds, " if edge.from_ is not None else ""
    )
    if edge.beyond is None:
        said.append(f"{start}to {axis.words(edge.last)}, the end of what is tried, and holds there")
    else:
        said.append(f"{start}to {axis.words(edge.last)}, then {_then(edge)}")
    if edge.state == "in the band" and edge.certain is not None:
        away = f"; the method is {edge.bands:.1f} bands away" if edge.bands else ""
        rule = edge.certain_reasons[0].rule
        other = f" ({rule})" if rule != edge.reasons[0].rule else ""
        said.append(f"certain from {axis.words(edge.certain)}{other}{away}")
    if edge.care is not None:
        said.append(f"cautions from {axis.words(edge.care)}: {', '.join(edge.care_rules)}")
    return said


def _end(edge: Edge) -> float:
    return edge.axis.low if edge.direction == "down" else edge.axis.high


def _then(edge: Edge) -> str:
    assert edge.beyond is not None
    first = edge.reasons[0]
    others = [rule for rule in dict.fromkeys(r.rule for r in edge.reasons) if rule != first.rule]
    more = f"; also {', '.join(others)}" if others else ""
    return f"at {edge.axis.words(edge.beyond)} {reason_words(first)}{more}"


def reason_words(reason: Reason) -> str:
    """Class, words and id of what a rule says."""
    possible = "possible " if reason.possible else ""
    return f"{possible}{reason.grade}: {reason.message} [{reason.rule}]"
