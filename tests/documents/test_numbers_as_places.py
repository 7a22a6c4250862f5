"""Trays are numbered: `well: 7` is the place "7" whatever holds the line, and no other number is.

Whole numbers in YAML 1.2 are decimal digits (core schema, YAML 1.2.2, section 10.3.2); `1.0` and
`1e1` are floats, whose spelling is lost once they are read.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from methodlint.documents.json_schema import kind_schema
from methodlint.rehearsal.batch.positions import read_place
from tests.documents.sample_tables.bench import lines, load, loud, only
from tests.documents.sample_tables.test_workbooks import workbook

TABLES: dict[str, dict[str, Any]] = {
    "csv": {"samples_csv": b"sample,plate,well\na,1,7\nb,1,8\n"},
    "csv with decimals": {"samples_csv": b"sample;plate;well;fill [mL]\na;1;7;0,5\nb;1;8;0,5\n"},
    "workbook, numbers": {"samples_xlsx": workbook(["sample", "plate", "well"], ["a", 1, 7], ["b", 1.0, 8.0])},
    "workbook, text": {"samples_xlsx": workbook(["sample", "plate", "well"], ["a", "1", "7"], ["b", "1", "8"])},
}  # fmt: skip
WRITTEN = {
    "plain": "lines: [{kind: sample, sample: a, plate: 1, well: 7}, {kind: sample, sample: b, plate: 1, well: 8}]\n",
    "quoted": 'lines: [{kind: sample, sample: a, plate: "1", well: "7"}, {kind: sample, sample: b, plate: "1", well: "8"}]\n',
    "blocks": "blocks: [{samples: {sample: 's{n}', plate: 1, wells: 7 to 8}}]\n",
    "blocks, each place": "blocks: [{samples: {sample: a, plate: 1, wells: 7}}, {samples: {sample: b, plate: 1, wells: 8}}]\n",
    "named lines": "named_lines: {q: {kind: control, sample: a, plate: 1, well: 7}}\nblocks: [{lines: [q, {kind: sample, sample: b, plate: 1, well: 8}]}]\n",
}


@pytest.mark.parametrize("source", WRITTEN)
def test_a_whole_number_is_a_place_however_it_is_written(source: str, tmp_path: Path) -> None:
    loaded = load(tmp_path, WRITTEN[source])
    assert loud(loaded) == []
    assert [(line.plate, line.well) for line in lines(loaded)] == [("1", "7"), ("1", "8")]


@pytest.mark.parametrize("source", TABLES)
def test_a_whole_number_of_a_table_is_the_same_place(source: str, tmp_path: Path) -> None:
    (name,) = TABLES[source]
    loaded = load(tmp_path, f"table: {name.replace('_', '.')}\n", **TABLES[source])
    assert loud(loaded) == []
    assert [(line.plate, line.well) for line in lines(loaded)] == [("1", "7"), ("1", "8")]


def test_a_leading_zero_leads_to_the_same_place(tmp_path: Path) -> None:
    plain = load(tmp_path, "lines: [{kind: sample, sample: a, plate: 01, well: 010}]\n")
    assert loud(plain) == []
    (line,) = lines(plain)
    assert read_place(line.plate, line.well) == read_place("01", "010") == read_place("1", "10")


@pytest.mark.parametrize("key", ["plate", "well"])
@pytest.mark.parametrize("value", ["1.0", "1e1", "1.5", "true"])
def test_what_is_no_whole_number_is_asked_to_be_quoted(
    key: str, value: str, tmp_path: Path
) -> None:
    problem = only(load(tmp_path, f"lines:\n  - {{kind: sample, {key}: {value}}}\n"))
    assert problem.rule == "document.type-trap"
    assert (problem.path, problem.place.column) == (("lines", 0, key), 22 + len(key))
    assert f'write "{value}" in quotation marks' in problem.remedy


def test_a_list_of_places_is_asked_to_drop_its_brackets(tmp_path: Path) -> None:
    told = load(tmp_path, "lines: [{kind: sample, sample: a, well: [7]}]\n")
    problem = only(told)
    assert (problem.message, problem.remedy) == (
        "'lines[0].well' reads a list: one value is expected here",
        "write it without brackets",
    )


def test_a_sample_keeps_its_zeros(tmp_path: Path) -> None:
    """The name of a sample is no place: 007 and 7 may be two of them."""
    problem = only(load(tmp_path, "lines: [{kind: sample, sample: 007, well: 7}]\n"))
    assert problem.remedy == 'write "007" in quotation marks'


@pytest.mark.parametrize(
    ("value", "sound"), [(7, True), ("7", True), ("A1", True), (1.5, False), (True, False)]
)
def test_an_editor_accepts_the_same(value: object, sound: bool) -> None:
    reader = Draft202012Validator(kind_schema("sequence"))
    line = {"kind": "sample", "plate": value, "well": value}
    assert reader.is_valid({"kind": "sequence", "lines": [line]}) is sound
