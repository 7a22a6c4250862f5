"""How far the settings of a method may move, as JSON."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from methodlint.documents.text.visible import visible
from methodlint.judging.finding import Measure
from methodlint.reports.consequences import rounded
from methodlint.reports.json_report import EDITION, json_text
from methodlint.window.axis import Axis
from methodlint.window.edges import Edge
from methodlint.window.entry import Window
from methodlint.window.region import Region
from methodlint.window.trials import Outcome, Reason

__all__ = ["axis_data", "outcome_data", "window_json"]


def window_json(windows: Iterable[Window]) -> str:
    """Write windows as JSON text with a final newline."""
    return json_text({"edition": EDITION, "windows": [_window(found) for found in windows]})


def _window(found: Window) -> dict[str, Any]:
    instrument = found.run.documents.get("instrument")
    return {
        "method": visible(found.run.documents["method"].path),
        "instrument": visible(instrument.name) if instrument is not None else None,
        "own": outcome_data(found.own),
        "settings": [
            {
                **axis_data(axis),
                **{edge.direction: _edge(edge) for edge in found.edges if edge.axis is axis},
            }
            for axis in found.axes
        ],
        "map": None if found.region is None else _map(found.region),
    }


def _map(region: Region) -> dict[str, Any]:
    return {
        "x": {
            "key": region.x.key,
            "from": rounded(region.x_span[0]),
            "to": rounded(region.x_span[1]),
        },
        "y": {
            "key": region.y.key,
            "from": rounded(region.y_span[0]),
            "to": rounded(region.y_span[1]),
        },
        "points": [
            {
                "at": _at(region, spot),
                "state": outcome.state,
                "rules": [visible(rule) for rule in outcome.rules],
                "cautions": [visible(rule) for rule in outcome.cautions],
                "figures": {key: rounded(value) for key, value in outcome.figures.items()},
            }
            for spot, outcome in sorted(region.points.items())
        ],
        "borders": [
            {
                "inner": border.inner,
                "outer": border.outer,
                "rule": visible(border.rule),
                "from": _at(region, border.start),
                "to": _at(region, border.end),
            }
            for border in (*region.judged.borders, *region.care.borders)
        ],
    }


def _at(region: Region, spot: tuple[float, float]) -> list[float | None]:
    return [rounded(value) for value in region.values(spot)]


def axis_data(axis: Axis) -> dict[str, Any]:
    """Give a setting as plain data."""
    return {
        "key": axis.key,
        "name": axis.name,
        "unit": axis.unit,
        "value": rounded(axis.value),
        "tried": {"from": rounded(axis.low), "to": rounded(axis.high)},
    }


def outcome_data(outcome: Outcome) -> dict[str, Any]:
    """Give what became of one point as plain data."""
    return {"state": outcome.state, "reasons": [_reason(reason) for reason in outcome.reasons]}


def _edge(edge: Edge) -> dict[str, Any]:
    return {
        "from": rounded(edge.from_),
        "last": rounded(edge.last),
        "beyond": rounded(edge.beyond),
        "state": edge.state,
        "reasons": [_reason(reason) for reason in edge.reasons],
        "certain_from": rounded(edge.certain),
        "certain_reasons": [_reason(reason) for reason in edge.certain_reasons],
        "bands": rounded(edge.bands),
        "care_from": rounded(edge.care),
        "care_rules": list(edge.care_rules),
    }


def _reason(reason: Reason) -> dict[str, Any]:
    return {
        "rule": visible(reason.rule),
        "class": reason.grade,
        "possible": reason.possible,
        "message": visible(reason.message),
        "found": _measure(reason.found),
        "limit": _measure(reason.limit),
        "band": _measure(reason.band),
    }


def _measure(measure: Measure | None) -> dict[str, Any] | None:
    return None if measure is None else {"value": rounded(measure.value), "unit": measure.unit}
