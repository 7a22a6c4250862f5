"""The transfer record as plain data: inputs with hashes, formulae, figures, allowances."""

from __future__ import annotations

import hashlib
import math
from typing import Any

from methodlint.documents.loading import Loaded
from methodlint.documents.text.places import path_text
from methodlint.documents.text.visible import visible
from methodlint.fluids.table_record import table_record
from methodlint.judging.finding import Finding
from methodlint.transfer.computed import Computed
from methodlint.version import __version__

__all__ = ["transfer_data"]

EDITION = 1


def transfer_data(transfer: Computed) -> dict[str, Any]:
    """Give a transfer as plain data: no clock, no machine, the same on every run.

    Hidden and control characters of documents are visible escapes in it.
    """
    data = _visible(_data(transfer))
    assert isinstance(data, dict)
    return data


def _visible(data: Any) -> Any:
    if isinstance(data, dict):
        return {visible(key): _visible(below) for key, below in data.items()}
    if isinstance(data, list):
        return [_visible(below) for below in data]
    return visible(data) if isinstance(data, str) else data


def _data(transfer: Computed) -> dict[str, Any]:
    sides = transfer.sides
    tables = table_record()
    return {
        "edition": EDITION,
        "tool": {"name": "methodlint", "version": __version__, "property_library": tables.library},
        "property_tables": {"version": tables.version, "sha256": tables.sha256},
        "wording": "predicted; verify",
        "feasible": transfer.feasible,
        "options": dict(transfer.options),
        "inputs": {
            "method": _document(sides.method),
            "source": {
                "columns": [_document(column) for column in sides.source.columns],
                "instrument": _document(sides.source.instrument),
            },
            "target": {
                "columns": [_document(column) for column in sides.target.columns],
                "instrument": _document(sides.target.instrument),
            },
        },
        "calibration": {
            "flow_resistance": _round(sides.calibration),
            "serves_target": sides.calibration_serves_target,
        },
        "entries": [
            {
                "item": entry.item,
                "at": path_text(entry.path) if entry.path else None,
                "source": entry.source,
                "geometry": entry.geometry,
                "proposed": entry.proposed,
                "how": entry.how,
                "limit": entry.limit,
                "why": entry.why,
            }
            for entry in transfer.entries
        ],
        "corners": _corners(transfer),
        "peaks": [
            {
                "name": peak.name,
                "source_min": _round(peak.time / 60.0),
                "target_min": _round(peak.target_time / 60.0),
                "source_width_s": _round(peak.width),
                "target_width_s": _round(peak.target_width),
                "plates_lost_outside_column": _round(peak.extra_loss),
            }
            for peak in transfer.peaks
        ],
        "allowances": {
            "set": transfer.allowances.name if transfer.allowances else None,
            "note": transfer.allowances.note if transfer.allowances else None,
            "used": [
                {
                    "item": use.item,
                    "change": use.change,
                    "span": use.span,
                    "source": use.source,
                    "exceeded": use.exceeded,
                }
                for use in transfer.uses
            ],
        },
        "obstacles": [{"name": item.name, "message": item.message} for item in transfer.obstacles],
        "other_ways": [{"text": way.text, "computed": way.computed} for way in transfer.ways],
        "remaining": [_finding(finding) for finding in transfer.remaining],
        "verdict_of_proposal": transfer.report.verdict if transfer.report else None,
        "proposed_sha256": transfer.proposed.read.sha256 if transfer.proposed else None,
        "verification_sequences": sorted(transfer.verification),
        "verification_sha256": {
            name: hashlib.sha256(text.encode("utf-8")).hexdigest()
            for name, text in transfer.verification.items()
        },
        "remarks": list(transfer.remarks),
    }


def _document(document: Loaded) -> dict[str, str]:
    return {"path": document.path, "kind": document.kind, "sha256": document.read.sha256}


def _corners(transfer: Computed) -> list[dict[str, Any]]:
    tried = transfer.attempt
    if tried is None:
        return []
    found = []
    for match, state, left in zip(tried.matches, tried.states, tried.residuals, strict=True):
        source = match.source
        found.append(
            {
                "source_share": _round(source.row.share),
                "target_share": _round(state.row.share),
                "source_outlet_pressure_bar": _round(source.row.outlet_pressure / 1e5),
                "target_outlet_pressure_bar": _round(state.row.outlet_pressure / 1e5),
                "solved_outlet_pressure_bar": _round(match.setting / 1e5) if match.found else None,
                "source_mean_density": _round(source.mean_density),
                "target_mean_density": _round(state.mean_density),
                "residual": _round(left),
                "source_outlet_density": _round(source.outlet_density),
                "target_outlet_density": _round(state.outlet_density),
                "source_hold_up_s": _round(source.hold_up_time),
                "target_hold_up_s": _round(state.hold_up_time),
                "source_mass_fraction": _round(source.w_modifier),
                "target_mass_fraction": _round(state.w_modifier),
                "source_pump_pressure_bar": _round(source.pump_pressure / 1e5),
                "target_pump_pressure_bar": _round(state.pump_pressure / 1e5),
            }
        )
    return found


def _finding(finding: Finding) -> dict[str, Any]:
    return {
        "rule": finding.rule,
        "class": finding.grade,
        "at": path_text(finding.at.path),
        "document": finding.at.document.path,
        "message": finding.message,
        "remedy": finding.remedy,
    }


def _round(value: float | None) -> float | None:
    if value is None or not math.isfinite(value):
        return None
    rounded = float(f"{value:.6g}")
    return 0.0 if abs(rounded) < 1e-12 else rounded
