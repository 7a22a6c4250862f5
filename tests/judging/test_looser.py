"""Which settings of a lab's document let more pass than those before."""

from __future__ import annotations

import re

import pytest

from methodlint.documents.kinds.lab import Policy
from methodlint.documents.loading import Loaded, load
from methodlint.documents.text.reader import read_text
from methodlint.judging.loader import built_in_rules
from methodlint.judging.shared.looser import SETTINGS, looser

GRADES = {rule.id: rule.grades for rule in built_in_rules()}


def lab(text: str) -> Loaded:
    loaded = load(read_text(f"kind: lab\n{text}\n".encode(), "lab.yaml"), "lab.yaml", "lab")
    assert loaded is not None
    assert not loaded.problems, loaded.problems
    return loaded


def said(before: str | None, after: str) -> list[str]:
    old = lab(before) if before is not None else None
    return [words for _, words in looser(old, lab(after), GRADES)]


def test_every_threshold_has_a_direction() -> None:
    assert set(SETTINGS) == set(Policy.model_fields)


def test_defaults_are_those_that_the_schema_names() -> None:
    """The descriptions of the fields say what counts without them: `else 15 bar`."""
    factors = {"": 1.0, "h": 3600.0, "d": 86_400.0, "bar": 1e5, "%": 0.01}
    named = {}
    for name, field in Policy.model_fields.items():
        if found := re.search(r"\belse (\d+)(?: (h|d|bar|%))?", field.description or ""):
            named[name] = float(found[1]) * factors[found[2] or ""]
    assert len(named) >= 14
    for name, value in named.items():
        # Where there are two, the stricter: `else 5, or 6 for a limit above 2 %`.
        assert SETTINGS[name][1] in (pytest.approx(value), 6), name


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ("policy: {samples_per_control: 10}", "policy: {samples_per_control: 11}"),
        ("", "policy: {samples_per_control: 11}"),
        ("policy: {samples_per_control: 5}", ""),
        ("", "policy: {boundary_margin: 14.9 bar}"),
        ("policy: {boundary_margin: 2 MPa}", "policy: {boundary_margin: 19 bar}"),
        ("", "policy: {waste_fill: 90 %}"),
        ("", "policy: {bottle_reserve: 5 %}"),
        ("", "policy: {blanks_at_start: 0}"),
        ("policy: {bracketing_required: true}", "policy: {bracketing_required: false}"),
        ("policy: {blank_after_highest: true}", "policy: {}"),
        ("policy: {purpose: regulated}", "policy: {purpose: research}"),
        ("policy: {purpose: regulated}", ""),
        ("", "policy: {staffed: always}"),
        ("policy: {staffed: {begins: '08:00', ends: '18:00'}}",
         "policy: {staffed: {begins: '00:30', ends: '23:30'}}"),
        ("", "policy: {cylinder_heel: 0 kg}"),
        ("policy: {cylinder_heel: 2 kg}", "policy: {cylinder_heel: 1 kg}"),
        ("policy: {exposure_limits: {co2_long: 5000 ppm}}",
         "policy: {exposure_limits: {co2_long: 9000 ppm}}"),
        ("policy: {exposure_limits: {vapours: {methanol: 200 ppm}}}", "policy: {}"),
        ("policy: {exposure_limits: {vapours: {methanol: 200 ppm}}}",
         "policy: {exposure_limits: {vapours: {methanol: 400 ppm}}}"),
        ("", "policy: {allowance_set: lab}"),
        ("policy: {transfer_allowances: {flow: 20 %}}", "policy: {transfer_allowances: {flow: 50 %}}"),
        ("", "classes: [{rule: sequence.overruns-slot, to: note, reason: unseen}]"),
        ("classes: [{rule: sequence.overruns-slot, to: fault, reason: booked}]", ""),
        ("classes: [{rule: house.any, to: fault, reason: ours}]",
         "classes: [{rule: house.any, to: caution, reason: ours}]"),
        ("rule_folders: [our-rules]", ""),
    ],
)  # fmt: skip
def test_what_lets_more_pass_and_the_same_the_other_way(before: str, after: str) -> None:
    assert len(said(before, after)) == 1
    if "cylinder_heel: 0" not in after and "begins" not in after:
        assert said(after, before) == [], "the other way it is stricter"


@pytest.mark.parametrize(
    ("before", "after"),
    [
        (None, ""),
        ("", "policy: {}"),
        ("", "policy: {samples_per_control: 10, boundary_margin: 15 bar, waste_fill: 80 %}"),
        ("policy: {boundary_margin: 15 bar}", "policy: {boundary_margin: 1.5 MPa}"),
        ("policy: {weighing_valid_for: 24 h}", "policy: {weighing_valid_for: 1 d}"),
        ("", "policy: {staffed: {begins: '08:00', ends: '18:00'}}"),
        ("", "policy: {exposure_limits: {jurisdiction: house rule, co2_long: 5000 ppm}}"),
        ("", "policy: {purpose: screening}"),
        ("", "policy: {allowance_set: pharmacopoeial}"),
        # Its stops stay stops, and it has no other class.
        ("", "classes: [{rule: pressure.column-rating-exceeded, to: fault, reason: none}]"),
        ("title: a", "title: b"),
        ("phone: '1'", "x-more: 1"),
    ],
)
def test_what_loosens_nothing(before: str | None, after: str) -> None:
    assert said(before, after) == []


def test_the_words_are_those_of_the_document() -> None:
    (words,) = said("policy: {boundary_margin: 2 MPa}", "policy: {boundary_margin: 19 bar}")
    assert words == "policy.boundary_margin goes from 2 MPa to 19 bar"
    (words,) = said("", "policy: {waste_fill: 90 %}")
    assert words == "policy.waste_fill goes from what counts without it to 90 %"
