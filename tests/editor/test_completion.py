"""What is offered at a place, by the schema, the cards of the lab and the known liquids."""

from __future__ import annotations

from pathlib import Path

import pytest

from methodlint.documents.library import LabFolder
from methodlint.editor.completion import offers_at, spot_at
from tests.command import ROOT

LAB = LabFolder(ROOT / "example_methods", ROOT / "example_methods")


def offered(text: str, folder: LabFolder | None = LAB) -> dict[str, int]:
    """Texts that are offered where `|` stands, with what each replaces."""
    before, _, after = text.partition("|")
    lines = (before + after).split("\n")
    spot = spot_at(lines, before.count("\n") + 1, len(before.rpartition("\n")[2]) + 1)
    if spot is None:
        return {}
    return {offer.text: offer.replaces for offer in offers_at(spot, folder)}


@pytest.mark.parametrize(
    ("text", "texts", "never"),
    [
        ("|", {"kind: "}, {"flow: "}),
        ("kind: |", {"method", "sequence", "logbook"}, {"flow: "}),
        ("kind: method\nfl|", {"flow: ", "column: "}, {"kind: "}),
        ("kind: method\n|\nflow: 2 mL/min\n", {"column: "}, {"flow: ", "kind: "}),
        ("kind: method\npurpose: |", {"regulated", "screening"}, {"flow: "}),
        ("kind: method\nflow: 2 |", {"mL/min", "g/min"}, {"bar", "2 mL/min"}),
        ("kind: method\noutlet_pressure: |", {"150 bar"}, {"bar"}),
        ("kind: method\ncolumn: am|", {"amylose-3um", "diol-3um"}, {"bench-a"}),
        ("kind: method\nruns_on: [|", {"bench-a"}, {"amylose-3um"}),
        ("kind: method\nruns_on: [bench-a, |", {"bench-b"}, {"amylose-3um"}),
        ("kind: method\nmobile_phase:\n  modifier:\n    |", {"liquid: ", "line: "}, {"flow: "}),
        ("kind: method\nmobile_phase:\n  modifier: {liquid: |", {"methanol", "ethanol"}, set()),
        ("kind: method\nmobile_phase:\n  modifier: {liquid: methanol, |", {"line: "}, {"liquid: "}),
        ("kind: method\nprogramme:\n  - {time: 0 min, |", {"modifier_share: "}, {"time: "}),
        ("kind: method\nprogramme:\n  - time: 0 min\n    |", {"modifier_share: "}, {"time: "}),
        ("kind: method\ndetectors:\n  - type: |", {"UV", "PDA", "DAD", "FID"}, set()),
        ("kind: sequence\nlines:\n  - {kind: fl|", {"flush", "sample"}, set()),
        ("kind: method\n---\nkind: room\nvo|", {"volume: ", "outlets: "}, {"flow: "}),
        ("kind: room\n---\nkind: method\nfl|", {"flow: "}, {"outlets: "}),
    ],
)
def test_what_fits_is_offered_and_nothing_else(text: str, texts: set[str], never: set[str]) -> None:
    found = offered(text)
    assert texts - found.keys() == set()
    assert never & found.keys() == set()


@pytest.mark.parametrize(
    "text", ["kind: method\n# fl|", "kind: method\nflow: 2 mL/min # |", 'title: "fl|', "a: [|"]
)
def test_nothing_is_offered_in_comments_quotes_and_documents_of_others(text: str) -> None:
    assert offered("kind: Pod\n" + text if text.startswith("a") else text) == {}


def test_what_is_typed_already_is_replaced() -> None:
    assert offered("kind: method\nfl|")["flow: "] == 2
    assert offered("kind: method\nflow: 2 mL|")["mL/min"] == 2
    assert offered("kind: method\ncolumn: am|")["amylose-3um"] == 2


def test_a_lab_without_cards_offers_none(tmp_path: Path) -> None:
    assert offered("kind: method\ncolumn: |", LabFolder(tmp_path, tmp_path)) == {}
    assert offered("kind: method\ncolumn: |", None) == {}
