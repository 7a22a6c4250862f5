"""Density of CO2 against printed tables.  Rows are (temperature [°C], pressure [bar], kg/m3)."""

import numpy as np
import pytest

from methodlint.fluids.co2 import properties as co2

# Tang, Jin et al. 2011, Thermochim. Acta, 10.1016/j.tca.2011.01.039; read in the open data file of
# the paper.  Derived from the equation of Span & Wagner (1996): another transcription of it, not
# an experiment.  Temperatures are 308, 318 and 328 K.
TANG_2011 = [
    (34.85, 100, 714.84),
    (34.85, 120, 768.42),
    (34.85, 180, 848.87),
    (44.85, 100, 502.57),
    (44.85, 150, 743.17),
    (44.85, 180, 790.18),
    (54.85, 100, 326.4),
    (54.85, 120, 506.85),
    (54.85, 210, 768.74),
]

# Table printed in a study of drug solubility in CO2, original paper not identified, seen in a
# secondary copy; rounded to 1 kg/m3 and up to 1 % off the reference equation: a weak check.
SOLUBILITY_STUDY = [
    (34.85, 150, 817),
    (34.85, 180, 849),
    (34.85, 210, 875),
    (34.85, 240, 896),
    (44.85, 120, 661),
    (44.85, 180, 791),
    (44.85, 240, 851),
    (44.85, 270, 872),
    (54.85, 180, 725),
    (54.85, 210, 769),
    (54.85, 240, 802),
    (54.85, 270, 829),
    (64.85, 120, 388),
    (64.85, 150, 557),
    (64.85, 180, 652),
    (64.85, 210, 710),
    (64.85, 240, 751),
    (64.85, 270, 783),
]

# NIST Chemistry WebBook fluid tables, from memory.
WEBBOOK = [
    (40, 100, 628.6),
    (40, 150, 780.2),
    (50, 150, 699.8),
    (60, 200, 723.7),
    (40, 80, 277.9),
]


def _density(rows):
    temperature, pressure, _ = np.array(rows).T
    return co2.density(temperature + 273.15, pressure * 1e5)


def test_density_agrees_with_the_table_of_tang_2011():
    printed = np.array(TANG_2011)[:, 2]
    # last printed digit 0.01; 0.02 where the density turns fastest
    assert _density(TANG_2011) == pytest.approx(printed, abs=0.02)


def test_density_agrees_with_webbook_values_from_memory():
    assert _density(WEBBOOK) == pytest.approx(np.array(WEBBOOK)[:, 2], abs=0.1)


def test_density_agrees_with_the_rounded_table_of_a_solubility_study():
    assert _density(SOLUBILITY_STUDY) == pytest.approx(np.array(SOLUBILITY_STUDY)[:, 2], rel=0.012)


@pytest.mark.parametrize(
    ("celsius", "litres_per_kilogram"),
    [
        # trade page, 70 °F and 1 atm: 8.74 ft3/lb = 0.5456 m3/kg, seen in a secondary copy
        (21.11, 545.6),
    ],
)
def test_gas_volume_of_a_trade_page(celsius, litres_per_kilogram):
    volume = 1000.0 / co2.gas_density(celsius + 273.15)
    assert volume == pytest.approx(litres_per_kilogram, rel=1e-3)


def test_gas_density_is_near_that_of_an_ideal_gas():
    # ideal gas law with R = 8.314462618 J/(mol K) (CODATA 2018); CO2 deviates by 0.5 % at 1 atm:
    # second virial coefficient -123 cm3/mol at 298.15 K (handbook value, from memory)
    ideal = 101325.0 * co2.MOLAR_MASS / (8.314462618 * 298.15)
    virial = 1.0 - 123e-6 * 101325.0 / (8.314462618 * 298.15)
    assert co2.gas_density(298.15) == pytest.approx(ideal / virial, rel=5e-4)
