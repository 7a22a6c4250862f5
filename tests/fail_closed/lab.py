"""The example lab in a folder of its own, to be spoilt by one edit at a time."""

from __future__ import annotations

import shutil
from pathlib import Path

from methodlint.checking.check import check
from methodlint.checking.report import Report
from tests.reports.scratch_lab import EXAMPLES

BATCH = "sequences/triazole-day-batch.yaml"
METHOD = "methods/triazole-enantiomers.yaml"


def day_batch(folder: Path) -> Path:
    """Write the sound day batch with all its cards; it is clear to run."""
    lab = folder / "lab"
    lab.mkdir()
    shutil.copy(EXAMPLES / "lab.yaml", lab)
    for name in ("columns", "instruments", "methods", "rooms", "solvents", "supplies"):
        shutil.copytree(EXAMPLES / name, lab / name)
    (lab / "sequences").mkdir()
    shutil.copy(EXAMPLES / "sound" / "triazole-day-batch.yaml", lab / "sequences")
    return lab


def judged(lab: Path, *names: str) -> tuple[str, int, Report]:
    """Verdict, exit status and report of the lab, or of documents in it."""
    report = check(*(lab / name for name in names or (".",)))
    return report.verdict, report.exit_status(), report
