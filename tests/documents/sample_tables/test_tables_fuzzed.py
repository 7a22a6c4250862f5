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
    # A line of separators alone is blank.
    written = data.partition(b"\n")[2].strip(b"\r\n;,")
    assert rows.lines or rows.problems or not written
    for line in rows.lines:
        assert line.place.file == "x.csv"
        assert all(node.place.line >= 1 for node in line.entries.values())
    return grid


@pytest.mark.parametrize("rounds", [500, pytest.param(5_000, marks=pytest.mark.long)])
def test_mutated_texts(rounds: int) -> None:
    chance = random.Random(rounds)
    for _ in range(rounds):
        data = bytearray(PLAIN)
        for _ in range(chance.randrange(1, 8)):
            at = chance.randrange(len(data) + 1)
            data[at : at + chance.randrange(3)] = chance.choice(PIECES)
        _read(bytes(data))


def test_random_bytes() -> None:
    chance = random.Random(11)
    for _ in range(500):
        _read(chance.randbytes(chance.randrange(200)))


@pytest.mark.parametrize("size", [2**15, pytest.param(2**21, marks=pytest.mark.long)])
@pytest.mark.parametrize(
    "piece", [b'"', b'""', b'"a\n', b";", b",", b"a;b\n", b'"""\n', b"\r", b"a", b"=", b'";"\n']
)
def test_very_many_of_one_piece_are_work_in_proportion(piece: bytes, size: int) -> None:
    some, all_of_it = (b"sample;well\n" + piece * (n // len(piece)) for n in (size // 8, size))
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
