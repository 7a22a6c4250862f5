"""Workbooks that would cost much are refused in a line, and all that an honest one holds is read.

Another reader of workbooks, openpyxl, says what is in the honest ones.
"""

from __future__ import annotations

import datetime
import io
import random
import zipfile
from typing import Any

import pytest

from methodlint.documents.tables.grid import LIMITS, Grid
from methodlint.documents.tables.workbook import read_workbook
from tests.documents.sample_tables.test_workbooks import workbook
from tests.hazards.workbooks import SHEET, packed, sheet, strings, styles

openpyxl = pytest.importorskip("openpyxl")


def read(data: bytes) -> Grid:
    return read_workbook(data, "x.xlsx", None)


def refusal(data: bytes) -> tuple[str, str]:
    (problem,) = read(data).problems
    assert problem.remedy
    assert problem.place.file == "x.xlsx"
    return problem.rule.partition(".")[2], problem.message


def row(number: int, *cells: str) -> str:
    return f'<row r="{number}">{"".join(cells)}</row>'


@pytest.mark.parametrize(
    ("what", "data", "rule", "said"),
    [
        ("a cell in the last row", packed({SHEET: sheet(row(1_048_576, '<c r="A1048576"><v>1</v></c>'))}),
         "too-large", "rows beyond 100000"),
        ("rows of the last column", packed({SHEET: sheet("".join(
            row(n, f'<c r="GR{n}"><v>1</v></c>') for n in range(2, 1_100)))}), "too-large", "cells"),
        ("a column beyond", packed({SHEET: sheet(row(2, '<c r="XFD2"><v>1</v></c>'))}),
         "too-large", "columns"),
        ("more cells", packed({SHEET: sheet("<row>" + "<c/>" * (LIMITS.cells + 1) + "</row>")}),
         "too-large", "cells"),
        ("more tags", packed({SHEET: sheet("<a/>" * LIMITS.tags)}), "too-large", "tags"),
        ("more tags in several parts", packed({
            SHEET: sheet("<a/>" * (LIMITS.tags // 2)),
            "xl/styles.xml": styles("<xf/>" * (LIMITS.tags // 2))}), "too-large", "tags"),
        ("more attributes", packed({SHEET: sheet('<a b=""/>' * LIMITS.attributes)}),
         "too-large", "attributes"),
        ("more names", packed({SHEET: sheet("".join(f"<a{n}/>" for n in range(3_000)))}),
         "too-large", "names"),
        ("more text", packed({
            SHEET: sheet("".join(row(n, f'<c r="A{n}" t="s"><v>0</v></c>') for n in range(2, 4_000))),
            "xl/sharedStrings.xml": strings(f"<t> {'x' * 4_000}</t>")}), "too-large", "characters"),
        ("a part of many bytes", packed({SHEET: sheet("", before=" " * LIMITS.part)}),
         "too-large", "bytes"),
        ("many sheets", packed({SHEET: sheet("")}, sheets=300), "too-large", "sheets"),
        ("many parts", packed({SHEET: sheet(""), **{f"{n:100}": "" for n in range(3_000)}}),
         "too-large", "parts"),
        ("a document type", packed({SHEET: "<!DOCTYPE x [<!ENTITY a 'b'>]>" + sheet("")}),
         "unreadable", "DOCTYPE"),
        ("an encoding whose tags are not counted", packed({
            SHEET: ('<?xml version="1.0" encoding="cp500"?>' + sheet("")).encode("cp500")}),
         "unreadable", "cannot be read"),
        ("rows that go back", packed({SHEET: sheet(row(1, '<c r="A1"><v>1</v></c>'))}),
         "unreadable", "out of order"),
        ("cells that go back", packed({SHEET: sheet(row(2, '<c r="B2"/><c r="A2"/>'))}),
         "unreadable", "out of order"),
        ("a text that is not there", packed({SHEET: sheet(row(2, '<c r="A2" t="s"><v>7</v></c>'))}),
         "unreadable", "does not hold"),
        ("a row that is no number", packed({SHEET: sheet('<row r="&#49;e9"/>')}),
         "unreadable", "no number"),
        ("XML cut short", packed({SHEET: sheet("")[:-20]}), "unreadable", "cannot be read"),
        ("a sheet that is not there", packed({}), "unreadable", "lacks"),
    ],
    ids=lambda value: value if isinstance(value, str) and " " in value else "",
)  # fmt: skip
def test_what_would_cost_much_or_is_damaged_is_refused(
    what: str, data: bytes, rule: str, said: str
) -> None:
    assert len(data) < 1_000_000, what
    found, message = refusal(data)
    assert found == rule
    assert said in message


def test_a_lying_size_in_the_archive_unpacks_no_more(tmp_path: Any) -> None:
    """The sizes that an archive states are those that a reader believes first."""
    data = bytearray(packed({SHEET: sheet("", before=" " * (LIMITS.part + 1_000))}))
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        true = archive.getinfo(SHEET).file_size.to_bytes(4, "little")
    at = data.rfind(true)
    data[at : at + 4] = (100).to_bytes(4, "little")
    assert refusal(bytes(data))[0] == "unreadable"


def test_a_full_sheet_is_read() -> None:
    """The silent twin: as many cells as allowed, styled rows below the table, a long formula."""
    count = LIMITS.cells // 4 - 1
    rows = "".join(
        row(n, *(f'<c r="{c}{n}" s="1"><v>{n}</v></c>' for c in "ABCD")) for n in range(2, 2_001)
    )
    empty = "".join(f'<row r="{n}" s="1" customFormat="1"/>' for n in range(2_001, 90_000))
    grid = read(packed({SHEET: sheet(rows + empty), "xl/styles.xml": styles("<xf/><xf/>")}))
    assert count > 40_000
    assert grid.problems == []
    assert len(grid.rows) == 2_000
    assert grid.rows[-1][3].place.cell == "sheet 'S1', cell D2000"


def test_prefixes_strict_kinds_and_unplaced_cells_are_read() -> None:
    """Some programs prefix every tag, and leave the places of cells out."""
    plain = sheet("<row><c><v>1</v></c><c t='str'><f>1&amp;1</f><v>a</v></c></row>")
    prefixed = plain.replace("<worksheet xmlns=", "<worksheet xmlns:x=")
    for tag in ("worksheet", "sheetData", "row", "c", "v", "f", "is", "t"):
        for end in (" ", ">"):
            prefixed = prefixed.replace(f"<{tag}{end}", f"<x:{tag}{end}")
        prefixed = prefixed.replace(f"</{tag}>", f"</x:{tag}>")
    for text in (plain, prefixed):
        grid = read(packed({SHEET: text}))
        assert grid.problems == []
        assert [[cell.text for cell in cells] for cells in grid.rows][1] == ["1", "a"]
        assert "1 formula" in grid.remarks[0]


def test_a_part_in_utf_16_is_read() -> None:
    """ISO/IEC 29500-2 allows it beside UTF-8."""
    text = '<?xml version="1.0" encoding="utf-16"?>' + sheet(row(2, '<c r="A2"><v>5</v></c>'))
    assert read(packed({SHEET: text.encode("utf-16")})).rows[1][0].text == "5"


def test_texts_in_runs_are_joined_without_their_pronunciation() -> None:
    """ECMA-376 part 1, 18.4.6: a phonetic run says how another text is spoken."""
    shared = strings(
        "<r><rPr><b/></rPr><t>a</t></r><r><t xml:space='preserve'> b</t></r><rPh sb='0' eb='1'><t>c</t></rPh>"
    )
    grid = read(packed({SHEET: sheet(row(2, '<c r="A2" t="s"><v>0</v></c>')),
                        "xl/sharedStrings.xml": shared}))  # fmt: skip
    assert grid.rows[1][0].text == "a b"


VALUES: list[tuple[Any, str]] = [
    ("001", "General"), (7, "000"), (2.5, "0.00"), (1e-7, "General"), (-3, "0"), (True, "General"),
    ("#N/A", "General"), (" padded ", "General"), ("ä µ 漢", "General"), ("a\nb", "General"),
    (datetime.datetime(2026, 2, 28, 12, 30), "dd/mm/yyyy hh:mm"), (datetime.date(2024, 2, 29), "mm-dd-yy"),
    (datetime.time(1, 30), "h:mm"), (45_000, "yyyy-mm-dd"), (45_000.25, "m/d/yy h:mm"), (59, "yyyy-mm-dd"),
    (61, "yyyy-mm-dd"), (1, "d.m.yyyy"), (0.5, "h:mm AM/PM"), (1.25, "[h]:mm"), (0.02, "0%"),
    (100, "0.00E+00"), (3, '0 "days"'), (3, "[Red]0"), (3, '0\\ "m"'), (12, "0_d"), (1e300, "General"),
    (123456789012345, "General"), (0.1 + 0.2, "General"), ("=1+1", "General"),
]  # fmt: skip


@pytest.mark.parametrize("epoch", ["1900", "1904"])
def test_cells_hold_what_another_reader_finds(epoch: str) -> None:
    book = openpyxl.Workbook()
    if epoch == "1904":
        book.epoch = openpyxl.utils.datetime.CALENDAR_MAC_1904
    page = book.active
    page.append(["sample"])
    for number, (value, form) in enumerate(VALUES, 2):
        page.cell(number, 1, value).number_format = form
        page.cell(number, 2, number)
    out = io.BytesIO()
    book.save(out)
    theirs = openpyxl.load_workbook(io.BytesIO(out.getvalue()), data_only=True).active
    ours = read(out.getvalue())
    assert ours.problems == []
    for number, (value, form) in enumerate(VALUES, 2):
        found, expected = ours.rows[number - 1][0], theirs.cell(number, 1).value
        if isinstance(expected, str):
            expected = expected.strip()
        if isinstance(expected, datetime.timedelta) or value == "=1+1":
            assert found.trouble, (value, form)
            continue
        assert found.value == expected, (value, form)
        assert type(found.value) is type(expected), (value, form)
        assert found.percent == ("%" in form)
        assert found.power == ("E+" in form)


def test_random_workbooks_hold_what_another_reader_finds() -> None:
    chance = random.Random(20261125)
    for _ in range(20):
        rows: list[list[Any]] = [["sample", "well"]]
        for _ in range(chance.randrange(30)):
            rows.append([
                chance.choice([None, chance.randrange(-10**9, 10**9), chance.random() * 10 ** chance.randrange(-9, 9),
                               f"s{chance.random()}", chance.random() < 0.5])
                for _ in range(chance.randrange(6))
            ])  # fmt: skip
        data = workbook(*rows)
        expected = [
            [(cell.row, cell.column, cell.value) for cell in line if cell.value is not None]
            for line in openpyxl.load_workbook(io.BytesIO(data)).active.iter_rows()
        ]
        found = [[(c.place.line, c.place.column, c.value) for c in line if c.text]
                 for line in read(data).rows]  # fmt: skip
        assert found == [line for line in expected if line]
