"""Pressures that are usual ones of chromatography only when another unit is meant."""

from __future__ import annotations

from collections.abc import Callable

from methodlint.documents.quantities.format import show
from methodlint.documents.quantities.plausibility import other_pressure_readings
from methodlint.documents.quantities.refusal import refused
from methodlint.documents.quantities.units import Quantity
from methodlint.documents.text.visible import excerpt

RULE = "document.pressure-ambiguous"

# Below and above these ends [Pa] nobody means the unit that is written. Common practice, no source.
_LOWEST = {"pressure": 1e5, "outlet pressure": 40e5}
_HIGHEST = 1200e5


def refuse_ambiguous(quantity: str) -> Callable[[Quantity], Quantity]:
    """Build a validator for one quantity.

    Parameters
    ----------
    quantity : str
        ``"pressure"`` (1 to 1200 bar are taken as they are) or ``"outlet pressure"`` (40 to
        1200 bar).

    Returns
    -------
    callable
        Raises `PydanticCustomError` of the type ``document.pressure-ambiguous`` for a pressure
        outside the span that psi, bar, MPa or kPa would put between 60 and 1200 bar.
    """
    lowest = _LOWEST[quantity]

    def check(value: Quantity) -> Quantity:
        if (value.reference == "gauge" and value.si <= 0.0) or lowest <= value.si <= _HIGHEST:
            return value
        readings = other_pressure_readings(value.si, value.unit)
        if not readings:
            return value
        figure = value.text.partition(" ")[0].removesuffix(value.unit)
        written = show(value.si, "pressure")
        said = "" if written == value.text else f" is {written},"
        others = ", ".join(f"in {unit} it would be {show(si, 'pressure')}" for unit, si in readings)
        choices = " or ".join(f'"{excerpt(figure)} {unit}"' for unit, _ in readings)
        raise refused(
            RULE,
            f'"{excerpt(value.text)}"{said or " is"} no usual {quantity}; {others}',
            f"write the unit that is meant, perhaps {choices}; nothing is changed for you",
        )

    return check
