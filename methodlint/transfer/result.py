"""The result of a transfer, which can be written."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path as FilePath

from methodlint.transfer.computed import AllowanceUse, Computed, NoFeasibleTransfer
from methodlint.transfer.writing import write_transfer

__all__ = ["AllowanceUse", "NoFeasibleTransfer", "Transfer"]


@dataclass(repr=False)
class Transfer(Computed):
    """A method moved to another instrument or column. Predicted; verify."""

    def __repr__(self) -> str:
        """Method, target and outcome in one line."""
        sides = self.sides
        instrument = sides.target.plan.instrument
        where = instrument.name if instrument is not None else "no instrument"
        if not self.feasible:
            return f"<Transfer of {sides.method.name} to {where}: not feasible>"
        changed = sum(entry.proposed != entry.source for entry in self.entries)
        return (
            f"<Transfer of {sides.method.name} to {where}: feasible, {changed} items change, "
            f"{len(self.remaining)} findings remain (predicted; verify)>"
        )

    def _repr_html_(self) -> str:
        """The same with the table of items or with what binds, for notebooks."""
        from html import escape

        lines = [(each.item, each.source, each.proposed, each.reason) for each in self.entries]
        lines = lines or [(each.name, "", "", each.message) for each in self.obstacles]
        rows = "".join(
            f"<tr>{''.join(f'<td>{escape(cell)}</td>' for cell in line)}</tr>" for line in lines
        )
        titles = "".join(f"<th>{name}</th>" for name in ("item", "source", "proposed", "why"))
        return f"<p>{escape(repr(self)[1:-1])}</p><table><tr>{titles}</tr>{rows}</table>"

    def write(
        self, file: str | FilePath, beside: Mapping[str, str] | None = None
    ) -> tuple[FilePath, ...]:
        """Write the method, its transfer record and the verification sequences.

        Parameters
        ----------
        file
            Of the method; record and sequences go beside it.
        beside
            Texts of more files by what follows the method's name, for example
            `-transfer.html` for the record as a page.

        Returns
        -------
        tuple of pathlib.Path
            The files written, the method first.

        Raises
        ------
        NoFeasibleTransfer
            If nothing is feasible; nothing is written.
        FileExistsError
            If a file would overwrite a document that was read, or what this tool did not write.
        OSError
            If one of them cannot be written; then none is.
        """
        return write_transfer(self, FilePath(file), beside or {})
