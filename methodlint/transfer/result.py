"""The result of a transfer, which can be written."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path as FilePath

from methodlint.transfer.computed import AllowanceUse, Computed, NoFeasibleTransfer
from methodlint.transfer.writing import write_transfer

__all__ = ["AllowanceUse", "NoFeasibleTransfer", "Transfer"]


@dataclass
class Transfer(Computed):
    """A method moved to another instrument or column. Predicted; verify."""

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
