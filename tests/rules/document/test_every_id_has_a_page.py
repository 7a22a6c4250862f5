"""Whatever the reader and the schema can report is a rule with a page."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import methodlint.documents
from methodlint.judging.loader import built_in_ids
from tests.rules.document.pages import found_in

_FOLDER = Path(methodlint.documents.__file__).parent
_EMITTED = sorted(
    {
        name
        for file in _FOLDER.rglob("*.py")
        for name in re.findall(
            r'"(document\.[a-z]+(?:-[a-z]+)*)"', file.read_text(encoding="utf-8")
        )
    }
    | {
        name
        for file in (_FOLDER.parent / "judging").glob("*.py")
        for name in re.findall(
            r'"(document\.[a-z]+(?:-[a-z]+)*)"', file.read_text(encoding="utf-8")
        )
    }
)


def test_ids_were_found() -> None:
    assert len(_EMITTED) > 10


@pytest.mark.parametrize("name", _EMITTED)
def test_the_id_has_a_rule(name: str) -> None:
    assert name in built_in_ids()


# One page for each id: what is written, and line and column of the value it is about.
_PAGES = {
    "document.unit-missing-or-wrong-kind": ("kind: method\nflow: 2\n", (2, 7)),
    "document.pressure-ambiguous": ("kind: method\noutlet_pressure: 2000 bar\n", (2, 18)),
    "document.percent-basis-missing": (
        "kind: solvents\nbottles: [{line: a, additives: [{additive: TFA, level: 0.1 %}]}]\n",
        (2, 56),
    ),
    "document.range-or-about": ("kind: method\noven_temperature: 35-40 C\n", (2, 19)),
    "document.value-implausible": (
        "kind: solvents\nbottles:\n  - {line: m, expires: 31/02}\n",
        (3, 24),
    ),
    "document.reference-unresolved": ("kind: method\ncolumn: colum\n", (2, 9)),
    "document.unknown-key": ("kind: method\nbackpresure: 120 bar\n", (2, 1)),
    "document.duplicate-key-or-id": ("kind: method\nflow: 1 mL/min\nflow: 2 mL/min\n", (3, 1)),
    "document.type-trap": ("kind: sequence\nlines:\n  - {kind: blank, well: 1E2}\n", (3, 25)),
    "document.placeholder-left": ("kind: method\nflow: TBD\n", (2, 7)),
    "document.shape-wrong": ("kind: method\nprogramme: [{flow: 1 mL/min}]\n", (2, 13)),
    "document.word-not-known": ("kind: method\npurpose: fun\n", (2, 10)),
    "document.unreadable": ("kind: method\nflow: *nowhere\n", (2, 7)),
    "document.too-large": ("kind: column\nplates: " + "1" * 80 + "\n", (2, 9)),
    "document.purpose-missing": (
        "kind: sequence\nlines:\n  - {kind: sample, sample: S1, plate: 1, well: A2}\n",
        (1, 1),
    ),
    "document.hidden-character": ("kind: method\ntitle: a\u200bb\n", (2, 9)),
}


# It stands in a table beside the document; the example on its page brings one along.
_OF_TABLES = {"document.table-read-as"}


@pytest.mark.parametrize("name", [name for name in _EMITTED if name not in _OF_TABLES])
def test_the_finding_stands_at_the_place_of_its_cause(name: str) -> None:
    text, place = _PAGES[name]
    (found,) = found_in(text, name)
    assert (found.at.place.line, found.at.place.column) == place
    assert found.message
