"""SI figures as measures in the unit that findings print."""

from __future__ import annotations

from methodlint.judging.finding import Measure


def bar(pressure: float) -> Measure:
    """Pressure [Pa] in bar."""
    return Measure(pressure / 1e5, "bar")


def celsius(temperature: float) -> Measure:
    """Temperature [K] in degC."""
    return Measure(temperature - 273.15, "degC")


def minutes(time: float) -> Measure:
    """Time [s] in min."""
    return Measure(time / 60.0, "min")


def ml_per_min(flow: float) -> Measure:
    """Volume flow [m3/s] in mL/min."""
    return Measure(flow * 6e7, "mL/min")


def percent(fraction: float) -> Measure:
    """Fraction in %."""
    return Measure(fraction * 100.0, "%")


def ppm(fraction: float) -> Measure:
    """Fraction in ppm."""
    return Measure(fraction * 1e6, "ppm")


def litres(volume: float) -> Measure:
    """Volume [m3] in L."""
    return Measure(volume * 1e3, "L")


def millilitres(volume: float) -> Measure:
    """Volume [m3] in mL."""
    return Measure(volume * 1e6, "mL")


def microlitres(volume: float) -> Measure:
    """Volume [m3] in uL."""
    return Measure(volume * 1e9, "uL")


def kilograms(mass: float) -> Measure:
    """Mass [kg]."""
    return Measure(mass, "kg")


def grams(mass: float) -> Measure:
    """Mass [kg] in g."""
    return Measure(mass * 1e3, "g")
