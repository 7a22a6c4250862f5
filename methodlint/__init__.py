"""Checks of supercritical fluid chromatography methods and sequences before the run.

`check` reads documents or folders and gives a `Report`; `check_many` does so for thousands, alone
or with the workers of an executor; `rehearse` computes one run; `transfer`
moves a method to another instrument or column.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from methodlint.version import __version__

if TYPE_CHECKING:
    from methodlint.api import CheckReport as Report
    from methodlint.api import check, check_many
    from methodlint.checking.given import Given, GivenWrong
    from methodlint.checking.targets import NothingToCheck
    from methodlint.judging.lab_rules import RulesNotNamed
    from methodlint.rehearsal.open_run import rehearse
    from methodlint.rehearsal.run.rehearsal import Rehearsal
    from methodlint.transfer.computed import NoFeasibleTransfer
    from methodlint.transfer.open_transfer import transfer
    from methodlint.transfer.result import Transfer
    from methodlint.transfer.sides import CannotTransfer

__all__ = [
    "CannotTransfer",
    "Given",
    "GivenWrong",
    "NoFeasibleTransfer",
    "NothingToCheck",
    "Rehearsal",
    "Report",
    "RulesNotNamed",
    "Transfer",
    "__version__",
    "check",
    "check_many",
    "rehearse",
    "transfer",
]

_WHERE = {
    "CannotTransfer": "methodlint.transfer.sides",
    "Given": "methodlint.checking.given",
    "GivenWrong": "methodlint.checking.given",
    "NoFeasibleTransfer": "methodlint.transfer.computed",
    "NothingToCheck": "methodlint.checking.targets",
    "Rehearsal": "methodlint.rehearsal.run.rehearsal",
    "Report": "methodlint.api:CheckReport",
    "RulesNotNamed": "methodlint.judging.lab_rules",
    "Transfer": "methodlint.transfer.result",
    "check": "methodlint.api",
    "check_many": "methodlint.api",
    "rehearse": "methodlint.rehearsal.open_run",
    "transfer": "methodlint.transfer.open_transfer",
}


def __getattr__(name: str) -> Any:
    """Import the public names when they are first used: `--version` needs none of them."""
    if name in _WHERE:
        import importlib

        module, _, inside = _WHERE[name].partition(":")
        return getattr(importlib.import_module(module), inside or name)
    raise AttributeError(f"module 'methodlint' has no attribute {name!r}")


def __dir__() -> list[str]:
    """Public names for `help` and tab completion, those that are not imported yet included."""
    return sorted({*__all__, *(name for name in globals() if name.startswith("__"))})
