"""Rules of a lab are tried by the harness that tries the rules of this tool."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

from methodlint.judging.loader import built_in_ids, built_in_rules
from methodlint.rulebook import new_rule
from methodlint.rulebook.examples import ExampleWrong
from methodlint.rulebook.rule_shape import shape_problems
from methodlint.rulebook.try_rules import NoRules, findings, rules_in, try_rules, wrong_with
from tests.command import run
from tests.lab_rules.labs import RULE, rule_file


def wrong(root: Path, text: str, where: str = "our-rules/house/settles_too_short.py") -> list[str]:
    rule_file(root, where, text)
    return [said for trial in try_rules(root / "our-rules") for said in trial.wrong]


def test_a_sound_rule_passes(tmp_path: Path) -> None:
    assert wrong(tmp_path, RULE) == []
    (trial,) = try_rules(tmp_path / "our-rules")
    assert (trial.id, trial.examples) == ("house.settles-too-short", 2)


SETTLES = "A method settles for at least five minutes."


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        (SETTLES, "A method settles", "full stop"),
        (SETTLES, "<what has to hold>.", "still to be filled in: <what has to hold>"),
        ("Reason\n    Our mixers are slow.\n", "", "no heading 'Reason'"),
        ("    Common practice, no source.\n", "", "no source"),
        ("  # <- here", "", "marks its line"),
        ("settling_time: 0.5 min", "settling_time: 9 min", "raises nothing"),
        ("settling_time: 6 min", "settling_time: 2 min", "a sound example raises"),
        ("Sound\n    kind: method\n    settling_time: 6 min\n", "", "no sound example"),
        ("kind: method\n    settling_time: 6 min", "settling_time: 6 min", "names its kind"),
        ('CLASSES = ("caution",)', "CLASSES = ()", "CLASSES is empty"),
        ("SUBJECT", 'CAUSES = ("house.nothing",)\nSUBJECT', "house.nothing, which is no rule"),
        ("SUBJECT", 'TAGS = ("fun",)\nSUBJECT', "fun, which is no purpose"),
        ("from collections", "import click\nfrom collections", "it imports click"),
        ("given < 300.0", "given / 0 < 300.0", "ZeroDivisionError"),
        ('"caution", f"settling', '"fault", f"settling', "class 'fault' is not among"),
        ("SUBJECT", "raise RuntimeError('no')\nSUBJECT", "cannot be loaded: RuntimeError: no"),
    ],
)
def test_what_is_wrong_is_said(tmp_path: Path, old: str, new: str, said: str) -> None:
    assert old in RULE
    messages = wrong(tmp_path, RULE.replace(old, new, 1))
    assert any(said in message for message in messages), messages


def test_a_name_that_is_taken_is_said(tmp_path: Path) -> None:
    (said,) = wrong(tmp_path, RULE, "our-rules/sequence/no_opening_blank.py")
    assert "already" in said


def test_a_name_that_is_no_word_is_said(tmp_path: Path) -> None:
    assert any("not made of words" in m for m in wrong(tmp_path, RULE, "our-rules/house/R_X1.py"))


def test_a_lab_s_rules_may_name_each_other_as_causes(tmp_path: Path) -> None:
    rule_file(tmp_path, "our-rules/house/other_thing.py")
    text = RULE.replace("SUBJECT", 'CAUSES = ("house.other-thing", "sequence.no-sst")\nSUBJECT', 1)
    assert wrong(tmp_path, text) == []


def test_no_rules_is_an_error(tmp_path: Path) -> None:
    with pytest.raises(NoRules):
        try_rules(tmp_path)


def test_the_harness_serves_a_lab_s_own_tests(tmp_path: Path) -> None:
    rule_file(tmp_path)
    (rule,) = rules_in(tmp_path / "our-rules")
    assert wrong_with(rule) == []
    (finding,) = findings("kind: method\nsettling_time: 1 min", rule)
    assert finding.message == "settling for 1 min only"
    with pytest.raises(ExampleWrong):
        findings("kind: methd\n", rule)


def test_the_rules_of_this_tool_pass_the_same_harness() -> None:
    """Their examples are run beside the shape test of the rules."""
    wrong_ones = [(r.id, shape_problems(r, built_in_ids())) for r in built_in_rules()]
    assert [item for item in wrong_ones if item[1]] == []


def test_a_new_rule_fails_until_it_is_filled_in(tmp_path: Path) -> None:
    folder = str(tmp_path / "our-rules")
    made = run("new", "rule", "house.settles-too-short", "--into", folder)
    assert made.status == 0, made.stderr
    file = tmp_path / "our-rules" / "house" / "settles_too_short.py"
    tried = run("try-rules", folder)
    assert tried.status == 1
    assert "still to be filled in" in tried.stdout
    assert "an unsound example raises nothing" in " ".join(tried.stdout.split())
    file.write_text(RULE, encoding="utf-8")
    tried = run("try-rules", folder)
    assert tried.status == 0
    assert "1 rule tried, 0 with something wrong" in tried.stdout


def test_one_file_is_tried_by_itself(tmp_path: Path) -> None:
    file = rule_file(tmp_path)
    (file.parent / "broken.py").write_text("1 / 0\n", encoding="utf-8")
    assert run("try-rules", str(tmp_path / "our-rules")).status == 1
    tried = run("try-rules", str(file))
    assert (tried.status, "1 rule tried, 0 with something wrong" in tried.stdout) == (0, True)
    assert run("try-rules", str(file.with_suffix(".md"))).status == 2


def test_a_new_rule_of_this_tool_gets_its_test(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "rules").mkdir()
    (tmp_path / "tests" / "rules").mkdir(parents=True)
    monkeypatch.setattr(new_rule, "rules_folder", lambda: tmp_path / "rules")
    made = run("new", "rule", "flow.settles-too-short", "--into", str(tmp_path / "rules"))
    test = tmp_path / "tests" / "rules" / "flow" / "test_settles_too_short.py"
    assert made.status == 0, made.stderr
    assert {"test_silent_where_it_is_sound", "test_found_where_it_is_not"} <= {
        node.name for node in ast.parse(test.read_text()).body if isinstance(node, ast.FunctionDef)
    }
    said = " ".join(made.stdout.split())
    assert "refresh_catalogue" in said
    assert "rule_folders" not in said


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("house", "not an id in words"),
        ("../house.x", "not an id in words"),
        ("House.E501", "not an id in words"),
        ("sequence.no-sst", "already"),
    ],
)
def test_a_new_rule_needs_a_name_of_its_own(tmp_path: Path, name: str, said: str) -> None:
    made = run("new", "rule", name, "--into", str(tmp_path / "our-rules"))
    assert made.status == 2
    assert said in made.stderr
    assert list(tmp_path.iterdir()) == []


def test_a_new_rule_is_never_written_over_one(tmp_path: Path) -> None:
    file = rule_file(tmp_path)
    made = run("new", "rule", "house.settles-too-short", "--into", str(tmp_path / "our-rules"))
    assert made.status == 2
    assert file.read_text(encoding="utf-8") == RULE
