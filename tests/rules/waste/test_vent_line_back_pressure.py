"""Limit of 0.3 bar: common practice, no source. The loss itself is tested with the vent line."""

from __future__ import annotations

from tests.rules.harness import findings, judged

RULE = "waste.vent-line-back-pressure"


def _line(text: str) -> str:
    return f"kind: instrument\nvent_line: {{{text}}}\n"


def test_silent_for_a_short_wide_hose() -> None:
    assert findings(_line("length: 2 m, bore: 6 mm"), RULE) == []


def test_narrow_line_is_a_caution() -> None:
    (found,) = findings(_line("length: 5 m, bore: 1 mm"), RULE)
    assert found.grade == "caution"
    assert found.found is not None
    assert found.found.value > 0.3
    assert found.remedy == "replace the vent line by one of 3 mm bore"


def test_other_instruments_on_the_line_are_added() -> None:
    alone = "length: 10 m, bore: 2 mm"
    assert findings(_line(alone), RULE) == []
    (found,) = findings(_line(f"{alone}, others: 30 g/min"), RULE)
    assert "30 g/min of it from other instruments" in found.message


def test_a_loss_of_choked_gas_is_a_lower_bound() -> None:
    narrow = "length: 0.3 m, bore: 1 mm"
    (flowing,) = findings(_line(f"{narrow}, others: 10 g/min"), RULE)
    assert "loses at least" not in flowing.message
    (choked,) = findings(_line(f"{narrow}, others: 30 g/min"), RULE)
    assert "loses at least" in choked.message
    assert choked.message.endswith("chokes at the speed of sound")


def test_a_low_loop_is_a_caution() -> None:
    (found,) = findings(_line("length: 2 m, bore: 6 mm, collects_liquid: true"), RULE)
    assert "low loop" in found.message
    assert found.remedy == "lay the line so that it falls all the way"


def test_a_line_that_is_not_given_is_not_checked() -> None:
    report = judged("kind: instrument\nvent_line: null\n", RULE)
    assert report.not_checked[0].missing == ("instrument.vent_line",)
