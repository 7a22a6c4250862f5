"""The bottles that stand at the instrument."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from methodlint.documents.kinds.base import Date, Document, Liquid, Name, described
from methodlint.documents.quantities.quantity import (
    PositiveDuration,
    ShareAnyBasis,
    Temperature,
    Volume,
    VolumeFlow,
)

BottleRole = Literal["modifier", "makeup", "wash", "seal wash", "flush", "storage"]


class Bottle(Liquid):
    """One bottle on one line."""

    line: Name = Field(description="modifier-1, makeup, needle-wash, strong-wash, seal-wash, ...")
    role: BottleRole | None = described("What it is for; without it the name of the line says it.")
    fill: Volume | None = None
    dead_volume: Volume | None = described("What the line cannot draw.")
    opened: Date | None = None
    filled: Date | None = described("Day on which it was filled to the fill that is written here.")
    expires: Date | None = None
    inhibited: bool | None = None
    grade: Literal["MS", "gradient", "HPLC", "technical", "denatured"] | None = None
    vented: bool | None = described("Air or inert gas can follow what is drawn; false: sealed.")
    degassed: bool | None = described("In line, or before it was filled.")
    water: ShareAnyBasis | None = described("Water content as measured.")
    water_limit: ShareAnyBasis | None = described(
        "Most water that the method tolerates in this liquid."
    )
    enters_flow: bool | None = described(
        "A wash: does it enter the loop or only rinse the outside?"
    )
    uses: VolumeFlow | None = described("Steady use of a seal wash.")
    per_injection: Volume | None = described("A wash: what each injection takes, primes included.")


class Solvents(Document):
    """All bottles at one instrument."""

    kind: Literal["solvents"]
    bottles: tuple[Bottle, ...] = ()
    coldest_place: Temperature | None = None
    purge_volume: Volume | None = described("Per modifier line and start.")
    additive_shelf_life: PositiveDuration | None = None
