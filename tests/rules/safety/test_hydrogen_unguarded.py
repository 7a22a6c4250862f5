"""safety.hydrogen-unguarded: 4 % in air: NFPA 55 (unverified); one air change: common practice."""

from __future__ import annotations

from tests.rules.harness import findings, judged

RULE = "safety.hydrogen-unguarded"
FLAME = "kind: method\ndetectors: [{type: FID}]\n---\nkind: instrument\nfid: "
STILL = "\n---\nkind: room\nair_changes: 0.3 1/h\nair_changes_at_night: 0.5 1/h\n"


def test_silent_with_a_shut_off_in_a_ventilated_room() -> None:
    assert findings(FLAME + "{flame_out_shutoff: true, hydrogen_from: generator}", RULE) == []


def test_silent_without_a_flame() -> None:
    assert findings("kind: instrument\nfid: {flame_out_shutoff: false}", RULE) == []


def test_silent_in_a_still_room_where_the_gas_is_outdoors_or_watched() -> None:
    outdoors = "{flame_out_shutoff: true, hydrogen_from: line from outdoors}"
    watched = "{flame_out_shutoff: true, hydrogen_from: generator, hydrogen_monitor: true}"
    assert findings(FLAME + outdoors + STILL, RULE) == []
    assert findings(FLAME + watched + STILL, RULE) == []


def test_no_shut_off_stops_the_run() -> None:
    (found,) = findings(FLAME + "{flame_out_shutoff: false}", RULE)
    assert (found.grade, found.at.path) == ("stop", ("fid", "flame_out_shutoff"))
    assert "flammable" in found.cautions


def test_a_cylinder_in_a_still_room_stops_the_run() -> None:
    card = "{flame_out_shutoff: true, hydrogen_from: cylinder in the room}"
    (found,) = findings(FLAME + card + STILL, RULE)
    assert (found.grade, found.at.path) == ("stop", ("air_changes",))
    assert "0.3 1/h" in found.message


def test_a_card_that_does_not_say_is_asked() -> None:
    report = judged("kind: method\ndetectors: [{type: FID}]\n", RULE)
    assert [item.missing for item in report.not_checked] == [("instrument.fid.flame_out_shutoff",)]
    assert report.verdict == "run with care"
