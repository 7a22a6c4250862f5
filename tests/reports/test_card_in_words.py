"""The bench card in the terminal: what it says, that it fits, that figures agree with by hand."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest

from methodlint.checking.check import check
from methodlint.checking.given import Given
from methodlint.rehearsal.batch.positions import TrayPlace, read_place
from methodlint.reports.bench_card import card_lines
from methodlint.reports.card.places import place_list
from methodlint.reports.lines import plain_line
from methodlint.reports.text import WIDTH
from tests.rules.harness import judged

ROOT = Path(__file__).resolve().parent.parent
NIGHT = ROOT / "scenarios" / "scenario_06" / "sequences"


def _card(changes: str) -> str:
    [case] = judged(changes, "document.contradiction").batches
    return "\n".join(plain_line(parts) for parts in card_lines(case, WIDTH))


@cache
def _night(name: str) -> str:
    [case] = check(NIGHT / f"{name}.yaml").batches
    return "\n".join(plain_line(parts) for parts in card_lines(case, WIDTH))


def _words(card: str) -> str:
    return re.sub(r"\s+", " ", card)


def _block(card: str, title: str) -> str:
    """Lines of one block, up to the blank line behind it."""
    blocks = card.split("\n\n")
    [found] = [block for block in blocks if block.startswith(title)]
    return found


@pytest.mark.parametrize("name", ["overnight", "overnight-vapour", "overnight-bulk"])
def test_nothing_is_wider_than_the_screen(name: str) -> None:
    wide = [line for line in _night(name).splitlines() if len(line) > WIDTH]
    assert [line for line in wide if " " in line.strip() and "/" not in line] == []


def test_every_part_has_start_highest_band_and_end() -> None:
    """Outlet 120 bar as set; each part upstream has no less than the one behind it."""
    block = _block(_night("overnight"), "PRESSURES")
    rows = [re.split(r"\s{2,}", line.strip()) for line in block.splitlines()[2:]]
    figures = {row[0]: row[1:] for row in rows if len(row) == 7}
    assert figures["regulator"][:2] == ["120", "120"]
    highest = [float(row[1]) for row in figures.values()]
    assert highest == sorted(highest, reverse=True)
    assert {"pumps", "column outlet", "UV cell"} <= figures.keys()
    assert any(name.startswith("column cellulose") for name in figures)


def test_the_end_of_the_liquid_is_told_as_the_rule_tells_it() -> None:
    block = _words(_block(_night("overnight"), "CO2"))
    assert "the liquid in the cylinder is expected to end during injection 66-69 of 84" in block
    assert "9.71 kg stays behind as vapour" in block
    assert "do change the cylinder before the start, or after injection" in block


def test_a_condensing_pump_is_told_its_inlet_pressure() -> None:
    """Saturation at 10 degC (45.0 bar, Span and Wagner 1996), 3 bar above it, 0.5 bar of loss."""
    block = _words(_block(_night("overnight-vapour"), "CO2"))
    assert "the pump condenses vapour and draws down to 48.5 bar" in block
    assert "not during this sequence" in block
    assert "liquid" not in block


def test_a_bulk_tank_has_no_end() -> None:
    assert "bulk tank: its own level shows it" in _words(_block(_night("overnight-bulk"), "CO2"))


def test_a_weight_that_was_typed_is_said_to_be_typed() -> None:
    [case] = check(NIGHT / "overnight.yaml", given=[Given("supply.net_mass", "30 kg")]).batches
    card = "\n".join(plain_line(parts) for parts in card_lines(case, WIDTH))
    assert "30 kg (typed for this run)" in _words(card)
    assert "typed" not in _night("overnight")


def test_others_on_the_same_supply_are_added_up() -> None:
    card = _words(
        _card("""kind: supply
net_mass: 12 kg
shared_with: [bench-b]
bookings: [{instrument: bench-b, mass: 4 kg, ends: "2026-11-24T18:00"}]
""")
    )
    assert "bench-b 4 kg until 2026-11-24 18:00 from the same supply; together" in card
    assert "shared with bench-b" in card


def test_where_others_take_all_it_ends_before_the_first_injection() -> None:
    card = _words(_card("kind: supply\nbookings: [{instrument: bench-b, mass: 90 kg}]\n"))
    assert "should they draw first, it ends before the first injection" in card


def test_bottles_are_told_with_purge_and_end() -> None:
    """50 mL of purge and 5 of equilibration leave 47.5 mL of 102.5: nine injections of 5 mL."""
    block = _block(
        _card("""kind: method
flow: 2 mL/min
programme: []
mobile_phase: {modifier: {liquid: methanol, line: modifier-1}, modifier_share: 25 % v/v}
run_length: 8 min
settling_time: 2 min
---
kind: instrument
cycle_overhead: 0 min
---
kind: sequence
equilibration: 10 min
lines: [{kind: sample, sample: one, plate: 1, well: D1, fill: 1 mL, count: 30}]
---
kind: solvents
purge_volume: 50 mL
bottles: [{line: modifier-1, liquid: methanol, fill: 202.5 mL, dead_volume: 100 mL}]
"""),
        "BOTTLES",
    )
    # takes 50 + 5 + 30 x 5 mL; prepared are a tenth more and the dead volume, in steps of 10 mL
    assert re.search(r"modifier-1 +methanol +205 +50 +202 +330 +10 of 30", block)


def test_vials_are_told_with_dead_volume() -> None:
    """Scenario: 6 draws of 2 + 5 uL are 42 uL, with 12 uL dead 54 uL; of 40 uL the 5th is dry."""
    block = _block(
        _card("""kind: method
injection: {volume: 2 uL, mode: part-filled loop, diluent: methanol}
---
kind: instrument
autosampler: {extra_drawn: 5 uL}
---
kind: sequence
lines:
  - {kind: suitability, sample: SST, plate: 1, well: A3, fill: 40 uL, dead_volume: 12 uL, count: 6}
"""),
        "VIALS",
    )
    assert re.search(r"plate 1: A3 +6 +42 +12 +54 +40 +runs dry at draw 5", block)


def test_open_vents_solvent_vapour_and_other_instruments_are_named() -> None:
    block = _words(
        _block(
            _card("""kind: room
highest_temperature: 26 degC
outlets:
  - {name: cyclone 1, of: collector, ducted: false}
  - {name: separator, of: separator, ducted: true}
  - {name: bottle, of: waste bottle}
other_vents: [{instrument: bench-b, mass_flow: 60 g/min}]
---
kind: instrument
vent_line: {length: 12 m, bore: 4 mm, others: 60 g/min}
"""),
            "ROOM",
        )
    )
    assert "OPEN TO THE ROOM cyclone 1 (collector)" in block
    assert "not said if ducted bottle (waste bottle)" in block
    assert "bench-b vents 60 g/min into this room" in block
    assert "60 g/min of others in it" in block
    assert "flammable" in block


def test_stacked_injections_are_told() -> None:
    card = _words(
        _card("""kind: method
injection: {volume: 5 uL, mode: part-filled loop, diluent: methanol, stacked_every: 2.5 min}
---
kind: sequence
lines: [{kind: sample, sample: racemate, plate: 1, well: D1, fill: 1 mL, count: 12}]
""")
    )
    assert re.search(r"stacked 12 injections of \S+, one every 2\.5 min", card)


def test_what_the_booking_before_left_has_to_be_changed() -> None:
    card = _words(_card("kind: sequence\nprevious: {column: another, oven_temperature: 55 degC}\n"))
    assert "left by the last column another, oven 55 degC" in card
    assert re.search(r"change column: another -> \S+", card)
    assert re.search(r"change oven: 55 degC -> \S+ degC", card)


def test_a_hand_over_that_the_lines_do_not_keep_is_pointed_out() -> None:
    card = _words(
        _card("""kind: sequence
lines: [{kind: sample, sample: one, plate: 1, well: D1, fill: 1 mL}]
leaves: {co2: "off"}
""")
    )
    assert "DIFFERS CO2: written off, by the lines on" in card


def test_the_card_always_says_how_not_to_get_hurt() -> None:
    card = _words(_night("overnight"))
    for words in (
        "wait for zero on every gauge",
        "never undo a fitting or cap a column under pressure",
        "Do not cap a fresh waste bottle",
        "Never warm a cylinder",
        "Frost burns; ice plugs let go suddenly",
        "glass separators need a relief",
        "Local codes",
        "Read and understood: name ____",
    ):
        assert words in card


def test_a_lab_without_emergency_steps_gets_the_usual_ones() -> None:
    card = _words(_card("kind: lab\nemergency: null\nphone: null\n"))
    assert "Leave the room, close the door, let nobody in" in card
    assert "Phone: the lab gives none" in card


def _places(*texts: str) -> list[TrayPlace]:
    found = [read_place(*text.split("/")) for text in texts]
    return [place for place in found if place is not None]


def test_neighbours_on_a_plate_become_a_span() -> None:
    assert place_list(_places("1/A1")) == "plate 1: A1"
    assert (
        place_list(_places("1/A2", "1/A1", "1/A4", "2/C1")) == "plate 1: A1-A2, A4; plate 2: C1 (4)"
    )
    rows = [f"1/{row}{number}" for row in "ABC" for number in range(1, 13)]
    assert place_list(_places(*rows)) == "plate 1: A1-A12 to C1-C12 (36)"
    assert place_list(_places("1/A1", "1/B1", "1/C1")) == "plate 1: A1, B1, C1 (3)"
    assert place_list(_places("1/7", "1/8", "1/9")) == "plate 1: 7-9 (3)"


@pytest.mark.parametrize(
    "changes",
    [
        "kind: sequence\npurpose: preparative\n",
        "kind: method\ninjection: {volume: 5 uL, diluent: methanol, stacked_every: 2.5 min}\n",
        "kind: room\noutlets: [{name: cyclone 1, of: collector, ducted: true}]\n",
    ],
)
def test_who_collects_signs_for_flammable_fractions(changes: str) -> None:
    words = _words(_block(_card(changes), "CAUTIONS"))
    assert "Fractions are flammable liquid" in words
    assert "open a cyclone only at zero pressure" in words
    assert words.endswith("this tool only computes.")


def test_who_collects_nothing_does_not_sign_for_fractions() -> None:
    assert "raction" not in _block(_card("kind: room\n"), "CAUTIONS")


@pytest.mark.parametrize("width", [80, 120])
def test_a_row_of_a_table_ends_with_its_last_word(width: int) -> None:
    [case] = check(NIGHT / "overnight.yaml").batches
    lines = [plain_line(parts) for parts in card_lines(case, width)]
    assert [line for line in lines if line != line.rstrip()] == []
    assert max(len(line) for line in lines if "/" not in line) <= width


def _bench(changes: str) -> str:
    return _words(_block(_card(changes), "BENCH"))


def test_the_booking_is_told_as_it_is_known() -> None:
    """From 8:30 nine hours are booked in the lab that is changed here; a length alone stays one."""
    assert "booked 2026-11-24 08:30 to 17:30" in _bench("kind: sequence\n")
    assert "booked open end" in _bench("kind: sequence\nslot: {open_ended: true}\n")
    assert "booked 2026-11-24 09:00 to 14:00" in _bench(
        "kind: sequence\nslot: {begins: null, length: 5 h}\n"
    )
    assert "booked 5 h" in _bench(
        "kind: sequence\nbegins: null\nslot: {begins: null, length: 5 h}\n"
    )
    for slot in ("null", "{length: null}"):
        assert "booked" not in _bench(f"kind: sequence\nslot: {slot}\n")


def test_a_booking_over_midnight_says_the_day_on_which_it_ends() -> None:
    said = _bench('kind: sequence\nslot: {begins: "2026-11-24T20:00", length: 9 h}\n')
    assert "booked 2026-11-24 20:00 to 2026-11-25 05:00" in said


def test_an_operator_who_is_not_named_is_said_not_to_be() -> None:
    assert "operator not named" in _bench("kind: sequence\noperator: null\nphone: null\n")


def _room(changes: str) -> str:
    return _words(_block(_card(changes), "ROOM AND VENTS"))


def test_outlets_stand_by_what_is_known_of_their_duct_the_open_ones_first() -> None:
    said = _room(
        "kind: room\noutlets:\n"
        "  - {name: separator, of: separator, ducted: true}\n"
        "  - {name: back of the bench, of: rough pump, ducted: false, trap: oil mist filter}\n"
        "  - {name: waste bottle, of: waste bottle}\n"
    )
    opened, unknown, ducted = (
        said.index(words)
        for words in (
            "OPEN TO THE ROOM back of the bench (rough pump, oil mist filter)",
            "not said if ducted waste bottle",
            "ducted separator",
        )
    )
    assert opened < unknown < ducted


def test_who_watches_the_air_and_when() -> None:
    assert "monitor CO2 30 cm above the floor beside bench A, tested 2026-10-12" in _room(
        "kind: room\n"
    )
    assert "monitor O2, test not noted" in _room("kind: room\nmonitors: [{gas: O2}]\n")
    assert "monitor none" in _room("kind: room\nmonitors: []\n")
    assert "monitor" not in _room("kind: room\nmonitors: null\n")


def test_hours_in_which_nobody_is_there() -> None:
    """Staffed from 8 to 18; a sequence that begins at 17:30 goes on into the evening."""
    assert "staffed all the time" in _room("kind: sequence\n")
    late = _room("kind: sequence\nbegins: 2026-11-24T17:30\nslot: null\n")
    assert re.search(r"nobody there .*18:00", late)
    assert "staffed" not in _room("kind: room\nstaffed: null\n")


def test_the_limit_of_the_lab_stands_beside_the_level_that_the_air_settles_at() -> None:
    said = _room("kind: room\noutlets: [{name: separator, of: separator, ducted: false}]\n")
    assert re.search(r"CO2 in the air settles at [0-9]+ ppm", said)
    assert "limit of the lab" not in said
    said = _room(
        "kind: room\noutlets: [{name: separator, of: separator, ducted: false}]\n---\n"
        "kind: lab\npolicy: {exposure_limits: {co2_long: 5000 ppm}}\n"
    )
    assert "ppm, limit of the lab 5000 ppm" in said
