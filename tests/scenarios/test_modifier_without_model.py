"""Modifiers without a model: what needs no phases and no viscosity is judged all the same.

Ethyl acetate stands for a modifier that no model covers. The CO2 of a run follows from the set
flow and the density of CO2 in the pump head, between the outlet pressure and the pump's rating
(Span and Wagner 1996 by CoolProp).
"""

from __future__ import annotations

from functools import cache

import pytest
from CoolProp.CoolProp import PropsSI

from methodlint.checking.report import Report
from methodlint.reports.card.contents import card_blocks
from tests.text_labs import REMOVED, TextLab, base_lab, everything

NEEDS_NO_MODEL = {
    "gradient.reequilibration-short",
    "gradient.too-fast-for-mixer",
    "injection.prepared-after-injection",
    "injection.sample-not-stable-to-end",
    "safety.unattended-without-trips",
    "sequence.overruns-slot",
    "solvent.expired",
    "solvent.reservoir-too-small",
    "supply.cylinder-runs-out",
    "waste.bottle-overflows",
    "waste.vent-line-back-pressure",
}


def lab(liquid: str = "ethyl acetate") -> TextLab:
    """The sound lab with a modifier that has no model."""
    changed = base_lab().changed("method.mobile_phase.modifier.liquid", liquid)
    changed = changed.changed("solvents.bottles[0].liquid", liquid)
    return changed.changed("sequence.lines[18].liquid", liquid)


@cache
def sound() -> Report:
    return lab().judged()


def found(report: Report, rule: str) -> list[str]:
    return [f.message for f in everything(report.findings) if f.rule == rule]


def test_the_model_is_missed_once() -> None:
    assert len(found(sound(), "phase.no-model-for-modifier")) == 1


def test_only_what_needs_the_model_is_not_checked() -> None:
    unchecked = {item.rule for item in sound().not_checked}
    assert not unchecked & NEEDS_NO_MODEL
    assert "phase.two-phase-at-outlet" in unchecked
    assert "pressure.column-rating-exceeded" in unchecked


@pytest.mark.parametrize("rule", sorted(NEEDS_NO_MODEL))
def test_the_sound_twin_is_silent(rule: str) -> None:
    assert found(sound(), rule) == []


@pytest.mark.parametrize(
    ("rule", "path", "value"),
    [
        ("sequence.overruns-slot", "sequence.slot.length", "3 h"),
        ("solvent.reservoir-too-small", "solvents.bottles[0].fill", "120 mL"),
        ("waste.bottle-overflows", "room.waste[0].level", "3.98 L"),
        ("injection.vial-runs-dry", "sequence.lines[2].fill", "90 uL"),
        ("supply.cylinder-runs-out", "supply.net_mass", "8.2 kg"),
        ("safety.unattended-without-trips", "instrument.trips.low_pressure_stop", False),
        ("sequence.no-shutdown", "sequence.lines[19]", REMOVED),
        ("gradient.reequilibration-short", "method.settling_time", "0.2 min"),
        ("gradient.too-fast-for-mixer", "method.programme[1].time", "0.2 min"),
    ],
)
def test_what_needs_no_model_is_found(rule: str, path: str, value: object) -> None:
    changed = lab().changed(path, value)
    if rule in ("safety.unattended-without-trips", "sequence.no-shutdown"):
        changed = changed.changed("sequence.begins", "2026-11-24T17:00")
        changed = changed.changed("sequence.slot", {"begins": "2026-11-24T16:30", "length": "14 h"})
    if rule == "sequence.no-shutdown":
        changed = changed.changed("sequence.after", REMOVED)
    assert found(changed.judged(), rule)


def test_co2_goes_by_the_set_flow() -> None:
    """23 injections of 11 min and 0.7 min: shares by hand from the rows of the programme.

    Mean share of the cycle: (5 x 22.5 + 1 x 40 + 0.5 x 22.5 + 4.5 x 5) / 11 = 16.9 %.
    """
    [case] = sound().batches
    batch = case.batch
    each = next(line for line in batch.lines if line.injects)
    volume = 1.5e-6 * (11.0 * (1.0 - 0.1693) + 0.7 * 0.95)
    least, most = (PropsSI("D", "T", 281.15, "P", p, "CO2") for p in (150e5, 550e5))
    assert each.co2_per_injection == pytest.approx(volume * (least + most) / 2.0, rel=2e-3)
    assert batch.metering_band == pytest.approx((most - least) / (most + least), rel=0.01)


def test_a_modifier_with_a_model_keeps_its_narrow_band() -> None:
    [case] = base_lab().judged().batches
    assert case.batch.metering_band == 0.0


def test_one_method_without_a_model_does_not_silence_the_other() -> None:
    """A mixed batch: the second method has a model, and its switch is judged."""
    changed = base_lab()
    text = changed.texts["method/method"]
    changed = changed.with_text(
        "method/esters",
        text.replace(
            "{liquid: methanol, line: modifier-1}", "{liquid: ethyl acetate, line: modifier-2}"
        ),
    )
    changed = changed.changed("solvents.bottles[1].liquid", "ethyl acetate")
    changed = changed.changed("sequence.lines[14].method", "esters")
    report = changed.judged()
    assert found(report, "sequence.method-switch-no-flush") == []
    assert found(report, "sequence.method-switch-no-equilibration")
    assert not {item.rule for item in report.not_checked} & NEEDS_NO_MODEL


def test_the_card_says_that_the_co2_goes_by_the_set_flow() -> None:
    [case] = sound().batches
    assert "by set flow, +-6 %" in str(card_blocks(case))
    [twin] = base_lab().judged().batches
    assert "by set flow" not in str(card_blocks(twin))
