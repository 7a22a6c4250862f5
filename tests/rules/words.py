"""Findings are worded alike: lower case, no full stop at the end, sensible figures."""

from __future__ import annotations

import re

from methodlint.checking.report import Report

# Names that keep their capital: formulas, quantities, abbreviations of the trade, names of places.
_CAPITAL = r"CO2|L/dp|SST|C1|QC|UV|PDA|MS|A13|DEA|AmF|TFA"
_WRONG = {
    "a capital": rf"\A(?!{_CAPITAL})[A-Z]",
    "an end of a sentence": r"[. ,;]\Z",
    "two blanks": r"  ",
    "an exponent": r"\d(\.\d+)?e[+-]\d",
    "a needless zero": r"\d\.0 (degC|bar|K)\b(?<!31\.0 degC)",
    "one of several": r"(?<![\d.,])1 (samples|lines|levels|limits|controls|injections)\b",
    "too many digits": r"\d{3}\.\d+ bar",
}


def worded_otherwise(report: Report) -> list[str]:
    """Messages, remedies and reasons of a report that are not worded as they should be."""
    texts = [text for one in report.findings for text in (one.message, one.remedy)]
    texts += [item.reason for item in report.not_checked]
    return [
        f"{name}: {text}"
        for text in texts
        for name, pattern in _WRONG.items()
        if re.search(pattern, text)
    ]
