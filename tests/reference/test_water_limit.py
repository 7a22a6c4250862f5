"""Water carried by ethanol in carbon dioxide, against measured tie lines.

Source: ThermoML archive, doi 10.1016/j.fluid.2019.02.015 and 10.1016/j.fluid.2015.07.025; 46 tie
lines between 313 and 353 K, 100 and 200 bar.
"""

from __future__ import annotations

import csv
from pathlib import Path

import numpy as np

from methodlint.fluids.mixtures import water_limit
from methodlint.fluids.mixtures.mixture_choice import model_for

_FILE = Path(__file__).parent / "co2_ethanol_water_tie_lines.csv"
_LINES = list(csv.DictReader(_FILE.read_text(encoding="utf-8").splitlines()))


def _column(name: str) -> np.ndarray:
    return np.array([float(line[name]) for line in _LINES])


_T, _P = _column("T_K"), 1e5 * _column("P_bar")


def _limit(x2: np.ndarray) -> np.ndarray:
    fluid = model_for("ethanol")
    assert fluid is not None
    high = fluid.boundary.limits(x2, _T, lower=False)[1]
    margin = np.where(high > 0.0, _P - high, np.inf)
    return water_limit.highest_water_share(x2, _T, _P, margin)


def _load(ethanol: np.ndarray, water: np.ndarray) -> np.ndarray:
    """Water in the modifier over the limit."""
    return water / (ethanol + water) / _limit(ethanol + water)


def test_ends_of_tie_lines_lie_on_the_limit() -> None:
    lean = _load(_column("lean_ethanol"), _column("lean_water"))
    rich = _load(_column("rich_ethanol"), _column("rich_water"))
    ends = np.concatenate([lean, rich])
    assert ends.size == 92
    # The band's lower end is the unsafe side: at most 2.5 % of the ends may lie below it.
    assert np.mean(ends < 1.0 - water_limit.BAND) <= 0.025
    assert np.mean(np.abs(ends - 1.0) < 0.25) >= 0.95
    assert abs(np.median(ends) - 1.0) < 0.02


def test_the_middle_of_every_tie_line_has_two_phases() -> None:
    ethanol = 0.5 * (_column("lean_ethanol") + _column("rich_ethanol"))
    water = 0.5 * (_column("lean_water") + _column("rich_water"))
    assert np.all(water / (ethanol + water) > _limit(ethanol + water))


def test_less_than_half_the_water_of_any_measured_end_is_silent() -> None:
    water, ethanol = _column("lean_water"), _column("lean_ethanol")
    share = 0.5 * water / (ethanol + water)
    assert np.all(share / _limit(ethanol + water) < 1.0 - water_limit.BAND)


def test_the_limit_is_nothing_at_the_boundary_and_all_in_the_modifier_alone() -> None:
    assert float(water_limit.highest_water_share(0.1, 313.15, 100e5, 0.0)) == 0.0
    assert float(water_limit.highest_water_share(1.0, 313.15, 150e5, np.inf)) == 1.0


def test_only_ethanol_around_the_measured_states_is_validated() -> None:
    assert water_limit.is_validated(("ethanol",), 313.15, 110e5)
    assert not water_limit.is_validated(("methanol",), 313.15, 110e5)
    assert not water_limit.is_validated(("ethanol",), 293.15, 110e5)
    assert not water_limit.is_validated(("ethanol", "methanol"), 313.15, 110e5)
