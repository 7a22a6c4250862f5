"""Every remedy that a report offers, applied to a copy of the lab and judged again from its files.

The report is read as any program would read it: JSON in, changed YAML out. A remedy is advice to a
person at a pressurised machine, so what it says has to hold when it is done.
"""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator
from io import StringIO
from pathlib import Path
from typing import Any

import pytest
from ruamel.yaml import YAML

import methodlint
from methodlint.judging.finding import severity
from methodlint.reports.fingerprint import Fingerprints
from methodlint.reports.json_report import report_data
from tests.text_labs import EXAMPLES

FLAWED = sorted(path.stem for path in (EXAMPLES / "flawed").glob("*.yaml"))
QUICK = ("terpenoids-hot-and-low", "dye-rich-end-too-fast", "suitability-vial-runs-dry")


def findings_of(file: Path) -> list[dict[str, Any]]:
    """Findings of one file as plain data, those beneath others included."""
    report = methodlint.check(file)
    return list(_flat(report_data(report, Fingerprints(report))["findings"]))


def _flat(findings: list[dict[str, Any]]) -> Iterator[dict[str, Any]]:
    for finding in findings:
        yield finding
        yield from _flat(finding["because"])


def apply(lab: Path, changes: list[dict[str, Any]]) -> None:
    """Write the changes into the files."""
    yaml = YAML()
    yaml.preserve_quotes = True
    yaml.width = 10_000
    for change in changes:
        file = lab / Path(change["path"]).resolve().relative_to(lab.resolve())
        tree = yaml.load(file.read_text(encoding="utf-8"))
        *way, last = (
            int(n) if n else key for key, n in re.findall(r"([\w-]+)|\[(\d+)\]", change["at"])
        )
        node = tree
        for step in way:
            node = node[step] if isinstance(step, int) else node.setdefault(step, {})
        if change["insert"]:
            node.insert(last, change["value"])
        elif change["value"] is None:
            node.pop(last, None)
        else:
            node[last] = change["value"]
        out = StringIO()
        yaml.dump(tree, out)
        file.write_text(out.getvalue(), encoding="utf-8")


def harm(file: Path, scratch: Path) -> tuple[int, list[str]]:
    """Number of remedies of a file, and what each of them left or brought."""
    lab = file.parent.parent
    before = findings_of(file)
    worst: dict[str, int] = {}
    for one in before:
        worst[one["rule"]] = min(worst.get(one["rule"], 9), severity(one["class"]))
    tried, wrong = 0, []
    for finding in before:
        for remedy in finding["remedies"]:
            tried += 1
            copy = scratch / f"{file.stem}-{tried}"
            shutil.copytree(lab, copy)
            inside = [
                {**c, "path": str(copy / Path(c["path"]).resolve().relative_to(lab.resolve()))}
                for c in remedy["changes"]
            ]
            apply(copy, inside)
            after = findings_of(copy / file.relative_to(lab))
            floor = severity(finding["class"])
            left = [o for o in after if (o["rule"], o["at"]) == (finding["rule"], finding["at"])]
            fresh = [
                o
                for o in after
                if severity(o["class"]) <= floor and severity(o["class"]) < worst.get(o["rule"], 9)
            ]
            said = f"{file.stem}: {remedy['text']}"
            wrong += [f"{said}: leaves {o['rule']}" for o in left]
            wrong += [f"{said}: brings {o['rule']} ({o['class']})" for o in fresh]
            shutil.rmtree(copy)
    return tried, wrong


@pytest.mark.parametrize(
    "name", [*QUICK, *(pytest.param(n, marks=pytest.mark.long) for n in FLAWED if n not in QUICK)]
)
def test_a_remedy_resolves_its_finding_and_brings_nothing_as_bad(name: str, tmp_path: Path) -> None:
    shutil.copytree(EXAMPLES, tmp_path / "lab")
    tried, wrong = harm(tmp_path / "lab" / "flawed" / f"{name}.yaml", tmp_path)
    assert wrong == []
    assert tried or name not in QUICK


def test_harm_is_seen(tmp_path: Path) -> None:
    """The look is worth something: a change that mends nothing is told, as is what it brings."""
    shutil.copytree(EXAMPLES, tmp_path / "lab")
    file = tmp_path / "lab" / "flawed" / "terpenoids-hot-and-low.yaml"
    before = {one["rule"] for one in findings_of(file)}
    apply(
        tmp_path / "lab",
        [{"path": str(file), "at": "outlet_pressure", "value": "300 bar", "insert": False}],
    )
    after = {one["rule"] for one in findings_of(file)}
    assert "phase.two-phase-at-outlet" in before - after
    assert after - before
