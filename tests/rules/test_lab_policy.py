"""Every threshold of a lab's policy is used: the same documents are judged with and without it.

What a lab may set is common practice; the sound lab stands on the other side of each threshold.
"""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from methodlint.checking.check import check
from methodlint.checking.report import Report
from methodlint.documents.kinds.lab import ExposureLimits, Policy, TransferAllowances
from methodlint.reports.card.blocks import Table
from methodlint.reports.card.contents import card_blocks
from tests.command import ROOT
from tests.rules.harness import judged
from tests.rules.history.logged import GOOD, daily, findings
from tests.rules.sequence.lines import controls, line, samples, sequence

QC = controls("lower")
TWO_QC = controls("lower", "upper")
LATE = "kind: sequence\nbegins: 2026-11-24T16:00\n"
NO_HOURS = "---\nkind: room\nstaffed: null\n---\nkind: instrument\ntrips: {leak_sensor: false}\n"
SALT = "additives: [{additive: ammonium formate, level: 10 mM}]"
HALF_WATER = f"liquids: [{{liquid: methanol, share: 40 %}}, {{liquid: water, share: 60 %}}], {SALT}"
BOTTLE = "kind: solvents\nbottles:\n  - {{line: modifier-1, {}}}\n"
WASTE = "kind: room\nwaste: [{name: bottle, capacity: 5 L, level: 4.2 L}]\n"
THIN = "kind: method\noven_temperature: 60 degC\noutlet_pressure: 130 bar\n"
WEIGHED = "kind: supply\nweighed: 2026-11-20\n"
LOADED = (
    "kind: method\ninjection: {volume: 200 uL, mode: metered, sample_concentration: 50 mg/mL}\n---\n"
    "kind: sequence\npurpose: preparative\n---\nkind: column\nlength: 100 mm\ninner_diameter: 3 mm\n"
)
HEAVY_USE = "kind: supply\nnet_mass: 12.0 kg\nheel: null\n"

# Threshold, the lab's value, documents, rule, and whether the rule speaks without and with it.
USED = [
    ("samples_between_brackets", "5", sequence(QC, samples(9), QC, purpose="regulated"),
     "sequence.not-bracketed", False, True),
    ("time_between_brackets", "1 h", sequence(QC, samples(9), QC, purpose="regulated"),
     "sequence.not-bracketed", False, True),
    ("bracketing_required", "true", sequence(QC, samples(3)),
     "sequence.not-bracketed", False, True),
    ("samples_per_control", "2", sequence(TWO_QC, samples(9), TWO_QC),
     "sequence.qc-too-few", False, True),
    ("injections_between_controls", "30", sequence(QC, samples(25), QC),
     "sequence.qc-unevenly-spread", True, False),
    ("blanks_at_start", "2", "kind: lab\n", "sequence.no-opening-blank", False, True),
    ("conditioning_injections", "9", "kind: lab\n", "sequence.no-opening-blank", False, True),
    ("blank_after_highest", "true",
     sequence(line("calibrator", "C9", level=9), samples(2)),
     "sequence.no-carryover-blank", False, True),
    ("suitability_replicates", "6", "kind: lab\n",
     "sequence.sst-too-few-or-without-criteria", False, True),
    ("calibration_levels", "8", "kind: lab\n", "sequence.calibration-too-few-levels", False, True),
    ("cylinder_heel", "6 kg", HEAVY_USE, "supply.cylinder-runs-out", False, True),
    ("weighing_valid_for", "7 d", WEIGHED, "supply.weight-stale", True, False),
    ("monitor_tested_within", "30 d", "kind: lab\n", "safety.no-co2-monitor", False, True),
    ("boundary_margin", "60 bar", THIN, "pressure.margin-to-boundary-thin", False, True),
    ("mass_load", "5 %", LOADED, "injection.overloads-bed", True, False),
    ("waste_fill", "95 %", WASTE, "waste.bottle-overflows", True, False),
    ("additive_shelf_life", "2 d", BOTTLE.format(f"liquid: methanol, opened: 2026-11-20, {SALT}"),
     "solvent.expired", False, True),
    ("aqueous_shelf_life", "10 d", BOTTLE.format(f"{HALF_WATER}, opened: 2026-11-18"),
     "solvent.expired", True, False),
    ("ether_shelf_life", "30 d", BOTTLE.format("liquid: THF, opened: 2026-10-01"),
     "solvent.peroxide-former", False, True),
    ("purpose", "regulated",
     "kind: method\npurpose: null\n---\n" + sequence(samples(2), purpose=None),
     "sequence.no-sst", False, True),
    ("staffed", '{begins: "07:00", ends: "22:00"}', LATE + NO_HOURS,
     "safety.unattended-without-trips", True, False),
]  # fmt: skip


def _speaks(report: Report, rule: str) -> bool:
    return any(f.rule == rule for f in report.findings) or bool(report.not_checked)


@pytest.mark.parametrize(
    ("name", "value", "documents", "rule", "without", "with_it"), USED, ids=[u[0] for u in USED]
)
def test_the_threshold_decides(
    name: str, value: str, documents: str, rule: str, without: bool, with_it: bool
) -> None:
    assert _speaks(judged(documents, rule), rule) is without
    policy = f"kind: lab\npolicy: {{{name}: {value}}}\n"
    text = policy if documents == "kind: lab\n" else f"{policy}---\n{documents}"
    assert _speaks(judged(text, rule), rule) is with_it


ELSEWHERE = {
    "exposure_limits": "test_exposure_limits_are_the_lab_s",
    "bottle_reserve": "test_a_bottle_is_filled_with_the_lab_s_reserve",
    "allowance_set": "test_the_lab_chooses_its_allowance_set",
    "transfer_allowances": "test_the_lab_chooses_its_allowance_set",
    "review": "test_the_lab_sets_from_when_a_review_speaks",
    "two_persons_at_vessels": "test_the_lab_asks_for_two_persons_at_vessels",
}


def test_every_threshold_has_a_case() -> None:
    covered = {case[0] for case in USED} | set(ELSEWHERE)
    assert covered == set(Policy.model_fields)
    assert set(ELSEWHERE.values()) <= set(globals())
    for part in (Policy, ExposureLimits, TransferAllowances):
        assert part.model_config["extra"] == "forbid"


def test_a_lab_cannot_put_off_the_stop_of_an_old_ether() -> None:
    text = "kind: lab\npolicy: {ether_shelf_life: 400 d}\n---\n"
    text += BOTTLE.format("liquid: THF, opened: 2026-06-24")
    (found,) = judged(text, "solvent.peroxide-former").findings
    assert found.grade == "stop"


@pytest.mark.parametrize(
    ("limits", "speaks"),
    [
        ("{co2_long: 5000 ppm}", False),
        ("{co2_long: 500 ppm}", True),
        ("{co2_short: 500 ppm}", True),
    ],
)
def test_exposure_limits_are_the_lab_s(limits: str, speaks: bool) -> None:
    outlets = "[{name: separator, of: separator, ducted: false}]"
    text = (
        f"kind: lab\npolicy: {{exposure_limits: {limits}}}\n---\nkind: room\noutlets: {outlets}\n"
    )
    assert _speaks(judged(text, "safety.room-co2-steady"), "safety.room-co2-steady") is speaks


def test_a_bottle_is_filled_with_the_lab_s_reserve() -> None:
    empty = "kind: solvents\nbottles: [{line: modifier-1, liquid: methanol, fill: 61 mL, dead_volume: 60 mL}]\n"
    (usual,) = judged(empty, "solvent.reservoir-too-small").findings
    policy = "kind: lab\npolicy: {bottle_reserve: 50 %}\n---\n"
    (ours,) = judged(policy + empty, "solvent.reservoir-too-small").findings
    assert ours.limit == usual.limit
    assert _millilitres(ours.remedy) > _millilitres(usual.remedy)


def _millilitres(remedy: str) -> float:
    return float(remedy.partition(" mL")[0].rpartition(" ")[2])


TRANSFERRED = """
kind: method
x-name: before
purpose: regulated
---
kind: method
purpose: regulated
transferred_from: before
oven_temperature: 48 degC
---
kind: sequence
purpose: regulated
"""


@pytest.mark.parametrize(
    ("policy", "speaks"),
    [
        ("{}", True),  # 8 K in a gradient: 5 K are allowed by the LC table, from memory
        ("{allowance_set: none}", False),
        ("{allowance_set: lab, transfer_allowances: {temperature: 10 K}}", False),
        ("{allowance_set: lab, transfer_allowances: {temperature: 4 K}}", True),
    ],
)
def test_the_lab_chooses_its_allowance_set(policy: str, speaks: bool) -> None:
    rule = "transfer.allowed-change-exceeded"
    report = judged(f"kind: lab\npolicy: {policy}\n---\n{TRANSFERRED}", rule)
    assert any(f.grade == "fault" for f in report.findings) is speaks


def test_the_hours_of_a_room_go_before_those_of_the_lab() -> None:
    text = LATE + "---\nkind: instrument\ntrips: {leak_sensor: false}\n---\nkind: lab\n"
    text += 'policy: {staffed: {begins: "07:00", ends: "22:00"}}\n'
    assert judged(text, "safety.unattended-without-trips").findings


def test_the_purpose_of_a_document_goes_before_that_of_the_lab() -> None:
    text = "kind: lab\npolicy: {purpose: regulated}\n---\n" + sequence(
        samples(2), purpose="research"
    )
    (found,) = judged(text, "sequence.no-sst").findings
    assert found.grade == "note"


@pytest.mark.parametrize(
    ("threshold", "values", "key", "rule"),
    [
        ("resistance_change: 60 %", (*GOOD, 238, 239, 240, 240), "start_pressure: {} bar", "column-resistance-rises"),
        ("plates_loss: 60 %", (*[9000] * 6, *[6000] * 4), "peak: a, plates: {}", "plates-fall"),
        ("retention_change: 9 %", (*[2.5] * 6, *[2.65] * 4), "peak: a, retention_time: {} min", "retention-drifts"),
        ("co2_difference: 90 %", (83.0, 82.0, 81.0), "injections: 40, weight_after: {} kg", "co2-weighed-differs"),
        ("first_runs: 9", (*GOOD, 238, 239, 240, 240), "start_pressure: {} bar", "column-resistance-rises"),
    ],
)  # fmt: skip
def test_the_lab_sets_from_when_a_review_speaks(
    threshold: str, values: tuple[float, ...], key: str, rule: str
) -> None:
    text = daily(values, key)
    assert findings(text, f"history.{rule}") != []
    lab = f"kind: lab\npolicy: {{review: {{{threshold}}}}}\n"
    assert findings(text, f"history.{rule}", lab) == []


@pytest.mark.parametrize("two", [True, False])
def test_the_lab_asks_for_two_persons_at_vessels(tmp_path: Path, two: bool) -> None:
    shutil.copytree(ROOT / "example_methods", tmp_path / "lab")
    lab = tmp_path / "lab" / "lab.yaml"
    text = lab.read_text(encoding="utf-8")
    assert "\npolicy:\n" in text
    key = f"\npolicy:\n  two_persons_at_vessels: {str(two).lower()}\n"
    lab.write_text(text.replace("\npolicy:\n", key), encoding="utf-8")
    report = check(tmp_path / "lab" / "sound" / "resin-acid-collected.yaml")
    (block,) = (one for one in card_blocks(report.batches[0]) if one.key == "collection")
    assert isinstance(block, Table)
    assert ("second person" in dict(block.foot)["vessels"]) is two
