"""What a sequence draws from every vial, and where a vial runs dry."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

from methodlint.rehearsal.batch.lines import LineRun
from methodlint.rehearsal.batch.positions import TrayPlace
from methodlint.rehearsal.batch.tray import Tray

# Rounding of volumes in SI; 4 x 7 uL out of 28 uL must go.
_SLACK = 1e-9


@dataclass(slots=True)
class VialAccount:
    """One place on the tray over the whole sequence.

    Attributes
    ----------
    place
        Plate and well.
    samples
        Sample identities drawn from it, in order, each once.
    lines
        Indices of the lines that draw from it.
    fill, dead_volume
        Liquid put in and what the needle cannot reach [m3], of one vial; None if not known.
    fill_line
        Index of the line that gives the fill; None if none does.
    vials
        Like vials set out for this place.
    capacity
        Of the vessel [m3]; None if not known.
    draws
        Number of injections.
    needed
        Drawn by all injections, what is drawn beside each injection included [m3]; None if a
        line's volume is not known.
    dry_line, dry_injection, dry_draw
        First line (index), injection of the sequence and draw from this vial (both counted
        from 1) that find too little; None if all find enough or it is not known.
    """

    place: TrayPlace
    samples: dict[str, None] = field(default_factory=dict)
    lines: list[int] = field(default_factory=list)
    fill: float | None = None
    fill_line: int | None = None
    dead_volume: float | None = None
    vials: int = 1
    capacity: float | None = None
    draws: int = 0
    needed: float | None = 0.0
    dry_line: int | None = None
    dry_injection: int | None = None
    dry_draw: int | None = None
    _largest_draw: float = 0.0
    _left: float | None = None
    _vials_left: int = 0

    @property
    def available(self) -> float | None:
        """What the needle can draw [m3]; None if fill or dead volume is not known."""
        each = self._in_one_vial
        return None if each is None else each * self.vials

    @property
    def _in_one_vial(self) -> float | None:
        if self.fill is None or self.dead_volume is None:
            return None
        return max(self.fill - self.dead_volume, 0.0)

    @property
    def fill_needed(self) -> float | None:
        """Fill of one vial with which all injections find enough [m3]; None if not known."""
        if self.needed is None or self.dead_volume is None:
            return None
        if self.vials == 1:
            return self.needed + self.dead_volume
        # What is left in a vial that holds no whole draw is lost.
        return math.ceil(self.draws / self.vials) * self._largest_draw + self.dead_volume

    @property
    def vials_needed(self) -> int | None:
        """Like vials, filled up, with which all injections find enough.

        None if it is not known or a full vial does not give a single injection.
        """
        if self.capacity is None or self.dead_volume is None or self.needed is None:
            return None
        if self._largest_draw <= 0.0:
            return None
        each = int((self.capacity - self.dead_volume) * (1.0 + _SLACK) / self._largest_draw)
        return math.ceil(self.draws / each) if each > 0 else None

    @property
    def known(self) -> bool:
        """Whether everything is known that tells if it runs dry."""
        return self.available is not None and self.needed is not None


def vial_accounts(lines: Sequence[LineRun], tray: Tray) -> tuple[VialAccount, ...]:
    """Add up what each vial gives; linear in the lines.

    Every line that injects from a place counts with all its injections: replicates,
    suitability and bracketing standards that share a vial share its liquid. The fill is the
    first one that a line of the place gives; the dead volume is the line's, else that of its
    vessel type.

    Parameters
    ----------
    lines
        Lines of a rehearsed sequence, in order.
    tray
        What stands where.

    Returns
    -------
    tuple of VialAccount
        In the order of first use; lines without a place that can be read are left out.
    """
    accounts: dict[TrayPlace, VialAccount] = {}
    drawing = [(run, place) for run in lines if run.injects and (place := tray.place(run.line))]
    for run, place in drawing:
        account = accounts.get(place)
        if account is None:
            account = accounts[place] = VialAccount(place)
        _describe(account, run, tray)
    for run, place in drawing:
        _draw(accounts[place], run)
    return tuple(accounts.values())


def _describe(account: VialAccount, run: LineRun, tray: Tray) -> None:
    line = run.line
    account.lines.append(run.index)
    if line.sample is not None:
        account.samples.setdefault(line.sample)
    if account.fill is None and line.fill is not None:
        account.fill, account.fill_line = line.fill.si, run.index
    account.vials = max(account.vials, line.vials)
    vessel = tray.vessel(line, account.place)
    own = line.dead_volume
    if own is None and vessel is not None:
        own = vessel.dead_volume
    if account.dead_volume is None and own is not None:
        account.dead_volume = own.si
    if account.capacity is None and vessel is not None and vessel.capacity is not None:
        account.capacity = vessel.capacity.si


def _draw(account: VialAccount, run: LineRun) -> None:
    count = run.injections
    each = run.drawn_per_injection
    account.draws += count
    if each is None or account.needed is None:
        account.needed = None
        account.dry_line = account.dry_injection = account.dry_draw = None
        return
    account.needed += count * each
    account._largest_draw = max(account._largest_draw, each)
    full = account._in_one_vial
    if full is None or account.dry_line is not None or each <= 0.0:
        return
    if account._left is None:
        account._left, account._vials_left = full, account.vials - 1
    done = 0
    while done < count:
        fits = min(int(account._left * (1.0 + _SLACK) / each), count - done)
        account._left -= fits * each
        done += fits
        if done == count:
            return
        if account._vials_left == 0 or full * (1.0 + _SLACK) < each:
            break
        account._left, account._vials_left = full, account._vials_left - 1
    account.dry_line = run.index
    account.dry_injection = run.first_injection + done
    account.dry_draw = account.draws - count + done + 1
