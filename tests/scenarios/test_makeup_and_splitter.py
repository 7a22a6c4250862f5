"""Makeup and splitter: pressures, source and deposits have one answer to where the makeup goes.

By hand: 10 % of 1.5 mL/min with 20 % methanol is 0.03 mL/min of liquid; a makeup of 0.4 mL/min ahead of
the splitter adds 0.04 mL/min, 0.07 together; on the branch all of it arrives, 0.43 mL/min.
"""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from methodlint.checking.report import Report
from methodlint.rehearsal.run.rehearsal import Rehearsal
from tests.text_labs import TextLab, base_lab, everything

STARVED = "makeup.missing-at-low-modifier"
FLOODED = "makeup.total-liquid-too-high"
TEE = {"part": "tee", "name": "makeup tee", "pressure_rating": "380 bar"}
SPECTROMETER = {
    "type": "MS",
    "source": "ESI",
    "polarity": "positive",
    "scan": [100, 600],
    "rate": "10 Hz",
}
SPLITTER = {"part": "splitter", "name": "splitter", "split_ratio": "10 %", "active": True}


def lab(
    *parts: dict[str, Any], flow: str = "0.4 mL/min", tee: str = "before the regulator"
) -> TextLab:
    """The sound lab with a mass spectrometer behind these parts, isocratic with 20 % methanol."""
    train = base_lab().plain("instrument/instrument")["train"]
    ahead = [part for part in train if part["part"] not in ("tee", "regulator", "source")]
    found = base_lab().changed("instrument.train", [*ahead, *parts, *train[-2:]])
    found = found.changed("method.programme", [])
    found = found.changed("method.mobile_phase.modifier_share", "20 % v/v")
    found = found.changed("method.pressure_limits.high", "300 bar")
    uv = base_lab().plain("method/method")["detectors"]
    found = found.changed("method.detectors", [*uv, SPECTROMETER])
    return found.changed(
        "method.makeup", {"liquid": "methanol", "line": "makeup", "flow": flow, "tee": tee}
    )


def messages(report: Report, rule: str) -> list[str]:
    return [f.message for f in everything(report.findings) if f.rule == rule]


def run_of(report: Report) -> Rehearsal:
    return report.runs[0].run


def test_a_source_starves_behind_a_splitter_that_divides_the_makeup_too() -> None:
    [message] = messages(lab(TEE, SPLITTER).judged(), STARVED)
    assert message.startswith("0.07 mL/min of liquid is left for the electrospray")


def test_twin_on_the_branch_the_source_gets_all_of_it() -> None:
    report = lab(SPLITTER, {**TEE, "stands_on": "branch"}).judged()
    assert messages(report, STARVED) == []
    assert messages(report, FLOODED) == []
    assert run_of(report).plan.makeup_flow == 0.0, "none of it flows to the regulator"


def test_behind_the_splitter_on_the_main_line_none_of_it_reaches_the_source() -> None:
    report = lab(SPLITTER, {**TEE, "stands_on": "main line"}).judged()
    [message] = messages(report, STARVED)
    assert message.startswith("0.03 mL/min")
    assert run_of(report).makeup_mass_flow.max() > 0.0


def test_what_stays_in_the_main_line_floods_no_source() -> None:
    """1.2 mL/min on the main line: a source for 1.0 mL/min gets 0.03 mL/min."""
    report = lab(SPLITTER, {**TEE, "stands_on": "main line"}, flow="1.2 mL/min").judged()
    assert messages(report, FLOODED) == []


def test_twin_on_the_branch_the_same_flow_is_a_stop() -> None:
    report = lab(SPLITTER, {**TEE, "stands_on": "branch"}, flow="1.2 mL/min").judged()
    [message] = messages(report, FLOODED)
    assert message.startswith("1.23 mL/min of liquid reaches the source")


def test_a_tee_that_does_not_say_is_asked_and_raises_nothing() -> None:
    report = lab(SPLITTER, TEE).judged()
    assert messages(report, STARVED) == []
    asked = [item.missing for item in report.not_checked if item.rule == STARVED]
    assert set(asked) == {("instrument.train[9].stands_on",)}
    assert report.verdict == lab(SPLITTER, {**TEE, "stands_on": "branch"}).judged().verdict


def test_a_tee_without_a_splitter_is_not_asked() -> None:
    report = lab(TEE).judged()
    assert [item for item in report.not_checked if item.rule == STARVED] == []
    assert messages(report, STARVED) == []


GRADIENT = [
    {"time": "0 min", "modifier_share": "5 % v/v"},
    {"time": "5 min", "modifier_share": "40 % v/v"},
    {"time": "6 min", "modifier_share": "40 % v/v"},
    {"time": "6.5 min", "modifier_share": "5 % v/v"},
]


def test_a_share_that_drifts_is_used_for_main_line_and_source() -> None:
    """Hagen and Poiseuille: flow goes as pressure over viscosity, so richer is less."""
    fixed = {**SPLITTER, "active": False, "split_ratio": "50 %"}
    branch = {**TEE, "stands_on": "branch"}
    report = lab(fixed, branch).changed("method.programme", GRADIENT).judged()
    run = run_of(report)
    assert run.split_share[0] == pytest.approx(0.5)
    rich = int(np.argmax(run.share[:, -1]))
    assert run.split_share[rich] < 0.35
    [message] = messages(report, "makeup.split-not-as-stated")
    assert f"to {100 * run.split_share.min():.3g} % of the stream" in message
    at = run.slices_of(run.train.of_kind("splitter")[0]).stop - 1
    left = run.mass_flow[:, at + 1] / run.mass_flow[:, at]
    assert left == pytest.approx(1.0 - run.split_share, abs=5e-3)


def test_twin_an_active_splitter_keeps_its_share() -> None:
    active = {**SPLITTER, "split_ratio": "50 %"}
    report = (
        lab(active, {**TEE, "stands_on": "branch"}).changed("method.programme", GRADIENT).judged()
    )
    assert run_of(report).split_share == pytest.approx(0.5)
    assert messages(report, "makeup.split-not-as-stated") == []


def test_a_drifting_share_invents_no_flood() -> None:
    """Half of 0.6 mL/min and 0.75 mL/min of makeup would be 1.05; by then the share has fallen."""
    fixed = {**SPLITTER, "active": False, "split_ratio": "50 %"}
    branch = {**TEE, "stands_on": "branch"}
    report = lab(fixed, branch, flow="0.75 mL/min").changed("method.programme", GRADIENT).judged()
    assert all("left" in message for message in messages(report, FLOODED))
    active = lab({**SPLITTER, "split_ratio": "50 %"}, branch, flow="0.75 mL/min")
    [message] = messages(active.changed("method.programme", GRADIENT).judged(), FLOODED)
    assert message.endswith("too much")
