"""What Python users call: the functions of the package, and a report that prints and writes."""

from __future__ import annotations

import os
from collections.abc import Callable
from dataclasses import dataclass, fields
from functools import cached_property, wraps
from typing import Any, ParamSpec

from methodlint.checking.check import check as _check
from methodlint.checking.report import Report
from methodlint.documents.text.writing import write_files
from methodlint.many.check_many import check_many as _check_many
from methodlint.reports.formats import FORMATS, file_text
from methodlint.reports.html.element import element, markup
from methodlint.reports.prepared import Prepared
from methodlint.reports.wording import place, summary, verdict_words

__all__ = ["CheckReport", "check", "check_many"]

P = ParamSpec("P")


@dataclass(repr=False)
class CheckReport(Report):
    """Result of a check: verdict, findings, what was not checked; see `Report` for its attributes.

    Examples
    --------
    >>> import methodlint
    >>> report = methodlint.check("example_methods/sound")
    >>> report.verdict
    'clear to run'
    >>> report.to_dict()["verdict"]
    'clear to run'
    """

    def to_dict(self) -> dict[str, Any]:
        """Give the report as plain data: the JSON report (`methodlint schema report`)."""
        return self._prepared.data

    def write(self, format: str, path: str | os.PathLike[str]) -> None:
        """Write the report to a file.

        Parameters
        ----------
        format
            words, json, sarif, junit, markdown, annotations or html.
        path
            The file; a report of this tool there is replaced, nothing else is.

        Raises
        ------
        ValueError
            If there is no such format, or it draws a run and the report is one of `check_many`.
        OSError
            If the file cannot be written, or is not one of this tool.
        """
        if format not in FORMATS:
            raise ValueError(f"format: '{format}' is none of {', '.join(FORMATS)}")
        target = os.fspath(path)
        tables = [table.path for table in self.tables]
        folder = os.path.dirname(os.path.abspath(target))
        write_files(
            {target: file_text(format, self._prepared)},
            judged={folder},
            read=(*self.documents, *tables),
        )

    @cached_property
    def _prepared(self) -> Prepared:
        return Prepared(self)

    def __repr__(self) -> str:
        """Verdict and counts in one line."""
        return f"<Report: {verdict_words(self)}; {summary(self)}>"

    def _repr_html_(self) -> str:
        """Verdict and findings as a table, for notebooks."""
        rows = [
            element(
                "tr",
                element("td", finding.grade),
                element("td", finding.message),
                element("td", finding.remedy or ""),
                element("td", f"{place(finding.at)} [{finding.rule}]"),
            )
            for finding in self._prepared.worst_first(self.findings)
        ]
        titles = ("class", "finding", "remedy", "where")
        head = element("tr", *(element("th", title) for title in titles))
        table = element("table", element("thead", head), element("tbody", *rows)) if rows else None
        first = element("p", element("strong", verdict_words(self)), f"; {summary(self)}")
        return markup(element("div", first, table))


def _printable(function: Callable[P, Report]) -> Callable[P, CheckReport]:
    @wraps(function)
    def wrapper(*args: P.args, **kwargs: P.kwargs) -> CheckReport:
        report = function(*args, **kwargs)
        return CheckReport(**{each.name: getattr(report, each.name) for each in fields(report)})

    return wrapper


check = _printable(_check)
check_many = _printable(_check_many)
