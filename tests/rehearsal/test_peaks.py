"""Peak widths against the definition of the plate number and worked scenarios."""

from __future__ import annotations

import pytest

from methodlint.checking.assemble import rehearse_cases
from methodlint.judging.case import RunCase
from methodlint.rehearsal.run import peaks
from methodlint.rulebook.examples import lab_with

UL2 = 1e-18  # m6


def _case(changes: str) -> RunCase:
    documents = lab_with(changes)
    case = RunCase(
        documents={kind: documents[kind] for kind in ("method", "column", "instrument")},
        columns=(documents["column"],),
    )
    rehearse_cases([case])
    assert case.rehearsal is not None
    assert not case.rehearsal.missing
    return case


def _widths(changes: str) -> tuple[peaks.PeakWidth, ...]:
    case = _case(changes)
    assert case.method is not None
    return peaks.peak_widths(case.method, case.column)


def test_width_is_that_of_the_definition() -> None:
    """N = 16 (tR/w)^2, IUPAC, Pure Appl. Chem. 65, 819 (1993)."""
    width = peaks.base_width(66.0, 7000.0)
    assert 16.0 * (66.0 / width) ** 2 == pytest.approx(7000.0)


def test_width_of_the_triazole_scenario() -> None:
    """4 x 66 / sqrt(7000) = 3.2 s (scenario arithmetic, common practice)."""
    assert peaks.base_width(66.0, 7000.0) == pytest.approx(3.2, abs=0.05)


def test_a_given_width_wins_over_plates() -> None:
    (peak,) = _widths(
        "kind: method\nexpected_peaks: "
        "[{name: A, retention_time: 2 min, plates: 10000, width: 3 s}]"
    )
    assert peak.basis == "width given"
    assert peak.width == pytest.approx(3.0)
    assert not peak.guessed


def test_plates_of_the_peak_win_over_those_of_the_column() -> None:
    (peak,) = _widths(
        "kind: method\nexpected_peaks: [{name: A, retention_time: 2 min, plates: 10000}]"
    )
    assert peak.basis == "plates of the peak"
    assert peak.width == pytest.approx(4.8)


def test_the_plates_of_the_column_are_said_to_be_a_guess() -> None:
    (peak,) = _widths(
        "kind: column\nplates: 14400\n---\n"
        "kind: method\nexpected_peaks: [{name: A, retention_time: 2 min}]"
    )
    assert peak.width == pytest.approx(4.0)
    assert peak.guessed
    assert "guess" in peak.words


def test_a_peak_without_figures_is_left_out() -> None:
    found = _widths(
        "kind: column\nplates: null\n---\nkind: method\nexpected_peaks: "
        "[{name: A, retention_time: 2 min}, {name: B, width: 4 s}]"
    )
    assert [(peak.index, peak.name) for peak in found] == [(1, "B")]


def test_narrowest_and_first() -> None:
    found = _widths(
        "kind: method\nexpected_peaks: [{name: A, retention_time: 4 min, width: 2 s}, "
        "{name: B, retention_time: 1 min, width: 5 s}, {name: C, width: 9 s}]"
    )
    narrowest, first = peaks.narrowest_peak(found), peaks.first_peak(found)
    assert narrowest is not None and narrowest.name == "A"
    assert first is not None and first.name == "B"
    assert peaks.narrowest_peak(()) is None
    assert peaks.first_peak(found[2:]) is None


@pytest.mark.parametrize(
    ("inner_diameter", "length", "retention_factor", "plates", "variance"),
    [
        ("3.0 mm", "100 mm", 1.0, 18000.0, 47.0),
        ("4.6 mm", "250 mm", 2.0, 12000.0, 5470.0),
    ],
)
def test_volume_variance_of_the_catalogue_columns(
    inner_diameter: str, length: str, retention_factor: float, plates: float, variance: float
) -> None:
    """47 uL2 and 5470 uL2: V_R^2 / N with a total porosity of 0.65 (scenario arithmetic)."""
    column = (
        f"kind: column\nlength: {length}\ninner_diameter: {inner_diameter}\n"
        f"particle_size: 5 um\ntotal_porosity: 0.65\nplates: {plates}\n---\n"
        "kind: method\nprogramme: []\n"
        "mobile_phase: {modifier_share: 10 % v/v, modifier: methanol}\n"
    )
    hold_up = peaks.hold_up_time_at(_case(column).run, 60.0)
    assert hold_up is not None
    retained = (1.0 + retention_factor) * hold_up
    case = _case(column + f"expected_peaks: [{{name: A, retention_time: {retained!r} s}}]")
    assert case.method is not None
    (peak,) = peaks.peak_widths(case.method, case.column)
    sigma = peaks.volume_sigma(case.run, peak)
    assert sigma is not None
    assert sigma**2 == pytest.approx(variance * UL2, rel=0.02)


def test_the_flow_in_the_column_carries_the_metered_mass() -> None:
    case = _case("kind: method")
    flow = peaks.column_flow_at(case.run, 0.0)
    mass = float(case.run.co2_mass_flow[0] + case.run.modifier_mass_flow[0])
    bed = case.run.slices_of(case.run.plan.analytical_column)
    assert flow is not None
    assert flow * float(case.run.density[0, bed].mean()) == pytest.approx(mass, rel=1e-6)


def test_a_cell_of_13_ul_adds_14_ul2() -> None:
    """13^2 / 12 = 14 uL2 (scenario arithmetic)."""
    assert peaks.plug_variance(13e-9) == pytest.approx(14.08 * UL2, rel=1e-3)
    assert peaks.plug_of_variance(peaks.plug_variance(13e-9)) == pytest.approx(13e-9)


def test_plug_limit_of_the_3_mm_column() -> None:
    """A tenth of (6.8 uL)^2 is the plug of 7.4 uL (scenario arithmetic; 6.8 rounded)."""
    assert peaks.plug_of_variance(0.1 * 46.8 * UL2) == pytest.approx(7.4e-9, rel=0.02)


def test_plate_loss_of_the_catalogue() -> None:
    """85 uL2 beside 356 uL2 cost 19 % (scenario arithmetic)."""
    assert peaks.plate_loss(85.0, 356.0) == pytest.approx(0.19, abs=0.005)
    assert peaks.plate_loss(0.0, 1.0) == 0.0
