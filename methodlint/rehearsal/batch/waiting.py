"""How long samples wait on the tray, and what the tray does to their diluents."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from methodlint.documents.kinds.base import Liquid
from methodlint.documents.kinds.instrument import Autosampler
from methodlint.documents.quantities.format import show
from methodlint.fluids.liquids.known import find_liquid
from methodlint.fluids.miscibility.blends import miscible_blend
from methodlint.rehearsal.batch.line_facts import clock_at
from methodlint.rehearsal.batch.lines import Batch, LineRun
from methodlint.rehearsal.batch.positions import TrayPlace
from methodlint.rehearsal.batch.tray import tray_of
from methodlint.rehearsal.plan.run_plan import components_of

Components = tuple[tuple[str, float], ...]

#: Kinds of line whose vial holds something that ages.
AGEING = frozenset({"calibrator", "control", "suitability", "sample"})

#: What boils below this [K] leaves a pierced vial within `PIERCED` [s] (common practice, no
#: source); pentane, diethyl ether, dichloromethane, methyl tert-butyl ether and acetone do.
VOLATILE_BELOW = 330.0
PIERCED = 12.0 * 3600.0

#: What two notes of one moment may be apart [s] (common practice, no source).
CLOCKS_AGREE = 900.0
_ONE_DAY = 86400.0

#: A component of less than this share of the diluent may leave unnoticed.
MATTERS = 0.1


@dataclass(frozen=True, slots=True)
class Wait:
    """One line's sample between preparation and last injection.

    Attributes
    ----------
    run
        The line.
    begins
        When the sequence begins; None if it is not known, like the others.
    prepared
        When the sample was prepared.
    stability
        How long it keeps [s].
    injected
        When it is injected for the last time.
    """

    run: LineRun
    begins: datetime.datetime | None
    prepared: datetime.datetime | None
    stability: float | None
    injected: datetime.datetime | None

    @property
    def waited(self) -> float | None:
        """From preparation to last injection [s]."""
        if self.injected is None or self.prepared is None:
            return None
        return (_plain(self.injected) - _plain(self.prepared)).total_seconds()

    @property
    def late(self) -> float | None:
        """How much longer it waits than it keeps [s]; negative if it does not."""
        waited = self.waited
        return None if waited is None or self.stability is None else waited - self.stability


def _plain(moment: datetime.datetime) -> datetime.datetime:
    """Compare moments with and without a zone by the clock on the wall."""
    return moment.replace(tzinfo=None)


def waits_on_tray(batch: Batch, run: LineRun) -> Wait | None:
    """Tell how long a line's sample waits; None for lines whose vial holds nothing that ages."""
    if not run.injects or run.line.kind not in AGEING:
        return None
    sequence = batch.typed
    stability = run.line.stability or sequence.stability
    begins = sequence.begins
    injected = None
    if begins is not None:
        injected = clock_at(begins, run.last_start)
    return Wait(
        run,
        begins,
        run.line.prepared or sequence.prepared,
        stability.si if stability is not None else None,
        injected,
    )


@dataclass(frozen=True, slots=True)
class NotYetThere:
    """A sample that is injected before it is prepared.

    Attributes
    ----------
    run
        The line.
    own
        The moment of preparation is written at the line itself.
    prepared, injected
        When it is prepared, and when it is injected for the first time.
    early
        From the injection to the preparation [s], above 0.
    """

    run: LineRun
    own: bool
    prepared: datetime.datetime
    injected: datetime.datetime
    early: float


def not_yet_there(batch: Batch) -> Iterator[NotYetThere]:
    """Find samples that are injected before they are prepared; linear in the lines.

    The sequence's own `prepared` is that of its samples: what standards and controls are made of
    may stand there for longer. A begin at midnight is taken for a day without an hour.
    """
    sequence = batch.typed
    begins = sequence.begins
    if begins is None:
        return
    day_only = begins.time() == datetime.time(0, 0)
    slack = _ONE_DAY if day_only else CLOCKS_AGREE
    for run in batch.lines:
        if not run.injects or run.line.kind not in AGEING:
            continue
        own = run.line.prepared
        prepared = own or (sequence.prepared if run.line.kind == "sample" else None)
        if prepared is None:
            continue
        injected = clock_at(begins, run.begins)
        early = (_plain(prepared) - _plain(injected)).total_seconds()
        if early > slack:
            yield NotYetThere(run, own is not None, prepared, injected, early)


@dataclass(frozen=True, slots=True)
class TrayTrouble:
    """A diluent that does not keep on the tray.

    Attributes
    ----------
    run
        First line that meets it.
    kind
        "evaporates" or "parts".
    words, remedy
        What happens, and what to do.
    """

    run: LineRun
    kind: Literal["evaporates", "parts"]
    words: str
    remedy: str


def tray_troubles(
    batch: Batch, sampler: Autosampler | None, temperature: float | None
) -> Iterator[TrayTrouble]:
    """Find diluents that evaporate or part on the tray; linear in the lines.

    Parameters
    ----------
    batch
        A rehearsed sequence.
    sampler
        The autosampler's card.
    temperature
        Of the tray [K]; None if it is not known.
    """
    tray = tray_of(sampler, batch.typed)
    parts_of: dict[int, Components] = {}
    pierced: dict[TrayPlace, float] = {}
    evaporating: set[Components] = set()
    seen: set[Components] = set()
    for run in batch.lines:
        if not run.injects:
            continue
        parts = _components(batch, run, parts_of)
        if parts and parts not in seen and temperature is not None:
            seen.add(parts)
            yield from _cold(run, parts, temperature)
        volatile = _volatile(parts)
        place = tray.place(run.line) if volatile and parts not in evaporating else None
        if place is None or volatile is None:
            continue
        waited = run.last_start - pierced.setdefault(place, run.begins)
        if waited > PIERCED:
            evaporating.add(parts)
            yield TrayTrouble(
                run,
                "evaporates",
                f"the vial in {place.words} has been pierced for {waited / 3600.0:.1f} h, "
                f"{volatile} leaves it within {PIERCED / 3600.0:.0f} h",
                "set out a fresh vial, or cover with a plug that closes again",
            )


def _components(batch: Batch, run: LineRun, known: dict[int, Components]) -> Components:
    method = batch.methods.get(run.method)
    typed = method.model if method is not None else None
    liquid: Liquid | None = batch.liquid_of(run.line, typed)
    if liquid is None:
        return ()
    if id(liquid) not in known:
        known[id(liquid)] = components_of(liquid)
    return known[id(liquid)]


def _volatile(parts: Components) -> str | None:
    total = sum(share for _, share in parts)
    for name, share in parts:
        liquid = find_liquid(name)
        boils = liquid.normal_boiling_point if liquid is not None else None
        if boils is not None and boils < VOLATILE_BELOW and share >= MATTERS * total:
            return name
    return None


def _cold(run: LineRun, parts: Components, temperature: float) -> Iterator[TrayTrouble]:
    if len(parts) > 1 and miscible_blend(parts, parts, temperature).verdict == "immiscible":
        words = " + ".join(name for name, _ in parts)
        yield TrayTrouble(
            run,
            "parts",
            f"{words} part at the tray's {show(temperature, 'temperature')}",
            "warm the tray or use one liquid",
        )
