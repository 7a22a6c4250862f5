"""Small steps of laying blocks out: repetitions, numbers, patterns of names, wells."""

from __future__ import annotations

from typing import Any

import pytest

from methodlint.documents.blocks.pieces import (
    CannotLayOut,
    as_many,
    figure,
    groups,
    has_number,
    injections,
    mapping,
    name_of,
    number_at,
    replicates,
    wells_at,
)
from methodlint.documents.text.nodes import Mapping, Scalar
from methodlint.documents.text.places import Place
from methodlint.documents.text.reader import read_text

PLACE = Place(7, 3, 7, 9)


def node(text: str) -> Any:
    read = read_text(f"x: {text}\n".encode(), "x.yaml")
    assert not read.problems
    return read.node(("x",))


def told(error: pytest.ExceptionInfo[CannotLayOut]) -> str:
    assert error.value.problem is not None
    return error.value.problem.message


@pytest.mark.parametrize(
    ("text", "expected"),
    [("{count: 3}", 3), ("{}", 1), ("{count: 0}", 1), ("{count: many}", 1), ("{count: [2]}", 1),
     ("{count: -2}", 1)],
)  # fmt: skip
def test_injections_of_a_line(text: str, expected: int) -> None:
    assert injections(node(text)) == expected


@pytest.mark.parametrize(("text", "expected"), [("{n: 3}", 3), ("{n: 0}", 0), ("{}", 9)])
def test_a_whole_number_or_what_holds_without_one(text: str, expected: int) -> None:
    assert number_at(node(text), "n", 9) == expected


@pytest.mark.parametrize("value", ["true", "-1", "1.5", "many", "[1]", "1000001", "''", "~"])
def test_what_is_no_whole_number_is_left_to_the_schema(value: str) -> None:
    with pytest.raises(CannotLayOut) as error:
        number_at(node(f"{{n: {value}}}"), "n", 9)
    assert error.value.problem is None


def test_repetitions_stay_with_the_line_that_they_repeat() -> None:
    one, two = node("{sample: a, count: 2}"), node("{sample: b}")
    lines = [*replicates(one, 3), two]
    assert [(start, len(group)) for start, group in groups(lines)] == [(0, 3), (3, 1)]
    assert lines[0] is one
    again = lines[1].entries["replicate"]
    assert isinstance(again, Scalar)
    assert again.value is True
    # The place of a repetition is that of its line: it is written nowhere else.
    assert again.place == one.place
    assert "replicate" not in one.entries
    assert list(groups([])) == []


def test_a_repetition_at_the_front_begins_a_group_too() -> None:
    lines = replicates(node("{sample: a}"), 2)[1:]
    assert [(start, len(group)) for start, group in groups(lines)] == [(0, 1)]


def test_only_a_mapping_is_taken_for_one() -> None:
    made = node("{a: 1}")
    assert mapping(made) is made
    for text in ("[1]", "word"):
        with pytest.raises(CannotLayOut):
            mapping(node(text))


def test_a_name_by_its_pattern_stands_where_the_pattern_does() -> None:
    pattern = node("'wine {n:03} {level}'")
    made = name_of(pattern, PLACE, 7, "low", "default")
    assert (made.value, made.place) == ("wine 007 low", pattern.place)
    made = name_of(None, PLACE, 7, "low", "C{n}")
    assert (made.value, made.place) == ("C7", PLACE)


@pytest.mark.parametrize("pattern", ["'{m}'", "'{n:x}'", "'{n'", "'{n!r}'"])
def test_a_pattern_that_cannot_be_filled_in_is_told_at_its_place(pattern: str) -> None:
    written = node(pattern)
    for ask in (lambda: name_of(written, PLACE, 1, "", ""), lambda: has_number(written)):
        with pytest.raises(CannotLayOut) as error:
            ask()
        assert told(error)
        assert error.value.problem is not None
        assert error.value.problem.place == written.place
        assert error.value.problem.remedy


def test_whether_names_differ() -> None:
    assert has_number(node("'s{n}'"))
    assert not has_number(node("'s {level}'"))


def test_wells_by_rows_and_by_columns() -> None:
    made = node("{wells: A1 to B2}")
    by_rows, by_columns = (wells_at(made, by_columns=each) for each in (False, True))
    assert by_rows is not None
    assert by_columns is not None
    assert [well.value for well in by_rows] == ["A1", "A2", "B1", "B2"]
    assert [well.value for well in by_columns] == ["A1", "B1", "A2", "B2"]
    assert {well.place for well in by_rows} == {made.entries["wells"].place}
    assert wells_at(node("{}"), by_columns=False) is None


def test_wells_that_are_none() -> None:
    with pytest.raises(CannotLayOut) as error:
        wells_at(node("{wells: [A1]}"), by_columns=False)
    assert error.value.problem is None
    with pytest.raises(CannotLayOut) as error:
        wells_at(node("{wells: A1 until B2}"), by_columns=False)
    assert "A1 until B2" in told(error)


def test_more_lines_than_wells() -> None:
    made = node("{wells: A1 to A3}")
    wells = wells_at(made, by_columns=False)
    as_many(made, wells, 3, "samples")
    as_many(made, wells, 2, "samples")
    as_many(Mapping({}, {}, PLACE), None, 99, "samples")
    with pytest.raises(CannotLayOut) as error:
        as_many(made, wells, 4, "samples")
    assert told(error) == "4 samples do not fit into 3 wells"


def test_the_figure_of_a_level_or_a_concentration() -> None:
    assert figure(node("5")) == 5.0
    assert figure(node("0.5")) == 0.5
    # 2 mg/mL are 2 kg/m3.
    assert figure(node("2 mg/mL")) == pytest.approx(2.0)
    assert figure(node("20 mM")) == pytest.approx(20.0)
    for text in ("true", "low", "3 bar"):
        with pytest.raises(CannotLayOut) as error:
            figure(node(text))
        assert error.value.problem is None
