"""Whatever the bytes of a table are, reading it raises nothing and ends soon."""

from __future__ import annotations

import io
import random

import pytest

from methodlint.documents.tables.csv_text import read_csv
from methodlint.documents.tables.grid import Grid
from methodlint.documents.tables.lines import lines_of
from tests.work_done import calls_of

PLAIN = (
    "Liste;;\r\n\r\nProbenart;Probe;Platte;Vial;Inj. Vol. [µL];Füllung;expires\r\n"
    'Blank;"ethanol ""dry""";1;A1;2,0;1 mL;24.11.2026\r\nUnknown;001;2;A1;2,0;0,5 mL;2026-11-24\r\n'
).encode("cp1252")
PIECES = [b'"', b";", b",", b"\t", b"\r", b"\n", b"\x00", b"\xff\xfe", b"=", b"1e999", b"\x81", b"[",
          b"]", "\u202e".encode(), b"sep=;\n", b"5 %", b"-", b"9" * 400]  # fmt: skip


def _read(data: bytes) -> Grid:
    grid = read_csv(data, "x.csv")
    rows = lines_of(grid, "x.csv", {}, {})
    assert rows.lines or rows.problems
    for line in rows.lines:
        assert line.place.file == "x.csv"
        assert all(node.place.line >= 1 for node in line.entries.values())
    return grid


def test_mutated_texts() -> None:
    chance = random.Random(20261124)
    for _ in range(3_000):
        data = bytearray(PLAIN)
        for _ in range(chance.randrange(1, 8)):
            at = chance.randrange(len(data) + 1)
            data[at : at + chance.randrange(3)] = chance.choice(PIECES)
        _read(bytes(data))


def test_random_bytes() -> None:
    chance = random.Random(11)
    for _ in range(2_000):
        _read(chance.randbytes(chance.randrange(200)))


@pytest.mark.parametrize(
    "piece", [b'"', b'""', b'"a\n', b";", b",", b"a;b\n", b'"""\n', b"\r", b"a", b"=", b'";"\n']
)
def test_two_mebibytes_of_one_piece_are_work_in_proportion(piece: bytes) -> None:
    some, all_of_it = (b"sample;well\n" + piece * (size // len(piece)) for size in (2**18, 2**21))
    _read(b"sample;well\na;b\n")
    # The small one may end below the limits that stop the large one.
    assert calls_of(lambda: _read(all_of_it)) <= 10 * calls_of(lambda: _read(some))


def test_mutated_workbooks() -> None:
    openpyxl = pytest.importorskip("openpyxl")
    from methodlint.documents.tables.workbook import read_workbook

    book = openpyxl.Workbook()
    book.active.append(["sample", "well", "volume [uL]"])
    book.active.append(["001", "A1", 2.5])
    out = io.BytesIO()
    book.save(out)
    chance = random.Random(7)
    for _ in range(150):
        data = bytearray(out.getvalue())
        for _ in range(chance.randrange(1, 6)):
            data[chance.randrange(len(data))] = chance.randrange(256)
        grid = read_workbook(bytes(data), "x.xlsx", None)
        assert grid.rows or grid.problems
