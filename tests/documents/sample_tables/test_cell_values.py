"""From a cell to the value of its column, one by one: what is read, and what is not guessed."""

import datetime

import pytest

from methodlint.documents.tables.grid import Cell
from methodlint.documents.tables.headers import COLUMNS
from methodlint.documents.tables.values import (
    CellWrong,
    TableColumn,
    decimal_mark,
    is_bare,
    value_of,
)
from methodlint.documents.text.nodes import Scalar, SequenceNode
from methodlint.documents.text.places import Place

PLACE = Place(3, 2, 3, 9, "samples.csv", "cell B3")


def value(key, text, unit="", comma=False, **more):
    """Value of a cell in the column of a key; its place comes along."""
    node = value_of(
        Cell(text, PLACE, **more), TableColumn(key, COLUMNS[key], unit), decimal_comma=comma
    )
    assert node.place is PLACE
    return [item.value for item in node.items] if isinstance(node, SequenceNode) else node.value


@pytest.mark.parametrize(
    ("key", "text", "comma", "expected"),
    [
        ("count", "3", False, 3),
        ("count", "3.0", False, 3),
        ("count", "-2", False, -2),
        ("count", "3,0", True, 3),
        ("level", "0.5", False, 0.5),
        ("level", "0,5", True, 0.5),
        ("level", ".5e1", False, 5.0),
        ("replicate", "Ja", False, True),
        ("replicate", "x", False, True),
        ("replicate", "0", False, False),
        ("replicate", "FAUX", False, False),
        ("expires", "2026-11-24", False, "2026-11-24"),
        ("expires", "24.11.2026", False, "2026-11-24"),
        ("expires", "4.1.2026 9:05", False, "2026-01-04"),
        ("prepared", "4.1.2026 9:05", False, "2026-01-04T09:05"),
        ("prepared", "yesterday", False, "yesterday"),
        ("refills", "methanol; ethanol,  water+", False, ["methanol", "ethanol", "water"]),
        ("kind", "UNK", False, "sample"),
        ("kind", "Blank", False, "blank"),
        ("control_level", "LQC", False, "lower"),
        ("control_level", "Upper", False, "upper"),
        ("sample", "007", False, "007"),
        ("volume", "2 uL", False, "2 uL"),
        ("volume", "2,5 uL", True, "2.5 uL"),
        ("volume", "2,5 uL", False, "2,5 uL"),
    ],
)
def test_cells_of_a_text(key, text, comma, expected):
    found = value(key, text, comma=comma)
    assert found == expected
    assert type(found) is type(expected)


def test_the_unit_of_the_header_is_for_bare_numbers():
    assert value("volume", "2", "uL") == "2 uL"
    assert value("volume", "2,5", "uL", comma=True) == "2.5 uL"
    assert value("volume", "2 mL", "uL") == "2 mL"
    # Without any unit it stays a bare number, of which the schema says what is missing.
    assert value("volume", "2") == "2"


def test_a_percentage_of_a_workbook_is_the_number_that_it_shows():
    assert value("concentration", "12.5", value=0.125, percent=True) == "12.5 %"
    assert not is_bare(Cell("12.5", PLACE, 0.125, percent=True))


def test_days_of_a_workbook():
    moment = datetime.datetime(2026, 11, 24, 18, 30)
    assert value("prepared", "24/11/26", value=moment) == "2026-11-24T18:30:00"
    assert value("expires", "24/11/26", value=moment) == "2026-11-24"
    assert value("expires", "24/11/26", value=moment.date()) == "2026-11-24"


@pytest.mark.parametrize(
    ("key", "text", "more", "message", "remedy"),
    [
        ("count", "3.5", {}, "is no whole number", "digits alone"),
        ("count", "three", {}, "is no whole number", "digits alone"),
        ("count", "9" * 65, {}, "is no whole number", "digits alone"),
        ("level", "0,5", {}, "is no number", "after a point"),
        ("level", "5 mg", {}, "is no number", "without a unit"),
        ("replicate", "maybe", {}, "neither yes nor no", "yes or no"),
        ("expires", "02/03/2026", {}, "day or the month first", "2026-11-24"),
        ("sample", "1E+05", {}, "what a spreadsheet makes", "format to text"),
        ("sample", "1E2", {"power": True}, "what a spreadsheet makes", "format to text"),
        ("sample", "TRUE", {"value": True}, "truth value", "format to text"),
        (
            "sample",
            "01-Feb",
            {"value": datetime.date(2026, 2, 1)},
            "date or time",
            "format to text",
        ),
        ("count", "01-Feb", {"value": datetime.date(2026, 2, 1)}, "date or time", "format to text"),
        ("volume", "01:30", {"value": datetime.time(1, 30)}, "date or time", "format to text"),
        ("volume", "#DIV/0!", {}, "could not work out", "formula"),
        ("sample", "#WERT!", {}, "could not work out", "formula"),
        (
            "sample",
            "a",
            {"trouble": "it is merged", "remedy": "part it"},
            "it is merged",
            "part it",
        ),
    ],
)
def test_cells_that_cannot_be_used(key, text, more, message, remedy):
    with pytest.raises(CellWrong) as wrong:
        value(key, text, **more)
    assert message in wrong.value.message
    assert remedy in wrong.value.remedy
    assert wrong.value.rule.startswith("document.")


@pytest.mark.parametrize(
    ("text", "mark"),
    [("1,5", ","), ("1.5 mL", "."), ("15", ""), ("1,500.0", ""), ("a,b", ""), (".5", ".")],
)
def test_the_mark_of_decimals(text, mark):
    assert decimal_mark(text) == mark


def test_a_text_is_kept_as_it_was_written():
    node = value_of(Cell("UNK", PLACE), TableColumn("kind", COLUMNS["kind"]), decimal_comma=False)
    assert isinstance(node, Scalar)
    assert (node.value, node.text, node.quoted) == ("sample", "UNK", True)
