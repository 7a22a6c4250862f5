"""Checks of supercritical fluid chromatography methods and sequences before the run.

`check` reads documents or folders and gives a `Report`; `check_many` does so for thousands, alone
or with the workers of an executor; `rehearse` computes one run; `transfer`
moves a method to another instrument or column.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from methodlint.version import __version__

if TYPE_CHECKING:
    from methodlint.checking.check import check
    from methodlint.checking.report import Report
    from methodlint.many.check_many import check_many
    from methodlint.rehearsal.open_run import rehearse
    from methodlint.rehearsal.run.rehearsal import Rehearsal
    from methodlint.transfer.open_transfer import transfer
    from methodlint.transfer.result import Transfer

__all__ = [
    "Rehearsal",
    "Report",
    "Transfer",
    "__version__",
    "check",
    "check_many",
    "rehearse",
    "transfer",
]

_WHERE = {
    "check": "methodlint.checking.check",
    "Report": "methodlint.checking.report",
    "check_many": "methodlint.many.check_many",
    "rehearse": "methodlint.rehearsal.open_run",
    "Rehearsal": "methodlint.rehearsal.run.rehearsal",
    "transfer": "methodlint.transfer.open_transfer",
    "Transfer": "methodlint.transfer.result",
}


def __getattr__(name: str) -> Any:
    """Import the public names when they are first used: `--version` needs none of them."""
    if name in _WHERE:
        import importlib

        return getattr(importlib.import_module(_WHERE[name]), name)
    raise AttributeError(f"module 'methodlint' has no attribute {name!r}")
