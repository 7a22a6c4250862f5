"""Every remedy offered for a planted fault, applied and judged again: what it leaves or brings.

python -m tests.fault_injection.remedied
"""

from __future__ import annotations

import shutil
import sys
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from methodlint.checking.changed import put
from methodlint.documents.library import FOLDERS
from methodlint.judging.finding import Finding, Remedy, severity
from tests.fault_injection.fault import Fault
from tests.fault_injection.trial import faults
from tests.judging.test_remedies_applied import FLAWED, harm
from tests.text_labs import EXAMPLES, TextLab, as_yaml, everything, steps_of
from tests.untried import untried_rules


@dataclass(frozen=True)
class Applied:
    """One remedy of one finding, done."""

    finding: Finding
    remedy: Remedy
    left: bool
    brought: tuple[str, ...]


def done(lab: TextLab, remedy: Remedy) -> TextLab:
    """The lab with the changes of a remedy."""
    for file, at, value, insert in remedy.changes:
        document = next(key for key in lab.texts if _file_of(key) == file)
        data = lab.plain(document)
        put(data, steps_of(at), value, insert=insert)
        lab = lab.with_text(document, as_yaml(data))
    return lab


def _file_of(document: str) -> str:
    kind, _, name = document.partition("/")
    return f"{FOLDERS.get(kind, '.')}/{name}.yaml"


def applied(lab: TextLab) -> Iterator[Applied]:
    """Apply each remedy of each finding by itself, and judge the whole lab again."""
    before = everything(lab.judged().findings)
    worst: dict[str, int] = {}
    for one in before:
        worst[one.rule] = min(worst.get(one.rule, 9), severity(one.grade))
    for finding in before:
        for remedy in finding.remedies:
            after = everything(done(lab, remedy).judged(untried_rules()).findings)
            left = any((o.rule, o.at.path) == (finding.rule, finding.at.path) for o in after)
            bad = [o for o in after if severity(o.grade) <= severity(finding.grade)]
            fresh = [o for o in bad if severity(o.grade) < worst.get(o.rule, 9)]
            yield Applied(finding, remedy, left, tuple(f"{o.rule} ({o.grade})" for o in fresh))


def trials() -> Iterator[tuple[Fault, Applied]]:
    """All remedies of all planted faults."""
    for fault in faults():
        for one in applied(fault.lab):
            yield fault, one


def main() -> int:
    """Print what was left or brought; the status is 1 if anything was."""
    count, wrong = 0, 0
    for fault, one in trials():
        count += 1
        if one.left or one.brought:
            wrong += 1
            said = "leaves it" if one.left else f"brings {', '.join(one.brought)}"
            print(f"{fault.words}\n    {one.finding.rule}: {one.remedy.text}: {said}", flush=True)
    print(f"{len(faults())} faults, {count} remedies applied, {count - wrong} resolve their finding "
          f"and bring nothing as bad, {wrong} do not")  # fmt: skip
    examples, harmful = _flawed_examples()
    print(f"{len(FLAWED)} flawed examples, {examples} remedies applied, {len(harmful)} leave their "
          "finding or bring something as bad", *harmful, sep="\n    ")  # fmt: skip
    return int(wrong > 0 or bool(harmful))


def _flawed_examples() -> tuple[int, list[str]]:
    """Apply every remedy of every flawed example to its files: how many, and what went wrong."""
    count, wrong = 0, []
    for name in FLAWED:
        with tempfile.TemporaryDirectory() as folder:
            lab = Path(folder) / "lab"
            shutil.copytree(EXAMPLES, lab)
            tried, said = harm(lab / "flawed" / f"{name}.yaml", Path(folder))
        count += tried
        wrong += said
    return count, wrong


if __name__ == "__main__":
    sys.exit(main())
