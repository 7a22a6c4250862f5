"""Twelve preparative labs and twelve of detectors, each with a silent twin.

What must be found is chemistry and arithmetic written down before the tool ran: common practice,
no source, save where a rule's own page names one.
"""

from __future__ import annotations

from functools import cache

import pytest

from tests.rules.harness import judged

PREP = "kind: sequence\npurpose: preparative\n---\nkind: method\npurpose: preparative\n"
UV = "kind: instrument\ntrain:\n  - {{part: mixer, volume: 0.2 mL}}\n  - {{part: column}}\n"
TRAIN = (
    UV
    + "  - {{part: cell, name: UV cell, volume: 11 uL, detector: UV{}}}\n  - {{part: regulator}}\n"
)
PEAKS = (
    "expected_peaks: [{name: A, retention_time: 3 min, width: 24 s, collected: true}, "
    "{name: B, retention_time: 4 min, width: 24 s, collected: true}]\n"
)


def injected(more: str) -> str:
    return f"injection: {{volume: 5 uL, mode: metered, stream: modifier, {more}}}\n"


def stacked(every: str, more: str = "") -> str:
    return PREP + injected(f"stacked_every: {every}{more}") + PEAKS


def collects(fractions: str, more: str = "") -> str:
    return f"{PREP}{PEAKS}collection: {{fractions: [{fractions}]{more}}}\n"


def collector(text: str) -> str:
    return f"---\nkind: instrument\ncollector: {{{text}}}\n"


FRACTION = "{peak: A, begins: 2.75 min, ends: 3.25 min}"
WIDE = collector("kind: open bed, vessels: 4, vessel_capacity: 500 mL, inerted: true")
CARD = "---\nkind: instrument\nms: {source: ESI, highest_liquid_flow: 1 mL/min, settings: ["
TABLE = (
    CARD + "{highest_liquid_flow: 0.2 mL/min, temperature: 150 degC}, "
    "{highest_liquid_flow: 1 mL/min, temperature: 350 degC}]}\n"
)
MS = "kind: method\ndetectors: [{{type: MS, source: ESI, polarity: positive{}}}]\n"
NEAT = "programme: null\nmobile_phase: {modifier: null, modifier_share: 0 % v/v}\n"
FID = "kind: method\ndetectors: [{type: FID}]\n"
GUARD = "---\nkind: instrument\nfid: {flame_out_shutoff: true, hydrogen_from: generator}\n"
ELSD = "kind: method\ndetectors: [{type: ELSD}]\n"
STEADY = "programme: null\nmobile_phase: {modifier: {liquid: methanol, line: modifier-1"
SALT = ", additives: [{{additive: {}, level: {}}}]}}, modifier_share: 20 % v/v}}\n"

# Name, rule that must speak, the lab, and its twin about which it must be silent.
PREPARATIVE = [
    ("peaks of two injections meet", "collection.stacked-windows-collide",
     stacked("1 min"), stacked("2.2 min")),
    ("the injection disturbs a collected peak", "collection.stacked-windows-collide",
     stacked("2.9 min", ", disturbance: 15 s"), stacked("2.6 min", ", disturbance: 6 s")),
    ("a peak wider than the interval", "collection.stacked-windows-collide",
     stacked("0.3 min"), stacked("6 min")),
    ("the valve opens late", "collection.window-misses-peak",
     collects("{peak: A, begins: 3.1 min, ends: 3.6 min}"), collects(FRACTION)),
    ("the valve closes early", "collection.window-misses-peak",
     collects("{peak: B, begins: 3.7 min, ends: 3.95 min}"),
     collects("{peak: B, begins: 3.75 min, ends: 4.25 min}")),
    ("a long tube to the valve", "collection.window-misses-peak",
     collects(FRACTION) + collector("kind: open bed, delay_volume: 2 mL, inerted: true"),
     collects(FRACTION) + collector("kind: open bed, delay_volume: 5 uL, inerted: true")),
    ("small vessels", "collection.vessel-overflows",
     collects(FRACTION, ", makeup: 2 mL/min")
     + collector("kind: open bed, vessels: 4, vessel_capacity: 2 mL, inerted: true"),
     collects(FRACTION, ", makeup: 2 mL/min") + WIDE),
    ("too few vessels", "collection.vessel-overflows",
     collects(FRACTION, ", vessels_per_fraction: 6") + WIDE, collects(FRACTION) + WIDE),
    ("a cyclone downstream of a narrow line", "pressure.collector-rating-exceeded",
     PREP + collector("kind: cyclone, pressure_rating: 1.2 bar, vent_length: 4 m, vent_bore: 0.5 mm"),
     PREP + collector("kind: cyclone, pressure_rating: 6 bar, vent_length: 4 m, vent_bore: 8 mm")),
    ("a racemate that precipitates", "injection.precipitates-in-loop",
     PREP + "injection: {volume: 5 uL, stream: mixed, sample_concentration: 80 mg/mL, "
     "solubility: 10 mg/mL}\n",
     PREP + "injection: {volume: 5 uL, stream: mixed, sample_concentration: 8 mg/mL, "
     "solubility: 10 mg/mL}\n"),
    ("a bed overloaded tenfold", "injection.overloads-bed",
     PREP + "injection: {volume: 5 mL, mode: metered, stream: modifier, sample_concentration: "
     "100 mg/mL}\n",
     PREP + "injection: {volume: 5 uL, mode: metered, stream: modifier, sample_concentration: "
     "100 mg/mL}\n"),
    ("modifier comes back with recycled CO2", "supply.recycled-carries-over",
     "kind: supply\nrecycled: {modifier_share: 3 % v/v, water: 10 ppm}\n",
     "kind: supply\nrecycled: {modifier_share: 0.1 % v/v, water: 10 ppm}\n"),
]  # fmt: skip
DETECTORS = [
    ("methanol in the flame", "detector.organic-reaches-flame", FID + GUARD, FID + NEAT + GUARD),
    ("makeup in the flame", "detector.organic-reaches-flame",
     FID + NEAT + "makeup: {liquid: ethanol, flow: 0.2 mL/min}\n" + GUARD,
     FID + "programme: null\nmobile_phase: {modifier: {liquid: water}, modifier_share: 1 % v/v}\n"
     + GUARD),
    ("hydrogen without a shut-off", "safety.hydrogen-unguarded",
     FID + NEAT + "---\nkind: instrument\nfid: {flame_out_shutoff: false}\n", FID + NEAT + GUARD),
    ("hydrogen in a still room", "safety.hydrogen-unguarded",
     FID + NEAT + GUARD + "---\nkind: room\nair_changes: 0.2 1/h\n", FID + NEAT + GUARD),
    ("40 mM salt in an aerosol", "detector.aerosol-background",
     ELSD + STEADY + SALT.format("ammonium acetate", "40 mM"),
     ELSD + STEADY + SALT.format("ammonium acetate", "5 mM")),
    ("phosphate in an aerosol", "solvent.salt-not-volatile",
     ELSD + STEADY + SALT.format("potassium dihydrogen phosphate", "1 mM"),
     ELSD + STEADY + SALT.format("ammonium formate", "1 mM")),
    ("a gradient on a CAD", "detector.aerosol-response-drifts",
     "kind: method\ndetectors: [{type: CAD}]\n", ELSD + STEADY + "}, modifier_share: 20 % v/v}\n"),
    ("an old lamp", "detector.lamp-or-range-exceeded",
     TRAIN.format(", lamp_used: 3000 h, lamp_life: 2000 h"),
     TRAIN.format(", lamp_used: 100 h, lamp_life: 2000 h")),
    ("a peak above the linear range", "detector.lamp-or-range-exceeded",
     "kind: method\ndetectors: [{type: UV, cell: UV cell, wavelength: 254 nm, "
     "highest_absorbance: 2.8}]\n---\n" + TRAIN.format(", highest_absorbance: 2"),
     "kind: method\ndetectors: [{type: UV, cell: UV cell, wavelength: 254 nm, "
     "highest_absorbance: 0.8}]\n---\n" + TRAIN.format(", highest_absorbance: 2")),
    ("a wide band", "detector.bandwidth-too-wide",
     "kind: method\ndetectors: [{type: UV, cell: UV cell, wavelength: 254 nm, bandwidth: 50 nm}]\n",
     "kind: method\ndetectors: [{type: UV, cell: UV cell, wavelength: 254 nm, bandwidth: 8 nm}]\n"),
    ("a cold cell", "detector.cell-far-from-oven",
     TRAIN.format(", temperature: 15 degC"), TRAIN.format(", temperature: 38 degC")),
    ("a cold source", "makeup.source-settings-too-low",
     MS.format(", source_temperature: 150 degC") + TABLE,
     MS.format(", source_temperature: 350 degC") + TABLE),
]  # fmt: skip
LABS = [*PREPARATIVE, *DETECTORS]


@cache
def said(changes: str) -> frozenset[str]:
    """Ids of the rules that speak about a lab, consequences included."""
    report = judged(changes)
    found = {finding.rule for finding in report.findings}
    return frozenset(found | {f.rule for finding in report.findings for f in finding.because})


def test_there_are_twelve_of_each() -> None:
    assert (len(PREPARATIVE), len(DETECTORS)) == (12, 12)


@pytest.mark.parametrize(("name", "rule", "lab", "twin"), LABS, ids=[lab[0] for lab in LABS])
def test_the_lab_is_found_and_its_twin_is_not(name: str, rule: str, lab: str, twin: str) -> None:
    assert rule not in said(twin)
    assert rule in said(lab)
