"""The formats of a report by name: one registry for what is shown and what is written."""

from __future__ import annotations

import importlib
from collections.abc import Callable
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from methodlint.reports.prepared import Prepared

FORMATS: dict[str, str] = {
    "words": "methodlint.reports.text:prepared_text",
    "json": "methodlint.reports.prepared:prepared_json",
    "sarif": "methodlint.reports.sarif:sarif_text",
    "junit": "methodlint.reports.junit:junit_text",
    "markdown": "methodlint.reports.markdown:markdown_report",
    "annotations": "methodlint.reports.annotations:annotation_lines",
    "html": "methodlint.reports.html.page:html_page",
}
"""Module and function that write each format; a module is imported when it is asked for."""

WITH_ARRAYS = frozenset(["html"])
"""Formats that draw what was rehearsed: they need the report of `check`, not of `check_many`."""


_COMMENT = {"markdown": ("<!-- ", " -->"), "words": ("", ""), "annotations": ("", "")}


def file_text(name: str, prepared: Prepared) -> str:
    """Write a report in one format as a file that tells by its content what wrote it."""
    from methodlint.documents.text.writing import ending

    text = written(name, prepared)
    if name not in _COMMENT:
        return text
    return f"{text}\n{ending(*_COMMENT[name])}" if name == "markdown" else text + ending()


def written(name: str, prepared: Prepared) -> str:
    """Write a report in one format.

    Parameters
    ----------
    name
        One of `FORMATS`.
    prepared
        The report.

    Raises
    ------
    KeyError
        If there is no such format.
    ValueError
        If the format draws what was rehearsed and the report is one of `check_many`.
    """
    module, _, function = FORMATS[name].partition(":")
    write: Callable[[Prepared], str] = getattr(importlib.import_module(module), function)
    return write(prepared)
