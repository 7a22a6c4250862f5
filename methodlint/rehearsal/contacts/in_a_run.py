"""Which liquids meet where, at what coldest temperature, and whether CO2 is with them."""

from __future__ import annotations

from collections.abc import Iterator

from methodlint.documents.contents.bottle_roles import makeup_bottle, role_of
from methodlint.documents.kinds.base import Liquid
from methodlint.documents.kinds.instrument import Instrument
from methodlint.documents.kinds.method import Method
from methodlint.documents.kinds.room import Room
from methodlint.documents.kinds.sequence import Sequence
from methodlint.documents.kinds.solvents import Bottle, BottleRole, Solvents
from methodlint.documents.loading import Loaded
from methodlint.documents.text.places import Path
from methodlint.rehearsal.contacts.contact import Components, Contact, ContactLiquid, Site
from methodlint.rehearsal.plan.run_plan import AMBIENT, components_of

__all__ = [
    "Components",
    "Contact",
    "ContactLiquid",
    "Site",
    "bottles_of",
    "coldest_on_tray",
    "coldest_place",
    "contacts_of",
    "least_co2_share",
    "makeup_of",
    "meeting",
    "modifier_bottles",
    "modifier_of",
    "washes_of",
]


def contacts_of(documents: dict[str, Loaded]) -> tuple[Contact, ...]:
    """List the contacts of one run from its documents.

    Parameters
    ----------
    documents
        Documents by kind; `method` is always there, the others as far as they are known.
    """
    return tuple(_contacts(documents))


def _contacts(documents: dict[str, Loaded]) -> Iterator[Contact]:
    method: Method = documents["method"].model
    modifier = modifier_of(documents["method"])
    coldest, given = coldest_place(documents)
    diluents = list(_diluents(documents))
    washes = list(washes_of(documents, "wash"))
    tray, tray_given = coldest_on_tray(documents)
    co2_share = least_co2_share(method)
    yield from _at_tee(documents, modifier, coldest, given, co2_share)
    stream = method.injection.stream if method.injection else None
    volume = method.injection.volume if method.injection else None
    for diluent in diluents:
        if modifier:
            yield Contact(
                diluent,
                modifier,
                "injection into the mobile phase" if stream != "modifier" else "modifier stream",
                coldest,
                in_co2=stream != "modifier",
                under_pressure=stream == "modifier",
                volume=volume.si if volume else None,
                temperature_given=given,
                least_co2_share=co2_share if stream != "modifier" else 0.0,
            )
        for wash in washes:
            yield Contact(
                wash,
                diluent,
                "needle and loop",
                tray,
                site="needle",
                temperature_given=tray_given,
            )
    if modifier is None:
        return
    for wash in washes:
        yield Contact(
            wash,
            modifier,
            "loop, when it is switched into the flow",
            coldest,
            in_co2=True,
            site="loop",
            temperature_given=given,
            least_co2_share=co2_share,
        )
    for wash in washes_of(documents, "seal wash"):
        yield Contact(
            wash,
            modifier,
            "behind the seal of the modifier pump",
            coldest,
            site="seal",
            temperature_given=given,
        )


def _at_tee(
    documents: dict[str, Loaded],
    modifier: ContactLiquid | None,
    coldest: float,
    given: bool,
    co2_share: float | None,
) -> Iterator[Contact]:
    method: Method = documents["method"].model
    makeup = makeup_of(documents)
    if modifier is None or makeup is None or method.makeup is None:
        return
    before = method.makeup.tee == "before the regulator"
    if before:
        place = "makeup tee before the regulator"
    else:
        place = "makeup tee after the regulator" if method.makeup.tee else "makeup tee"
    yield Contact(
        modifier,
        makeup,
        place,
        coldest,
        in_co2=before,
        under_pressure=True,
        site="tee",
        temperature_given=given,
        least_co2_share=co2_share if before else 0.0,
        share_of_first=_share_at_tee(method),
    )


def _modifier_shares(method: Method) -> list[float] | None:
    """Set shares of the modifier in the rows of the programme; None if none is given."""
    shares = [row.modifier_share.si for row in method.programme if row.modifier_share]
    start = method.mobile_phase.modifier_share if method.mobile_phase else None
    if start is not None and (not method.programme or method.programme[0].time.si > 0.0):
        shares.append(start.si)
    return shares or None


def least_co2_share(method: Method) -> float | None:
    """Least volume share of CO2 that the method sets; None if it sets no shares."""
    shares = _modifier_shares(method)
    return 1.0 - max(shares) if shares else None


def _share_at_tee(method: Method) -> tuple[float, float] | None:
    """Span of the modifier's share in modifier and makeup, over the rows of the programme."""
    shares, makeup = _modifier_shares(method), method.makeup
    flows = [row.flow.si for row in method.programme if row.flow]
    flows += [method.flow.si] if method.flow else []
    added = [row.flow.si for row in makeup.programme] if makeup else []
    added += [makeup.flow.si] if makeup and makeup.flow else []
    if not shares or not flows or not added or max(added) <= 0.0:
        return None
    least, most = min(flows) * min(shares), max(flows) * max(shares)
    return least / (least + max(added)), most / (most + min(added)) if most > 0.0 else 0.0


def modifier_of(document: Loaded) -> ContactLiquid | None:
    """Modifier of a method; None if there is none."""
    method: Method = document.model
    liquid = method.mobile_phase.modifier if method.mobile_phase else None
    return meeting("modifier", liquid, document, ("mobile_phase", "modifier"))


def makeup_of(documents: dict[str, Loaded]) -> ContactLiquid | None:
    """Makeup liquid: the method's, or that of the bottle on the makeup line."""
    method: Method = documents["method"].model
    own = meeting("makeup", method.makeup, documents["method"], ("makeup",))
    if own is not None or method.makeup is None or "solvents" not in documents:
        return own
    bottles = bottles_of(documents)
    index = makeup_bottle(bottles, method.makeup)
    if index is None:
        return None
    return meeting("makeup", bottles[index], documents["solvents"], ("bottles", index))


def _diluents(documents: dict[str, Loaded]) -> Iterator[ContactLiquid]:
    method: Method = documents["method"].model
    seen: set[Components] = set()
    if method.injection is not None:
        found = meeting(
            "diluent", method.injection.diluent, documents["method"], ("injection", "diluent")
        )
        if found is not None:
            seen.add(found.components)
            yield found
    if "sequence" not in documents:
        return
    sequence: Sequence = documents["sequence"].model
    candidates: list[tuple[Liquid | None, Path]] = [(sequence.diluent, ("diluent",))]
    candidates += [
        (line.diluent, ("lines", index, "diluent")) for index, line in enumerate(sequence.lines)
    ]
    for liquid, path in candidates:
        found = meeting("diluent", liquid, documents["sequence"], path)
        if found is not None and found.components not in seen:
            seen.add(found.components)
            yield found


def washes_of(documents: dict[str, Loaded], role: BottleRole) -> Iterator[ContactLiquid]:
    """Washes of a role; a needle wash that only rinses the outside meets nothing."""
    instrument: Loaded[Instrument] | None = documents.get("instrument")
    sampler = instrument.model.autosampler if instrument else None
    for index, bottle in enumerate(bottles_of(documents)):
        if role_of(bottle) != role:
            continue
        enters = bottle.enters_flow
        if enters is None and sampler is not None:
            enters = sampler.wash_enters_loop
        if enters is False and role == "wash":
            continue
        name = "seal wash" if role == "seal wash" else "needle wash"
        found = meeting(name, bottle, documents["solvents"], ("bottles", index))
        if found is not None:
            yield found


def bottles_of(documents: dict[str, Loaded]) -> tuple[Bottle, ...]:
    """Bottles of the bench; none if they are not known."""
    loaded: Loaded[Solvents] | None = documents.get("solvents")
    return loaded.model.bottles if loaded else ()


def modifier_bottles(documents: dict[str, Loaded]) -> tuple[tuple[int, Bottle], ...]:
    """Bottles that the modifier pump draws from, with their numbers in the list.

    Those on the lines that the instrument card gives to the pump, and those that are there to
    flush with; without such lines all that are no wash and no makeup.
    """
    card: Loaded[Instrument] | None = documents.get("instrument")
    pump = card.model.modifier_pump if card else None
    return tuple(
        (index, bottle)
        for index, bottle in enumerate(bottles_of(documents))
        if _is_drawn(bottle, pump.lines if pump is not None else ())
    )


def _is_drawn(bottle: Bottle, lines: tuple[str, ...]) -> bool:
    """Whether the modifier pump draws from a bottle: by its role, by its line, else by neither."""
    if bottle.role is not None:
        return bottle.role in ("modifier", "flush", "storage")
    if lines:
        return bottle.line in lines
    return role_of(bottle) not in ("wash", "seal wash", "makeup")


def meeting(role: str, liquid: Liquid | None, document: Loaded, path: Path) -> ContactLiquid | None:
    """Describe a liquid that may meet another; None if it is not given."""
    if liquid is None:
        return None
    components = components_of(liquid)
    return ContactLiquid(role, components, document, path) if components else None


def coldest_place(documents: dict[str, Loaded]) -> tuple[float, bool]:
    """Coldest place at the bench [K], and whether a document gives one."""
    solvents: Loaded[Solvents] | None = documents.get("solvents")
    room: Loaded[Room] | None = documents.get("room")
    found = []
    if solvents is not None:
        place = solvents.model.coldest_place
        found += [place.si] if place is not None else []
    if room is not None:
        lowest = room.model.lowest_temperature
        found += [lowest.si] if lowest is not None else []
    return (min(found), True) if found else (AMBIENT, False)


def coldest_on_tray(documents: dict[str, Loaded]) -> tuple[float, bool]:
    """Coldest place at the bench or on the tray [K], and whether a document gives one."""
    coldest, given = coldest_place(documents)
    instrument: Loaded[Instrument] | None = documents.get("instrument")
    sampler = instrument.model.autosampler if instrument else None
    tray = sampler.tray_temperature if sampler else None
    return (min(coldest, tray.si), True) if tray is not None else (coldest, given)
