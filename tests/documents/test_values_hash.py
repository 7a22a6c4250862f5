"""The hash of a document's values: what it holds to be the same, and what not."""

import re

import pytest

from methodlint.documents.contents.values_hash import part_hashes, values_hash
from methodlint.documents.loading import load
from methodlint.documents.text.reader import read_text

METHOD = """kind: method
flow: 1.5 mL/min
oven_temperature: 40 degC
outlet_pressure: 150 bar
programme:
  - {time: 0 min, modifier_share: 5 % v/v}
  - {time: 5 min, modifier_share: 40 % v/v}
"""
SUPPLY = "kind: supply\nnet_mass: 12.5 kg\nx-lot: 7\n"


def model(text):
    loaded = load(read_text(text.encode(), "x.yaml"), "x.yaml", "x")
    assert loaded is not None
    assert not loaded.broken
    return loaded.model


def changed(old, new, text=METHOD):
    assert text.count(old) == 1
    return model(text.replace(old, new))


def test_it_names_its_edition_and_is_short():
    assert re.fullmatch(r"v1-[0-9a-f]{32}", values_hash(model(METHOD)))


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("1.5 mL/min", "1500 uL/min"),
        ("1.5 mL/min", "'1.5 mL/min' # set by hand"),
        ("40 degC", "313.15 K"),
        ("150 bar", "15 MPa"),
        ("5 min", "300 s"),
        ("kind: method\n", "kind: method\ntitle: another\nstatus: draft\nedition: '7'\n"),
        ("kind: method\n", "kind: method\nx-lab: 5\n"),
        ("flow: 1.5 mL/min\noven_temperature: 40 degC\n", "oven_temperature: 40 degC\nflow: 1.5 mL/min\n"),
    ],
    ids=["unit", "spelling", "kelvin", "megapascal", "seconds", "title", "own-key", "order"],
)  # fmt: skip
def test_the_same_values_however_they_are_written(old, new):
    assert values_hash(changed(old, new)) == values_hash(model(METHOD))


@pytest.mark.parametrize(
    ("old", "new", "key"),
    [
        ("1.5 mL/min", "1.5001 mL/min", "flow"),
        ("1.5 mL/min", "1.5 g/min", "flow"),
        ("40 degC", "{value: 40 degC, tolerance: 1 degC}", "oven_temperature"),
        ("40 % v/v", "40 % w/w", "programme"),
        ("time: 5 min", "time: 6 min", "programme"),
        ("flow: 1.5 mL/min\n", "", "flow"),
    ],
    ids=["figure", "kind-of-flow", "tolerance", "basis", "inside-a-list", "gone"],
)
def test_other_values_are_told_by_their_key(old, new, key):
    before, after = model(METHOD), changed(old, new)
    assert values_hash(after) != values_hash(before)
    parts, others = part_hashes(before), part_hashes(after)
    assert {name for name in parts | others if parts.get(name) != others.get(name)} == {key}


def test_a_default_that_is_written_out_counts_for_nothing():
    assert part_hashes(changed("kind: method\n", "kind: method\nruns_on: []\n")).keys() == (
        part_hashes(model(METHOD)).keys()
    )


def test_days_and_flags_are_values_too():
    text = SUPPLY + "bookings:\n  - {instrument: b, mass: 4 kg, ends: '2026-11-24T18:00'}\n"
    hashes = {
        values_hash(model(text)),
        values_hash(changed("18:00", "18:01", text)),
        values_hash(changed("4 kg", "4000.5 g", text)),
    }
    assert len(hashes) == 3
    assert values_hash(changed("4 kg", "4000 g", text)) in hashes
