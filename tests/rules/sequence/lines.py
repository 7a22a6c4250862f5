"""Writes sequences for the tests of the rules about them."""

from __future__ import annotations

import json


def line(kind: str, name: str = "", **keys: object) -> str:
    """Write one line; values are written as JSON, which is YAML."""
    data: dict[str, object] = {"kind": kind, "plate": 1, "well": "A1"}
    if name:
        data["sample"] = name
    return json.dumps({**data, **keys})


def samples(count: int, first: int = 1) -> list[str]:
    """Write lines of samples, each with a name of its own."""
    return [line("sample", f"extract {n}", well="D1") for n in range(first, first + count)]


def calibrators(*levels: float) -> list[str]:
    """Write a calibrator for each level."""
    return [line("calibrator", f"C{n}", level=level) for n, level in enumerate(levels, 1)]


def controls(*levels: str) -> list[str]:
    """Write a control for each level."""
    return [line("control", f"QC {level}", control_level=level) for level in levels]


def sequence(*lines: str | list[str], **keys: object) -> str:
    """Write a sequence fragment for the harness; lists of lines are laid out one after another."""
    flat = [one for item in lines for one in ([item] if isinstance(item, str) else item)]
    head = [f"{key}: {json.dumps(value)}" for key, value in keys.items()]
    return "\n".join(["kind: sequence", *head, "lines:", *(f"  - {one}" for one in flat), ""])


BLANK = line("blank", "diluent")
