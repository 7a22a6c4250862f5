"""Say in words what value is wanted in a place: its kind, a sample, one with a tolerance."""

from __future__ import annotations

from methodlint.documents.quantities.unit_words import SAMPLES
from methodlint.documents.text.visible import excerpt

UNIT = "document.unit-missing-or-wrong-kind"
RANGE = "document.range-or-about"
TRAP = "document.type-trap"
FIGURE = r"[+-]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]+)?"
"""Pattern of a number as YAML writes decimal ones."""


def sample(dimensions: tuple[str, ...]) -> str:
    """Return a well-formed value to show, in quotation marks."""
    return f'"{SAMPLES[dimensions[0]]}"'


def kind(dimensions: tuple[str, ...]) -> str:
    """Return the name of what is wanted, with its article: ``a pressure``."""
    if dimensions == ("volume flow", "mass flow"):
        return "a flow"
    if len(dimensions) > 2:
        return "a concentration"
    names = {"ppm": "a content in ppm", "amount concentration": "an amount concentration", "time": "a duration",
             "air change rate": "an air change rate"}  # fmt: skip
    return " or ".join(names.get(name, f"a {name}") for name in dimensions)


def with_tolerance(dimensions: tuple[str, ...], value: str = "", off: str = "...") -> str:
    """Return the remedy where one value was wanted and a range, or a vague one, is written."""
    if not value and dimensions == ("temperature",):
        value, off = "35 degC", "2 degC"
    shown = f"{{value: {excerpt(value or SAMPLES[dimensions[0]])}, tolerance: {excerpt(off)}}}"
    return f"write one value and how far it may be off: {shown}"
