"""Liquids that follow each other through the needle: wash after wash, diluent after diluent."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise

from methodlint.documents.contents.bottle_roles import role_of, washes_in_turn
from methodlint.documents.kinds.instrument import Instrument
from methodlint.documents.kinds.method import Method
from methodlint.documents.kinds.sequence import Sequence
from methodlint.documents.loading import Loaded
from methodlint.rehearsal.contacts.contact import Contact, ContactLiquid
from methodlint.rehearsal.contacts.in_a_run import bottles_of, coldest_on_tray, meeting

__all__ = ["between_diluents", "between_washes"]

_NOT_DRAWN = frozenset({"flush", "equilibration", "shutdown", "idle"})


def between_washes(documents: Mapping[str, Loaded]) -> tuple[Contact, ...]:
    """Needle washes that follow each other, and each of them with the seal washes.

    A wash that only rinses the needle's outside meets nothing.
    """
    bench = dict(documents)
    washes = _entering(bench)
    temperature, given = coldest_on_tray(bench)
    found = [
        Contact(
            first,
            second,
            "needle and its syringe, from one wash to the next",
            temperature,
            site="needle",
            temperature_given=given,
        )
        for first, second in pairwise(washes)
        if first.components != second.components
    ]
    for index, bottle in enumerate(bottles_of(bench)):
        if role_of(bottle) != "seal wash":
            continue
        seal = meeting("seal wash", bottle, bench["solvents"], ("bottles", index))
        if seal is not None:
            found += [
                Contact(
                    wash,
                    seal,
                    "behind the seal of the wash pump",
                    temperature,
                    site="seal",
                    temperature_given=given,
                )
                for wash in washes
                if wash.components != seal.components
            ]
    return tuple(found)


def _entering(documents: dict[str, Loaded]) -> list[ContactLiquid]:
    """Washes that go through the needle, or may do so, in the order in which they wash."""
    instrument: Loaded[Instrument] | None = documents.get("instrument")
    sampler = instrument.model.autosampler if instrument else None
    general = sampler.wash_enters_loop if sampler is not None else None
    found = []
    for index, bottle in washes_in_turn(bottles_of(documents)):
        enters = bottle.enters_flow if bottle.enters_flow is not None else general
        wash = meeting("needle wash", bottle, documents["solvents"], ("bottles", index))
        if enters is not False and wash is not None:
            found.append(wash)
    return found


def between_diluents(
    documents: Mapping[str, Loaded], methods: Mapping[str, Loaded[Method]]
) -> tuple[Contact, ...]:
    """Diluents of injections that follow each other where no wash goes through in between.

    Parameters
    ----------
    documents
        Documents by kind; without a sequence nothing follows.
    methods
        Method documents by the name that the lines use.

    Returns
    -------
    tuple of Contact
        One for each pair of different diluents, where it is met first.
    """
    loaded, bench = documents.get("sequence"), dict(documents)
    if loaded is None or _entering(bench):
        return ()
    temperature, given = coldest_on_tray(bench)
    found: dict[tuple[object, object], Contact] = {}
    held: ContactLiquid | None = None
    for index, diluent in _drawn(loaded, methods):
        if held is not None and diluent.components != held.components:
            contact = Contact(
                held,
                diluent,
                f"needle and loop, at the change of diluent before line {index + 1}",
                temperature,
                site="needle",
                temperature_given=given,
                line=index,
            )
            found.setdefault((held.components, diluent.components), contact)
        held = diluent
    return tuple(found.values())


def _drawn(
    loaded: Loaded, methods: Mapping[str, Loaded[Method]]
) -> list[tuple[int, ContactLiquid]]:
    """Line and diluent of every injection: the line's own, the sequence's, or its method's."""
    sequence: Sequence = loaded.model
    common = meeting("diluent", sequence.diluent, loaded, ("diluent",))
    found = []
    for index, line in enumerate(sequence.lines):
        if line.kind in _NOT_DRAWN:
            continue
        own = meeting("diluent", line.diluent, loaded, ("lines", index, "diluent")) or common
        method = methods.get(line.method or sequence.method or "")
        injection = method.model.injection if method is not None else None
        if own is None and method is not None and injection is not None:
            own = meeting("diluent", injection.diluent, method, ("injection", "diluent"))
        if own is not None:
            found.append((index, own))
    return found
