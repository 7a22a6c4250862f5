"""Places on plates and trays.

Rows and columns of microplates: ANSI/SLAS 4-2004, 96 wells A1 to H12, 384 wells A1 to P24 (from
memory).
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from methodlint.documents.kinds.instrument import VesselType
from methodlint.rehearsal.batch.positions import (
    STANDARD_PLATES,
    Geometry,
    Well,
    geometry_of,
    nearest_places,
    read_place,
    read_plate,
    row_letters,
    row_number,
)

PLATE_96 = Geometry(8, 12)


@pytest.mark.parametrize("text", ["A1", "A01", "a1", " A1 ", "A,1", "A-1"])
def test_spellings_of_one_well_are_one_place(text: str) -> None:
    assert read_place("1", text) == read_place("01", "A1")


@pytest.mark.parametrize("text", ["1:A,1", "P1-A1", "p1:a01", "plate 1-A1", "1-A1"])
def test_another_notation_of_plate_and_well_is_read(text: str) -> None:
    place = read_place(None, text)
    assert place is not None
    assert (place.plate, place.well.name) == ("1", "A1")


@pytest.mark.parametrize("text", ["1E2", "A", "", "A1B", "-3", "A1.5", "A12345"])
def test_what_is_no_place_is_not_read(text: str) -> None:
    assert read_place("1", text) is None


def test_a_well_that_names_another_plate_is_not_read() -> None:
    assert read_place("2", "P1-A1") is None


def test_plate_names() -> None:
    assert read_plate("01") == read_plate("P1") == read_plate(" 1 ") == "1"
    assert read_plate("left rack") == "left rack"
    assert read_plate(None) is None


@pytest.mark.parametrize(("wells", "last"), [(96, "H12"), (384, "P24"), (24, "D6"), (1536, "AF48")])
def test_standard_plates_end_where_the_standard_says(wells: int, last: str) -> None:
    plate = STANDARD_PLATES[wells]
    assert plate.rows * plate.columns == wells
    assert plate.words == f"A1 to {last}"
    place = read_place("1", last)
    assert place is not None
    assert plate.holds(place.well)


@pytest.mark.parametrize(("text", "valid"), [("H12", True), ("A13", False), ("I1", False)])
def test_96_wells(text: str, valid: bool) -> None:
    place = read_place("1", text)
    assert place is not None
    assert PLATE_96.holds(place.well) is valid


def test_a_numbered_tray_takes_numbers_alone() -> None:
    tray = Geometry(positions=54)
    assert tray.words == "1 to 54"
    assert tray.holds(Well(None, 54))
    assert not tray.holds(Well(None, 55))
    assert not tray.holds(Well(None, 0))
    assert not tray.holds(Well(0, 1))
    assert not PLATE_96.holds(Well(None, 1))


def test_nearest_places_begin_at_the_edge_and_go_on_with_slips() -> None:
    assert nearest_places(PLATE_96, Well(0, 13)) == ("A12", "A1", "A3")
    assert nearest_places(PLATE_96, Well(8, 5))[0] == "H5"
    assert nearest_places(Geometry(positions=54), Well(None, 55))[0] == "54"
    assert nearest_places(PLATE_96, None) == ()
    assert nearest_places(PLATE_96, Well(None, 3)) == ()
    assert nearest_places(Geometry(positions=54), Well(0, 3)) == ()


def test_geometry_of_a_declared_type_comes_before_its_name() -> None:
    declared = VesselType.model_validate({"name": "96-well", "rows": 4, "columns": 6})
    assert geometry_of(declared) == Geometry(4, 6)
    assert geometry_of(None, "384-well") == Geometry(16, 24)
    assert geometry_of(None, "96 deep-well plate") == PLATE_96
    assert geometry_of(VesselType.model_validate({"name": "rack", "positions": 54})) == Geometry(
        positions=54
    )
    assert geometry_of(None, "home-made block") is None
    assert geometry_of(None) is None


@given(st.integers(0, 700))
def test_letters_and_numbers_of_rows_are_inverse(row: int) -> None:
    assert row_number(row_letters(row)) == row


@given(st.integers(0, 40), st.integers(0, 60))
def test_nearest_places_are_valid(row: int, column: int) -> None:
    for name in nearest_places(PLATE_96, Well(row, column)):
        place = read_place("1", name)
        assert place is not None
        assert PLATE_96.holds(place.well)
