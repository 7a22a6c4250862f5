"""Contacts that a sequence brings about: one liquid after another, waste, blends by themselves."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from itertools import combinations

from methodlint.documents.contents.bottle_roles import role_of
from methodlint.documents.kinds.method import Method
from methodlint.documents.kinds.room import Room, WasteVessel
from methodlint.documents.kinds.sequence import Sequence
from methodlint.documents.loading import Loaded
from methodlint.rehearsal.contacts.contact import Contact, ContactLiquid
from methodlint.rehearsal.contacts.in_a_run import (
    bottles_of,
    coldest_place,
    makeup_of,
    meeting,
    modifier_of,
    washes_of,
)
from methodlint.rehearsal.plan.line_settings import co2_flows, is_co2
from methodlint.rehearsal.plan.run_plan import components_of

__all__ = ["between_lines", "waste_contents", "within_bottles", "within_waste"]


def between_lines(
    documents: Mapping[str, Loaded], methods: Mapping[str, Loaded[Method]]
) -> tuple[Contact, ...]:
    """Liquids that follow each other through the modifier pump and through the makeup pump.

    What the bench held before, the modifier of each line's method and the liquid of each flush
    are taken in order, so that a flush with a bridging liquid parts two that do not mix.

    Parameters
    ----------
    documents
        Documents by kind; without a sequence there is nothing in order.
    methods
        Method documents by the name that the lines use.

    Returns
    -------
    tuple of Contact
        One for each pair of different liquids, where it is met first.
    """
    if "sequence" not in documents:
        return ()
    bench = dict(documents)
    coldest, given = coldest_place(bench)
    found: dict[tuple[object, object], Contact] = {}
    for place, liquids in (
        ("modifier pump and mixer", _through_modifier_pump(bench, methods)),
        ("makeup pump and line", _through_makeup_pump(bench, methods)),
    ):
        held: ContactLiquid | None = None
        for line, liquid in liquids:
            if held is not None and liquid.components != held.components:
                contact = Contact(
                    held,
                    liquid,
                    f"{place}, at the change before line {line + 1}" if line >= 0 else place,
                    coldest,
                    under_pressure=True,
                    site="pump",
                    temperature_given=given,
                    line=max(line, 0),
                )
                found.setdefault((held.components, liquid.components), contact)
            held = liquid
    for contact in (
        *_flushes_at_tee(bench, methods, coldest, given),
        *_flushes_at_seal(bench, coldest, given),
    ):
        found.setdefault((contact.first.components, contact.second.components), contact)
    return tuple(found.values())


def _flushes_at_seal(
    documents: dict[str, Loaded], coldest: float, given: bool
) -> Iterator[Contact]:
    """What the modifier pump flushes with, and what rinses its seals from behind."""
    loaded = documents["sequence"]
    typed: Sequence = loaded.model
    for index, line in enumerate(typed.lines):
        if line.liquid is None or is_co2(line.liquid):
            continue
        liquid = meeting("flush", line.liquid, loaded, ("lines", index, "liquid"))
        if liquid is None:
            continue
        for wash in washes_of(documents, "seal wash"):
            yield Contact(
                wash,
                liquid,
                f"behind the seal of the modifier pump, during line {index + 1}",
                coldest,
                site="seal",
                temperature_given=given,
                line=index,
            )


def _flushes_at_tee(
    documents: dict[str, Loaded], methods: Mapping[str, Loaded[Method]], coldest: float, given: bool
) -> Iterator[Contact]:
    """What a line without injection sends to the tee, where the makeup goes on."""
    loaded = documents["sequence"]
    typed: Sequence = loaded.model
    makeups = {name: makeup_of({**documents, "method": method}) for name, method in methods.items()}
    for index, line in enumerate(typed.lines):
        name = line.method or typed.method or ""
        makeup = makeups.get(name)
        if makeup is None or line.liquid is None or is_co2(line.liquid) or line.makeup == "off":
            continue
        liquid = meeting("flush", line.liquid, loaded, ("lines", index, "liquid"))
        own = methods[name].model.makeup
        ahead = own is not None and own.tee == "before the regulator"
        if liquid is not None and liquid.components != makeup.components:
            yield Contact(
                liquid,
                makeup,
                f"makeup tee, during line {index + 1}",
                coldest,
                in_co2=ahead and co2_flows(line) is True,
                under_pressure=True,
                site="pump",
                temperature_given=given,
                line=index,
            )


def _through_modifier_pump(
    documents: dict[str, Loaded], methods: Mapping[str, Loaded[Method]]
) -> Iterator[tuple[int, ContactLiquid]]:
    loaded = documents["sequence"]
    typed: Sequence = loaded.model
    if typed.previous is not None:
        before = meeting("modifier", typed.previous.modifier, loaded, ("previous", "modifier"))
        if before is not None:
            yield -1, before
    modifiers = {name: modifier_of(method) for name, method in methods.items()}
    for index, line in enumerate(typed.lines):
        if is_co2(line.liquid):
            continue
        if line.liquid is not None:
            liquid = meeting("flush", line.liquid, loaded, ("lines", index, "liquid"))
        elif line.kind in ("shutdown", "idle"):
            continue
        else:
            liquid = modifiers.get(line.method or typed.method or "")
        if liquid is not None:
            yield index, liquid


def _through_makeup_pump(
    documents: dict[str, Loaded], methods: Mapping[str, Loaded[Method]]
) -> Iterator[tuple[int, ContactLiquid]]:
    typed: Sequence = documents["sequence"].model
    makeups = {name: makeup_of({**documents, "method": method}) for name, method in methods.items()}
    for index, line in enumerate(typed.lines):
        liquid = makeups.get(line.method or typed.method or "")
        if liquid is not None and line.makeup != "off":
            yield index, liquid


def within_bottles(documents: dict[str, Loaded]) -> tuple[Contact, ...]:
    """Blends that have to stay one liquid in their own bottle: each meets itself."""
    coldest, given = coldest_place(documents)
    found = []
    for index, bottle in enumerate(bottles_of(documents)):
        liquid = meeting(bottle.line, bottle, documents["solvents"], ("bottles", index))
        if liquid is not None and len(liquid.components) > 1:
            found.append(
                Contact(
                    liquid,
                    liquid,
                    f"bottle on {bottle.line}",
                    coldest,
                    site="bottle",
                    temperature_given=given,
                )
            )
    return tuple(found)


def within_waste(
    documents: dict[str, Loaded], methods: Mapping[str, Loaded[Method]]
) -> tuple[Contact, ...]:
    """Liquids that end in one waste vessel, with what is in it.

    Returns
    -------
    tuple of Contact
        Every pair once; plumbed drains are left out, and vessels that do not say what they
        receive where there are several.
    """
    loaded: Loaded[Room] | None = documents.get("room")
    if loaded is None:
        return ()
    vessels = loaded.model.waste
    coldest, given = coldest_place(documents)
    found = []
    for index, vessel in enumerate(vessels):
        if vessel.drain:
            continue
        inside: dict[object, ContactLiquid] = {}
        for number, liquid in enumerate(vessel.contents):
            held = meeting("waste", liquid, loaded, ("waste", index, "contents", number))
            if held is not None:
                inside.setdefault(held.components, held)
        for stream in _streams(documents, methods, vessel, alone=len(vessels) == 1):
            inside.setdefault(stream.components, stream)
        found += [
            Contact(
                first,
                second,
                f"waste vessel '{vessel.name}'",
                coldest,
                site="waste",
                temperature_given=given,
            )
            for first, second in combinations(inside.values(), 2)
        ]
    return tuple(found)


def _streams(
    documents: dict[str, Loaded],
    methods: Mapping[str, Loaded[Method]],
    vessel: WasteVessel,
    *,
    alone: bool,
) -> Iterable[ContactLiquid]:
    """Liquids that run into one vessel."""

    def takes(stream: str) -> bool:
        return stream in vessel.receives or (alone and not vessel.receives)

    for method in methods.values():
        modifier = modifier_of(method)
        if modifier is not None and takes("mobile phase"):
            yield modifier
        added = makeup_of({**documents, "method": method})
        typed: Method = method.model
        if added is not None and typed.makeup is not None and takes("makeup"):
            yield added
    loaded: Loaded[Sequence] | None = documents.get("sequence")
    if loaded is not None and takes("mobile phase"):
        for index, line in enumerate(loaded.model.lines):
            if line.liquid is not None and not is_co2(line.liquid):
                flush = meeting("flush", line.liquid, loaded, ("lines", index, "liquid"))
                if flush is not None:
                    yield flush
    for index, bottle in enumerate(bottles_of(documents)):
        stream = {"wash": "needle wash", "seal wash": "seal wash"}.get(role_of(bottle) or "")
        if stream and takes(stream):
            wash = meeting(stream, bottle, documents["solvents"], ("bottles", index))
            if wash is not None:
                yield wash


def waste_contents(
    documents: dict[str, Loaded], methods: Mapping[str, Loaded[Method]]
) -> list[tuple[int, list[str], list[str]]]:
    """For each waste vessel: its number, names of what is in it, names of what runs into it.

    Additives of the contents count as contents; additives of the streams are left out, since a
    mobile phase carries little of them.
    """
    loaded: Loaded[Room] | None = documents.get("room")
    if loaded is None:
        return []
    vessels = loaded.model.waste
    found = []
    for index, vessel in enumerate(vessels):
        inside = [name for liquid in vessel.contents for name, _ in components_of(liquid)]
        inside += [level.additive for liquid in vessel.contents for level in liquid.additives]
        streams = _streams(documents, methods, vessel, alone=len(vessels) == 1)
        running_in = [name for stream in streams for name, _ in stream.components]
        found.append((index, inside, running_in))
    return found
