"""Documents with very many entries of one kind, each within the limits of a document's size."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

from methodlint.documents.text.reader import read_document
from tests.hazards.hostile_lab import EXAMPLES

METHOD = "sound/sulfonamides-in-honey.yaml"
SEQUENCE = "sound/triazole-day-batch.yaml"
LAB = "lab.yaml"
SUPPLY = "supplies/yard-cylinder.yaml"
ROOM = "rooms/separations-room.yaml"
INSTRUMENT = "instruments/bench-a.yaml"
SOLVENTS = "solvents/bench-a-bottles.yaml"


def _transitions(method: Any, count: int) -> None:
    peaks = [
        {"name": f"p{n}", "retention_time": f"{1 + 4 * n / count:.4f} min", "plates": 8000,
         "ion": 100 + n / 10, "polarity": "positive"}
        for n in range(count)
    ]  # fmt: skip
    method["expected_peaks"] = peaks
    method["detectors"][0]["transitions"] = [
        {"name": f"p{n} 251 > 156", "dwell": "1 ms", "begins": f"{1 + 4 * n / count:.4f} min",
         "ends": f"{1.5 + 4 * n / count:.4f} min"}
        for n in range(count)
    ]  # fmt: skip


def _peaks(method: Any, count: int) -> None:
    _transitions(method, count)
    del method["detectors"][0]["transitions"]


def _programme(method: Any, count: int) -> None:
    method["programme"] = [
        {"time": f"{6 * n / count:.4f} min", "modifier_share": f"{8 + n % 20} % v/v"}
        for n in range(count)
    ]


def _deviations(document: Any, count: int) -> None:
    document["deviations"] = [
        {"rule": "pressure.low-limit-missing", "reason": f"reason {n}", "approved_by": "A. Analyst",
         "until": "2027-01-01"}
        for n in range(count)
    ]  # fmt: skip


def _unknown_deviations(document: Any, count: int) -> None:
    document["deviations"] = [
        {
            "rule": f"pressure.low-limit-mising-{n}",
            "reason": "a reason",
            "approved_by": "A. Analyst",
        }
        for n in range(count)
    ]


def _classes(document: Any, count: int) -> None:
    document["classes"] = [
        {"rule": "sequence.blank-missing", "to": "note", "reason": f"reason {n}"}
        for n in range(count)
    ]


def _unknown_classes(document: Any, count: int) -> None:
    document["classes"] = [
        {"rule": f"sequence.no-blnks-{n}", "to": "note", "reason": "a reason"} for n in range(count)
    ]


def _line_sections(supply: Any, count: int) -> None:
    supply["line_sections"] = [
        {
            "name": f"section {n}",
            "pressure_rating": "300 bar",
            "filled_at": f"{10 + n / count} degC",
        }
        for n in range(count)
    ]


def _closed_sections(instrument: Any, count: int) -> None:
    instrument["closed_sections"] = [
        {"name": f"section {n}", "pressure_rating": "300 bar"} for n in range(count)
    ]


def _rated_parts(supply: Any, count: int) -> None:
    supply["rated_parts"] = [
        {"part": f"part {n}", "pressure_rating": "300 bar"} for n in range(count)
    ]


def _waste_contents(room: Any, count: int) -> None:
    room["waste"][0]["contents"] = [
        ("acetone", "chloroform", "nitric acid", f"liquid {n}")[n % 4] for n in range(count)
    ]


def _waste_blends(room: Any, count: int) -> None:
    room["waste"][0]["contents"] = [
        {"liquids": [{"liquid": one, "share": f"{1 + n % 98} % v/v"},
                   {"liquid": "n-heptane", "share": f"{99 - n % 98} % v/v"}]}
        for n in range(count) for one in (("methanol", "ethanol", "acetone", "chloroform")[n % 4],)
    ]  # fmt: skip


def _waste_vessels(room: Any, count: int) -> None:
    room["waste"] = [
        {"name": f"vessel {n}", "capacity": "5 L", "level": "0.4 L", "contents": ["methanol"]}
        for n in range(count)
    ]


def _open_outlets(room: Any, count: int) -> None:
    room["outlets"] = [
        {"name": f"outlet {n}", "of": "separator", "ducted": False} for n in range(count)
    ]


def _monitors(room: Any, count: int) -> None:
    room["monitors"] = [
        {
            "gas": "CO2",
            "place": f"place {n}",
            "low": False,
            "tested": "2020-01-01",
            "audible": False,
        }
        for n in range(count)
    ]


def _bottles(solvents: Any, count: int) -> None:
    first = solvents["bottles"][0]
    solvents["bottles"] = [{**first, "line": f"line {n}"} for n in range(count)] + solvents[
        "bottles"
    ]


def _additives(method: Any, count: int) -> None:
    method["mobile_phase"]["modifier"]["additives"] = [
        {"additive": ("ammonium formate", "formic acid", f"thing {n}")[n % 3], "level": "1 mM"}
        for n in range(count)
    ]


def _runs_on(method: Any, count: int) -> None:
    method["runs_on"] = [f"bench-{n}" for n in range(count)]


def _train(instrument: Any, count: int) -> None:
    tubes = [
        {"part": "tube", "name": f"tube {n}", "length": "0.01 m", "bore": "0.25 mm"}
        for n in range(count)
    ]
    instrument["train"][-1:-1] = tubes


def _cells(instrument: Any, count: int) -> None:
    cells = [
        {"part": "cell", "name": f"cell {n}", "volume": "1 uL", "pressure_rating": "120 bar"}
        for n in range(count)
    ]
    instrument["train"][-1:-1] = cells


LISTS: dict[str, tuple[str, str, Callable[[Any, int], None], int]] = {
    "transitions and peaks": (METHOD, METHOD, _transitions, 400),
    "peaks": (METHOD, METHOD, _peaks, 800),
    "programme rows": (METHOD, METHOD, _programme, 400),
    "additives": (METHOD, METHOD, _additives, 400),
    "instruments": (METHOD, METHOD, _runs_on, 800),
    "deviations": (METHOD, METHOD, _deviations, 500),
    "deviations of unknown rules": (METHOD, METHOD, _unknown_deviations, 500),
    "classes": (METHOD, LAB, _classes, 500),
    "classes of unknown rules": (METHOD, LAB, _unknown_classes, 500),
    "line sections": (SEQUENCE, SUPPLY, _line_sections, 80),
    "closed sections": (SEQUENCE, INSTRUMENT, _closed_sections, 80),
    "rated parts": (SEQUENCE, SUPPLY, _rated_parts, 1_600),
    "waste blends": (SEQUENCE, ROOM, _waste_blends, 100),
    "waste contents": (SEQUENCE, ROOM, _waste_contents, 100),
    "waste vessels": (SEQUENCE, ROOM, _waste_vessels, 800),
    "open outlets": (SEQUENCE, ROOM, _open_outlets, 400),
    "monitors": (SEQUENCE, ROOM, _monitors, 800),
    "bottles": (SEQUENCE, SOLVENTS, _bottles, 800),
    "tubes": (METHOD, INSTRUMENT, _train, 100),
    "cells": (METHOD, INSTRUMENT, _cells, 100),
}
"""What is checked, which document holds the list, how it is written, how many entries."""


def lab_with(folder: Path, name: str, count: int) -> Path:
    """Write a lab with a list of so many entries; give the file to check."""
    checked, document, change, _ = LISTS[name]
    shutil.copytree(EXAMPLES, folder, ignore=shutil.ignore_patterns("flawed", "unreadable"))
    file = folder / document
    plain: Any = read_document(file).plain()
    change(plain, count)
    file.write_text(json.dumps(plain, default=str), encoding="utf-8")
    return folder / checked
