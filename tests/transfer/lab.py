"""A lab folder on disk for the tests of transfers: cards of the sound lab, changed, and a method."""

from __future__ import annotations

import io
import tempfile
from functools import cache
from pathlib import Path

from ruamel.yaml import YAML

from methodlint.documents.library import FOLDERS, LabFolder
from methodlint.rulebook.examples import lab_with
from methodlint.scaling.allowances import ALLOWANCES
from methodlint.transfer.make import make_transfer
from methodlint.transfer.result import Transfer
from methodlint.transfer.sides import make_sides

GRADIENT = """\
# A comment at the top stays.
kind: method
title: Gradient of the tests
purpose: research
column: wide
runs_on: [here]
oven_temperature: 40 degC   # kept, blanks and all
outlet_pressure: 150 bar
flow:   3.0 mL/min
mobile_phase:
  modifier: {liquid: methanol, line: modifier-1}
programme:
  - {time: 0 min, modifier_share: 5 % v/v}
  - {time: 6 min, modifier_share: 35 % v/v}   # the critical pair
  - {time: 8 min, modifier_share: 35 % v/v}
  - {time: 8.5 min, modifier_share: 5 % v/v}
run_length: 10 min
settling_time: 4 min
injection: {volume: 5 uL, mode: part-filled loop, diluent: 2-propanol, stream: mixed}
detectors:
  - type: UV
    wavelength: 254 nm
    rate: 10 Hz
    filter: 0.2 s
expected_peaks:
  - {name: first, retention_time: 2.5 min, plates: 9000}
  - {name: last, retention_time: 7.0 min, plates: 12000}
"""

ISOCRATIC = """\
kind: method
title: Isocratic run of the tests
purpose: research
column: wide
runs_on: [here]
oven_temperature: 40 degC
outlet_pressure: 150 bar
flow: 3.0 mL/min
mobile_phase:
  modifier: {liquid: methanol, line: modifier-1}
  modifier_share: 20 % v/v
run_length: 10 min
injection: {volume: 10 uL, mode: part-filled loop, diluent: 2-propanol, stream: mixed}
"""

CARDS = """
kind: instrument
x-name: here
dwell_volume: 1.2 mL
autosampler: {loop: 20 uL, highest_volume: 10 uL}
fitted_columns: {"1": wide, "2": narrow}
---
kind: instrument
x-name: there
dwell_volume: 0.25 mL
fitted_columns: {"1": wide, "2": narrow}
---
kind: column
x-name: wide
length: 250 mm
inner_diameter: 4.6 mm
particle_size: 5 um
---
kind: column
x-name: narrow
length: 150 mm
inner_diameter: 3.0 mm
particle_size: 3 um
"""


def make_lab(folder: Path, method: str = GRADIENT, *changes: str) -> Path:
    """Write a lab folder; give the path of its method.

    Later fragments of a card are laid over earlier ones of the same name.
    """
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "lab.yaml").write_text("kind: lab\nname: Lab of the tests\n", encoding="utf-8")
    for text in (CARDS, *changes):
        _write_cards(folder, text)
    file = folder / FOLDERS["method"] / "assay.yaml"
    file.parent.mkdir(exist_ok=True)
    file.write_bytes(method.encode("utf-8"))
    return file


@cache
def transferred(method: str = GRADIENT, *changes: str) -> Transfer:
    """Transfer a method of a lab as it is written by `make_lab`, once; nobody changes it."""
    with tempfile.TemporaryDirectory() as folder:
        return moved(make_lab(Path(folder), method, *changes))


def _write_cards(folder: Path, text: str) -> None:
    yaml = YAML(typ="safe")
    for fragment in text.split("---\n"):
        plain = YAML(typ="safe").load(fragment)
        kind, name = plain["kind"], plain["x-name"]
        file = folder / FOLDERS[kind] / f"{name}.yaml"
        file.parent.mkdir(exist_ok=True)
        if file.exists():
            data = {**YAML(typ="safe").load(file.read_text(encoding="utf-8")), **plain}
            data.pop("x-name", None)
        else:
            data = lab_with(fragment)[f"{kind} {name}"].data
        stream = io.StringIO()
        yaml.dump(data, stream)
        file.write_text(stream.getvalue(), encoding="utf-8")


def moved(file: Path, to: str = "there", column: str | None = "narrow", **options):
    """Transfer without any rule: the computation alone."""
    root = file.parent.parent
    folder = LabFolder(root, root)
    method = folder.open(file)
    assert method is not None
    assert method.problems == ()
    allowances = ALLOWANCES[options.pop("allowances", "none")]
    typed = method.model
    own = (folder.find("column", typed.column, method),)
    source = (own, folder.find("instrument", typed.runs_on[0], method))
    other = (folder.find("column", column, method),) if column else own
    sides = make_sides(method, folder.lab, source, (other, folder.find("instrument", to, method)))
    return make_transfer(
        sides, folder, "moved", "methods/moved.yaml", allowances=allowances, rules=(), **options
    )
