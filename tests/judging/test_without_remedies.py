"""`remedies=False`: the same findings, and no advice that was not tried."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

import methodlint
from methodlint.checking.report import Report
from tests.command import ROOT, run
from tests.work_done import calls_of

FLAWED = ROOT / "example_methods" / "flawed"
HOT = FLAWED / "terpenoids-hot-and-low.yaml"


def _bare(report: Report) -> list[tuple[object, ...]]:
    return [(f.rule, f.grade, f.at.file, f.at.path, f.message) for f in report.findings]


@pytest.mark.parametrize("many", [False, True])
def test_findings_are_the_same_and_nothing_is_advised(many: bool) -> None:
    names = ("terpenoids-hot-and-low", "dye-rich-end-too-fast", "no-blanks")
    paths = [FLAWED / f"{name}.yaml" for name in names]
    judge = (
        methodlint.check_many if many else lambda paths, **more: methodlint.check(*paths, **more)
    )
    tried, plain = judge(paths), judge(paths, remedies=False)
    assert _bare(plain) == _bare(tried)
    assert plain.verdict == tried.verdict
    assert any(one.remedies for one in tried.findings)
    for finding in plain.findings:
        assert not finding.remedies
        (with_remedy,) = (one for one in tried.findings if one.key == finding.key)
        assert not finding.remedy or finding.remedy == with_remedy.remedy, "words alone may stay"


def test_nothing_is_tried() -> None:
    methodlint.check(HOT, remedies=False)  # what is loaded once
    plain = calls_of(lambda: methodlint.check(HOT, remedies=False))
    tried = calls_of(lambda: methodlint.check(HOT))
    assert plain < 0.6 * tried


def test_the_command_and_its_memory_keep_both_apart(tmp_path: Path) -> None:
    command = ("check", str(HOT), "--show", "json", "--cache", str(tmp_path / "cache"))
    first = json.loads(run(*command).stdout)
    second = json.loads(run(*command, "--remedies", "off").stdout)
    assert any(one["remedies"] for one in first["findings"])
    assert not any(one["remedies"] for one in second["findings"])
    assert json.loads(run(*command).stdout) == first


def test_another_type_is_refused() -> None:
    with pytest.raises(TypeError, match="remedies"):
        methodlint.check(HOT, remedies="off")  # type: ignore[arg-type]
