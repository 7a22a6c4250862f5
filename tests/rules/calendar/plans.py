"""A second sequence beside the sound one, for the tests of the calendar's rules."""

from __future__ import annotations

LATER = "begins: 2026-11-24T18:00\nslot: null\n"


def planned(second: str = "", cards: str = "") -> str:
    """Changes that plan a second sequence for the evening; `second` overrides its keys."""
    keys = dict(line.split(": ", 1) for line in LATER.splitlines())
    keys |= dict(line.split(": ", 1) for line in second.splitlines())
    text = "".join(f"{key}: {value}\n" for key, value in keys.items())
    return f"kind: sequence\nx-name: second\n{text}" + (f"---\n{cards}" if cards else "")
