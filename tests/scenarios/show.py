"""What a show is: a lab with something wrong, what must be found, what must not, and its silent twin.

A folder of this one that has a `lab` in it holds shows, one YAML file each: the laboratory in `lab`
with the changes of `everywhere` and of `lines_changes` and with `lines` put in before line `at` of its
sequence, the shutdown unless it says. `musts` are rules that have to be found (one of several where
they are a list), `not_checked` those that have to say which figure they lack, `must_nots` rules or
families that must not be above a note, `verdict` is what the report says. `twin` and `twin_changes`
make the same lab with the fault taken out, which has to be clear to run. What is expected was worked
out by hand first, and stands in the file's `why`.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache, cached_property
from pathlib import Path
from typing import Any

from methodlint.checking.report import Report
from methodlint.documents.library import FOLDERS
from methodlint.documents.text.reader import read_text
from methodlint.judging.finding import Finding
from tests.text_labs import TextLab, everything
from tests.untried import untried_rules

HERE = Path(__file__).parent


@dataclass(frozen=True)
class Show:
    """One show."""

    file: Path

    @property
    def name(self) -> str:
        """Folder and name of the file."""
        return f"{self.file.parent.name}/{self.file.stem}"

    @cached_property
    def said(self) -> dict[str, Any]:
        """What the file says."""
        plain = read_text(self.file.read_bytes(), self.file.name).plain()
        assert isinstance(plain, dict)
        return plain

    def lab(self, key: str) -> TextLab:
        """The lab as it is judged, `key` being `lines` or `twin`."""
        lab = sound_lab(self.file.parent)
        changes = {**self.said.get("everywhere", {}), **self.said.get(f"{key}_changes", {})}
        for path, value in changes.items():
            lab = lab.changed(path, value)
        lines = lab.plain(lab.meant["sequence"])["lines"]
        at = self.said.get("at", len(lines)) - 1
        lines[at:at] = self.said.get(key, [])
        return lab.changed("sequence.lines", lines)

    @cache  # noqa: B019 - a handful of shows, each judged twice
    def report(self, key: str) -> Report:
        """What is found in the lab, or in its twin; remedies are not tried."""
        return self.lab(key).judged(untried_rules())

    def missed(self) -> list[str]:
        """Musts that were not found, and a verdict that is another."""
        report = self.report("lines")
        found = everything(report.findings)
        lost = [one for one in self.said["musts"] if not any(_is(this, one) for this in found)]
        wrong = [f"not found: {one}" for one in lost]
        for rule, where in self.said.get("not_checked", {}).items():
            missing = [item.missing for item in report.not_checked if item.rule == rule]
            wrong += [f"not among what is not checked: {rule}"] * (missing != [(where,)])
        if report.verdict != self.said["verdict"]:
            wrong.append(f"the verdict is {report.verdict}, not {self.said['verdict']}")
        return wrong

    def violated(self) -> list[str]:
        """Rules that were found and must not be, and what the twin says."""
        kinds = tuple(self.said["must_nots"])
        found = everything(self.report("lines").findings)
        loud = {one.rule for one in found if one.grade != "note"}
        twin = self.report("twin")
        said = [one for one in everything(twin.findings) if one.grade != "note"]
        return [
            *([f"twin: {twin.verdict}"] if twin.verdict != "clear to run" else []),
            *sorted(rule for rule in loud if rule.startswith(kinds)),
            *(f"twin: {one.grade} {one.rule}: {one.message}" for one in said),
            *(f"twin: not checked {one.rule}: {one.missing}" for one in _new(twin, self._sound)),
        ]

    @property
    def _sound(self) -> Report:
        return sound_report(self.file.parent)


def _new(twin: Report, sound: Report) -> list[Any]:
    known = {(one.rule, one.missing) for one in sound.not_checked}
    return [one for one in twin.not_checked if (one.rule, one.missing) not in known]


def _is(finding: Finding, wanted: dict[str, Any]) -> bool:
    rules = wanted["rule"] if isinstance(wanted["rule"], list) else [wanted["rule"]]
    return (
        finding.rule in rules
        and finding.grade == wanted.get("class", finding.grade)
        and all(words in finding.message for words in wanted.get("says", []))
        and ("line" not in wanted or finding.at.path[:2] == ("lines", wanted["line"] - 1))
    )


@cache
def sound_lab(folder: Path) -> TextLab:
    """The laboratory of a folder of shows."""
    kinds = {name: kind for kind, name in FOLDERS.items()}
    texts = {"lab/lab": (folder / "lab" / "lab.yaml").read_text("utf-8")}
    for file in sorted((folder / "lab").glob("*/*.yaml")):
        texts[f"{kinds[file.parent.name]}/{file.stem}"] = file.read_text("utf-8")
    [sequence] = [key for key in texts if key.startswith("sequence/")]
    meant = {key: key for key in texts} | {"sequence": sequence, "lab": "lab/lab"}
    lab = TextLab(texts, (sequence,), meant)
    data = lab.plain(sequence)
    for kind in ("instrument", "supply", "solvents", "room", "method"):
        meant[kind] = f"{kind}/{data[kind]}"
    meant["column"] = f"column/{lab.plain(meant['method'])['column']}"
    return lab


@cache
def sound_report(folder: Path) -> Report:
    """What is said of the laboratory of a folder of shows as it is."""
    return sound_lab(folder).judged(untried_rules())


@cache
def shows() -> tuple[Show, ...]:
    """Every show, in order."""
    files = sorted(HERE.glob("*/*.yaml"))
    return tuple(Show(file) for file in files if (file.parent / "lab").is_dir())
