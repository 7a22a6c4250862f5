"""`safety.exhaust-not-ducted`: each outlet on its own."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "safety.exhaust-not-ducted"
KINDS = ("separator", "MS exhaust", "rough pump", "waste bottle", "collector", "other")
MS = "---\nkind: method\ndetectors: [{type: MS, source: ESI, polarity: positive}]\n"


def _room(*outlets: tuple[str, str], more: str = "") -> str:
    lines = "".join(f"  - {{name: {of}, of: {of}, ducted: {ducted}}}\n" for of, ducted in outlets)
    return f"kind: room\noutlets:\n{lines}{more}"


def test_silent_where_all_are_ducted() -> None:
    assert findings(_room(*((of, "true") for of in KINDS)), RULE) == []


@pytest.mark.parametrize("of", [kind for kind in KINDS if kind != "MS exhaust"])
def test_each_outlet_is_asked_for_on_its_own(of: str) -> None:
    outlets = [(kind, "false" if kind == of else "true") for kind in KINDS]
    [finding] = findings(_room(*outlets), RULE)
    assert finding.grade == "caution"
    assert finding.message.startswith(f"{of} ends in the room")
    assert finding.at.path == ("outlets", KINDS.index(of), "ducted")
    assert finding.remedy.startswith(f"lead {of} outdoors")


def test_nitrogen_below_19_5_per_cent_oxygen_is_a_stop() -> None:
    """20 L/min of nitrogen into 28 m3 with 0.5/h, 233 L/min of air: 20.9 x 233/253 = 19.2 %;
    worked by hand; 19.5 %: 29 CFR 1910.146 (secondary page)."""
    room = _room(("MS exhaust", "false"), more="volume: 28 m3\nair_changes: 0.5 1/h\n")
    gas = "---\nkind: instrument\nms: {gas: nitrogen, gas_flow: 20 L/min}\n"
    [finding] = findings(room + gas, RULE)
    assert finding.grade == "stop"
    assert "falls to 19.2 %" in finding.message


def test_nitrogen_in_a_large_room_is_a_caution() -> None:
    gas = "---\nkind: instrument\nms: {gas: nitrogen, gas_flow: 20 L/min}\n"
    [finding] = findings(_room(("MS exhaust", "false")) + gas, RULE)
    assert finding.grade == "caution"


def test_air_as_source_gas_takes_no_oxygen_away() -> None:
    gas = "---\nkind: instrument\nms: {gas: air}\n"
    room = _room(("MS exhaust", "false"), ("separator", "true"))
    report = judged(room + gas, RULE)
    assert "oxygen" not in report.findings[0].message
    assert report.not_checked == []


def test_outlet_that_is_not_declared_is_not_checked() -> None:
    report = judged(_room(("separator", "null"), ("rough pump", "true")), RULE)
    assert report.findings == []
    assert [item.missing for item in report.not_checked] == [("room.outlets[0].ducted",)]


def test_no_outlets_at_all_is_not_checked() -> None:
    report = judged("kind: room\noutlets: []", RULE)
    assert [item.missing for item in report.not_checked] == [("room.outlets",)]


def test_mass_spectrometer_in_use_has_two_outlets_more() -> None:
    instrument = "---\nkind: instrument\nms: {exhaust_ducted: null}\n"
    report = judged(_room(("separator", "true")) + MS + instrument, RULE)
    reasons = sorted(item.reason for item in report.not_checked)
    assert reasons == ["the MS exhaust is not listed", "the rough pump is not listed"]


def test_exhaust_declared_on_the_instrument_counts() -> None:
    report = judged(_room(("separator", "true"), ("rough pump", "true")) + MS, RULE)
    assert report.not_checked == []


def test_levels_in_the_room_lie_beneath_their_cause() -> None:
    room = _room(("separator", "false"), more="volume: 28 m3\nair_changes: 0.2 1/h\n")
    lab = "---\nkind: lab\npolicy: {exposure_limits: {co2_long: 5000 ppm}}\n"
    report = judged(room + lab, RULE, "safety.room-co2-steady")
    [finding] = report.findings
    assert (finding.rule, finding.grade) == (RULE, "stop")
    assert [child.rule for child in finding.because] == ["safety.room-co2-steady"]


def regulator(**keys: str) -> str:
    given = ", ".join(f"{key}: {value}" for key, value in keys.items())
    return f"---\nkind: instrument\nregulator: {{{given}}}\n"


@pytest.mark.parametrize(
    ("listed", "card"),
    [
        ("separator", regulator(vents_to="Separator")),
        ("other", regulator(vents_to="other")),
        ("collector", regulator(vents_to="null")),
        ("waste bottle", regulator(vents_to="null", gas_separation="vented vessel")),
        ("MS exhaust", regulator(vents_to="null", gas_separation="null")),
    ],
)
def test_silent_where_the_outlet_of_the_co2_is_listed(listed: str, card: str) -> None:
    assert judged(_room((listed, "true")) + card, RULE).not_checked == []


@pytest.mark.parametrize(
    ("listed", "card", "words"),
    [
        ("rough pump", "", "vents to 'separator', which is not listed"),
        ("waste bottle", "", "vents to 'separator', which is not listed"),
        ("separator", regulator(vents_to="the roof"), "vents to 'the roof', which is not listed"),
        ("rough pump", regulator(vents_to="null"), "the mobile phase's CO2 is not listed"),
        ("waste bottle", regulator(vents_to="null"), "the mobile phase's CO2 is not listed"),
    ],
)
def test_a_list_without_the_outlet_of_the_co2_is_no_clearance(
    listed: str, card: str, words: str
) -> None:
    report = judged(_room((listed, "true")) + card, RULE)
    assert [item.missing for item in report.not_checked] == [("room.outlets",)]
    assert words in report.not_checked[0].reason
    assert report.verdict == "run with care"


def _fan(more: str) -> str:
    return (
        f"kind: room\noutlets: [{{name: hood, of: separator, ducted: true, draught: fan{more}}}]\n"
    )


def test_silent_for_a_draught_that_was_measured_and_for_a_passive_vent() -> None:
    assert findings(_fan(", flow_verified: 2026-03-01, interlock: true"), RULE) == []
    assert findings(_fan("").replace("fan", "passive"), RULE) == []


@pytest.mark.parametrize(
    ("more", "says"),
    [
        ("", "its draught was never measured"),
        (", flow_verified: 2024-03-01", "its draught was measured 998 d ago"),
        (", flow_verified: 2026-03-01, interlock: false", "nothing stops or alarms"),
    ],
)
def test_a_fan_that_nobody_watches_is_a_caution(more: str, says: str) -> None:
    """A yearly measurement: common practice, no source; 2024-03-01 to 2026-11-24 are 998 days."""
    (found,) = findings(_fan(more), RULE)
    assert found.grade == "caution"
    assert says in found.message
