"""`supply.shared-manifold`: everybody's CO2 together; common practice, no source."""

from __future__ import annotations

from methodlint.rehearsal.bench.vents import highest_co2_flow
from tests.rules.harness import findings, judged

RULE = "supply.shared-manifold"
BOOKED = """
kind: supply
shared_with: [bench-b]
bookings:
  - {instrument: bench-b, mass: 23 kg, ends: "2026-11-24T18:00"}
"""


def test_silent_for_a_supply_of_one() -> None:
    assert findings("", RULE) == []


def test_silent_for_a_bulk_tank_that_reports_its_level() -> None:
    assert findings(f"{BOOKED}withdrawal: bulk\ntelemetry: true", RULE) == []


def test_bulk_tank_without_telemetry_is_reckoned() -> None:
    assert len(findings(f"{BOOKED}withdrawal: bulk", RULE)) == 1


def test_silent_where_it_serves_all() -> None:
    assert findings(BOOKED.replace("23 kg", "5 kg"), RULE) == []


def test_silent_where_this_sequence_alone_runs_out() -> None:
    """That is said by supply.cylinder-runs-out."""
    assert findings(f"{BOOKED}net_mass: 8.3 kg\nheel: 0.2 kg", RULE) == []


def test_silent_for_the_booking_of_the_sequences_own_instrument() -> None:
    """One card serves all instruments, so it may name this one too."""
    own = BOOKED.replace("bench-b", "instrument")
    assert findings(own, RULE) == []
    assert judged("kind: supply\nshared_with: [instrument]", RULE).not_checked == []


def test_fires_with_who_how_much_and_until_when() -> None:
    [finding] = findings(BOOKED, RULE)
    assert finding.grade == "caution"
    assert "bench-b 23 kg until 2026-11-24 18:00" in finding.message
    assert "short by" in finding.message


def test_gas_drawn_too_fast_cools_the_cylinder() -> None:
    """1.3 g/min are 78 g/h, more than 10 % of 0.7 kg."""
    vapour = "withdrawal: vapour\nnet_mass: 0.7 kg\nheel: 0 kg\nwater_capacity: 1 L\n"
    found = findings(BOOKED.replace("23 kg", "0 kg") + vapour, RULE)
    assert any("cools itself" in finding.message for finding in found)


def test_gas_drawn_is_told_as_a_part_of_the_charge_by_the_hour() -> None:
    """Arithmetic from the flow of the batch, at a charge small enough to show every digit."""
    vapour = "withdrawal: vapour\nnet_mass: 1 g\nheel: 0 kg\nwater_capacity: 1 L\n"
    report = judged(BOOKED.replace("23 kg", "0 kg") + vapour, RULE)
    grams_a_minute = highest_co2_flow(report.batches[0].batch) * 1e3 * 60.0
    (found,) = [each for each in report.findings if "cools itself" in each.message]
    assert f"is {100.0 * grams_a_minute * 60.0 / 1.0:.0f} % of the charge" in found.message


def test_not_checked_without_the_other_bookings() -> None:
    report = judged("kind: supply\nshared_with: [bench-b]", RULE)
    assert [item.missing for item in report.not_checked] == [("supply.bookings",)]
    assert "bench-b" in report.not_checked[0].reason
