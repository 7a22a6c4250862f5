"""Workbooks: what a spreadsheet stores is not always what it shows."""

from __future__ import annotations

import datetime
import io
import zipfile
from pathlib import Path
from typing import Any

import pytest

from tests.documents.sample_tables.bench import lines, load, loud, notes, only, where

openpyxl = pytest.importorskip("openpyxl")
TABLE = "table: samples.xlsx\n"


def workbook(*rows: list[Any], sheet: str = "May", more: str = "", formats: Any = ()) -> bytes:
    book = openpyxl.Workbook()
    book.active.title = sheet
    for row in rows:
        book.active.append(row)
    for cell, form in dict(formats).items():
        book.active[cell].number_format = form
    if more:
        book.create_sheet(more).append(["sample", "well"])
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def test_numbers_texts_and_units(tmp_path: Path) -> None:
    data = workbook(
        ["Samples of May"], [], ["sample", "plate", "well", "volume [uL]", "fill"],
        ["001", 2, "A1", 2.5, "0,5 mL"], [2, 2.0, "A2", 2, "0,5 mL"],
    )  # fmt: skip
    loaded = load(tmp_path, TABLE, samples_xlsx=data)
    assert loud(loaded) == []
    assert [(x.sample, x.plate, x.volume and x.volume.text) for x in lines(loaded)] == [
        ("001", "2", "2.5 uL"),
        ("2", "2", "2 uL"),
    ]
    place = loaded.place(("lines", 1, "well"))
    assert (place.line, place.cell) == (5, "sheet 'May', cell C5")


def test_a_number_shown_with_leading_zeros_is_read_as_shown(tmp_path: Path) -> None:
    data = workbook(["sample", "well"], [7, "A1"], formats={"A2": "000"})
    assert lines(load(tmp_path, TABLE, samples_xlsx=data))[0].sample == "007"


@pytest.mark.parametrize(
    ("value", "form"),
    [(datetime.datetime(2026, 2, 1), "dd-mmm"), (datetime.time(1, 30), "h:mm"), (100, "0.00E+00"),
     (True, "General"), ("#REF!", "General")],
)  # fmt: skip
def test_names_that_a_spreadsheet_has_turned_into_something_else(
    tmp_path: Path, value: Any, form: str
) -> None:
    data = workbook(["sample", "well"], [value, "A1"], ["b", "A2"], formats={"A2": form})
    problem = only(load(tmp_path, TABLE, samples_xlsx=data))
    assert problem.rule == "document.type-trap"
    assert where(problem) == ("samples.xlsx", 2, 1, "sheet 'May', cell A2")


def test_dates_where_dates_are_due(tmp_path: Path) -> None:
    day = datetime.datetime(2026, 11, 30, 12, 30)
    data = workbook(["sample", "well", "expires", "prepared"], ["a", "A1", day, day])
    (line,) = lines(load(tmp_path, TABLE, samples_xlsx=data))
    assert (str(line.expires), str(line.prepared)) == ("2026-11-30", "2026-11-30 12:30:00")


def test_a_formula_without_a_stored_result_is_told(tmp_path: Path) -> None:
    data = workbook(["sample", "well"], ['="a"&1', "A1"])
    problem = only(load(tmp_path, TABLE, samples_xlsx=data))
    assert where(problem)[3] == "sheet 'May', cell A2"
    assert "not stored" in problem.message


def test_a_formula_with_a_stored_result_is_read_and_told(tmp_path: Path) -> None:
    plain = workbook(["sample", "well", "volume [uL]"], ["a", "A1", "=1+1"])
    data = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(plain)) as old, zipfile.ZipFile(data, "w") as new:
        for item in old.infolist():
            text = old.read(item)
            if item.filename.endswith("sheet1.xml"):
                assert b"<v></v>" in text or b"<v />" in text or b"<v/>" in text
                for empty in (b"<v></v>", b"<v />", b"<v/>"):
                    text = text.replace(empty, b"<v>2</v>")
            new.writestr(item, text)
    loaded = load(tmp_path, TABLE, samples_xlsx=data.getvalue())
    assert loud(loaded) == []
    assert lines(loaded)[0].volume is not None
    assert lines(loaded)[0].volume.text == "2 uL"  # type: ignore[union-attr]
    assert "1 formula is read by the results stored" in notes(loaded)


def test_several_sheets_have_to_be_told_apart(tmp_path: Path) -> None:
    data = workbook(["sample", "well"], ["a", "A1"], more="June")
    problem = only(load(tmp_path, TABLE, samples_xlsx=data))
    assert "'May', 'June'" in problem.message
    loaded = load(tmp_path, "table: {file: samples.xlsx, sheet: May}\n", samples_xlsx=data)
    assert [x.sample for x in lines(loaded)] == ["a"]
    problem = only(load(tmp_path, "table: {file: samples.xlsx, sheet: Mai}\n", samples_xlsx=data))
    assert problem.rule == "document.reference-unresolved"


@pytest.mark.parametrize("data", [b"", b"PK\x03\x04", b"sample;well\n", bytes(1000)])
def test_what_is_no_workbook_is_told(tmp_path: Path, data: bytes) -> None:
    problem = only(load(tmp_path, TABLE, samples_xlsx=data))
    assert problem.rule == "document.unreadable"


def test_a_workbook_that_unpacks_to_far_too_much_is_refused_unread(tmp_path: Path) -> None:
    data = io.BytesIO()
    with zipfile.ZipFile(data, "w", zipfile.ZIP_DEFLATED) as parts:
        parts.writestr("xl/worksheets/sheet1.xml", bytes(101 * 1024 * 1024))
    assert len(data.getvalue()) < 1_000_000
    problem = only(load(tmp_path, TABLE, samples_xlsx=data.getvalue()))
    assert problem.rule == "document.too-large"
