"""Code of a checked folder runs only where lab.yaml names it and the command line allows it."""

from __future__ import annotations

import importlib
import os
import py_compile
from pathlib import Path

import pytest

from methodlint.checking.check import check
from methodlint.checking.report import Report
from methodlint.judging.finding import Finding
from methodlint.judging.lab_rules import RulesNotNamed
from tests.lab_rules.labs import RULE, lab, rule_file

OURS = "house.settles-too-short"
FOLDERS = "document.rule-folder-unusable"
MARK = "from pathlib import Path\nPath({!r}).write_text('it ran')\n"


def of(report: Report, rule: str) -> list[Finding]:
    return [finding for finding in report.findings if finding.rule == rule]


def test_nothing_runs_unasked_and_the_report_says_so_once(tmp_path: Path) -> None:
    sequence = lab(tmp_path)
    trace = tmp_path / "trace.txt"
    rule_file(tmp_path, text=RULE + MARK.format(str(trace)))
    report = check(sequence, tmp_path / "method.yaml")
    assert not trace.exists()
    assert of(report, OURS) == []
    (item,) = [item for item in report.not_checked if item.rule == FOLDERS]
    assert item.missing == ("--allow-rules our-rules",)
    assert "not applied" in item.reason
    loud = [finding for finding in report.findings if finding.grade != "note"]
    assert (loud, report.verdict) == ([], "clear to run")


def test_nothing_runs_that_is_allowed_and_not_named(tmp_path: Path) -> None:
    sequence = lab(tmp_path, "name: A lab")
    trace = tmp_path / "trace.txt"
    rule_file(tmp_path, text=RULE + MARK.format(str(trace)))
    with pytest.raises(RulesNotNamed, match="our-rules"):
        check(sequence, allow_rules=[tmp_path / "our-rules"])
    assert not trace.exists()


def test_a_folder_that_is_named_and_allowed_is_applied(tmp_path: Path) -> None:
    sequence = lab(tmp_path)
    rule_file(tmp_path)
    report = check(sequence, allow_rules=[tmp_path / "our-rules"])
    (finding,) = of(report, OURS)
    assert finding.message == "settling for 3 min only"
    assert [rule.id for rule in report.rules_of_lab] == [OURS]
    assert [item for item in report.not_checked if item.rule == FOLDERS] == []


def test_only_the_allowed_one_of_two_folders_runs(tmp_path: Path) -> None:
    sequence = lab(tmp_path, "rule_folders: [our-rules, more-rules]")
    trace = tmp_path / "trace.txt"
    rule_file(tmp_path)
    rule_file(tmp_path, "more-rules/house/other_thing.py", RULE + MARK.format(str(trace)))
    report = check(sequence, allow_rules=[tmp_path / "our-rules"])
    assert len(of(report, OURS)) == 1
    assert not trace.exists()
    assert [i.missing for i in report.not_checked if i.rule == FOLDERS] == [
        ("--allow-rules more-rules",)
    ]


@pytest.mark.parametrize("name", ["../outside", "/tmp", ".", "link"])
def test_a_folder_outside_the_lab_is_refused_even_if_allowed(tmp_path: Path, name: str) -> None:
    home = tmp_path / "lab"
    home.mkdir()
    trace = tmp_path / "trace.txt"
    rule_file(tmp_path, "outside/house/other_thing.py", RULE + MARK.format(str(trace)))
    (home / "link").symlink_to(tmp_path / "outside")
    sequence = lab(home, f"rule_folders: ['{name}']")
    report = check(sequence, allow_rules=[home / name])
    (finding,) = of(report, FOLDERS)
    assert finding.grade == "fault"
    assert "never loaded" in finding.message
    assert finding.at.path == ("rule_folders", 0)
    assert not trace.exists()


def test_a_file_that_links_out_of_the_lab_is_refused(tmp_path: Path) -> None:
    home = tmp_path / "lab"
    sequence_folder = home / "our-rules" / "house"
    sequence_folder.mkdir(parents=True)
    trace = tmp_path / "trace.txt"
    outside = rule_file(tmp_path, "outside/other.py", RULE + MARK.format(str(trace)))
    (sequence_folder / "other.py").symlink_to(outside)
    report = check(lab(home), allow_rules=[home / "our-rules"])
    assert "a link that leaves" in of(report, FOLDERS)[0].message
    assert not trace.exists()


def test_an_id_that_is_taken_is_not_loaded(tmp_path: Path) -> None:
    sequence = lab(tmp_path)
    rule_file(tmp_path, "our-rules/sequence/no_opening_blank.py")
    rule_file(tmp_path)
    report = check(sequence, allow_rules=[tmp_path / "our-rules"])
    (finding,) = of(report, FOLDERS)
    assert "there is a rule sequence.no-opening-blank already" in finding.message
    assert len(of(report, OURS)) == 1


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("def judge(:\n", "SyntaxError"),
        ("raise SystemExit(0)\n", "SystemExit"),
        ('"""A page."""\n', "AttributeError"),
        (RULE.replace('NEEDS = ("method.settling_time",)', 'NEEDS = "run"'), "not a tuple"),
        (RULE.replace('("caution",)', '("warning",)'), "ValueError"),
        (RULE.replace('SUBJECT = "run"', 'SUBJECT = "runs"'), "SUBJECT"),
    ],
)
def test_a_rule_that_does_not_load_is_a_finding_and_costs_only_itself(
    tmp_path: Path, text: str, said: str
) -> None:
    sequence = lab(tmp_path)
    rule_file(tmp_path)
    rule_file(tmp_path, "our-rules/house/broken_one.py", text)
    report = check(sequence, allow_rules=[tmp_path / "our-rules"])
    (finding,) = of(report, FOLDERS)
    assert said in finding.message
    assert "broken_one.py" in finding.message
    assert len(of(report, OURS)) == 1


def test_a_folder_that_is_not_there_or_holds_nothing_is_a_finding(tmp_path: Path) -> None:
    (tmp_path / "empty").mkdir()
    sequence = lab(tmp_path, "rule_folders: [our-rules, empty]")
    messages = [f.message for f in of(check(sequence, allow_rules=[tmp_path / "empty"]), FOLDERS)]
    assert messages == [
        "there is no rule folder 'our-rules'",
        "the rule folder 'empty' holds no rule",
    ]


def test_bytecode_beside_a_rule_is_neither_read_nor_written(tmp_path: Path) -> None:
    sequence = lab(tmp_path)
    trace = tmp_path / "trace.txt"
    file = rule_file(tmp_path, text=RULE + MARK.format(str(trace)))
    planted = Path(py_compile.compile(str(file), doraise=True))
    stat = file.stat()
    length = len(file.read_text(encoding="utf-8"))
    file.write_text(RULE + "#" * (length - len(RULE)), encoding="utf-8")
    os.utime(file, ns=(stat.st_atime_ns, stat.st_mtime_ns))
    before = planted.read_bytes()
    report = check(sequence, allow_rules=[tmp_path / "our-rules"])
    assert len(of(report, OURS)) == 1
    assert not trace.exists()
    assert planted.read_bytes() == before


def test_a_rule_of_the_lab_that_raises_is_an_error_that_names_it(tmp_path: Path) -> None:
    sequence = lab(tmp_path)
    rule_file(tmp_path, text=RULE.replace("if given < 300.0:", "if given / 0:"))
    report = check(sequence, allow_rules=[tmp_path / "our-rules"])
    assert {failed.rule for failed in report.failed} == {OURS}
    assert report.exit_status() == 3


def test_policy_and_deviations_reach_rules_of_the_lab(tmp_path: Path) -> None:
    policy = f"""
        rule_folders: [our-rules]
        classes: [{{rule: {OURS}, to: fault, reason: it has cost us a batch}}]
    """
    sequence = lab(tmp_path, policy)
    rule_file(tmp_path)
    report = check(sequence, allow_rules=[tmp_path / "our-rules"])
    assert [finding.grade for finding in of(report, OURS)] == ["fault"]
    assert of(report, "document.class-change-unsound") == []
    with (tmp_path / "method.yaml").open("a", encoding="utf-8") as stream:
        stream.write(
            f"deviations: [{{rule: {OURS}, reason: measured, approved_by: QA, until: 2027-01-01}}]\n"
        )
    report = check(sequence, allow_rules=[tmp_path / "our-rules"])
    assert [item.finding.rule for item in report.set_aside] == [OURS]
    assert of(report, "document.deviation-unjustified") == []


@pytest.mark.parametrize(
    "format_name", ["json", "sarif", "junit", "markdown", "annotations", "words"]
)
def test_every_format_shows_a_finding_of_the_lab_s_own_rule(
    tmp_path: Path, format_name: str
) -> None:
    from methodlint.reports.formats import written
    from methodlint.reports.prepared import Prepared

    sequence = lab(tmp_path)
    rule_file(tmp_path)
    report = check(sequence, allow_rules=[tmp_path / "our-rules"])
    text = written(format_name, Prepared(report, hold_at="caution"))
    assert OURS in text
    if format_name == "sarif":
        assert "A method settles for at least five minutes." in text


def test_what_is_allowed_in_vain_is_told_the_folder_that_is_named(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    inside = tmp_path / "north"
    inside.mkdir()
    sequence = lab(inside)
    rule_file(inside)
    monkeypatch.chdir(tmp_path)
    with pytest.raises(RulesNotNamed, match=r"named and there: north/our-rules\Z"):
        check(sequence, allow_rules=["our-rules"])


def test_a_rule_written_for_0_1_finds_every_name_that_it_could_import() -> None:
    names = (Path(__file__).parent / "names_of_0_1.txt").read_text(encoding="utf-8").split()
    offered = importlib.import_module("methodlint.judging.for_rules")
    assert len(names) > 300
    assert [name for name in names if not hasattr(offered, name)] == []
