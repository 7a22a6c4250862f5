"""`check`, `why` and `rules` with a lab's own rules, and how pages are laid out."""

from __future__ import annotations

from pathlib import Path

import pytest

from methodlint.documents.text.visible import visible
from methodlint.judging.loader import built_in_rules
from methodlint.reports.lines import plain_line
from methodlint.reports.rule_page import page_lines, rule_list_lines
from tests.command import run
from tests.lab_rules.labs import lab, rule_file

OURS = "house.settles-too-short"


def test_check_applies_what_it_is_allowed(tmp_path: Path) -> None:
    sequence = str(lab(tmp_path))
    rule_file(tmp_path)
    folder = str(tmp_path / "our-rules")
    without = run("check", sequence)
    assert OURS not in without.stdout
    assert "--allow-rules our-rules" in without.stdout
    allowed = run("check", sequence, "--allow-rules", folder)
    assert f"[{OURS}]" in allowed.stdout
    unnamed = run("check", "example_methods/sound", "--allow-rules", folder)
    assert unnamed.status == 2
    assert "no lab.yaml of these documents names it" in unnamed.stderr


def test_why_and_rules_know_them(tmp_path: Path) -> None:
    sequence = str(lab(tmp_path))
    rule_file(tmp_path)
    folder = str(tmp_path / "our-rules")
    told = run("why", OURS, sequence, "--allow-rules", folder)
    assert "Our mixers are slow." in told.stdout
    assert "settling for 3 min only" in told.stdout.partition("In these documents")[2]
    assert run("why", OURS).status == 2
    listed = run("rules", "--family", "house", "--allow-rules", folder)
    assert "HOUSE  1 rule" in listed.stdout
    assert "source: Common practice, no source." in listed.stdout


def test_a_family_that_is_not_there_is_refused() -> None:
    done = run("rules", "--family", "hous")
    assert done.status == 2
    assert "families are calendar, change, collection, column, detector" in done.stderr


@pytest.mark.parametrize("width", [44, 80, 132])
def test_prose_is_wrapped_and_examples_are_not(width: int) -> None:
    for rule in built_in_rules():
        inside = False
        shown = [plain_line(parts) for parts in page_lines(rule, width)]
        for text in shown:
            if text and not text.startswith(" "):
                inside = text.startswith(("Unsound", "Sound"))
            # A word that is longer than the line is not cut.
            fits = len(text) <= width or len(text.split()) == 1
            assert fits or inside or text.startswith(("Unsound", "Sound")), (rule.id, text)
        for text in rule.page.splitlines():
            if text.endswith("# <- here"):
                assert visible(text) in shown


def test_nothing_of_a_page_is_lost() -> None:
    for rule in built_in_rules():
        shown = " ".join(" ".join(plain_line(p).split()) for p in page_lines(rule, 60)).split()
        assert [w for w in rule.page.split() if visible(w) not in shown] == [], rule.id


def test_the_width_is_that_of_the_terminal() -> None:
    narrow = run("why", "sequence.no-sst", env={"COLUMNS": "50"}).stdout
    wide = run("why", "sequence.no-sst", env={"COLUMNS": "120"}).stdout
    assert len(narrow.splitlines()) > len(wide.splitlines())
    assert max(map(len, run("rules").stdout.splitlines())) <= 80


def test_rules_are_listed_by_family_with_classes_and_needs() -> None:
    text = "\n".join(plain_line(parts) for parts in rule_list_lines(built_in_rules(), 200))
    for rule in built_in_rules():
        assert f"{rule.id}  ({', '.join(rule.grades)})\n      {rule.title}" in text
        assert not rule.needs or f"needs {', '.join(rule.needs)}" in text
    for family in {rule.id.partition(".")[0] for rule in built_in_rules()}:
        assert f"{family.upper()}  " in text
