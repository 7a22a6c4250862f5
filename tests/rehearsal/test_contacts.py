"""Which liquids meet where: read off documents by hand."""

from __future__ import annotations

import pytest

from methodlint.checking.assemble import Assembly, rehearse_cases
from methodlint.judging.case import BatchCase
from methodlint.rehearsal.contacts.contact import Contact
from methodlint.rehearsal.contacts.in_a_run import contacts_of, least_co2_share
from methodlint.rulebook.examples import _library, lab_with

MAKEUP = "kind: method\nmakeup: {liquid: ethanol, flow: 0.3 mL/min, tee: after the regulator}\n"
SAMPLE = "{kind: sample, sample: extract, plate: 1, well: D1}"


def _run(changes: str) -> list[Contact]:
    documents = lab_with(changes)
    return list(contacts_of({k: d for k, d in documents.items() if k != "lab"}))


def _batch(changes: str) -> BatchCase:
    documents = lab_with(changes)
    assembly = Assembly(_library(documents))
    assembly.add_sequence(documents["sequence"])
    rehearse_cases(assembly.batches)
    return assembly.batches[0]


def _at(contacts: list[Contact], site: str) -> list[tuple[str, str]]:
    return [(c.first.words, c.second.words) for c in contacts if c.site == site]


def test_makeup_meets_the_modifier_alone_behind_the_regulator() -> None:
    (tee,) = [c for c in _run(MAKEUP) if c.site == "tee"]
    assert (tee.first.role, tee.second.role) == ("modifier", "makeup")
    assert not tee.in_co2
    assert tee.least_co2_share == 0.0
    assert tee.temperature == pytest.approx(291.15)  # the room at night, 18 degC
    assert tee.temperature_given


def test_makeup_in_front_of_the_regulator_is_inside_co2() -> None:
    (tee,) = [c for c in _run(MAKEUP.replace("after", "before")) if c.site == "tee"]
    assert tee.in_co2
    assert tee.least_co2_share == pytest.approx(0.60)  # the programme goes up to 40 %


def test_shares_at_the_tee() -> None:
    (tee,) = [c for c in _run(MAKEUP) if c.site == "tee"]
    assert tee.share_of_first is not None
    # 1.5 mL/min x 5 to 40 % against 0.3 mL/min: 0.075 / 0.375 and 0.6 / 0.9
    assert tee.share_of_first == pytest.approx((0.2, 0.6667), abs=1e-3)


def test_the_sample_meets_the_mobile_phase_inside_co2() -> None:
    (meeting,) = [c for c in _run("") if c.site == "injection"]
    assert meeting.in_co2
    assert meeting.volume == pytest.approx(2e-9)


def test_an_injection_into_the_modifier_stream_is_not_inside_co2() -> None:
    text = "kind: method\ninjection: {volume: 2 uL, diluent: 2-propanol, stream: modifier}\n"
    (meeting,) = [c for c in _run(text) if c.site == "injection"]
    assert not meeting.in_co2
    assert meeting.under_pressure


def test_needle_and_tray() -> None:
    text = "kind: sequence\ndiluent: ethanol\n---\nkind: method\ninjection: {diluent: ethanol}\n"
    (needle,) = [c for c in _run(text) if c.site == "needle"]
    assert needle.temperature == pytest.approx(283.15)  # the tray, 10 degC
    assert not needle.under_pressure


def test_an_outside_rinse_meets_nothing() -> None:
    text = "kind: solvents\nbottles: [{line: needle-wash, liquid: hexane, enters_flow: false}]\n"
    assert _at(_run(text), "needle") == []


def test_seal_wash_meets_the_modifier() -> None:
    text = "kind: solvents\nbottles: [{line: seal-wash, liquid: water}]\n"
    assert _at(_run(text), "seal") == [("water", "methanol")]


def test_without_bench_the_temperature_is_not_given() -> None:
    documents = lab_with(MAKEUP)
    (tee,) = contacts_of({"method": documents["method"]})[:1]
    assert not tee.temperature_given
    assert tee.temperature == pytest.approx(293.15)


def test_least_co2_share_of_an_isocratic_method() -> None:
    text = "kind: method\nprogramme: []\nmobile_phase: {modifier_share: 18 % v/v}\n"
    assert least_co2_share(lab_with(text)["method"].model) == pytest.approx(0.82)  # type: ignore[arg-type]


def test_one_after_another_with_a_flush_in_between() -> None:
    case = _batch(
        "kind: method\nx-name: second\nmobile_phase: {modifier: {liquid: hexane, "
        "line: modifier-2}}\n---\nkind: sequence\nlines:\n"
        f"  - {SAMPLE}\n  - {{kind: flush, liquid: IPA, duration: 5 min}}\n"
        f"  - {SAMPLE[:-1]}, method: second}}\n  - {SAMPLE}\n"
    )
    pump = [(c.first.words, c.second.words, c.line) for c in case.contacts if c.site == "pump"]
    assert pump == [
        ("methanol", "2-propanol", 1),
        ("2-propanol", "n-hexane", 2),
        ("n-hexane", "methanol", 3),
    ]


def test_every_change_is_named_once() -> None:
    lines = "\n".join(
        f"  - {SAMPLE}" if i % 2 else f"  - {SAMPLE[:-1]}, method: second}}" for i in range(40)
    )
    case = _batch(
        "kind: method\nx-name: second\nmobile_phase: {modifier: {liquid: ethanol, "
        f"line: modifier-2}}}}\n---\nkind: sequence\nlines:\n{lines}\n"
    )
    assert len([c for c in case.contacts if c.site == "pump"]) == 2


def test_what_the_bench_held_before_comes_first() -> None:
    case = _batch("kind: sequence\nprevious: {modifier: acetone}\n")
    assert _at(list(case.contacts), "pump") == [("acetone", "methanol")]


def test_a_blend_meets_itself_in_its_bottle() -> None:
    blend = (
        "{line: modifier-2, liquids: [{liquid: hexane, share: 60 %}, {liquid: IPA, share: 40 %}]}"
    )
    case = _batch(f"kind: solvents\nbottles:\n  - {blend}\n")
    assert len(_at(list(case.contacts), "bottle")) == 1


def test_one_waste_vessel_takes_everything() -> None:
    case = _batch("kind: room\nwaste: [{name: bottle, contents: [toluene]}]\n")
    pairs = {frozenset(pair) for pair in _at(list(case.contacts), "waste")}
    assert frozenset(("toluene", "methanol")) in pairs
    assert frozenset(("methanol", "2-propanol")) in pairs


def test_a_drain_keeps_nothing() -> None:
    case = _batch("kind: room\nwaste: [{name: drain, drain: true}]\n")
    assert _at(list(case.contacts), "waste") == []
