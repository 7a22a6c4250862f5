"""Every field of every kind is used by a rule or a model; echoing it is no use."""

from __future__ import annotations

import pytest

from tests.sweep.field_use import Field, fields, inert_fields

INERT: dict[Field, str] = {
    ("Document", "comment"): "free text, never judged",
    ("Sequence", "operator"): "a name for the bench card",
    ("Sequence", "phone"): "a number for the bench card",
    ("Lab", "name"): "a name for the bench card",
    ("Lab", "phone"): "a number for the bench card",
    ("Lab", "emergency"): "the lab's own steps, printed as written",
    ("Lab", "external_registry"): "kept readable; a reference that leads nowhere is a fault anyway",
    ("Monitor", "place"): "where it is, in words",
    ("RiskAssessment", "reference"): "the number of a paper",
    ("LogEntry", "by"): "initials, never asked for",
    ("LogEntry", "remarks"): "free text, never judged",
    ("LogEntry", "bottles_changed"): "a record for people; levels count from the cards",
    ("Logbook", "table"): "entries are read from it before the document is typed",
}
"""Fields that nothing uses, each with its reason: 15 at most."""

# What the examples of no rule hold: each is read where a lab has it.
LABS = (
    """kind: column
flow_resistance: {value: 600, basis: t0}
ph_limits: [2, 8]
injections: {count: 5, limit: 3000, last_test: 2026-01-01, test_interval: 30 d}
---
kind: method
mobile_phase: {modifier: {line: modifier-1, liquid: null, ph: 9, liquids: [{liquid: methanol, share: 50 % v/v}, {liquid: water, share: 50 % v/v}]}}
""",
    """kind: column
measured_drop: {pressure_drop: 60 bar, flow: 1.5 mL/min, modifier: methanol, modifier_share: 10 % v/v, temperature: 40 degC, outlet_pressure: 150 bar}
---
kind: method
makeup: {line: makeup, liquid: methanol, tee: before the regulator, programme: [{time: 0 min, flow: 0.1 mL/min}, {time: 5 min, flow: 0.2 mL/min}]}
detectors: [{type: MS, source: ESI}]
---
kind: instrument
ms: {exhaust_ducted: true}
---
kind: room
outlets: [{name: separator, of: separator, ducted: false}]
risk_assessment: {on_file: true, date: 2026-03-02}
air_pressure: 0.9 bar
other_vents: [{instrument: bench-b, mass_flow: 2 g/min}]
---
kind: supply
place: inside
---
kind: lab
policy: {exposure_limits: {jurisdiction: house rule, co2_short: 15000 ppm}}
""",
    """kind: instrument
autosampler: {plates: {"1": tray}, vessels: [{name: tray, positions: 40, capacity: 2 mL, depth: 30 mm}]}
ms: {gas: nitrogen, gas_flow: 10 L/min}
---
kind: room
outlets: [{name: separator, of: separator, ducted: true}, {name: source, of: MS exhaust, ducted: false}]
---
kind: solvents
additive_shelf_life: 5 d
bottles:
  - {line: modifier-1, liquid: methanol, additives: [{additive: ammonium formate, level: 20 mM}], fill: 900 mL, opened: 2026-11-20}
  - {line: needle-wash, liquid: 2-propanol, fill: 500 mL, enters_flow: true}
  - {line: seal-wash, liquid: 2-propanol, fill: 500 mL, uses: 0.1 mL/min}
---
kind: sequence
lines:
  - {kind: calibrator, sample: low, level: 1, well: 1, fill: 1 mL}
  - {kind: calibrator, sample: high, level: 5000, well: 2, fill: 1 mL}
  - {kind: sample, sample: one, well: 7, fill: 1 mL}
""",
    """kind: solvents
bottles:
  - {line: modifier-1, liquids: [{liquid: water, share: 95 %}, {liquid: methanol, share: 5 %}], additives: [{additive: ammonium formate, level: 20 mM}], fill: 900 mL, opened: 2026-11-20}
  - {line: modifier-2, liquid: methanol, additives: [{additive: ammonium formate, level: 20 mM}], fill: 900 mL, opened: 2026-11-20}
---
kind: lab
classes: [{rule: pressure.low-limit-missing, to: note, reason: a house rule of this lab}]
policy: {additive_shelf_life: 5 d, aqueous_shelf_life: 2 d, allowance_set: lab, transfer_allowances: {flow: 10 %, length_to_particle: 10 %, minor_relative: 10 %, minor_absolute: 2 %, temperature: 3 degC, outlet_pressure: 5 %}}
---
kind: sequence
purpose: regulated
---
kind: method
purpose: regulated
pressure_limits: {low: null}
transferred_from: origin
transfer: {allowances: lab}
---
kind: method
x-name: origin
runs_on: [instrument]
flow: 1.4 mL/min
""",
    """kind: method
makeup: {liquid: methanol, flow: 0.2 mL/min, tee: before the regulator}
---
kind: instrument
train:
  - {part: mixer, name: mixer, volume: 0.2 mL}
  - {part: column}
  - {part: splitter, name: splitter, split_ratio: 10 %, active: true}
  - {part: tee, name: makeup tee, stands_on: branch}
  - {part: regulator, name: regulator}
""",
    """kind: method
detectors: [{type: FID}, {type: UV, cell: UV cell, wavelength: 254 nm}]
---
kind: room
air_changes: 0.2 1/h
---
kind: instrument
fid: {flame_out_shutoff: true, hydrogen_from: generator, hydrogen_monitor: true}
train:
  - {part: mixer, name: mixer, volume: 0.2 mL}
  - {part: column}
  - {part: cell, name: UV cell, volume: 11 uL, detector: UV, lamp_used: 300 h, lamp_life: 2000 h}
  - {part: regulator, name: regulator}
""",
    """kind: logbook
entries:
  - {date: 2026-09-01, start_pressure: 217 bar, highest_pressure: 300 bar, highest_share: 10 %, peaks: [{name: a, retention_time: 3 min, plates: 9000, tailing: 1.1}]}
  - {date: 2026-09-02, start_pressure: 217 bar, peak: a, retention_time: 3 min, plates: 9000, tailing: 1.1, by: X, remarks: none, bottles_changed: [modifier-1]}
---
kind: lab
policy: {review: {first_runs: 5, resistance_change: 15 %, plates_loss: 25 %, retention_change: 3 %, co2_difference: 20 %}}
""",
)  # fmt: skip


@pytest.mark.long
def test_no_field_is_read_by_nothing() -> None:
    inert = inert_fields(LABS)
    assert inert - set(INERT) == set(), "a field that nothing uses"
    assert set(INERT) - inert == set(), "a field that is used, or is not there"


def test_few_fields_are_inert_and_each_has_its_reason() -> None:
    assert len(INERT) <= 15
    assert all(len(reason) > 10 for reason in INERT.values())
    assert len(set(fields().values())) > 500
