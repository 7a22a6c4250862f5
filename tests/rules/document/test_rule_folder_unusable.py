"""Rule folders of a lab: common practice, no source. Loading them is tested in `tests/lab_rules`."""

from __future__ import annotations

from pathlib import Path

import pytest

from methodlint.checking.check import check
from methodlint.judging.finding import Finding, NotChecked
from methodlint.judging.loader import built_in_rules
from tests.lab_rules.labs import lab, rule_file

RULE = "document.rule-folder-unusable"
ONLY = tuple(rule for rule in built_in_rules() if rule.id == RULE)


def _said(folder: Path, lab_yaml: str, *allowed: str) -> tuple[list[Finding], list[NotChecked]]:
    """What the rule says of the lab's document, and what it leaves unchecked."""
    sequence = lab(folder, lab_yaml)
    allow = [folder / name for name in allowed]
    report = check(sequence, folder / "lab.yaml", rules=ONLY, allow_rules=allow)
    assert report.failed == []
    return [one for one in report.findings if one.rule == RULE], report.not_checked


def test_silent_for_a_lab_that_names_no_folder(tmp_path: Path) -> None:
    rule_file(tmp_path)
    assert _said(tmp_path, "name: A lab") == ([], [])


def test_silent_for_a_folder_that_is_named_allowed_and_sound(tmp_path: Path) -> None:
    rule_file(tmp_path)
    assert _said(tmp_path, "rule_folders: [our-rules]", "our-rules") == ([], [])


def test_one_that_is_not_allowed_is_not_checked_and_no_fault(tmp_path: Path) -> None:
    rule_file(tmp_path)
    found, (left,) = _said(tmp_path, "rule_folders: [our-rules]")
    assert found == []
    assert left.at.path == ("rule_folders", 0)
    assert left.missing == ("--allow-rules our-rules",)


@pytest.mark.parametrize("name", ["../rules-of-others", "our-rulse", "empty"])
def test_one_outside_the_lab_misspelt_or_empty_is_a_fault_at_its_place(
    tmp_path: Path, name: str
) -> None:
    """Even where it is allowed; the sound one beside it keeps silent."""
    (tmp_path / "lab" / "empty").mkdir(parents=True)
    rule_file(tmp_path, "rules-of-others/house/other.py")
    rule_file(tmp_path / "lab")
    (found,), _ = _said(tmp_path / "lab", f"rule_folders: [our-rules, {name}]", "our-rules", name)
    assert (found.grade, found.at.path) == ("fault", ("rule_folders", 1))
    assert name in found.message
