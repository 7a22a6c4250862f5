"""A folder as pages: one that lists everything, and one for each method and sequence."""

from __future__ import annotations

import re
from dataclasses import replace

from methodlint.checking.report import Report
from methodlint.reports.card.contents import PREDICTED
from methodlint.reports.html.element import Element, element
from methodlint.reports.html.findings import finding_elements, unjudged_elements
from methodlint.reports.html.page import html_page, verdict_element
from methodlint.reports.html.pieces import block_element
from methodlint.reports.html.shell import whole_page
from methodlint.reports.overview import OverviewRow, concerns_row, overview_rows, row_verdict
from methodlint.reports.prepared import Prepared
from methodlint.reports.week import week_block

__all__ = ["INDEX", "folder_pages"]

INDEX = "index.html"
_HEADERS = (
    "document", "instrument", "verdict", "bar/limit", "margin bar", "CO2", "CO2 ends", "end",
)  # fmt: skip
_ORDER = ("do not run", "judged in part", "run with care", "clear to run")


def folder_pages(prepared: Prepared) -> dict[str, str]:
    """Write a page for each method and sequence, and one that lists and links them.

    Returns
    -------
    dict
        Texts by the name of their file.
    """
    report = prepared.report
    rows = overview_rows(report)
    names = _names(rows)
    pages = {}
    for row, name in zip(rows, names, strict=True):
        part = _part(report, row)
        alone = replace(prepared, report=part, overview=False, corners=None)
        pages[name] = html_page(alone, back=INDEX)
    pages[INDEX] = _index(prepared, rows, names)
    return pages


def _names(rows: list[OverviewRow]) -> list[str]:
    """A file name for each row that says what it is about; no two differ by case alone."""
    found: list[str] = []
    taken = {INDEX}
    for row in rows:
        plain = re.sub(r"[^A-Za-z0-9._-]+", "-", row.path.removesuffix(".yaml")).strip("-.")
        name, number = f"{plain or 'document'}.html", 1
        while name.lower() in taken:
            number += 1
            name = f"{plain or 'document'}-{number}.html"
        taken.add(name.lower())
        found.append(name)
    return found


def _part(report: Report, row: OverviewRow) -> Report:
    """What a report says of one row."""
    documents, subjects = set(row.documents), set(row.subjects)
    about = documents | subjects
    return replace(
        report,
        documents={path: one for path, one in report.documents.items() if path in documents},
        findings=[one for one in report.findings if concerns_row(report, one, row)],
        not_checked=[
            one
            for one in report.not_checked
            if report.said_of.get(one, {one.subject}) & about or one.at.document.path in documents
        ],
        set_aside=[one for one in report.set_aside if one.finding.at.document.path in documents],
        failed=[one for one in report.failed if one.subject in about],
        unusable=[one for one in report.unusable if one.subject in documents],
        runs=[one for one in report.runs if one.name in subjects],
        batches=[one for one in report.batches if one.name == row.path],
        made={path: rules for path, rules in report.made.items() if path in about},
        checked=sum(len(rules) for path, rules in report.made.items() if path in about),
        calendar=None,
    )


def _index(prepared: Prepared, rows: list[OverviewRow], names: list[str]) -> str:
    report = prepared.report
    parts: list[Element | None] = [
        element("p", f"Bench cards · {PREDICTED}", class_="small"),
        element("h1", "Methods and sequences"),
        verdict_element(report),
        *unjudged_elements(report),
        _table(report, rows, names),
    ]
    week = week_block(report)
    if week is not None:
        parts.append(element("div", block_element(week), class_="blocks"))
    left = [
        one for one in report.findings if not any(concerns_row(report, one, row) for row in rows)
    ]
    rest = replace(prepared, report=replace(report, findings=left))
    grades = ("stop", "fault", "caution", *(["note"] if prepared.notes else []))
    of_cards = finding_elements(rest, grades)
    if of_cards:
        parts += [element("h2", "Findings of documents that no page is about"), *of_cards]
    return whole_page("Methods and sequences", [part for part in parts if part is not None])


def _table(report: Report, rows: list[OverviewRow], names: list[str]) -> Element:
    told = [(row_verdict(report, row), row, name) for row, name in zip(rows, names, strict=True)]
    told.sort(key=lambda one: (_ORDER.index(one[0]), one[1].path, one[1].instrument))
    head = [element("th", text, scope="col", class_="w") for text in _HEADERS[:3]]
    head += [element("th", text, scope="col") for text in _HEADERS[3:]]
    body = []
    for verdict, row, name in told:
        figures = (row.pressure, row.margin, row.co2, row.co2_ends, row.ends)
        link = element("a", row.path, href=name)
        words = [element("td", text, class_="w") for text in (row.instrument or "-", verdict)]
        cells = [element("td", figure) for figure in figures]
        body.append(element("tr", element("th", link, scope="row", class_="w"), *words, *cells))
    said = element("caption", "Worst first; highest pressure with the upper end of its band")
    table = element("table", said, element("thead", element("tr", *head)), element("tbody", *body))
    return element("div", table, class_="block", tabindex="0", role="group", aria_label="Overview")
