"""`supply.weight-stale`: a weight that says nothing about today; common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import judged

RULE = "supply.weight-stale"
OLD = "kind: supply\nweighed: 2026-11-10\nlast_used: 2026-11-20\n"


@pytest.mark.parametrize(
    "supply",
    [
        pytest.param("kind: supply", id="weighed the day before"),
        pytest.param(f"{OLD}telemetry: true", id="telemetry"),
        pytest.param(f"{OLD}used_since_weighed: 0 kg", id="nothing was drawn, as logged"),
        pytest.param(f"{OLD}withdrawal: bulk", id="bulk tank"),
        pytest.param(OLD.replace("11-20", "11-09"), id="not used since it was weighed"),
        pytest.param("kind: supply\nweighed: 2026-11-24", id="weighed on the day of the run"),
        pytest.param(
            "kind: supply\nweighed: 2026-11-25\n---\nkind: sequence\nbegins: null",
            id="nobody says when the run is",
        ),
        pytest.param("kind: supply\nweighed: 2026-12-23\ntelemetry: true", id="level is measured"),
        pytest.param("kind: supply\nweighed: 2026-12-23\nwithdrawal: bulk", id="tank, a later day"),
        pytest.param("kind: supply\nnet_mass: 95 kg", id="said by supply.overfilled"),
        pytest.param("kind: supply\nnet_mass: null", id="no weight: asked for elsewhere"),
        pytest.param("kind: supply\ngross_mass: 91.0 kg\ntare_mass: 60.0 kg", id="gross agrees"),
    ],
)
def test_silent(supply: str) -> None:
    report = judged(supply, RULE)
    assert report.findings == []
    assert report.not_checked == []


@pytest.mark.parametrize(
    ("supply", "missing", "says"),
    [
        (OLD, "supply.used_since_weighed", "14 d before the run; a sequence of 2026-11-20"),
        ("kind: supply\nweighed: 2026-11-10", "supply.used_since_weighed", "no use since"),
        ("kind: supply\nweighed: null", "supply.weighed", "does not say when"),
        ("kind: supply\nnet_mass: 40 kg", "supply.net_mass", "cylinder and CO2 together"),
        (
            "kind: supply\nnet_mass: 95 kg\nwater_capacity: null",
            "supply.net_mass",
            "cylinder and CO2 together",
        ),
        (
            "kind: supply\ngross_mass: 55 kg\ntare_mass: 60 kg",
            "supply.gross_mass",
            "less than the empty 60.0 kg",
        ),
        (
            "kind: supply\ngross_mass: 95 kg\ntare_mass: 60 kg",
            "supply.net_mass",
            "is 35.0 kg, not 31.0 kg",
        ),
        ("kind: supply\nused_since_weighed: 40 kg", "supply.net_mass", "more than 31.0 kg"),
    ],
)
def test_not_checked_with_the_reason(supply: str, missing: str, says: str) -> None:
    report = judged(supply, RULE)
    assert report.findings == []
    [item] = report.not_checked
    assert item.missing == (missing,)
    assert says in item.reason
    assert "only as good as this weight" in item.reason


@pytest.mark.parametrize(("day", "late"), [("2026-11-25", "1 d"), ("2026-12-23", "29 d")])
def test_a_weighing_after_the_run_is_a_slip(day: str, late: str) -> None:
    report = judged(f"kind: supply\nweighed: {day}\nused_since_weighed: 1 kg", RULE)
    [finding] = report.findings
    assert finding.grade == "caution"
    assert finding.at.path == ("weighed",)
    assert f"weighed on {day}, {late} after the run of 2026-11-24" in finding.message
    assert report.not_checked == []


def test_a_weight_that_cannot_be_is_still_told_beside_it() -> None:
    report = judged("kind: supply\nweighed: 2026-12-23\nnet_mass: 40 kg", RULE)
    assert [finding.grade for finding in report.findings] == ["caution"]
    assert "cylinder and CO2 together" in report.not_checked[0].reason


def test_note_of_what_is_taken_off() -> None:
    [finding] = judged(f"{OLD}used_since_weighed: 4.2 kg", RULE).findings
    assert finding.grade == "note"
    assert "14 d before the run; 4.2 kg logged since" in finding.message
