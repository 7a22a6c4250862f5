"""The plane of two settings as a drawing: readable without colour, each edge with its check."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from methodlint.reports.html.chart import Chart, label, nice_ticks
from methodlint.reports.html.element import Element, element
from methodlint.window.entry import Window
from methodlint.window.region import SIDE, Border, Piece, Region
from methodlint.window.trials import State

__all__ = ["MAP_BOX", "MarkedEdge", "drawn_region", "key_element", "marked_edges"]

_FILLS: dict[State, str] = {
    "fails": "#c4cbd2", "in the band": "url(#hatch)", "not judged": "url(#grid)",
}  # fmt: skip
_WIDTH, _HEIGHT, _SIDE = 680.0, 430.0, 24.0
MAP_BOX = (46.0, 28.0, _WIDTH - _SIDE, _HEIGHT - 42.0)
"""Left, top, right and bottom of the plane, in the units of the drawing."""


@dataclass(frozen=True, slots=True)
class MarkedEdge:
    """An edge of the region with the number that it is marked by.

    Attributes
    ----------
    place, outward
        Where the mark stands, and the way out of the region, in units of the plane.
    """

    number: int
    rule: str
    state: State
    place: tuple[float, float]
    outward: tuple[float, float]


def marked_edges(region: Region) -> list[MarkedEdge]:
    """Number the checks that end the region, each at the middle of its longest edge."""
    by_rule: dict[str, list[Border]] = {}
    for border in region.judged.borders:
        if border.inner == "holds":
            by_rule.setdefault(border.rule, []).append(border)
    found = []
    order = sorted(by_rule.items(), key=lambda item: (-_length(item[1]), item[0]))
    for number, (rule, borders) in enumerate(order, start=1):
        border = _middle(borders)
        place = _between(border.start, border.end)
        way = _outward(region, border, place)
        found.append(MarkedEdge(number, rule, border.outer, place, way))
    return found


def _length(borders: Iterable[Border]) -> float:
    return sum(math.dist(border.start, border.end) for border in borders)


def _middle(borders: list[Border]) -> Border:
    """The border nearest to the middle of all that have its rule."""
    centres = [_between(border.start, border.end) for border in borders]
    mean = sum(x for x, _ in centres) / len(centres), sum(y for _, y in centres) / len(centres)
    return min(borders, key=lambda border: math.dist(_between(border.start, border.end), mean))


def _between(one: tuple[float, float], other: tuple[float, float]) -> tuple[float, float]:
    return (one[0] + other[0]) / 2, (one[1] + other[1]) / 2


def _outward(region: Region, border: Border, place: tuple[float, float]) -> tuple[float, float]:
    dx, dy = border.end[0] - border.start[0], border.end[1] - border.start[1]
    size = math.hypot(dx, dy) or 1.0
    way = -dy / size, dx / size
    step = SIDE / 200
    ahead = place[0] + step * way[0], place[1] + step * way[1]
    inside = [min(max(value, 0.0), float(SIDE)) for value in ahead]
    if region.judged.state((inside[0], inside[1])) == "holds":
        return -way[0], -way[1]
    return way


def drawn_region(found: Window, region: Region) -> Element:
    """Draw the map of a window."""
    x, y = region.x, region.y
    chart = Chart(
        "map",
        f"Region in which every check holds: {y.name} against {x.name}",
        _said(found, region),
        region.x_span,
        region.y_span,
        f"{x.name} [{x.unit}]",
        f"{y.name} [{y.unit}]",
        width=_WIDTH,
        height=_HEIGHT,
        right=_SIDE,
    )
    chart.add(_patterns(), *_areas(chart, region), *_lines(chart, region))
    chart.add(*_ticks(chart, region))
    chart.add(*_tolerances(chart, found, region), *_own(chart, region))
    for edge in marked_edges(region):
        chart.add(*_mark(chart, region, edge))
    chart.add(element("g", element("path", d="M-9 0H9M0 -9V9", class_="axis"), element(
        "circle", cx=0, cy=0, r=6.0, fill="none", class_="axis"), id="cursor", visibility="hidden"))  # fmt: skip
    return chart.svg()


def _said(found: Window, region: Region) -> str:
    edges = "; ".join(f"{edge.number}: {edge.rule}" for edge in marked_edges(region))
    holds = "lies in it" if found.holds else "does not lie in it"
    return (
        f"The outlined area is where every check holds; the method {holds}. Its edges: "
        f"{edges or 'none within the map'}. Hatched is where a limit lies within its band."
    )


def _patterns() -> Element:
    def drawn(path: str) -> Element:
        return element("path", d=path, stroke="#16202a", stroke_width=1.1, fill="none")

    def pattern(name: str, size: float, *parts: Element) -> Element:
        return element("pattern", element("rect", width=size, height=size, fill="#ffffff"), *parts,
                       id=name, width=size, height=size, patternUnits="userSpaceOnUse")  # fmt: skip

    return element(
        "defs",
        pattern("hatch", 7.0, drawn("M-1 8L8 -1M-1 1L1 -1M6 8L8 6")),
        pattern("grid", 9.0, drawn("M0 0H9M0 0V9")),
        pattern("dots", 9.0, element("circle", cx=4.5, cy=4.5, r=0.9, fill="#47535e")),
    )


def _areas(chart: Chart, region: Region) -> Iterator[Element]:
    by_state: dict[State, list[Piece]] = {}
    for piece in region.judged.pieces:
        by_state.setdefault(piece.state, []).append(piece)
    for state, fill in _FILLS.items():
        if state in by_state:
            # The stroke closes the seams between neighbours.
            yield element("path", d=_polygons(chart, region, by_state[state]), fill=fill,
                          stroke=fill, stroke_width=0.8)  # fmt: skip
    holds = _polygons(chart, region, by_state.get("holds", []))
    if not holds:
        return
    yield element("path", d=holds, fill="#ffffff", stroke="#ffffff", stroke_width=0.8)
    care = [piece for piece in region.care.pieces if piece.state == "with care"]
    if care:
        yield element("clipPath", element("path", d=holds), id="holds")
        yield element("path", d=_polygons(chart, region, care), fill="url(#dots)",
                      clip_path="url(#holds)")  # fmt: skip


def _polygons(chart: Chart, region: Region, pieces: Iterable[Piece]) -> str:
    return "".join(
        "M" + "L".join(_at(chart, region, corner) for corner in piece.corners) + "Z"
        for piece in pieces
    )


def _at(chart: Chart, region: Region, spot: tuple[float, float]) -> str:
    x, y = region.values(spot)
    return f"{chart.x(x):.1f} {chart.y(y):.1f}"


def _lines(chart: Chart, region: Region) -> Iterator[Element]:
    outline = [border for border in region.judged.borders if border.inner == "holds"]
    rim = [border for border in region.judged.borders if border.inner != "holds"]
    care = [border for border in region.care.borders if _within_window(region, border)]
    for borders, width, dash in ((care, 1.0, "1 4"), (rim, 1.0, None), (outline, 2.6, None)):
        if borders:
            path = "".join(
                f"M{_at(chart, region, border.start)}L{_at(chart, region, border.end)}"
                for border in borders
            )
            yield element("path", d=path, fill="none", stroke="#16202a", stroke_width=width,
                          stroke_dasharray=dash, stroke_linecap="round")  # fmt: skip


def _within_window(region: Region, border: Border) -> bool:
    return region.judged.state(_between(border.start, border.end)) == "holds"


def _ticks(chart: Chart, region: Region) -> Iterator[Element]:
    floor = chart.height - chart.bottom
    for value in nice_ticks(*region.x_span, 7):
        yield element("path", d=f"M{chart.x(value):.1f} {floor:.1f}v4", class_="axis")
        yield label(chart.x(value), floor + 17.0, f"{value:g}", "middle")
    for value in nice_ticks(*region.y_span, 7):
        yield element("path", d=f"M{chart.left:.1f} {chart.y(value):.1f}h-4", class_="axis")
        yield label(chart.left - 7.0, chart.y(value) + 4.0, f"{value:g}", "end")


def _own(chart: Chart, region: Region) -> Iterator[Element]:
    x, y = chart.x(region.x.value), chart.y(region.y.value)
    yield element("circle", cx=x, cy=y, r=5.0, fill="#16202a", stroke="#ffffff", stroke_width=1.5)
    yield label(x + 9.0, y - 8.0, "method", "start", "note")


def _tolerances(chart: Chart, found: Window, region: Region) -> Iterator[Element]:
    x, y = region.x, region.y
    wide, high = x.tolerance or 0.0, y.tolerance or 0.0
    if wide or high:
        left, right = chart.x(x.value - wide), chart.x(x.value + wide)
        top, bottom = chart.y(y.value + high), chart.y(y.value - high)
        yield element("rect", x=left, y=top, width=right - left, height=bottom - top,
                      fill="none", stroke="#16202a", stroke_width=1.4, stroke_dasharray="5 3")  # fmt: skip


def _mark(chart: Chart, region: Region, edge: MarkedEdge) -> Iterator[Element]:
    x_value, y_value = region.values(edge.place)
    x, y = chart.x(x_value), chart.y(y_value)
    out_x, out_y = edge.outward[0], -edge.outward[1]
    words = edge.rule.partition(".")[2].replace("-", " ")
    if abs(out_x) > abs(out_y):
        # Beside an upright edge there is little room: the name runs along it.
        at_x, at_y = x + (17.0 if out_x > 0 else -13.0), y
        turned = f"rotate(-90 {at_x + 4:.1f} {at_y:.1f})"
        yield label(at_x + 4.0, at_y + 0.0, words, "middle", "over", transform=turned)
    else:
        yield label(x, y + (24.0 if out_y > 0 else -15.0), words, "middle", "over")
    yield element("circle", cx=x, cy=y, r=8.5, fill="#ffffff", class_="axis")
    yield label(x, y + 4.2, str(edge.number), "middle")


def key_element() -> Element:
    """Say what the areas mean, with a patch of each."""
    rows = (
        ("#ffffff", None, "every check holds (outlined)"),
        ("#ffffff", "url(#dots)", "holds, with a caution that the method does not have"),
        ("url(#hatch)", None, "a limit lies within its band"),
        ("#c4cbd2", None, "a check fails"),
        ("url(#grid)", None, "not judged: a check that could stop was not made"),
    )
    return element(
        "ul",
        *(
            element(
                "li",
                element(
                    "svg",
                    element("rect", x=1, y=1, width=26, height=14, fill=fill, class_="axis"),
                    element("rect", x=1, y=1, width=26, height=14, fill=over) if over else None,
                    viewBox="0 0 28 16",
                    aria_hidden="true",
                ),
                words,
            )
            for fill, over, words in rows
        ),
        class_="patches",
    )
