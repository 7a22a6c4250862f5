"""What the temperature of the CO2 pump's head does to what arrives and what is delivered."""

from __future__ import annotations

from methodlint.fluids.co2 import properties as co2

__all__ = ["delivered_change", "subcooling"]


def subcooling(head_temperature: float, inlet_pressure: float) -> float:
    """How far the head is below boiling at the pressure that arrives [K]; negative where it boils.

    Parameters
    ----------
    head_temperature
        In the pump head [K].
    inlet_pressure
        At the pump's inlet [Pa, abs].

    Raises
    ------
    methodlint.fluids.validity.OutOfRange
        If no temperature boils at that pressure: at the critical pressure and above.
    """
    return float(co2.saturation_temperature(inlet_pressure)) - head_temperature


def delivered_change(head_temperature: float, other: float, pressure: float) -> float:
    """Mass that a set volume delivers, over that of a head at another temperature, minus one [-].

    Parameters
    ----------
    head_temperature, other
        In the pump head [K].
    pressure
        At which the head delivers [Pa, abs].

    Raises
    ------
    methodlint.fluids.validity.OutOfRange
        If a state lies where there is no model.
    """
    return float(co2.density(head_temperature, pressure) / co2.density(other, pressure)) - 1.0
