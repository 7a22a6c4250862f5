"""What a sequence takes and where it ends, on the card: CO2, bottles, waste, vials."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from methodlint.documents.quantities.format import show
from methodlint.judging.case import BatchCase
from methodlint.judging.shared.cylinder_words import balance_words, change_words, cylinder_end_words
from methodlint.judging.shared.supply_end import (
    bookings_of_others,
    others_draw,
    others_sharing,
    supply_end,
)
from methodlint.judging.shared.waste_of_case import fills_of
from methodlint.rehearsal.batch.bench_state import liquid_words
from methodlint.rehearsal.batch.bottles import BottleUse, bottle_uses
from methodlint.rehearsal.batch.tray import tray_of
from methodlint.rehearsal.batch.vials import VialAccount, vial_accounts
from methodlint.reports.card.blocks import Alert, CardRows, Table
from methodlint.reports.card.places import place_list

__all__ = ["bottle_block", "co2_block", "vial_block", "waste_block"]

RESERVE = 1.1
"""Prepared over needed; common practice, no source."""

_STEP = 10e-6


def _kg(mass: float) -> str:
    return show(mass, "mass", "kg")


def co2_block(case: BatchCase) -> CardRows:
    """Needed, usable, when it ends, the cylinder in use and the spare."""
    supply, batch = case.supply, case.batch
    rows: list[tuple[str, str]] = []
    if batch.missing:
        lacks = ", ".join(item.where for item in batch.missing)
        rows.append(("needed", f"not known: {lacks} missing"))
    else:
        start = _kg(batch.equilibration_co2)
        of_it = f", {start} of it before the first line" if batch.equilibration_co2 else ""
        band = batch.metering_band
        by_flow = f" (by set flow, +-{100.0 * band:.0f} %)" if band else ""
        rows.append(("needed", f"{_kg(batch.co2_demand)}{by_flow}{of_it}"))
    rows += _end_rows(case)
    if supply is not None:
        rows.append(("in use", _in_use(case)))
        spare = "none on the card"
        if supply.spare_mass is not None:
            spare = f"{_kg(supply.spare_mass.si)} of CO2"
        rows.append(("spare", spare))
        change = {
            "automatic": "automatic, to the other cylinder",
            "manual": "by hand: close the empty one first, vent the hose, then change",
        }.get(supply.changeover or "")
        if change:
            rows.append(("changeover", change))
    return CardRows("co2", "CO2", tuple(rows))


def _end_rows(case: BatchCase) -> Iterator[tuple[str, str]]:
    if case.supply is None:
        return
    found = supply_end(case)
    end = found.end
    if end is None:
        yield "ends", found.why
        return
    usable = end.usable
    kind = "vapour" if found.vapour else "liquid"
    span = f"{_kg(max(usable.least, 0.0))} to {_kg(max(usable.most, 0.0))}"
    stays = f"{_kg(usable.vapour)} stays behind as vapour"
    yield "usable", f"{_kg(max(usable.expected, 0.0))} as {kind} ({span}); {stays}"
    if found.inlet_pressure is not None:
        pressure = show(found.inlet_pressure, "pressure")
        yield "pump inlet", f"the pump condenses vapour and draws down to {pressure}"
    if end.expected_first is None and end.not_before is None:
        left = -end.short_at_worst
        yield "ends", f"not during this sequence: {_kg(left)} in reserve in the worst case"
    else:
        words = cylinder_end_words(case.batch, end, vapour=found.vapour)
        yield "ends", f"{words}; {balance_words(end)}"
        if case.supply.changeover != "automatic":
            yield "do", change_words(case.batch, end)
    others = others_draw(case)
    if others > 0.0:
        yield "others", _others_words(case, others, usable.expected)


def _others_words(case: BatchCase, others: float, usable: float) -> str:
    assert case.supply is not None
    who = ", ".join(
        f"{booking.instrument} {_kg(booking.mass.si)}"
        + (f" until {booking.ends:%Y-%m-%d %H:%M}" if booking.ends else "")
        for booking in bookings_of_others(case)
        if booking.mass is not None
    )
    own = case.batch.co2_demand
    text = f"{who} from the same supply; together {_kg(own + others)} of {_kg(max(usable, 0.0))}"
    number = case.batch.injection_when_used(max(usable - others, 0.0))
    if number is None:
        return text
    when = f"during injection {number}" if number else "before the first injection"
    return f"{text}; should they draw first, it ends {when}"


def _in_use(case: BatchCase) -> str:
    supply = case.supply
    assert supply is not None
    parts = [case.documents["supply"].name]
    if supply.cylinders > 1:
        parts.append(f"{supply.cylinders} cylinders together")
    if supply.net_mass is not None:
        weighed = f" weighed {supply.weighed}" if supply.weighed else ", day of weighing not given"
        typed = " (typed for this run)" if _typed(case, "net_mass") else weighed
        parts.append(f"{_kg(supply.net_mass.si)}{typed}")
    if supply.used_since_weighed is not None:
        parts.append(f"{_kg(supply.used_since_weighed.si)} drawn since")
    if others := others_sharing(case):
        parts.append(f"shared with {', '.join(others)}")
    return ", ".join(parts)


def _typed(case: BatchCase, key: str) -> bool:
    """Whether a figure of the supply card is not the one that its file holds."""
    loaded = case.documents["supply"]
    written = loaded.read.plain()
    return isinstance(written, dict) and written.get(key) != loaded.data.get(key)


def bottle_block(case: BatchCase) -> Table | CardRows:
    """What each bottle has to give, what to fill it to, during which injection it ends."""
    batch = case.batch
    loaded = case.documents.get("solvents")
    if loaded is None or batch.missing:
        parts = [f"modifier {show(batch.modifier_demand, 'volume', 'mL')}"]
        if batch.makeup_demand > 0.0:
            parts.append(f"makeup {show(batch.makeup_demand, 'volume', 'mL')}")
        why = "no list of bottles" if loaded is None else "not all of it is known"
        return CardRows("bottles", "BOTTLES", (("", f"{', '.join(parts)} without purging; {why}"),))
    uses, missing = bottle_uses(batch, loaded, case.documents.get("instrument"))
    rows = tuple(_bottle_row(case, use) for use in uses if use.need > 0.0)
    foot = [("not known", f"{item.where}: no bottle is on that line") for item in missing]
    idle = [use.bottle.line for use in uses if use.need <= 0.0]
    if idle:
        foot.append(("not used", ", ".join(idle)))
    headers = ("line", "liquid", "takes mL", "purge", "in it", "prepare", "ends at injection")
    return Table("bottles", "BOTTLES", "", headers, rows, frozenset({0, 1, 6}), tuple(foot))


def _bottle_row(case: BatchCase, use: BottleUse) -> tuple[str, ...]:
    purge = use.parts.get("purge", 0.0)
    fill = use.bottle.fill
    liquid = liquid_words(use.bottle) or "not named"
    return (
        use.bottle.line,
        liquid,
        _millilitres(use.need),
        _millilitres(purge) if purge else "-",
        _millilitres(fill.si) if fill is not None else "not given",
        _millilitres(fill_wanted(use)),
        ends_words(use, case.batch.injections),
    )


def fill_wanted(use: BottleUse) -> float:
    """Fill with which a bottle lasts, its dead volume and a tenth more included [m3]."""
    dead = use.bottle.dead_volume.si if use.bottle.dead_volume is not None else 0.0
    return math.ceil((RESERVE * use.most_between_refills + dead) / _STEP - 1e-9) * _STEP


def ends_words(use: BottleUse, injections: int) -> str:
    """Injection during which a bottle runs dry, with the unfavourable side."""
    if use.usable is None:
        return "not known"
    if use.runs_dry is not None:
        first = use.runs_dry or "before 1"
        early = f", not before {use.early}" if use.early and use.early != use.runs_dry else ""
        return Alert(f"{first} of {injections}{early}")
    return f"enough; {use.early} in the worst case" if use.early is not None else "enough"


def _millilitres(volume: float) -> str:
    return show(volume, "volume", "mL").removesuffix(" mL")


def waste_block(case: BatchCase) -> Table | None:
    """What runs into each waste vessel; None if the room card has none."""
    if case.room is None or not case.room.waste or case.batch.missing:
        return None
    fills, missing = fills_of(case)
    rows = []
    for fill in fills:
        level = fill.vessel.level.si if fill.vessel.level is not None else 0.0
        if fill.full is None:
            state = "sufficient"
        elif fill.full:
            state = Alert(f"full during injection {fill.full}: empty it first")
        else:
            state = Alert("full before injection 1: empty it first")
        rows.append(
            (
                fill.vessel.name,
                _litres(level),
                _litres(fill.volume),
                _litres(level + fill.volume),
                _litres(fill.room_left + level),
                state,
            )
        )
    headers = ("vessel", "holds L", "runs in", "at the end", "may hold", "")
    foot = tuple(("not known", where) for where in missing)
    drains = [vessel.name for vessel in case.room.waste if vessel.drain]
    if drains:
        foot += (("drain", ", ".join(drains)),)
    return Table("waste", "WASTE", "", headers, tuple(rows), frozenset({0, 5}), foot)


def _litres(volume: float) -> str:
    return show(volume, "volume", "L").removesuffix(" L")


def vial_block(case: BatchCase) -> Table | None:
    """Least fill of every vial, dead volume included; like vials in one row."""
    sampler = case.get("instrument.autosampler")
    accounts = vial_accounts(case.batch.lines, tray_of(sampler, case.sequence))
    if not accounts:
        return None
    groups: dict[tuple[str, ...], list[VialAccount]] = {}
    for account in accounts:
        groups.setdefault(_vial_figures(account), []).append(account)
    rows = [
        (place_list([account.place for account in members]), *figures)
        for figures, members in sorted(groups.items(), key=lambda group: _urgency(group[1]))
    ]
    headers = ("vials", "draws", "takes uL", "dead", "fill at least", "in it", "")
    return Table("vials", "VIALS", "", headers, tuple(rows), frozenset({0, 6}))


def _vial_figures(account: VialAccount) -> tuple[str, ...]:
    each = f" in each of {account.vials}" if account.vials > 1 else ""
    if account.dry_draw is not None:
        state: str = Alert(f"runs dry at draw {account.dry_draw}")
    else:
        state = "enough" if account.known else "not known"
    return (
        str(account.draws),
        _microlitres(account.needed),
        _microlitres(account.dead_volume),
        _microlitres(account.fill_needed) + each,
        _microlitres(account.fill) + each,
        state,
    )


def _urgency(members: Iterable[VialAccount]) -> tuple[bool, int]:
    listed = list(members)
    return all(account.dry_draw is None for account in listed), -listed[0].draws


def _microlitres(volume: float | None) -> str:
    return "-" if volume is None else show(volume, "volume", "uL").removesuffix(" uL")
