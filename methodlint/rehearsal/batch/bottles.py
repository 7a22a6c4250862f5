"""What each bottle gives over a sequence, and during which injection it runs dry."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass, field

from methodlint.documents.contents.bottle_roles import makeup_bottle, role_of
from methodlint.documents.kinds.base import Liquid
from methodlint.documents.kinds.instrument import Instrument
from methodlint.documents.kinds.method import Method
from methodlint.documents.kinds.solvents import Bottle, Solvents
from methodlint.documents.loading import Loaded
from methodlint.fluids.additives.known import additive_name
from methodlint.rehearsal.batch.lines import Batch, LineRun
from methodlint.rehearsal.contacts.contact import Components
from methodlint.rehearsal.contacts.in_a_run import modifier_bottles
from methodlint.rehearsal.plan.makeup_flow import equilibration_makeup
from methodlint.rehearsal.plan.missing import Missing
from methodlint.rehearsal.plan.run_plan import components_of

__all__ = ["BottleUse", "bottle_uses"]

METERING_BAND = 0.02
"""Relative half width of what a liquid pump delivers; common practice, no source."""

_EQUILIBRATION, _PURGE = "equilibration", "purge"


@dataclass
class BottleUse:
    """One bottle over the whole sequence.

    Attributes
    ----------
    index
        Number of the bottle in the list of bottles.
    parts
        What is taken from it [m3]: by injections, equilibration, purge, steps.
    usable
        Fill less dead volume [m3]; None if one of them is not given.
    runs_dry
        Number of the injection during which it runs dry, 0 if before the first one; None if it
        lasts.
    dry_line
        Index of the line of the sequence during which it runs dry.
    early
        The same injection on the unfavourable side of the metering band.
    lacking
        Figures without which its use is not known.
    history
        Clock [s] from the start of the sequence and what has been taken by then since the bottle
        was last filled [m3]: behind the equilibration, behind every line, and at a refill.
    """

    index: int
    bottle: Bottle
    parts: dict[str, float] = field(default_factory=lambda: defaultdict(float))
    usable: float | None = None
    runs_dry: int | None = None
    dry_line: int | None = None
    early: int | None = None
    lacking: list[str] = field(default_factory=list)
    most_between_refills: float = 0.0
    history: list[tuple[float, float]] = field(default_factory=list)

    @property
    def need(self) -> float:
        """What is taken from it over the whole sequence [m3]."""
        return sum(self.parts.values())

    @property
    def band(self) -> float:
        """Half width of the need between two refills [m3]."""
        return METERING_BAND * self.most_between_refills


@dataclass
class _Level:
    """Running level of one bottle while the lines go by."""

    use: BottleUse
    taken: float = 0.0

    def take(self, volume: float, part: str, line: LineRun | None) -> None:
        if volume <= 0.0:
            return
        use = self.use
        use.parts[part] += volume
        if use.usable is not None:
            if use.runs_dry is None and self.taken + volume > use.usable:
                use.runs_dry = _injection(line, (use.usable - self.taken) / volume)
                use.dry_line = line.index if line is not None else None
            early = use.usable / (1.0 + METERING_BAND)
            if use.early is None and self.taken + volume > early:
                use.early = _injection(line, (early - self.taken) / volume)
        self.taken += volume
        use.most_between_refills = max(use.most_between_refills, self.taken)


def _injection(line: LineRun | None, part: float) -> int:
    """Injection running when this part of a line's liquid is gone; the last one of a step."""
    if line is None:
        return 0
    if not line.injects:
        return -1
    return line.injection_at(part)


def bottle_uses(
    batch: Batch, solvents: Loaded[Solvents], instrument: Loaded[Instrument] | None
) -> tuple[tuple[BottleUse, ...], tuple[Missing, ...]]:
    """Add up what every bottle gives, line by line; linear in the lines.

    Modifier goes by the line that each method names, makeup likewise, a flush by what it flushes
    with; needle washes by injection, a seal wash by the clock. Nothing is taken for the purge of
    a line unless the list of bottles gives its volume.

    Parameters
    ----------
    batch
        A rehearsed sequence; its clock and volumes have to be known.
    solvents, instrument
        List of bottles, instrument card.

    Returns
    -------
    uses : tuple of BottleUse
        One per bottle, in the order of the document.
    missing : tuple of Missing
        Figures without which some use belongs to no bottle.
    """
    typed = solvents.model
    levels = [_Level(_empty_use(index, bottle)) for index, bottle in enumerate(typed.bottles)]
    lookup = _Lookup(solvents, instrument, batch.methods)
    _wash_needs(levels, instrument)
    card = instrument.model if instrument else None
    wash = card.autosampler.wash_volume if card and card.autosampler else None
    purged: set[int] = set()

    def from_line(
        number: int | None, volume: float, part: str, line: LineRun | None, *, purge: bool = False
    ) -> None:
        if number is None:
            return
        if purge and number not in purged and typed.purge_volume is not None:
            purged.add(number)
            levels[number].take(typed.purge_volume.si, _PURGE, line)
        levels[number].take(volume, part, line)

    first = batch.lines[0].method if batch.lines else ""
    from_line(
        lookup.modifier(first), batch.equilibration_modifier, _EQUILIBRATION, None, purge=True
    )
    makeup = equilibration_makeup(batch.methods.get(first), batch.equilibration)
    from_line(lookup.makeup(first), makeup, _EQUILIBRATION, None)
    for level in levels:
        level.use.history += [(0.0, 0.0), (batch.equilibration, level.taken)]
    last = 0
    for line in batch.lines:
        last = line.last_injection or last
        for name in line.line.refills:
            for level in levels:
                if level.use.bottle.line == name:
                    level.taken = 0.0
                    level.use.history.append((line.begins, 0.0))
        number = lookup.modifier(line.method)
        if line.line.liquid is not None:
            number = lookup.with_content(line.line.liquid, number)
        part = "injections" if line.injects else line.line.kind
        from_line(number, line.modifier, part, line, purge=line.modifier > 0.0)
        from_line(lookup.makeup(line.method), line.makeup, part, line)
        for level in levels:
            bottle = level.use.bottle
            if role_of(bottle) == "wash" and line.injects:
                each = bottle.per_injection or wash
                level.take(each.si * line.injections if each else 0.0, part, line)
            elif role_of(bottle) == "seal wash" and bottle.uses is not None:
                level.take(bottle.uses.si * (line.ends - line.begins), part, line)
        for level in levels:
            level.use.history.append((line.ends, level.taken))
            if level.use.runs_dry == -1:
                level.use.runs_dry = last
            if level.use.early == -1:
                level.use.early = last
    return tuple(level.use for level in levels), tuple(lookup.missing)


def _empty_use(index: int, bottle: Bottle) -> BottleUse:
    usable = None
    lacking = []
    if bottle.fill is None:
        lacking.append(f"solvents.bottles[{index}].fill")
    if bottle.dead_volume is None:
        lacking.append(f"solvents.bottles[{index}].dead_volume")
    if bottle.fill is not None and bottle.dead_volume is not None:
        usable = max(bottle.fill.si - bottle.dead_volume.si, 0.0)
    return BottleUse(index, bottle, usable=usable, lacking=lacking)


def _wash_needs(levels: list[_Level], instrument: Loaded[Instrument] | None) -> None:
    card = instrument.model if instrument else None
    wash = card.autosampler.wash_volume if card and card.autosampler else None
    for level in levels:
        use = level.use
        if role_of(use.bottle) == "wash" and use.bottle.per_injection is None and wash is None:
            use.lacking.append("instrument.autosampler.wash_volume")
        if role_of(use.bottle) == "seal wash" and use.bottle.uses is None:
            use.lacking.append(f"solvents.bottles[{use.index}].uses")


class _Lookup:
    """Which bottle a method's modifier and makeup come from."""

    def __init__(
        self,
        solvents: Loaded[Solvents],
        instrument: Loaded[Instrument] | None,
        methods: Mapping[str, Loaded[Method]],
    ) -> None:
        self.bottles = solvents.model.bottles
        self.contents = [components_of(bottle) for bottle in self.bottles]
        bench = {"solvents": solvents, **({"instrument": instrument} if instrument else {})}
        self.drawn = {index for index, _ in modifier_bottles(bench)}
        self.lines = {bottle.line: index for index, bottle in reversed([*enumerate(self.bottles)])}
        self.missing: list[Missing] = []
        self._modifiers: dict[str, int | None] = {}
        self._makeups: dict[str, int | None] = {}
        for name, loaded in methods.items():
            method = loaded.model
            modifier = method.mobile_phase.modifier if method.mobile_phase else None
            if modifier is not None:
                self._modifiers[name] = self._bottle(
                    modifier.line,
                    components_of(modifier),
                    Missing("method.mobile_phase.modifier.line", loaded),
                )
            if method.makeup is not None:
                bottle = makeup_bottle(self.bottles, method.makeup)
                self._makeups[name] = bottle
                if bottle is None:
                    self.missing.append(Missing("method.makeup.line", loaded))

    def _bottle(self, line: str | None, content: Components, lacking: Missing) -> int | None:
        if line is not None and line in self.lines:
            return self.lines[line]
        same = [index for index, inside in enumerate(self.contents) if inside == content]
        if line is None and len(same) == 1:
            return same[0]
        self.missing.append(lacking)
        return None

    def modifier(self, method: str) -> int | None:
        """Bottle of a method's modifier."""
        return self._modifiers.get(method)

    def makeup(self, method: str) -> int | None:
        """Bottle of a method's makeup."""
        return self._makeups.get(method)

    def with_content(self, liquid: Liquid, usual: int | None) -> int | None:
        """Bottle that holds a flush's liquid: the usual one if it does, else the first that does.

        One with the same additives goes before one that has others or none, then one that is
        there to flush with.
        """
        content, additives = components_of(liquid), _additives(liquid)
        held = [
            index
            for index in range(len(self.bottles))
            if self.contents[index] == content and (index == usual or index in self.drawn)
        ]
        return min(
            held,
            key=lambda index: (
                _additives(self.bottles[index]) != additives,
                role_of(self.bottles[index]) != "flush",
                index != usual,
            ),
            default=None,
        )


def _additives(liquid: Liquid) -> set[str]:
    return {additive_name(level.additive) for level in liquid.additives}
