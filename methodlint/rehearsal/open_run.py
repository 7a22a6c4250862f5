"""Rehearse a method file on an instrument card, for use from Python."""

from __future__ import annotations

from pathlib import Path

from methodlint.documents.arguments import require_name, require_path
from methodlint.documents.kinds.method import Method
from methodlint.documents.library import LabFolder, lab_root
from methodlint.rehearsal.plan.run_plan import plan_run
from methodlint.rehearsal.run.rehearsal import Rehearsal
from methodlint.rehearsal.run.rehearse import rehearse as rehearse_plan


def rehearse(method: str | Path, instrument: str | None = None) -> Rehearsal:
    """Rehearse one method: what will happen at every time and place of one run.

    Parameters
    ----------
    method
        Path of a method document inside its lab folder.
    instrument
        Name of an instrument card; the first of the method's `runs_on` by default.

    Returns
    -------
    Rehearsal
        Arrays of time x place in SI: pressure [Pa], temperature [K], density [kg/m3],
        viscosity [Pa s], margin to the phase boundary [Pa]; see `Rehearsal` for all of them and
        their shapes. `missing` names the figures that are not given, and the arrays are empty
        then.

    Raises
    ------
    FileNotFoundError
        If there is no such file.
    ValueError
        If it is no method, or a card that it refers to cannot be found.
    TypeError
        If an argument has another type.

    Examples
    --------
    >>> import methodlint
    >>> run = methodlint.rehearse("example_methods/methods/triazole-enantiomers.yaml")
    >>> run.done
    True
    >>> round(float(run.column_outlet_pressure[0]) / 1e5)  # bar
    132
    >>> run.pressure.shape == (run.time.size, run.volume.size + 1)
    True

    The worst moment of every component, with its band and its time:

    >>> print(run.worst_points)  # doctest: +SKIP

    Temperature at the column outlet lies between the oven's and that without any heat from it:

    >>> bool(run.adiabatic_column.outlet_temperature[0] <= run.temperature.max())
    True

    `example_methods/plot_a_run.py` plots composition, pressures and density of a gradient
    (needs matplotlib: ``pip install 'methodlint[plot]'``).
    """
    require_path("method", method)
    require_name("instrument", instrument)
    file = Path(method).absolute()
    if not file.is_file():
        raise FileNotFoundError(f"there is no file {method}")
    folder = LabFolder(lab_root(file), Path.cwd())
    document = folder.open(file)
    if document is None or document.kind != "method":
        raise ValueError(f"{method} is not a method document")
    typed: Method = document.model
    names = typed.column if isinstance(typed.column, tuple) else (typed.column,)
    columns = tuple(folder.card("column", name, document) for name in names if name is not None)
    wanted = instrument or next(iter(typed.runs_on), None)
    card = folder.card("instrument", wanted, document) if wanted else None
    return rehearse_plan(plan_run(document, columns, card))
