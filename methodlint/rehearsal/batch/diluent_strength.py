"""How much of a diluent a column forgives at the start of a run."""

from __future__ import annotations

from methodlint.documents.kinds.instrument import Instrument
from methodlint.documents.kinds.method import Method
from methodlint.documents.loading import Loaded
from methodlint.fluids.liquids.known import find_liquid
from methodlint.rehearsal.batch.injected import Injected, liquid_strength, mobile_phase_strength
from methodlint.rehearsal.plan.run_plan import AMBIENT, components_of
from methodlint.rehearsal.run.rehearsal import Rehearsal

#: Share of the hold-up volume, by strength from this rank on (common practice, no source).
LIMITS = ((3.5, 0.005), (2.5, 0.010))

#: A start with this share of a modifier as strong as the diluent forgives it.
RICH_START = 0.20

#: What is injected every day without harm [m3], and where even that is much for the column.
EVERYDAY_VOLUME, MUCH_OF_COLUMN = 2e-9, 0.02


def is_strong(run: Rehearsal, group: Injected, method: Method | None) -> bool:
    """Whether a diluent elutes better than the mobile phase that it is injected into.

    Parameters
    ----------
    run
        A finished rehearsal.
    group
        What is injected.
    method
        The typed method.

    Returns
    -------
    bool
        False for weak liquids (ethers, esters, alkanes and blends as weak), for what is not
        known, where the start holds enough of an equally strong modifier, and where the
        injection joins a modifier stream as strong as itself, which it merely replaces.
    """
    own = liquid_strength(group.components)
    phase = method.mobile_phase if method is not None else None
    modifier = components_of(phase.modifier) if phase is not None and phase.modifier else ()
    share = float(run.pumped_share[0])
    strength = mobile_phase_strength(modifier, share)
    if own is None or strength is None or own < LIMITS[-1][0] or own <= strength:
        return False
    pumped = liquid_strength(modifier)
    if pumped is None or pumped < own:
        return True
    stream = method.injection.stream if method is not None and method.injection else None
    if stream == "modifier":
        return False
    return not (share >= RICH_START - 1e-9 and _same_kind(group, modifier))


def _same_kind(group: Injected, modifier: tuple[tuple[str, float], ...]) -> bool:
    """Every liquid of the diluent is in the modifier, or both are alcohols."""
    pumped = [find_liquid(name) for name, _ in modifier]
    families = {liquid.family for liquid in pumped if liquid is not None}
    for name, _ in group.components:
        liquid = find_liquid(name)
        if liquid in pumped or (liquid and liquid.family == "alcohol" and "alcohol" in families):
            continue
        return False
    return True


def diluent_limit(run: Rehearsal, group: Injected, method: Method | None) -> float | None:
    """Greatest volume of a diluent that the column forgives [m3].

    Parameters
    ----------
    run
        A finished rehearsal.
    group
        What is injected.
    method
        The typed method.

    Returns
    -------
    float or None
        None where the diluent is not too strong for any volume, see `is_strong`.

    Source
    ------
    All limits: common practice, no source.
    """
    own = liquid_strength(group.components)
    if own is None or not is_strong(run, group, method):
        return None
    part = next(part for rank, part in LIMITS if own >= rank)
    hold_up = run.hold_up_volume
    return max(part * hold_up, min(EVERYDAY_VOLUME, MUCH_OF_COLUMN * hold_up))


def tray_temperature(documents: dict[str, Loaded]) -> float:
    """Temperature of the autosampler's tray [K]; that of the room if the card has none."""
    card: Loaded[Instrument] | None = documents.get("instrument")
    sampler = card.model.autosampler if card is not None else None
    tray = sampler.tray_temperature if sampler is not None else None
    return tray.si if tray is not None else AMBIENT
