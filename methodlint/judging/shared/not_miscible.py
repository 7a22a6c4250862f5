"""Judges two liquids that meet: do they part, how sure is that, what bridges them."""

from __future__ import annotations

from dataclasses import dataclass, replace

from methodlint.documents.quantities.format import number, show
from methodlint.fluids.liquids.known import find_liquid
from methodlint.fluids.miscibility.blends import BRIDGES, Miscibility, miscible, miscible_blend
from methodlint.judging.finding import At
from methodlint.rehearsal.contacts.contact import Contact, ContactLiquid

__all__ = ["RESERVE", "Pairing", "blend_advice", "judge_contact", "parts_by_itself"]

RESERVE = 5.0
"""How far above the critical solution temperature a place should be [K]; common practice."""

_COLD_ROOM = 283.15
"""Coldest that an ordinary room gets at night [K], asked where no document gives one."""

_SURE = {
    "measured": "measured",
    "unverified": "unverified",
    "estimated": "an estimate",
    "unknown": "not known",
}


@dataclass(frozen=True, slots=True)
class Pairing:
    """What is known about two liquids that meet.

    Attributes
    ----------
    answer
        Answer of the miscibility tables; the worst pair of components decides.
    possible
        The verdict lies inside the uncertainty, or closer to the limit than the reserve.
    unknown
        Nothing is known about the pair.
    temperature_decides
        They mix at an ordinary room's temperature and not in a cold one, and no document says how
        cold the place gets.
    bridge
        Liquid that mixes with every component of both; None if none of the usual ones does.
    """

    contact: Contact
    answer: Miscibility
    possible: bool = False
    unknown: bool = False
    temperature_decides: bool = False
    bridge: str | None = None

    @property
    def words(self) -> str:
        """The pair in words, for example `n-heptane (makeup) and methanol (modifier)`."""
        return f"{named(self.contact.first)} and {named(self.contact.second)}"

    @property
    def why(self) -> str:
        """Temperature there, critical solution temperature with its band, and how sure."""
        here = self.contact.temperature
        text = f"it gets {show(here, 'temperature')} there"
        if not self.contact.temperature_given:
            text = f"assumed {show(here, 'temperature')} there (none given)"
        critical, band = self.answer.critical_temperature, self.answer.band_K
        sure = _SURE[self.answer.how_sure]
        if critical is None:
            return f"{text}; {self.answer.why}; {sure}"
        rest = (self.answer.source or self.answer.why).replace(" (unverified)", "")
        short = critical - here
        gap = f"{number(round(abs(short), 1), 3)} K {'below' if short > 0.0 else 'above'}"
        return (
            f"{text}, {gap} their upper critical solution temperature of "
            f"{show(critical, 'temperature')} (band {number(band, 2)} K; {sure}: {rest})"
        )

    @property
    def limit(self) -> float | None:
        """Critical solution temperature [K]."""
        return self.answer.critical_temperature

    def places(self) -> tuple[At, At]:
        """Where both liquids are written down."""
        return tuple(  # type: ignore[return-value]
            At(liquid.document, liquid.path) for liquid in (self.contact.first, self.contact.second)
        )


def named(liquid: ContactLiquid) -> str:
    """A liquid with its role and, for a blend, its shares."""
    if len(liquid.components) == 1:
        return f"{liquid.words} ({liquid.role})"
    parts = " + ".join(f"{number(100 * share, 3)} % {name}" for name, share in liquid.components)
    return f"{parts} ({liquid.role})"


def judge_contact(contact: Contact) -> Pairing | None:
    """Judge whether two liquids stay one where they meet.

    A place that is less than the reserve above the critical solution temperature counts as
    possibly too cold.

    Parameters
    ----------
    contact
        Two liquids, the place and its temperature.

    Returns
    -------
    Pairing or None
        None where they mix for certain.
    """
    one, other = contact.first.components, contact.second.components
    here = contact.temperature
    answer = miscible_blend(one, other, here)
    if answer.verdict == "unknown":
        return Pairing(contact, answer, unknown=True)
    if answer.verdict != "miscible":
        return Pairing(
            contact,
            answer,
            possible=answer.verdict == "partly",
            bridge=bridge_between(contact),
        )
    colder = miscible_blend(one, other, here - RESERVE)
    critical = colder.critical_temperature
    close = critical is not None and 0.0 <= here - critical < RESERVE
    if close and colder.verdict in ("immiscible", "partly"):
        return Pairing(contact, colder, possible=True, bridge=bridge_between(contact))
    if not contact.temperature_given:
        cold = miscible_blend(one, other, _COLD_ROOM)
        if cold.verdict in ("immiscible", "partly"):
            return Pairing(contact, cold, temperature_decides=True)
    return None


def parts_by_itself(contact: Contact) -> Pairing | None:
    """Judge whether the second liquid of a contact, a blend, parts before it meets anything.

    Returns
    -------
    Pairing or None
        The blend with itself; None where it stays one liquid, or may do so.
    """
    if len(contact.second.components) < 2:
        return None
    alone = replace(contact, first=contact.second, in_co2=False, site="bottle")
    pairing = judge_contact(alone)
    if pairing is None or pairing.possible or pairing.unknown or pairing.temperature_decides:
        return None
    return pairing


def blend_advice(pairing: Pairing) -> str:
    """What to do about a blend that parts by itself; no flush can help there."""
    names = [name for name, _ in pairing.contact.first.components]
    if len(names) == 2 and pairing.bridge:
        return f"change the blend: {pairing.bridge} in the place of {names[0]} or of {names[1]}"
    return "change the blend: leave out one of the liquids that do not mix"


def bridge_between(contact: Contact) -> str | None:
    """Liquid that mixes with every component of both liquids of a contact."""
    names = {name for name, _ in (*contact.first.components, *contact.second.components)}
    own = {liquid.name for name in names if (liquid := find_liquid(name)) is not None}
    for bridge in BRIDGES:
        if bridge not in own and all(
            miscible(bridge, name, contact.temperature).verdict == "miscible" for name in names
        ):
            return bridge
    return None
