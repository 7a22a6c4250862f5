"""Transfer a method file, for use from Python and from the command line."""

from __future__ import annotations

from pathlib import Path
from typing import get_args

from methodlint.checking.throttled_gc import gc_throttled
from methodlint.documents.arguments import (
    require_flag,
    require_name,
    require_path,
    require_word,
)
from methodlint.documents.kinds.lab import Lab
from methodlint.documents.kinds.method import Method
from methodlint.documents.library import LabFolder, lab_root
from methodlint.documents.loading import Loaded
from methodlint.scaling.allowances import AllowanceSet, allowance_set, lab_allowances
from methodlint.scaling.allowances import Name as AllowanceName
from methodlint.scaling.settled import NotCovered
from methodlint.transfer.flow_choice import Keep
from methodlint.transfer.make import make_transfer
from methodlint.transfer.result import Transfer
from methodlint.transfer.sides import CannotTransfer, make_sides
from methodlint.transfer.writing import may_write

__all__ = ["transfer"]


@gc_throttled()
def transfer(
    method: str | Path,
    to: str,
    column: str | None = None,
    *,
    source_instrument: str | None = None,
    keep: Keep = "separation",
    shorten: bool = False,
    allowances: AllowanceName = "none",
    output: str | Path | None = None,
) -> Transfer:
    """Move a method to another instrument or column.

    Parameters
    ----------
    method
        Path of a method document inside its lab folder.
    to
        Name of the target's instrument card.
    column
        Name of the target's column card; the method's own by default.
    source_instrument
        Name of the instrument the method comes from; the first of its `runs_on` by default.
    keep
        `separation` scales the flow by geometry; `duration` keeps the run length.
    shorten
        Run as fast as limits and allowances permit.
    allowances
        Set of allowances that the changes are held against.
    output
        File that the method is meant for; nothing is written here, see `Transfer.write`.

    Returns
    -------
    Transfer
        Predicted; verify. `feasible` is false, and nothing can be written, where a constraint
        binds.

    Raises
    ------
    FileNotFoundError
        If there is no such file.
    ValueError
        If it is no method, a card cannot be found, a figure is missing, the lab's own document
        cannot be used, or the lab declares no allowances of its own.
    NotWritten
        If `output` is a file that may not be written; an `OSError`.
    TypeError
        If an argument has another type.

    Examples
    --------
    >>> import methodlint
    >>> moved = methodlint.transfer(
    ...     "example_methods/methods/triazole-enantiomers.yaml", to="bench-a"
    ... )
    >>> moved.entry("flow").how
    'copied'
    """
    require_path("method", method)
    require_name("to", to, needed=True)
    require_name("column", column)
    require_name("source_instrument", source_instrument)
    require_word("keep", keep, get_args(Keep))
    require_flag("shorten", shorten)
    require_word("allowances", allowances, get_args(AllowanceName))
    if output is not None:
        require_path("output", output)
    file = Path(method).absolute()
    if not file.is_file():
        raise FileNotFoundError(f"there is no file {method}")
    folder = LabFolder(lab_root(file), Path.cwd())
    if output is not None:
        may_write(Path(output), folder.root)
    document = folder.open(file)
    if document is None or document.kind != "method":
        raise ValueError(f"{method} is not a method document")
    _refuse_unusable(folder.lab)
    typed: Method = document.model
    names = typed.column if isinstance(typed.column, tuple) else (typed.column,)
    columns = tuple(folder.card("column", name, document) for name in names if name is not None)
    origin = source_instrument or next(iter(typed.runs_on), None)
    if origin is None:
        raise ValueError(f"{method} names no instrument in runs_on that it comes from")
    source = folder.card("instrument", origin, document)
    target = folder.card("instrument", to, document)
    other = (folder.card("column", column, document),) if column else columns
    allowed = _allowances(folder, allowances)
    try:
        sides = make_sides(document, folder.lab, (columns, source), (other, target))
    except NotCovered as gap:
        raise CannotTransfer(str(gap)) from gap
    if output is not None:
        name, path = Path(output).stem, folder.shown(Path(output).absolute())
    else:
        name = f"{document.name}-on-{target.name}"
        path = (Path(document.path).parent / f"{name}.yaml").as_posix()
    return make_transfer(sides, folder, name, path, keep=keep, shorten=shorten, allowances=allowed)


def _refuse_unusable(lab: Loaded[Lab] | None) -> None:
    """Raise `ValueError` for a lab's own document that is there and cannot be used."""
    if lab is None:
        return
    for problem in lab.problems:
        if problem.breaks and problem.grade == "fault":
            where = f"{lab.path}, line {problem.place.line}"
            raise ValueError(f"{where}: {problem.message}; {problem.remedy}")


def _allowances(folder: LabFolder, name: AllowanceName) -> AllowanceSet:
    policy = folder.lab.model.policy if folder.lab else None
    return allowance_set(name, lab_allowances(policy))
