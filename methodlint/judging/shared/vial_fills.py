"""What to fill into a vial that runs dry: never more than the vessel holds."""

from __future__ import annotations

import math

from methodlint.documents.quantities.format import show
from methodlint.rehearsal.batch.vials import VialAccount

__all__ = ["fill_advised", "full_vial", "vial_advice"]


def fill_advised(account: VialAccount) -> str | None:
    """The fill to write with which a vial lasts; None if it is above the vessel's capacity."""
    needed, capacity = account.fill_needed, account.capacity
    if needed is None or (capacity is not None and needed > capacity):
        return None
    rounded = _rounded_up(needed)
    return _exact(rounded if capacity is None else min(rounded, capacity))


def full_vial(account: VialAccount) -> str:
    """The capacity as a fill."""
    assert account.capacity is not None
    return _exact(account.capacity)


def vial_advice(account: VialAccount) -> str:
    """The remedy in words: a fill, else as many full vials as it takes."""
    fill = fill_advised(account)
    if fill is not None:
        return f"fill {fill}"
    holds, vials = full_vial(account), account.vials_needed
    if vials is None:
        return f"inject less from it or take a larger vessel; this one holds {holds}"
    return f"fill {holds}, which is all that it holds, and set out {vials} such: 'vials: {vials}'"


def _exact(volume: float) -> str:
    """A volume for a document; rounded to fewer digits it could be more than a vessel holds."""
    return show(volume, "volume", "uL", digits=6)


def _rounded_up(volume: float) -> float:
    """Round a volume [m3] up to two digits of microlitres, so that it still suffices."""
    figure = volume * 1e9 * (1.0 - 1e-9)
    step = 10.0 ** max(math.floor(math.log10(figure)) - 1, 0) if figure > 0.0 else 1.0
    return math.ceil(figure / step) * step * 1e-9
