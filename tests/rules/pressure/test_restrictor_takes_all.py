"""Flow through a restrictor in laminar flow is pi d^4 dP / (128 eta L) (Hagen and Poiseuille).

1.5 mL/min with 20 % methanol are about 1.45 g/min, 2.8e-8 m3/s at 860 kg/m3 and 105 uPa s (order of
the mixture's viscosity: logarithmic mixing, computed). A tube of 0.5 m and 25 um asks 1500 bar for
that, one of 50 um 96 bar by the laminar law and more beyond Re 2100, one of 120 um 3 bar: only the
last passes everything at less than the 150 bar of the regulator.
"""

from __future__ import annotations

import dataclasses
import math

import numpy as np
import pytest

from methodlint.hydraulics.splitter import Split, split_flow
from methodlint.rehearsal.run import side_flows
from tests.rehearsal.runs import rehearsed
from tests.rules.harness import findings, judged

RULE = "pressure.restrictor-takes-all"
ISOCRATIC = "kind: method\nprogramme: []\nmobile_phase: {modifier: {liquid: methanol, line: "
ISOCRATIC += "modifier-1}, modifier_share: 20 % v/v}\n"


def _lab(splitter: str, method: str = ISOCRATIC) -> str:
    return f"""{method}---
kind: instrument
train:
  - {{part: mixer, name: mixer, volume: 0.2 mL}}
  - {{part: column}}
  - {{part: splitter, name: splitter{splitter}}}
  - {{part: regulator, name: regulator, pressure_rating: 380 bar}}
"""


def _restrictor(bore: str, length: str = "0.5 m") -> str:
    return f", active: false, length: {length}, bore: {bore}"


def test_silent_without_a_splitter() -> None:
    assert judged(ISOCRATIC, RULE).checked == 0


def test_silent_for_a_splitter_that_is_bypassed() -> None:
    assert judged(_lab(_restrictor("120 um") + ", bypassed: true"), RULE).checked == 0


def test_silent_where_a_pump_or_valve_keeps_the_ratio() -> None:
    report = judged(_lab(", split_ratio: 30 %, active: true, length: 0.5 m, bore: 120 um"), RULE)
    assert report.checked == 0


def test_silent_where_the_ratio_was_measured_and_the_restrictor_is_not_known() -> None:
    report = judged(_lab(", split_ratio: 10 %, active: false"), RULE)
    assert (report.checked, report.not_checked) == (0, [])


def test_silent_behind_a_passive_restrictor_that_divides_with_it() -> None:
    passive = _lab(_restrictor("120 um")) + "regulator: {kind: passive restrictor}\n"
    assert judged(passive, RULE).checked == 0


@pytest.mark.parametrize("bore", ["25 um", "50 um"])
def test_silent_where_the_main_line_keeps_most_of_the_stream(bore: str) -> None:
    report = judged(_lab(_restrictor(bore)), RULE)
    assert (report.findings, report.not_checked) == ([], [])
    assert report.checked == 1


def test_silent_while_the_pumps_stand() -> None:
    stands = ISOCRATIC.replace("programme: []", "programme: [{time: 0 min, flow: 0 mL/min}]")
    assert findings(_lab(_restrictor("25 um"), stands), RULE) == []


def test_a_wide_restrictor_dries_the_line_to_the_regulator() -> None:
    report = judged(_lab(_restrictor("75 um")), RULE)
    (found,) = report.findings
    assert (found.grade, found.possible) == ("fault", False)
    assert found.at.path == ("train", 2, "bore")
    assert found.limit is not None
    assert found.limit.value == pytest.approx(150.0)
    assert "its line is dry" in found.message
    assert found.when is not None
    assert found.when.start == 0.0
    assert found.found is not None
    assert found.band is not None
    assert found.found.value < 150.0 - found.band.value


def test_the_change_offered_leaves_the_regulator_its_stream() -> None:
    (found,) = findings(_lab(_restrictor("120 um")), RULE)
    assert found.remedy.startswith("replace the restrictor by one of 50 um bore")


def test_a_limit_within_the_band_is_a_caution() -> None:
    (found,) = findings(_lab(_restrictor("65 um")), RULE)
    assert (found.grade, found.possible) == ("caution", True)
    assert "may take the whole stream" in found.message


def test_it_explains_that_the_ratio_moves() -> None:
    gradient = "kind: method\ndetectors: [{type: MS, source: ESI, polarity: positive}]\n"
    lab = _lab(_restrictor("120 um"), gradient)
    found = findings(lab, RULE, "makeup.split-not-as-stated")
    (dry,) = (one for one in found if one.rule == RULE)
    assert [child.rule for child in dry.because] == ["makeup.split-not-as-stated"]


def test_laminar_drop_of_the_whole_stream_is_that_of_hagen_and_poiseuille() -> None:
    """0.3 mL/min through 1 m of 50 um is laminar: Re below 1000."""
    slow = ISOCRATIC + "flow: 0.3 mL/min\n"
    lab = _lab(_restrictor("50 um", "1 m"), slow)
    (found,) = findings(lab, RULE)
    run = rehearsed(lab)
    state = run.restrictor
    assert state is not None
    assert found.found is not None
    at = run.slices_of(run.train.index("splitter")).start
    w, T = run.w_modifier[0, at], run.temperature[0, at]
    low = float(run.fluid.upper_boundary_pressure(w, T))
    rho, eta = run.fluid.density_and_viscosity(w, T, 0.5 * (low + found.found.value * 1e5))
    volume_flow = float(state.stream[0]) / float(rho)
    drop = 128.0 * float(eta) * 1.0 * volume_flow / (math.pi * 50e-6**4)
    assert found.found.value * 1e5 - low == pytest.approx(drop, rel=0.03)


@pytest.mark.parametrize("key", ["length: 0.5 m", "bore: 50 um"])
def test_half_a_restrictor_is_not_checked(key: str) -> None:
    (left,) = judged(_lab(f", active: false, {key}"), RULE).not_checked
    other = "bore" if key.startswith("length") else "length"
    assert left.missing == (f"instrument.train[2].{other}",)


def test_a_division_that_was_not_found_is_not_checked(monkeypatch: pytest.MonkeyPatch) -> None:
    def unsettled(*given: object) -> Split:
        split = split_flow(*given)  # type: ignore[arg-type]
        return dataclasses.replace(split, settled=np.zeros_like(split.settled))

    monkeypatch.setattr(side_flows, "split_flow", unsettled)
    # A title of its own, for rehearsals are kept for the other tests.
    lab = _lab(_restrictor("25 um"), f"{ISOCRATIC}title: not settled\n")
    (left,) = judged(lab, RULE).not_checked
    assert left.missing == ("instrument.train[2].split_ratio",)
    assert "at 0 min was not found" in left.reason
