"""flow.line-beyond-pumps: limits of the cards; common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings, judged

RULE = "flow.line-beyond-pumps"
# Both pumps of the sound lab reach 5 mL/min; its method runs from 5 to 40 % modifier.
SAMPLE = "kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL"


def lines(*texts: str) -> str:
    return "kind: sequence\nlines:\n" + "".join(f"  - {{{text}}}\n" for text in texts)


def test_silent_for_the_sound_lab() -> None:
    assert findings("", RULE) == []


@pytest.mark.parametrize(
    "line",
    [
        "kind: flush, liquid: methanol, duration: 5 min, flow: 5 mL/min",
        "kind: flush, liquid: methanol, duration: 5 min, flush_volume: 20 mL",
        "kind: equilibration, duration: 10 min, flow: 5.2 mL/min",
        f"{SAMPLE}, flow: 1 mL/min",
        'kind: idle, duration: 60 min, flow: 0.1 mL/min, co2: "off"',
        "kind: idle, duration: 60 min, flow: 0 mL/min",
    ],
)
def test_silent_for_what_the_pumps_deliver(line: str) -> None:
    """95 % of 5.2 mL/min are 4.94 mL/min (arithmetic)."""
    assert findings(lines(SAMPLE, line), RULE) == []


@pytest.mark.parametrize(
    ("line", "pumps"),
    [
        ("kind: flush, liquid: methanol, duration: 5 min, flow: 50 mL/min", ["CO2", "modifier"]),
        ("kind: equilibration, duration: 10 min, flow: 100 mL/min", ["CO2"]),
        (f"{SAMPLE}, flow: 100 mL/min", ["CO2", "modifier"]),
        ('kind: flush, liquid: methanol, duration: 5 min, flow: 50 mL/min, co2: "off"', ["modifier"]),
        ("kind: flush, liquid: methanol, duration: 1 min, flush_volume: 20 mL", ["CO2", "modifier"]),
    ],
)  # fmt: skip
def test_a_flow_that_no_pump_delivers(line: str, pumps: list[str]) -> None:
    """5 % of 100 mL/min are 5 mL/min, 40 % are 40 mL/min (arithmetic)."""
    found = findings(lines(SAMPLE, line), RULE)
    assert [f.message.split(" pump")[0].split()[-1] for f in found] == pumps
    assert all(f.grade == "fault" and "it reaches 5 mL/min" in f.message for f in found)


def test_several_lines_are_one_finding_at_the_fastest() -> None:
    flush = 'kind: flush, liquid: methanol, co2: "on", duration: 5 min, flow: {} mL/min'
    (found,) = findings(lines(SAMPLE, flush.format(60), flush.format(80)), RULE)
    assert found.message.startswith("lines 2 and 3")
    assert found.at.path == ("lines", 2, "flow")


def test_a_card_without_the_limit_is_not_a_pass() -> None:
    line = "kind: equilibration, duration: 10 min, flow: 100 mL/min"
    card = "---\nkind: instrument\nco2_pump: {highest_flow: null}"
    report = judged(lines(SAMPLE, line) + card, RULE)
    assert [item.missing for item in report.not_checked] == [("instrument.co2_pump.highest_flow",)]


RICH = 'kind: flush, liquid: methanol, duration: 5 min, co2: "{co2}", modifier_share: 80 % v/v'
CAP = "---\nkind: instrument\nmodifier_pump: {highest_share: 60 % v/v}"


@pytest.mark.parametrize("cap", ["", CAP.replace("60", "80")])
def test_silent_for_a_share_that_the_pump_mixes(cap: str) -> None:
    assert findings(lines(SAMPLE, RICH.format(co2="on")) + cap, RULE) == []


def test_silent_for_neat_liquid_whatever_the_pump_mixes() -> None:
    assert findings(lines(SAMPLE, RICH.format(co2="off")) + CAP, RULE) == []


def test_a_share_beyond_what_the_pump_mixes() -> None:
    (found,) = findings(lines(SAMPLE, RICH.format(co2="on")) + CAP, RULE)
    assert found.at.path == ("lines", 1, "modifier_share")
    assert found.remedy == "set modifier_share to 60 % v/v in line 2"


def test_a_lines_own_share_decides_the_part_of_each_pump() -> None:
    """20 % of 6 mL/min are 1.2 and 4.8 mL/min; both pumps reach 5 (arithmetic)."""
    flush = 'kind: flush, liquid: methanol, duration: 5 min, co2: "on", flow: 6 mL/min'
    assert findings(lines(SAMPLE, f"{flush}, modifier_share: 20 % v/v"), RULE) == []
    assert findings(lines(SAMPLE, flush), RULE)
