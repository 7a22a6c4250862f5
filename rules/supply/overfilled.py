"""A cylinder holds no more CO2 than a cylinder is filled with.

Reason
    CO2 cylinders are filled to 0.68 or 0.76 kg per litre at most, so that there is room for the
    liquid to expand. With 0.94 kg per litre the pressure is 205 bar at 20 degC and 283 bar at
    30 degC. A mass that no filling could reach is a slip: the cylinder was weighed with its
    steel, or several of them as one; when the liquid ends cannot be computed from it.

Unsound
    kind: supply
    net_mass: 31 kg
    full_mass: 45 kg  # <- here

Unsound, because it is the weight of cylinder and CO2 together
    kind: supply
    net_mass: 85 kg  # <- here

Unsound, because a cylinder tested at 190 bar takes 0.68 kg per litre
    kind: supply
    test_pressure: 190 bar
    net_mass: 31 kg
    full_mass: 37.5 kg  # <- here

Sound
    kind: supply
    net_mass: 31 kg
    full_mass: 37.5 kg

Sound, because the mass is that of two cylinders
    kind: supply
    cylinders: 2
    net_mass: 62 kg
    full_mass: 75 kg

Sound, because a bulk tank is kept cold and holds more
    kind: supply
    withdrawal: bulk
    water_capacity: 1000 L
    net_mass: 900 kg
    full_mass: 950 kg

Remedy
    Compare mass, water capacity and number of cylinders with the label and the stamp. A cylinder
    that is really overfilled is kept cool and goes back to the supplier.

Source
    ADR, packing instruction P200, UN 1013: 0.76 at a test pressure of 250 bar, 0.68 at 190 bar
    (unverified). Liquid of 1.03 kg per litre at -20 degC: Span and Wagner, J. Phys. Chem. Ref.
    Data 25, 1509 (1996). Without a test pressure on the card a caution from 5 % above 0.76, a fault
    from 10 %, as capacities are rounded: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from methodlint.judging.ask.rule import DocumentCase, Finding, Measure, show
from methodlint.judging.ask.supply import (
    FILL_OF_LIQUID,
    FILL_SURELY_OVER,
    fill_permitted,
    overfills,
)

SUBJECT = "document"
CLASSES = ("fault", "caution")
NEEDS = ()


def applies(case: DocumentCase) -> bool:
    """Only supply cards speak of cylinders."""
    return case.document.kind == "supply"


def judge(case: DocumentCase) -> Iterator[Finding]:
    """Compare the mass per water capacity with what is permitted, and with liquid CO2."""
    supply = case.supply
    found = overfills(supply) if supply is not None else ()
    if supply is None or not found:
        return
    fill = found[0]
    permitted = fill_permitted(supply)
    most, stamped = _filling(permitted), supply.test_pressure
    capacity = show(fill.volume, "volume", "L")
    in_all = f" of {supply.cylinders} cylinders" if supply.cylinders > 1 else ""
    held = f"'{fill.field}' ({show(fill.mass, 'mass', 'kg')}) in {capacity}{in_all}"
    if fill.density > FILL_OF_LIQUID:
        says = (
            f"more than liquid CO2 weighs ({_filling(FILL_OF_LIQUID)} at -20 degC): it may be the "
            "weight of cylinder and CO2 together, or of more cylinders than the card counts"
        )
        remedy = "take the tare off that is stamped on the cylinder, or weigh it again"
    else:
        over = 100.0 * (fill.density / permitted - 1.0)
        stated = supply.filling_ratio
        tested = f" tested at {stamped.text} (unverified)" if stamped is not None else ""
        though = f", though 'filling_ratio' says {stated.text}" if stated is not None else ""
        says = (
            f"{over:.0f} % more than the {most} that a cylinder{tested} is filled with at most{though}: "
            "it is overfilled, or mass or water capacity is wrong"
        )
        remedy = (
            "compare mass and water capacity with the label and the stamp; if both are right, "
            "keep the cylinder cool and send it back"
        )
    yield case.finding(
        case.at(case.document, fill.field),
        "fault" if stamped or fill.density > FILL_SURELY_OVER * permitted else "caution",
        f"{held} makes {_filling(fill.density)}, {says}",
        found=Measure(fill.density / 1e3, "g/mL"),
        limit=Measure(permitted / 1e3, "g/mL"),
        remedy=remedy,
        also=tuple(
            case.at(case.document, name)
            for name in ("water_capacity", *(other.field for other in found[1:]))
        ),
        cautions=("pressure",),
    )


def _filling(density: float) -> str:
    return show(density, "density", "g/mL")
