"""The published JSON Schema of the report in JSON.

Within an edition it only grows: keys are added, none changes its meaning or goes away.
"""

from __future__ import annotations

from pathlib import Path

_FILES = {"report": Path(__file__).resolve().parent / "report.schema.json"}


def schema_text(name: str = "report") -> str:
    """Give a schema as JSON text.

    Raises
    ------
    KeyError
        If there is no schema of that name.
    """
    return _FILES[name].read_text(encoding="utf-8")
