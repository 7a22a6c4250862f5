"""A review as JSON: findings, every run as measured and predicted, columns, peaks, cylinders."""

from __future__ import annotations

import math
from typing import Any

from methodlint.checking.review import Review
from methodlint.rehearsal.history.change import LevelChange, Point
from methodlint.rehearsal.history.readings import LogReading
from methodlint.reports.consequences import rounded
from methodlint.reports.json_report import json_text, report_data
from methodlint.reports.review_blocks import inside, measured_and_predicted

__all__ = ["review_data", "review_json"]

_KEPT = ("edition", "tool", "counts", "documents", "findings", "not_checked", "unjudged", "errors")


def review_data(review: Review) -> dict[str, Any]:
    """Give a review as plain data."""
    whole = report_data(review.report)
    history = review.history
    return {
        **{key: whole[key] for key in _KEPT},
        "logbook": review.logbook.path,
        "runs": [_run(one) for one in history.readings],
        "columns": [
            {
                "column": one.column,
                "bench": one.bench,
                "permeability_m2": _figure(one.permeability),
                "scatter": rounded(one.scatter),
                "injections": one.injections,
                "level": [_point(point) for point in one.points],
                "left_out": [point.entry for point in one.alone],
                "rise": _change(one.rise),
                "fall": _change(one.fall),
            }
            for one in history.columns
        ],
        "peaks": [
            {
                "peak": one.name,
                "method": one.method,
                "column": one.column,
                "bench": one.bench,
                "first_retention_min": _figure(one.first_retention / 60.0),
                "first_plates": _figure(one.first_plates),
                "retention": [_point(point) for point in one.retention],
                "plates": [_point(point) for point in one.plates],
                "retention_change": _change(one.retention_change),
                "plates_fall": _change(one.plates_fall),
            }
            for one in history.peaks
        ],
        "weighed": [
            {
                "supply": one.supply,
                "cylinder": one.cylinder,
                "begins": one.begins.isoformat(timespec="minutes"),
                "ends": one.ends.isoformat(timespec="minutes"),
                "weighed_kg": rounded(one.weighed),
                "predicted_kg": rounded(one.predicted),
                "limit_kg": rounded(one.limit),
                "entries": one.runs,
                "not_predicted": one.unknown,
                "whole_cylinder": one.whole,
                "change_not_logged": one.change_not_logged,
            }
            for one in history.weighed
        ],
    }


def review_json(review: Review) -> str:
    """Write a review as JSON text."""
    return json_text(review_data(review))


def _figure(value: float) -> float | None:
    return None if math.isnan(value) else float(f"{value:.6g}")


def _point(point: Point) -> dict[str, Any]:
    return {"entry": point.entry, "ratio": rounded(math.exp(point.value))}


def _change(change: LevelChange | None) -> dict[str, Any] | None:
    if change is None:
        return None
    return {
        "began": change.began.moment.date().isoformat(),
        "found": change.found.moment.date().isoformat(),
        "readings": change.runs,
        "size": rounded(change.size),
        "largest": rounded(change.largest),
        "per_week": None if change.slope is None else rounded(7.0 * change.slope.value),
        "kendall_tau": None if change.trend is None else rounded(change.trend.tau),
    }


def _run(one: LogReading) -> dict[str, Any]:
    pressures = {
        pair[0]: {
            "measured_bar": rounded(pair[1] / 1e5),
            "predicted_bar": rounded(pair[2] / 1e5),
            "band_below_bar": rounded(pair[3] / 1e5),
            "band_above_bar": rounded(pair[4] / 1e5),
            "inside": inside(*pair[1:]),
        }
        for pair in measured_and_predicted(one)
    }
    return {
        "entry": one.entry,
        "date": one.moment.isoformat(timespec="minutes"),
        "method": one.method,
        "sequence": one.sequence,
        "column": one.column,
        "bench": one.bench,
        "injections": one.injections,
        "pressures": pressures,
        "co2_predicted_kg": rounded(one.co2),
    }
