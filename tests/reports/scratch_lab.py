"""Small labs to write in, made from the examples."""

from __future__ import annotations

import contextlib
import json
import shutil
from functools import cache
from pathlib import Path
from typing import Any

from methodlint.checking.check import check
from methodlint.checking.report import Report
from methodlint.reports.prepared import Prepared
from tests.command import ROOT

EXAMPLES = ROOT / "example_methods"

SOUND = frozenset(
    {
        "dye-intermediates",
        "flame-retardant-isomers",
        "flavonoid-aglycones",
        "leaf-waxes",
        "sulfonamides-in-honey",
        "triazole-day-batch",
    }
)
"""Sound documents whose references the tests know."""


def copy_lab(folder: Path, *, sound: bool = True) -> Path:
    """Copy the example lab: its cards, with its sound or its flawed documents as methods."""
    lab = folder / "lab"
    lab.mkdir()
    shutil.copy(EXAMPLES / "lab.yaml", lab)
    for name in ("columns", "instruments", "methods", "rooms", "solvents", "supplies"):
        shutil.copytree(EXAMPLES / name, lab / name)
    for file in sorted((EXAMPLES / ("sound" if sound else "flawed")).glob("*.yaml")):
        text = file.read_text(encoding="utf-8")
        if (sound and file.stem not in SOUND) or "\ntable:" in text:
            continue
        kind = "sequences" if "kind: sequence" in text else "methods"
        (lab / kind).mkdir(exist_ok=True)
        shutil.copy(file, lab / kind)
    return lab


def change(file: Path, old: str, new: str) -> None:
    """Replace a text that stands once in a file."""
    text = file.read_text(encoding="utf-8")
    assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in {file}"
    file.write_text(text.replace(old, new), encoding="utf-8")


def line_of(file: Path, start: str) -> int:
    """Number of the line that begins with a text."""
    lines = file.read_text(encoding="utf-8").splitlines()
    return next(number for number, line in enumerate(lines, 1) if line.strip().startswith(start))


def prepared(*paths: str | Path, **options: Any) -> Prepared:
    """Check and make ready for the formats."""
    return Prepared(check(*paths), **options)


@cache
def example_report(part: str) -> Report:
    """Judge a part of the examples once for all tests; no test changes the report."""
    with contextlib.chdir(ROOT):
        return check(f"example_methods/{part}")


def example(part: str, **options: Any) -> Prepared:
    """Make a part of the examples ready for the formats; paths are those seen from the root."""
    return Prepared(example_report(part), **options)


def plain(prepared_report: Prepared) -> dict[str, Any]:
    """The report as it reads back from JSON."""
    data: dict[str, Any] = json.loads(json.dumps(prepared_report.data))
    return data
