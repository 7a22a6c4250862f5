"""Delays, equilibration volumes, filled rows and busy moments by hand calculation."""

from __future__ import annotations

import math

import pytest

from methodlint.checking.assemble import rehearse_cases
from methodlint.documents.kinds.base import Liquid
from methodlint.documents.kinds.method import Detector
from methodlint.judging.case import RunCase
from methodlint.rehearsal.plan.set_points import FilledRow, filled_rows, last_to_be_seen
from methodlint.rehearsal.run import absorbance, acquisition, arrival, equilibration
from methodlint.rulebook.examples import lab_with

MIN = 60.0

DYE = """
kind: method
oven_temperature: 25 degC
outlet_pressure: 110 bar
programme:
  - {time: 0 min, modifier_share: 5 % v/v, flow: 1.5 mL/min}
  - {time: 4 min, modifier_share: 40 % v/v}
  - {time: 4.1 min, modifier_share: 60 % v/v, flow: 1.0 mL/min, step: true}
  - {time: 6 min, modifier_share: 60 % v/v}
  - {time: 6.1 min, modifier_share: 90 % v/v, flow: 0.8 mL/min, step: true}
  - {time: 9 min, modifier_share: 90 % v/v}
  - {time: 9.1 min, modifier_share: 5 % v/v, step: true}
  - {time: 11 min, modifier_share: 5 % v/v}
  - {time: 11.1 min, modifier_share: 5 % v/v, flow: 1.5 mL/min}
run_length: 12 min
settling_time: 5 min
"""


def _case(changes: str) -> RunCase:
    documents = lab_with(changes)
    case = RunCase(
        documents={kind: documents[kind] for kind in ("method", "column", "instrument")},
        columns=(documents["column"],),
    )
    rehearse_cases([case])
    assert not case.run.missing
    return case


def test_dwell_delay_is_volume_over_flow() -> None:
    """0.52 mL at 1.5 mL/min take 0.347 min, 20.8 s (arithmetic)."""
    run = _case("kind: method").run
    assert arrival.arrival_at_column(run, 2 * MIN) == pytest.approx(2 * MIN + 20.8, abs=0.05)


def test_dwell_delay_beyond_the_end_of_the_cycle() -> None:
    run = _case("kind: method").run
    end = float(run.programme.time[-1])
    assert arrival.arrival_at_column(run, end) == pytest.approx(end + 20.8, abs=0.05)


def test_the_detector_comes_a_hold_up_time_later() -> None:
    run = _case("kind: method").run
    at_column = arrival.arrival_at_column(run, 0.0)
    assert arrival.arrival_at_detector(run, 0.0) == pytest.approx(
        at_column + float(run.hold_up_time[0]), rel=0.03
    )


def test_a_long_ramp_is_delivered_as_it_is_set() -> None:
    """35 % in 5 min are 7 %/min (arithmetic); a mixer of 0.2 mL hardly changes that."""
    run = _case("kind: method").run
    slope = arrival.delivered_slope(run, 0.0, 5 * MIN)
    assert slope * MIN == pytest.approx(0.07, rel=0.05)


def test_a_jump_is_flattened_by_the_mixer() -> None:
    """A first-order mixer passes a jump on at no more than jump x flow / volume."""
    run = _case(
        "kind: method\nprogramme:\n  - {time: 0 min, modifier_share: 5 % v/v}\n"
        "  - {time: 1 min, modifier_share: 5 % v/v}\n"
        "  - {time: 1.01 min, modifier_share: 40 % v/v}\n"
    ).run
    limit = 0.35 * 1.5 / 0.2
    slope = arrival.delivered_slope(run, 1.0 * MIN, 1.01 * MIN) * MIN
    assert 0.5 * limit < slope <= limit * 1.01


def test_equilibration_of_the_dye_scenario() -> None:
    """(0.52 + 5 x 0.69) / 1.5 = 2.65 min (scenario arithmetic, common practice)."""
    run = _case(DYE).run
    volume = equilibration.equilibration_volume(
        run, equilibration.column_volumes_wanted(additive=False, start_share=0.05)
    )
    assert volume / (1.5e-6 / 60.0) / MIN == pytest.approx(2.65, abs=0.03)


@pytest.mark.parametrize(
    ("additive", "share", "volumes"),
    [(False, 0.02, 5.0), (False, 0.2, 5.0), (True, 0.05, 10.0), (True, 0.04, 20.0)],
)
def test_column_volumes(additive: bool, share: float, volumes: float) -> None:
    """5, 10 and 20 hold-up volumes: common practice, no source."""
    assert equilibration.column_volumes_wanted(additive=additive, start_share=share) == volumes


def test_return_of_the_dye_scenario_counts_what_was_pumped() -> None:
    """From 9.1 min: 2 min at 0.8, a ramp of 0.1 min, 0.9 and 5 min at 1.5 (arithmetic)."""
    run = _case(DYE).run
    back = equilibration.return_to_start(run)
    assert back == pytest.approx(9.1 * MIN, abs=0.01)
    pumped = 1.9 * 0.8 + 0.1 * 1.15 + 5.9 * 1.5
    assert equilibration.pumped_after(run, 9.1 * MIN) * 1e6 == pytest.approx(pumped, rel=0.01)


def test_isocratic_needs_no_return() -> None:
    run = _case("kind: method\nprogramme: []\nmobile_phase: {modifier_share: 10 % v/v}\n").run
    assert equilibration.return_to_start(run) == 0.0


def test_no_return_is_told() -> None:
    run = _case(
        "kind: method\nsettling_time: null\nprogramme:\n"
        "  - {time: 0 min, modifier_share: 5 % v/v}\n  - {time: 5 min, modifier_share: 40 % v/v}\n"
    ).run
    assert equilibration.return_to_start(run) is None


@pytest.mark.parametrize(
    ("additives", "holds"),
    [([], False), (["water"], False), (["formic acid"], True), (["something new"], True)],
)
def test_what_counts_as_an_additive(additives: list[str], holds: bool) -> None:
    liquid = Liquid.model_validate(
        {"liquid": "methanol", "additives": [{"additive": name} for name in additives]}
    )
    assert equilibration.holds_additive(liquid) is holds


def test_gaps_of_rows_are_filled_and_places_kept() -> None:
    method = _case(DYE).method
    assert method is not None
    rows = filled_rows(method)
    assert rows[3].flow == pytest.approx(1.0e-6 / 60.0)
    assert rows[3].places["flow"] == "method.programme[2].flow"
    assert rows[3].places["outlet_pressure"] == "method.outlet_pressure"
    assert rows[3].number == "row 4"


def test_the_wash_is_the_last_to_be_seen_if_settling_follows() -> None:
    method = _case(DYE).method
    assert method is not None
    seen = last_to_be_seen(filled_rows(method), settles=True)
    assert seen is not None
    assert seen.time == pytest.approx(6.1 * MIN)
    back = last_to_be_seen(filled_rows(method), settles=False)
    assert back is not None
    assert back.time == pytest.approx(11.1 * MIN)


def test_an_isocratic_run_has_nothing_to_be_seen() -> None:
    method = _case("kind: method\nprogramme: []\nmobile_phase: {modifier_share: 9 % v/v}").method
    assert method is not None
    assert last_to_be_seen(filled_rows(method), settles=True) is None


def _spectrometer(*transitions: dict[str, str], polarity: str = "positive") -> Detector:
    return Detector.model_validate(
        {"type": "MS", "polarity": polarity, "transitions": list(transitions)}
    )


def test_only_windows_that_overlap_count_together() -> None:
    detector = _spectrometer(
        {"dwell": "20 ms", "begins": "0 min", "ends": "2 min"},
        {"dwell": "30 ms", "begins": "1 min", "ends": "3 min"},
        {"dwell": "50 ms", "begins": "3 min", "ends": "4 min"},
    )
    spans = acquisition.busy_spans(detector, pause=0.005, switch=0.0)
    assert [span.transitions for span in spans] == [(0,), (0, 1), (1,), (2,)]
    found = acquisition.busiest(spans, 0.0, math.inf)
    assert found is not None
    assert found.cycle == pytest.approx(0.060)
    assert (found.begins, found.ends) == (1 * MIN, 2 * MIN)
    late = acquisition.busiest(spans, 3.5 * MIN, 3.6 * MIN)
    assert late is not None
    assert late.cycle == pytest.approx(0.055)


def test_a_change_of_polarity_counts_there_and_back() -> None:
    detector = _spectrometer({"dwell": "20 ms", "polarity": "negative"}, {"dwell": "20 ms"})
    (span,) = acquisition.busy_spans(detector, pause=0.0, switch=0.015)
    assert span.switches == 2
    assert span.cycle == pytest.approx(0.070)


METHANOL = Liquid.model_validate({"liquid": "methanol"})


def test_absorbance_at_the_cutoff_is_what_the_cutoff_means() -> None:
    """Cutoff: absorbance 1 in 1 cm against water; ethanol 210 nm (solvent tables, unverified)."""
    ethanol = Liquid.model_validate({"liquid": "ethanol"})
    assert absorbance.least_absorbance(ethanol, 210e-9) == 0.0
    assert absorbance.least_absorbance(ethanol, 209.99e-9) == pytest.approx(100.0)


@pytest.mark.parametrize(
    ("liquid", "additive", "level", "wavelength", "published"),
    [
        ("methanol", None, None, 200, 2.06),
        ("methanol", None, None, 230, 0.11),
        ("2-propanol", None, None, 210, 0.34),
        ("acetonitrile", "trifluoroacetic acid", "0.1 % v/v", 230, 0.25),
        ("water", "acetic acid", "1 % v/v", 230, 0.87),
        ("water", "triethylamine", "1 % v/v", 220, 2.37),
        ("water", "ammonium acetate", "10 mM", 210, 0.53),
        ("water", "ammonium formate", "20 mM", 220, 0.4),
    ],
)
def test_published_absorbances_are_met(
    liquid: str, additive: str | None, level: str | None, wavelength: int, published: float
) -> None:
    """In 1 cm: J. B. Li, LC-GC 10 (1992) 856, as reprinted (unverified); formate as sodium salt."""
    added = [] if additive is None else [{"additive": additive, "level": level}]
    mixed = Liquid.model_validate({"liquid": liquid, "additives": added})
    found = absorbance.least_absorbance(mixed, wavelength * 1e-9)
    assert found == pytest.approx(100.0 * published, rel=0.02, abs=1.2)


def test_an_unknown_liquid_has_no_absorbance() -> None:
    liquid = Liquid.model_validate({"liquid": "oil of nowhere"})
    assert absorbance.least_absorbance(liquid, 200e-9) is None


def test_an_additive_gives_the_liquid_no_steeper_edge() -> None:
    """Amines raise the cutoff by 10 to 25 nm (practice, from memory); 1 in 1 cm at the new one."""
    liquid = Liquid.model_validate(
        {"liquid": "methanol", "additives": [{"additive": "diethylamine"}]}
    )
    assert absorbance.least_absorbance(liquid, 210e-9) == pytest.approx(100.0)
    assert absorbance.least_absorbance(liquid, 262e-9) == 0.0


def _opening(changes: str) -> FilledRow:
    method = _case(changes).method
    assert method is not None
    return filled_rows(method)[0]


def test_carbon_dioxide_dilutes_the_modifier() -> None:
    row = _opening("kind: method\nprogramme: []\nmobile_phase: {modifier_share: 5 % v/v}")
    assert absorbance.row_absorbance(row, 200.0, 0.0, 0.0) == pytest.approx(10.0)


def test_makeup_before_the_cell_counts_by_its_flow() -> None:
    """0.5 mL/min into 1.5: a quarter of it, the modifier's part falls by a quarter (arithmetic)."""
    row = _opening("kind: method\nprogramme: []\nmobile_phase: {modifier_share: 5 % v/v}")
    found = absorbance.row_absorbance(row, 200.0, 400.0, 0.5e-6 / 60.0)
    assert found == pytest.approx(0.75 * 10.0 + 0.25 * 400.0)
