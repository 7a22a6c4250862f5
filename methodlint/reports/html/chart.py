"""A small chart in SVG: axes, lines told apart by dash and marker as well as colour."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field

from methodlint.documents.quantities.format import number
from methodlint.reports.html.element import Element, element

__all__ = ["STYLES", "Chart", "Style", "label", "label_room", "mark", "nice_ticks", "text_length"]

_LEFT, _RIGHT, _TOP = 46.0, 120.0, 28.0
_LINE_HEIGHT = 14.0
_LETTER = 6.9
"""Room of one letter of a label; the widest of the fonts that the style sheet asks for."""


@dataclass(frozen=True, slots=True)
class Style:
    """How one line is drawn: colour, dash, marker."""

    colour: str
    dash: str
    marker: str


STYLES = (
    Style("#0b4f6c", "", "dot"),
    Style("#a03c00", "7 3", "square"),
    Style("#3f6212", "2 3", "triangle"),
    Style("#6b2a7b", "9 3 2 3", "diamond"),
    Style("#7a1f3d", "4 2", "cross"),
    Style("#1f2937", "1 2", "dot"),
)


def text_length(text: str) -> float:
    """Room that a label takes at the most."""
    return _LETTER * len(text)


def label_room(names: Iterable[str]) -> float:
    """Room at the right-hand side for the names of lines."""
    return min(max([_RIGHT, *(text_length(name) + 14.0 for name in names)]), 250.0)


def nice_ticks(low: float, high: float, count: int = 5) -> list[float]:
    """Round values between two others, about `count` of them, in steps of 1, 2 or 5."""
    span = high - low
    if not math.isfinite(span) or span <= 0.0:
        return [low]
    rough = span / max(count, 1)
    power = 10.0 ** math.floor(math.log10(rough))
    step = next(power * unit for unit in (1, 2, 5, 10) if power * unit >= rough * 0.999)
    first = math.ceil(low / step - 1e-9)
    last = math.floor(high / step + 1e-9)
    return [number_ * step for number_ in range(first, last + 1)]


@dataclass
class Chart:
    """A chart that grows by its parts.

    Attributes
    ----------
    name
        Unique on the page; title and description get their ids from it.
    title, description
        For those who hear the chart.
    x_span, y_span
        Of the axes, in the units of their labels.
    """

    name: str
    title: str
    description: str
    x_span: tuple[float, float]
    y_span: tuple[float, float]
    x_label: str
    y_label: str
    width: float = 560.0
    height: float = 290.0
    bottom: float = 42.0
    right: float = _RIGHT
    left: float = _LEFT
    _parts: list[Element] = field(default_factory=list)
    _labels: list[tuple[float, str, str]] = field(default_factory=list)
    _notes: list[Element] = field(default_factory=list)

    def x(self, value: float) -> float:
        """Place of a value on the horizontal axis."""
        return self._place(value, self.x_span, self.left, self.width - self.right)

    def y(self, value: float) -> float:
        """Place of a value on the vertical axis."""
        return self._place(value, self.y_span, self.height - self.bottom, _TOP)

    @staticmethod
    def _place(value: float, span: tuple[float, float], first: float, last: float) -> float:
        width = span[1] - span[0]
        part = (value - span[0]) / width if width > 0.0 else 0.5
        return first + min(max(part, -0.05), 1.05) * (last - first)

    def add(self, *parts: Element) -> None:
        """Draw something on top of what is there."""
        self._parts.extend(parts)

    def note(self, x: float, y: float, text: str, *, class_: str = "note") -> None:
        """Write beside a point, above all lines, turned to the side that has room.

        Parameters
        ----------
        x, y
            Of the base line of the text, in the units of the drawing.
        """
        room = self.width - self.right - x
        anchor = "start" if text_length(text) + 7.0 <= room else "end"
        place = x + 7.0 if anchor == "start" else x - 7.0
        self._notes.append(label(place, y, text, anchor, class_))

    def ring(self, x: float, y: float) -> None:
        """Mark a point, in the units of the drawing."""
        self._notes.append(element("path", d=_circle(x, y, 6.5), class_="note"))

    def span(self, x: float, y1: float, y2: float) -> None:
        """Mark a distance upright, in the units of the drawing."""
        ends = f"M{x - 4:.1f} {y1:.1f}H{x + 4:.1f}M{x - 4:.1f} {y2:.1f}H{x + 4:.1f}"
        self._notes.append(element("path", d=f"M{x:.1f} {y1:.1f}V{y2:.1f}{ends}", class_="note"))

    def x_axis(self, ticks: Sequence[tuple[float, str]]) -> None:
        """Draw ticks with their texts along the bottom."""
        floor = self.height - self.bottom
        for value, text in ticks:
            place = self.x(value)
            self.add(_segment(place, floor, place, floor + 4.0, "axis"))
            self.add(label(place, floor + 17.0, text, "middle"))

    def y_axis(self, ticks: Sequence[float] | None = None) -> None:
        """Draw ticks with their figures, and faint lines across."""
        for value in nice_ticks(*self.y_span) if ticks is None else ticks:
            place = self.y(value)
            self.add(_segment(self.left, place, self.width - self.right, place, "grid"))
            self.add(label(self.left - 6.0, place + 4.0, number(value, 4), "end"))

    def line(
        self, name: str, points: Sequence[tuple[float, float]], style: Style, *, marks: bool = True
    ) -> None:
        """Draw a line with markers at its points and its name at the right-hand end."""
        places = [(self.x(x), self.y(y)) for x, y in points]
        if not places:
            return
        for run in _runs(places):
            path = " ".join(f"{'M' if n == 0 else 'L'}{x:.1f} {y:.1f}" for n, (x, y) in run)
            self.add(
                element(
                    "path",
                    d=path,
                    fill="none",
                    stroke=style.colour,
                    stroke_width=2.0,
                    stroke_dasharray=style.dash or None,
                )
            )
        good = [place for place in places if math.isfinite(place[1])]
        if marks:
            self.add(*(mark(x, y, style) for x, y in good))
        if good:
            self._labels.append((good[-1][1], name, style.colour))

    def area(self, points: Sequence[tuple[float, float, float]], style: Style) -> None:
        """Shade the band between a lower and an upper value; what is not finite parts it."""
        stretch: list[tuple[float, float, float]] = []
        for point in (*points, (math.nan,) * 3):
            if all(map(math.isfinite, point)):
                stretch.append(point)
                continue
            if len(stretch) > 1:
                upper = [(self.x(x), self.y(high)) for x, _, high in stretch]
                lower = [(self.x(x), self.y(low)) for x, low, _ in reversed(stretch)]
                outline = " ".join(f"{x:.1f},{y:.1f}" for x, y in (*upper, *lower))
                self.add(element("polygon", points=outline, fill=style.colour, class_="area"))
            stretch = []

    def level(self, value: float, name: str, colour: str = "#47535e") -> None:
        """Draw a horizontal line with its name."""
        place = self.y(value)
        across = _segment(self.left, place, self.width - self.right, place, "level")
        self.add(across)
        self._labels.append((place, name, colour))

    def svg(self) -> Element:
        """Give the whole drawing."""
        floor, end = self.height - self.bottom, self.width - self.right
        frame = [
            _segment(self.left, floor, end, floor, "axis"),
            _segment(self.left, _TOP, self.left, floor, "axis"),
            label((self.left + end) / 2.0, self.height - 6.0, self.x_label, "middle", "name"),
            label(self.left - 30.0, 12.0, self.y_label, "start", "name"),
        ]
        title, said = f"{self.name}-title", f"{self.name}-said"
        return element(
            "svg",
            element("title", self.title, id=title),
            element("desc", self.description, id=said),
            *self._parts,
            *frame,
            *self._notes,
            *self._side_labels(),
            viewBox=f"0 0 {self.width:g} {self.height:g}",
            role="img",
            aria_labelledby=f"{title} {said}",
        )

    def _side_labels(self) -> list[Element]:
        """Names beside the ends of their lines, moved apart where they would overlap."""
        ordered = sorted(self._labels)
        places: list[float] = []
        for wanted, _, _ in ordered:
            lowest = places[-1] + _LINE_HEIGHT if places else _TOP
            places.append(max(wanted + 4.0, lowest))
        lowest_of_all = self.height - self.bottom + 4.0
        for index in range(len(places) - 1, -1, -1):
            below = places[index + 1] - _LINE_HEIGHT if index + 1 < len(places) else lowest_of_all
            places[index] = min(places[index], below)
        start = self.width - self.right + 7.0
        return [
            label(start, place, name, "start", fill=colour)
            for place, (_, name, colour) in zip(places, ordered, strict=True)
        ]


def label(
    x: float,
    y: float,
    text: str,
    anchor: str,
    class_: str | None = None,
    fill: str | None = None,
    transform: str | None = None,
) -> Element:
    """Write a text into a drawing."""
    return element(
        "text", text, x=x, y=y, text_anchor=anchor, class_=class_, fill=fill, transform=transform
    )


def _segment(x1: float, y1: float, x2: float, y2: float, class_: str) -> Element:
    return element("line", x1=x1, y1=y1, x2=x2, y2=y2, class_=class_)


def mark(x: float, y: float, style: Style) -> Element:
    """Draw the marker of a style at a point."""
    drawn: dict[str, Callable[[], Element]] = {
        "dot": lambda: element("circle", cx=x, cy=y, r=2.8, fill=style.colour),
        "square": lambda: element(
            "rect", x=x - 2.7, y=y - 2.7, width=5.4, height=5.4, fill=style.colour
        ),
        "triangle": lambda: _shape([(x, y - 3.6), (x + 3.4, y + 2.6), (x - 3.4, y + 2.6)], style),
        "diamond": lambda: _shape([(x, y - 4), (x + 4, y), (x, y + 4), (x - 4, y)], style),
        "cross": lambda: element(
            "path",
            d=f"M{x - 3:.1f} {y - 3:.1f}L{x + 3:.1f} {y + 3:.1f}"
            f"M{x - 3:.1f} {y + 3:.1f}L{x + 3:.1f} {y - 3:.1f}",
            stroke=style.colour,
            stroke_width=2.0,
            fill="none",
        ),
    }
    return drawn[style.marker]()


def _circle(x: float, y: float, radius: float) -> str:
    """Give the outline of a circle."""
    arc = f"A{radius} {radius} 0 1 0"
    return f"M{x - radius:.1f} {y:.1f}{arc} {x + radius:.1f} {y:.1f}{arc} {x - radius:.1f} {y:.1f}"


def _shape(points: Sequence[tuple[float, float]], style: Style) -> Element:
    return element(
        "polygon", points=" ".join(f"{x:.1f},{y:.1f}" for x, y in points), fill=style.colour
    )


def _runs(
    places: Sequence[tuple[float, float]],
) -> list[list[tuple[int, tuple[float, float]]]]:
    """Stretches without a gap."""
    runs: list[list[tuple[int, tuple[float, float]]]] = [[]]
    for place in places:
        if math.isfinite(place[1]):
            runs[-1].append((len(runs[-1]), place))
        elif runs[-1]:
            runs.append([])
    return [run for run in runs if len(run) > 1]
