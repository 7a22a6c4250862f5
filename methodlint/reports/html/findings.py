"""Findings, what was not checked, deviations and errors as elements."""

from __future__ import annotations

from collections.abc import Iterator

from methodlint.checking.report import Report
from methodlint.judging.finding import Finding, NotChecked
from methodlint.reports.gaps import gaps_of
from methodlint.reports.html.element import Element, element
from methodlint.reports.prepared import Prepared
from methodlint.reports.safety_words import cautions_for
from methodlint.reports.wording import (
    aside_words,
    figures,
    lowered_words,
    moment,
    place,
    unjudged_words,
)

__all__ = ["finding_element", "finding_elements", "rest_elements", "unjudged_elements"]


def finding_elements(prepared: Prepared, grades: tuple[str, ...]) -> list[Element]:
    """Lay out the findings of some classes, worst first; what a change loosens before stops."""
    findings = prepared.report.findings
    chosen = [f for f in findings if ("stop" if f.loosens else f.grade) in grades]
    return [
        finding_element(finding, prepared.state(finding))
        for finding in prepared.worst_first(chosen)
    ]


def finding_element(finding: Finding, state: str = "") -> Element:
    """Lay out one finding, with how it stands to a base report."""
    kind = f"possible {finding.grade}" if finding.possible else finding.grade
    when = moment(finding.when) if finding.when is not None else ""
    facts = [text for text in (figures(finding), when) if text]
    places = [place(finding.at), *(place(also) for also in finding.also)]
    children = [element("li", f"{child.message} ({child.rule})") for child in finding.because]
    return element(
        "article",
        element("p", element("span", kind, class_="class"), f" {state}" if state else ""),
        element("p", finding.message),
        element("p", f"Do: {finding.remedy}", class_="do") if finding.remedy else None,
        element("p", "; ".join(facts), class_="small") if facts else None,
        element("p", f"{'; '.join(places)} [{finding.rule}]", class_="small"),
        element("ul", *children) if children else None,
        class_=f"finding {finding.grade}",
    )


def unjudged_elements(report: Report) -> Iterator[Element]:
    """Lay out why nothing is cleared; nothing if everything could be judged."""
    said = unjudged_words(report)
    if said:
        yield element("p", "Part of this could not be judged:")
        yield element("ul", *(element("li", text) for text in said), class_="plain")


def rest_elements(report: Report) -> Iterator[Element]:
    """Lay out deviations, what was not checked and safety cautions."""
    lowered = lowered_words(report)
    if lowered:
        yield element("h2", "Lowered by the lab's policy")
        yield element("ul", *(element("li", text) for text in lowered), class_="plain")
    if report.set_aside:
        items = [
            element("li", f"{item.finding.grade}: {aside_words(item)}") for item in report.set_aside
        ]
        yield element("h2", "Accepted by deviation")
        yield element("ul", *items, class_="plain")
    if report.not_checked:
        yield element("h2", "Not checked: missing data")
        yield element(
            "ul", *(element("li", text) for text in _lacking(report.not_checked)), class_="plain"
        )
    cautions = cautions_for(report.findings)
    if cautions:
        yield element("h2", "Safety")
        yield element("ul", *(element("li", text) for text in cautions), class_="plain")


def _lacking(items: list[NotChecked]) -> Iterator[str]:
    for gap in gaps_of(items):
        yield f"supply {gap.what(all_named=True)}; needed for {gap.rules(all_named=True)}"
