"""What may be changed without validating anew: allowance sets as data, each with its source."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from methodlint.documents.kinds.lab import Policy

__all__ = ["ALLOWANCES", "Allowance", "AllowanceSet", "Name", "allowance_set", "lab_allowances"]

Name = Literal["none", "pharmacopoeial", "earlier-sfc", "lab"]

_HARMONISED = "USP <621> harmonised with Ph. Eur. 2.2.46 and JP 2.00, official 1 December 2022"
_QUOTED = f"{_HARMONISED} (second-hand)"
_REMEMBERED = f"{_HARMONISED} (unverified)"
_EARLIER = "Ph. Eur. 2.2.46, section on SFC, editions before 1 January 2023 (unverified)"


@dataclass(frozen=True, slots=True)
class Allowance:
    """How far one item may move.

    Attributes
    ----------
    item
        What it is about, in words.
    lowest, highest
        Span of the change: relative [-] unless `absolute`; None where there is none.
    absolute
        The span is a difference in SI (K for temperatures, share for compositions).
    source
        Where the span comes from; says so when it is quoted from memory.
    """

    item: str
    lowest: float | None
    highest: float | None
    source: str
    absolute: bool = False

    def allows(self, change: float) -> bool:
        """Whether a change lies within the span; a hair beyond counts as within."""
        if self.lowest is None or self.highest is None:
            return False
        slack = 1e-9 + 1e-6 * max(abs(self.lowest), abs(self.highest))
        return self.lowest - slack <= change <= self.highest + slack

    @property
    def words(self) -> str:
        """The span in words."""
        if self.lowest is None or self.highest is None:
            return "no allowance found, treat as a change"
        unit, factor = ("K", 1.0) if self.absolute and self.highest >= 1.0 else ("%", 100.0)
        if self.item.startswith("pH"):
            unit, factor = "units", 1.0
        if self.lowest == self.highest == 0.0:
            return "no change"
        span = f"{self.lowest * factor:+.3g} to {self.highest * factor:+.3g} {unit}"
        return f"{span} absolute" if self.absolute and unit == "%" else span


@dataclass(frozen=True, slots=True)
class AllowanceSet:
    """A set of allowances.

    Attributes
    ----------
    name
        As on the command line.
    note
        What has to be said whenever the set is used.
    isocratic, gradient
        Allowances by key.
    either_minor
        The larger of the relative and the absolute span of a minor component counts.
    """

    name: Name
    note: str
    isocratic: dict[str, Allowance]
    gradient: dict[str, Allowance]
    either_minor: bool = False

    def of(self, key: str, *, isocratic: bool) -> Allowance | None:
        """Allowance of one item; None if the set is silent about it."""
        return (self.isocratic if isocratic else self.gradient).get(key)


_BOTH = {
    "length_to_particle": Allowance("column: L/dp", -0.25, 0.50, _QUOTED),
    "buffer": Allowance("level of a salt in the mobile phase", -0.10, 0.10, _QUOTED),
    "wavelength": Allowance("detector wavelength", 0.0, 0.0, _REMEMBERED),
    "ph": Allowance("pH of the aqueous part", -0.2, 0.2, _QUOTED, absolute=True),
    "outlet_pressure": Allowance(
        "outlet pressure", None, None, "no table for supercritical fluids was seen"
    ),
}
_MINOR = {
    "minor_relative": Allowance("minor component, relative", -0.30, 0.30, _QUOTED),
    "minor_absolute": Allowance("minor component", -0.10, 0.10, _QUOTED, absolute=True),
    "flow": Allowance("flow after scaling by geometry", -0.50, 0.50, _QUOTED),
}

# Packed columns; where two copies disagree about the inner diameter the narrower span is taken.
_EARLIER_SFC = {
    "length": Allowance("column length", -0.70, 0.70, _EARLIER),
    "inner_diameter": Allowance("column inner diameter", -0.25, 0.25, _EARLIER),
    "particle_size": Allowance("particle size", -0.50, 0.0, _EARLIER),
    "set_flow": Allowance("flow as set", -0.50, 0.50, _EARLIER),
    "temperature": Allowance("column temperature", -5.0, 5.0, _EARLIER, absolute=True),
    "minor_relative": Allowance("minor component, relative", -0.30, 0.30, _EARLIER),
    "minor_absolute": Allowance("minor component", -0.02, 0.02, _EARLIER, absolute=True),
    "ph": _BOTH["ph"],
    "wavelength": Allowance("detector wavelength", 0.0, 0.0, _EARLIER),
    "outlet_pressure": _BOTH["outlet_pressure"],
}

ALLOWANCES: dict[Name, AllowanceSet] = {
    "none": AllowanceSet("none", "no allowances: every change is a change of the method", {}, {}),
    "pharmacopoeial": AllowanceSet(
        "pharmacopoeial",
        "LC table by analogy (second-hand); the chapter names supercritical fluids in "
        "general terms only, Ph. Eur. 2.2.45 covers the technique",
        {
            **_BOTH,
            **_MINOR,
            "temperature": Allowance("column temperature", -10.0, 10.0, _QUOTED, absolute=True),
        },
        {
            **_BOTH,
            "temperature": Allowance("column temperature", -5.0, 5.0, _REMEMBERED, absolute=True),
            "retention": Allowance("retention of the principal peak", -0.15, 0.15, _REMEMBERED),
        },
    ),
    "earlier-sfc": AllowanceSet(
        "earlier-sfc",
        "table for supercritical fluids in editions before the harmonised chapter (unverified); "
        "superseded on 1 January 2023",
        _EARLIER_SFC,
        _EARLIER_SFC,
        either_minor=True,
    ),
}
"""The sets that come with the package; a lab's own is built from its policy."""


def allowance_set(name: Name, own: dict[str, float] | None = None) -> AllowanceSet:
    """Give an allowance set.

    Parameters
    ----------
    name
        Of the set.
    own
        The lab's own spans (plus or minus; relative, for the temperature in K), by key; used for
        `lab` only.

    Raises
    ------
    ValueError
        If `lab` is asked for and the lab declares no allowances.
    """
    if name != "lab":
        return ALLOWANCES[name]
    if not own:
        raise ValueError(
            "the lab's policy declares no allowances; write them into lab.yaml, such as "
            "policy: {transfer_allowances: {flow: 50 %, temperature: 5 K}}"
        )
    source = "the lab's policy"
    table = {}
    for key, span in own.items():
        absolute = key in ("temperature", "minor_absolute")
        words = key.replace("_", " ")
        table[key] = Allowance(words, -span, span, source, absolute=absolute)
    return AllowanceSet("lab", "allowances of the lab's own policy", table, dict(table))


def lab_allowances(policy: Policy | None) -> dict[str, float]:
    """Spans of a lab's own policy by key, for `allowance_set`."""
    own: dict[str, float] = {}
    table = policy.transfer_allowances if policy is not None else None
    if table is not None:
        for key in type(table).model_fields:
            value = getattr(table, key)
            if value is not None:
                own[key] = value.si
    return own
