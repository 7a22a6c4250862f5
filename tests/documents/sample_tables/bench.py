"""A lab folder of its own for each test, with a sequence whose lines come from somewhere."""

from __future__ import annotations

import shutil
from pathlib import Path

from methodlint.documents.kinds.sequence import Line, Sequence
from methodlint.documents.library import LabFolder
from methodlint.documents.loading import Loaded
from methodlint.documents.text.problems import Problem

EXAMPLES = Path(__file__).resolve().parents[3] / "example_methods"
HEAD = """kind: sequence
instrument: bench-a
supply: yard-cylinder
solvents: bench-a-bottles
room: separations-room
method: triazole-enantiomers
purpose: research
begins: 2026-11-24T09:00
slot: {begins: "2026-11-24T08:30", length: 20 h}
operator: bench A duty analyst
phone: "+00 000 0142"
equilibration: 10 min
diluent: ethanol
"""


def lab(folder: Path) -> Path:
    """Copy the example lab and give its folder."""
    target = folder / "lab"
    shutil.copytree(EXAMPLES, target)
    return target


def write(folder: Path, source: str, **files: bytes) -> Path:
    """Write a sequence `tonight.yaml` into a folder, and files beside it (`samples_csv=...`)."""
    (folder / "lab.yaml").write_text("kind: lab\nname: invented\n", encoding="utf-8")
    for name, data in files.items():
        stem, _, suffix = name.rpartition("_")
        (folder / f"{stem}.{suffix}").write_bytes(data)
    file = folder / "tonight.yaml"
    file.write_text(HEAD + source, encoding="utf-8")
    return file


def load(folder: Path, source: str, **files: bytes) -> Loaded:
    """Write a sequence and load it."""
    loaded = LabFolder(folder, folder).open(write(folder, source, **files))
    assert loaded is not None
    return loaded


def lines(loaded: Loaded) -> tuple[Line, ...]:
    """Lines of a sequence."""
    assert isinstance(loaded.model, Sequence)
    return loaded.model.lines


def loud(loaded: Loaded) -> list[Problem]:
    """Problems that are more than notes."""
    return [problem for problem in loaded.problems if problem.grade != "note"]


def notes(loaded: Loaded) -> str:
    """Text of the notes."""
    return " | ".join(p.message for p in loaded.problems if p.grade == "note")


def only(loaded: Loaded) -> Problem:
    """Give the one problem."""
    (problem,) = loud(loaded)
    return problem


def where(problem: Problem) -> tuple[str, int, int, str]:
    """File, line, column and cell of a problem."""
    place = problem.place
    return place.file, place.line, place.column, place.cell
