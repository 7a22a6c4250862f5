"""What a transfer came to: figures, reasons, the proposed text and what the check of it found."""

from __future__ import annotations

from dataclasses import dataclass, field

from methodlint.checking.report import Report
from methodlint.documents.loading import Loaded
from methodlint.judging.finding import Finding
from methodlint.scaling.allowances import AllowanceSet
from methodlint.transfer.attempt import Attempt
from methodlint.transfer.bench_part import Widths
from methodlint.transfer.entry import Entry, Obstacle, Way
from methodlint.transfer.sides import Sides

__all__ = ["AllowanceUse", "Computed", "NoFeasibleTransfer"]

INFEASIBLE = 4
"""Exit status: no transfer is feasible, nothing is written."""


class NoFeasibleTransfer(ValueError):
    """Asked to write a transfer that is not feasible."""


@dataclass(frozen=True, slots=True)
class AllowanceUse:
    """One item of the allowance set against what the transfer does.

    Attributes
    ----------
    item, change, span, source
        In words; `span` says so where no allowance was found.
    exceeded
        Whether the change lies outside.
    found
        Whether the set has an allowance for this item.
    """

    item: str
    change: str
    span: str
    source: str
    exceeded: bool
    found: bool = True


@dataclass
class Computed:
    """What the move of a method to another instrument or column came to. Predicted; verify.

    Attributes
    ----------
    sides
        Source and target.
    entries
        The four-column table.
    obstacles
        Binding constraints; empty if the transfer is feasible.
    ways
        Other ways, ranked.
    attempt
        Settled states of the corners at what is proposed; None without one.
    peaks
        Expected peaks on both systems.
    allowances, uses
        The allowance set, and every item of it against this transfer.
    text
        The proposed method as YAML; empty if nothing is feasible.
    proposed
        The proposed method as it was read back.
    report
        What the check of the proposal found.
    remaining
        Findings of that check which the source does not have on its own instrument.
    verification
        Text of the verification sequence by file name, one per system.
    """

    sides: Sides
    entries: tuple[Entry, ...] = ()
    obstacles: tuple[Obstacle, ...] = ()
    ways: tuple[Way, ...] = ()
    attempt: Attempt | None = None
    peaks: tuple[Widths, ...] = ()
    allowances: AllowanceSet | None = None
    uses: tuple[AllowanceUse, ...] = ()
    text: str = ""
    proposed: Loaded | None = None
    report: Report | None = None
    remaining: tuple[Finding, ...] = ()
    verification: dict[str, str] = field(default_factory=dict)
    remarks: tuple[str, ...] = ()
    options: dict[str, str] = field(default_factory=dict)

    @property
    def feasible(self) -> bool:
        """Whether there is a method to write."""
        return not self.obstacles

    def entry(self, item: str) -> Entry:
        """One line of the table by its item.

        Raises
        ------
        KeyError
            If there is none.
        """
        for entry in self.entries:
            if entry.item == item:
                return entry
        raise KeyError(item)

    def exit_status(self) -> int:
        """3 or 2 if the proposal could not be judged; 4 if nothing is feasible; 1 if a fault or
        stop remains; else 0."""
        if self.report is not None and self.report.unjudged:
            return max(item.status for item in self.report.unjudged)
        if not self.feasible:
            return INFEASIBLE
        return 1 if any(f.grade in ("stop", "fault") for f in self.remaining) else 0
