"""Every remedy offered for a planted fault, applied and judged again: what it leaves or brings.

python -m tests.fault_injection.remedied
"""

from __future__ import annotations

import json
import shutil
import sys
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from methodlint.checking.changed import put
from methodlint.checking.report import Report
from methodlint.documents.library import FOLDERS
from methodlint.judging.finding import Finding, Remedy, severity
from tests.fault_injection.fault import Fault
from tests.fault_injection.trial import faults
from tests.judging.test_every_remedy import flawed_lab
from tests.judging.test_remedies_applied import FLAWED, harm
from tests.scenarios.show import shows
from tests.text_labs import EXAMPLES, TextLab, as_yaml, everything, steps_of
from tests.untried import untried_rules


@dataclass(frozen=True)
class Applied:
    """One remedy of one finding, done."""

    finding: Finding
    remedy: Remedy
    left: bool
    brought: tuple[str, ...]


def done(lab: TextLab, *remedies: Remedy) -> TextLab:
    """The lab with the changes of remedies; lines are put in last, so that no number shifts."""
    changes = dict.fromkeys(change for remedy in remedies for change in map(_fixed, remedy.changes))
    texts: dict[str, Any] = {}
    for file, at, value, insert in sorted(changes, key=_in_turn):
        document = next(key for key in lab.texts if _file_of(key) == file)
        data = texts.setdefault(document, lab.plain(document))
        put(data, steps_of(at), json.loads(value), insert=insert)
    for document, data in texts.items():
        lab = lab.with_text(document, as_yaml(data))
    return lab


def _fixed(change: tuple[str, str, Any, bool]) -> tuple[str, str, str, bool]:
    file, at, value, insert = change
    return file, at, json.dumps(value, default=str), insert


def _in_turn(change: tuple[str, str, str, bool]) -> tuple[bool, list[int]]:
    _, at, _, insert = change
    return insert, [-step for step in steps_of(at) if isinstance(step, int)]


def _file_of(document: str) -> str:
    kind, _, name = document.partition("/")
    return f"{FOLDERS.get(kind, '.')}/{name}.yaml"


def applied(lab: TextLab) -> Iterator[Applied]:
    """Apply each remedy of each finding by itself, and judge the whole lab again."""
    before = everything(lab.judged().findings)
    for finding in before:
        for remedy in finding.remedies:
            after = everything(done(lab, remedy).judged(untried_rules()).findings)
            rest = [one for one in before if one is not finding]
            left = _is_left(finding, rest, after)
            floor = severity(finding.grade)
            yield Applied(
                finding, remedy, left, brought(_as_bad(rest, floor), _as_bad(after, floor))
            )


def _is_left(finding: Finding, others: list[Finding], after: list[Finding]) -> bool:
    """Whether a finding is still there; that of another run at the same place is another one."""
    known = {(one.rule, one.at.path, one.subject) for one in others}
    return any(
        (one.rule, one.at.path) == (finding.rule, finding.at.path)
        and (one.rule, one.at.path, one.subject) not in known
        for one in after
    )


def _as_bad(findings: list[Finding], floor: int) -> list[tuple[str, str]]:
    return [(one.rule, one.grade) for one in findings if severity(one.grade) <= floor]


def brought(before: list[tuple[str, str]], after: list[tuple[str, str]]) -> tuple[str, ...]:
    """What is there more often than before, or in a worse class, of rules with their classes.

    A second finding of a rule counts as much as a first one.
    """
    said = []
    for rule in dict.fromkeys(rule for rule, _ in after):
        was = sorted(severity(grade) for name, grade in before if name == rule)
        now = sorted((severity(grade), grade) for name, grade in after if name == rule)
        for place, (level, grade) in enumerate(now):
            if place >= len(was) or level < was[place]:
                said.append(f"{rule} ({grade})")
    return tuple(said)


@dataclass(frozen=True)
class Screen:
    """The first remedies of all findings of one report, done together.

    Attributes
    ----------
    remedies
        How many there are.
    contradict
        Places that two of them give different values.
    left
        Rules whose finding is still there.
    brought
        What is as bad as the worst that was there, and was not.
    """

    remedies: int
    contradict: tuple[str, ...]
    left: tuple[str, ...]
    brought: tuple[str, ...]

    @property
    def sound(self) -> bool:
        """Whether a person may do all of it."""
        return not (self.contradict or self.left or self.brought)


def screen(lab: TextLab, judged: Report | None = None) -> Screen:
    """Do the first remedy of every finding of a report, as someone does who works down the page."""
    before = (judged or lab.judged()).findings
    remedied = [one for one in before if one.remedies]
    values: dict[tuple[str, str, bool], set[str]] = {}
    for one in remedied:
        for file, at, value, insert in map(_fixed, one.remedies[0].changes):
            values.setdefault((file, at, insert), set()).add(value)
    lab = done(lab, *(one.remedies[0] for one in remedied))
    after = everything(lab.judged(untried_rules()).findings)
    rest = [one for one in everything(before) if not one.remedies]
    floor = min((severity(one.grade) for one in before), default=0)
    known = _as_bad(everything(before), floor)
    return Screen(
        len(remedied),
        tuple(f"{file} {at}: {', '.join(sorted(said))}" for (file, at, _), said in values.items()
              if len(said) > 1),
        tuple(one.rule for one in remedied if _is_left(one, rest, after)),
        brought(known, _as_bad(after, floor)),
    )  # fmt: skip


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
    several = [(name, found) for name, lab in labs() if (found := screen(lab)).remedies > 1]
    unsound = [f"{name}: {found}" for name, found in several if not found.sound]
    print(f"{len(several)} reports with several remedies, done together: {len(unsound)} contradict, "
          "leave a finding or bring something as bad", *unsound, sep="\n    ")  # fmt: skip
    return int(wrong > 0 or bool(harmful) or bool(unsound))


def labs() -> Iterator[tuple[str, TextLab]]:
    """Every lab with something wrong: planted faults, flawed examples, shows."""
    yield from ((fault.words, fault.lab) for fault in faults())
    yield from ((name, flawed_lab(name)) for name in FLAWED)
    yield from ((show.name, show.lab("lines")) for show in shows())


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
