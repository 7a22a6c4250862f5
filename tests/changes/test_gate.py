"""What used to pass the gate by accident or on purpose no longer does; what is harmless does."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
from collections.abc import Callable
from functools import cache
from pathlib import Path

import jsonschema
import junitparser
import pytest

from methodlint.reports.formats import FORMATS
from tests.changes.repositories import (
    CARD,
    LOST,
    OTHER,
    RATING,
    USERS,
    changed,
    commit,
    gate,
    git,
    make,
    places,
    told,
)  # fmt: skip
from tests.command import process, run
from tests.reports import readers
from tests.reports.scratch_lab import change, line_of

CUT = ("pressure_rating: 400 bar", "pressure_rating: 200 bar")
SLIP = "flow_: 1 mL/min\n"


def test_nothing_changed_passes_and_writes_every_report(repository: Path) -> None:
    done = gate(repository, "--write", "markdown=methods.md", "--write", "junit=methods.xml")
    assert done.status == 0
    assert done.stdout.startswith("NOTHING TO JUDGE")
    assert "Nothing to judge" in (repository / "methods.md").read_text("utf-8")
    assert junitparser.JUnitXml.fromfile(str(repository / "methods.xml")).tests == 0


def test_a_harmless_change_passes(repository: Path) -> None:
    change(repository / CARD, "title:", "# described anew\ntitle:")
    commit(repository)
    data = told(repository)
    assert data["status"] == 0
    judged = {run["path"] for run in data["runs"]}
    assert judged == set(USERS), "those that depend on it, and no other"
    assert not [f for f in data["findings"] if f["class"] in ("stop", "fault", "caution")]


@pytest.mark.parametrize("moved", [CARD, USERS[0]])
def test_a_renamed_document_that_others_use_is_missed(repository: Path, moved: str) -> None:
    (repository / "lab/sequences").mkdir()
    sequence = "kind: sequence\ninstrument: bench-a\nlines:\n  - {kind: blank, method: dye-intermediates}\n"
    (repository / "lab/sequences/day.yaml").write_text(sequence, encoding="utf-8")
    git(repository, "checkout", "-q", "main")
    commit(repository)
    git(repository, "checkout", "-q", "-B", "change")
    git(repository, "mv", moved, moved.replace(".yaml", "-b.yaml"))
    commit(repository)
    data = told(repository)
    assert data["status"] == 2
    users = {CARD: set(USERS), USERS[0]: {"lab/sequences/day.yaml"}}
    assert places(data, LOST) >= users[moved]


def test_a_renamed_document_that_nobody_uses_passes(repository: Path) -> None:
    git(repository, "mv", OTHER, OTHER.replace("honey", "blossom-honey"))
    commit(repository)
    data = told(repository)
    assert data["status"] == 0
    assert {f["class"] for f in data["findings"]} <= {"note"}


def test_a_removed_card_is_missed(repository: Path) -> None:
    git(repository, "rm", "-q", CARD)
    commit(repository)
    data = told(repository)
    assert data["status"] == 2
    assert places(data, LOST) == set(USERS)


@pytest.mark.long
def test_the_lab_may_lie_in_a_subfolder_and_the_gate_be_run_there(repository: Path) -> None:
    where = "lab/columns"
    change(repository / CARD, *CUT)
    commit(repository)
    data = told(repository / where)
    assert data["status"] == 1
    assert places(data, RATING) == {CARD}, "paths begin at the repository, as code hosts want them"
    done = gate(repository / where, "--write", f"json={repository / CARD}")
    assert done.status == 2
    assert "would overwrite a document" in done.stderr


def test_the_lab_may_be_the_repository(tmp_path: Path) -> None:
    folder = make(tmp_path / "repository", ".")
    change(folder / "columns/diol-3um.yaml", *CUT)
    commit(folder)
    data = told(folder)
    assert data["status"] == 1
    assert places(data, RATING) == {"columns/diol-3um.yaml"}


def test_files_that_are_called_like_options_are_files(repository: Path) -> None:
    for name in ("--help", "--given=column.pressure_rating=900 bar", "--version", "-"):
        (repository / name).write_text("no option\n", encoding="utf-8")
        (repository / f"{name}.yaml").write_text("a: 1\n", encoding="utf-8")
    change(repository / CARD, *CUT)
    commit(repository)
    data = told(repository)
    assert data["status"] == 1
    assert places(data, RATING) == {CARD}
    assert data["given"] == []


def test_no_name_of_a_file_runs_code_of_the_change(repository: Path) -> None:
    (repository / "lab/our-rules/house").mkdir(parents=True)
    trace = repository.parent / "trace"
    code = f"open({str(trace)!r}, 'w').close()\n"
    (repository / "lab/our-rules/house/any_rule.py").write_text(code, encoding="utf-8")
    change(repository / "lab/lab.yaml", "kind: lab", "kind: lab\nrule_folders: [our-rules]")
    for name in ("--allow-rules=lab/our-rules", "--allow-rules=our-rules.yaml"):
        (repository / name).parent.mkdir(parents=True, exist_ok=True)
        (repository / name).write_text("kind: method\n", encoding="utf-8")
    commit(repository)
    gate(repository)
    names = sorted(os.listdir(repository))
    run("check", "--dependents", "--", *(n for n in names if n != ".git"), cwd=repository)
    assert not trace.exists()
    run("check", "lab/lab.yaml", "--allow-rules", "lab/our-rules", cwd=repository)
    assert trace.exists(), "it would have left a trace"


@pytest.mark.parametrize(("until", "status"), [("2020-12-31", 1), ("2027-01-31", 0)])
def test_a_deviation_ends(repository: Path, until: str, status: int) -> None:
    change(repository / CARD, *CUT)
    deviation = (
        f"deviations:\n  - {{rule: {RATING}, reason: tried at the bench, "
        f"approved_by: head of the laboratory, until: {until}}}\n"
    )
    for user in USERS:
        text = (repository / user).read_text("utf-8")
        (repository / user).write_text(text + deviation, encoding="utf-8")
    commit(repository)
    assert told(repository)["status"] == status


def test_dates_are_judged_by_the_later_of_the_two_commits(repository: Path) -> None:
    deviation = (
        "{rule: safety.no-co2-monitor, reason: tried, approved_by: A. Head, until: 2026-08-01}"
    )
    (repository / "lab/rooms").mkdir()
    (repository / "lab/rooms/one.yaml").write_text(f"kind: room\ndeviations: [{deviation}]\n")
    commit(repository, day="2026-07-01T00:30:00+0200")
    assert told(repository)["status"] == 0
    git(repository, "commit", "-q", "--amend", "--no-edit", day="2026-09-01T12:00:00Z")
    data = told(repository)
    assert data["status"] == 1
    assert places(data, "document.deviation-unjustified") == {"lab/rooms/one.yaml"}
    # Whoever sets the clock of a commit back does not get behind the branch that it starts from.
    git(repository, "checkout", "-q", "main")
    git(repository, "commit", "-q", "--allow-empty", "-m", "later", day="2026-09-01T12:00:00Z")
    git(repository, "rebase", "-q", "main", "change")
    git(repository, "commit", "-q", "--amend", "--no-edit", day="2019-01-01T12:00:00Z")
    assert told(repository)["status"] == 1


def test_a_comment_behind_a_main_that_repaired_the_method_is_not_held(repository: Path) -> None:
    """What was known where the branch began is known, whatever main has done since."""
    method = repository / OTHER
    sound = method.read_text("utf-8")
    text = f"{sound}{SLIP}"
    git(repository, "checkout", "-q", "main")
    method.write_text(text, encoding="utf-8")
    commit(repository)
    git(repository, "checkout", "-q", "-B", "change")
    method.write_text(f"# looked at again\n{text}", encoding="utf-8")
    commit(repository)
    git(repository, "checkout", "-q", "main")
    method.write_text(sound, encoding="utf-8")
    commit(repository)
    git(repository, "checkout", "-q", "change")
    data = told(repository)
    assert data["status"] == 0
    assert data["known_from_base"]
    method.write_text(f"{text}flows: 1 mL/min\n", encoding="utf-8")
    assert told(repository)["status"] == 1, "but what is new is"


def test_seven_hundred_files_are_one_run(repository: Path) -> None:
    folder = repository / "lab/notes"
    folder.mkdir()
    for number in range(700):
        (folder / f"{'long-name-' * 18}{number}.yaml").write_text("a: 1\n", encoding="utf-8")
    change(repository / CARD, *CUT)
    commit(repository)
    assert len(changed(repository)) == 701
    data = told(repository, "--write", "markdown=methods.md")
    assert data["status"] == 1
    assert places(data, RATING) == {CARD}
    assert RATING in (repository / "methods.md").read_text("utf-8")


@pytest.mark.long
def test_three_hundred_methods_are_one_run_of_real_processes(repository: Path) -> None:
    text = (repository / OTHER).read_text("utf-8")
    for number in range(300):
        (repository / f"lab/methods/copy-{number}.yaml").write_text(text, encoding="utf-8")
    change(repository / CARD, *CUT)
    commit(repository)
    done = process(
        "check", "--changed-from", "main", "--hold-new", "--workers", "2", "--show", "json",
        cwd=repository,
    )  # fmt: skip
    assert done.status == 1
    data = json.loads(done.stdout)
    assert len(data["runs"]) == 302
    assert places(data, RATING) == {CARD}


def test_the_methods_of_a_weaker_column_fail_in_their_own_names(repository: Path) -> None:
    change(repository / CARD, *CUT)
    commit(repository)
    reports = {name: repository / f"out.{name}" for name in ("junit", "annotations", "sarif")}
    done = gate(repository, *(o for n, f in reports.items() for o in ("--write", f"{n}={f}")))
    assert done.status == 1
    line = line_of(repository / CARD, "pressure_rating")
    suites = junitparser.JUnitXml.fromfile(str(reports["junit"]))
    failed = {suite.name: case for suite in suites for case in suite if case.name == RATING}
    assert set(failed) == set(USERS)
    for case in failed.values():
        assert f"{CARD}, line {line}" in case.result[0].text
    said = reports["annotations"].read_text("utf-8")
    for user in USERS:
        own = line_of(repository / user, "column:")
        assert f"::error file={user},line={own}," in said
    assert f"where: {CARD}, line {line}" in said
    (log,) = json.loads(reports["sarif"].read_text("utf-8"))["runs"]
    results = [result for result in log["results"] if result["ruleId"] == RATING]
    assert len(results) == len(USERS)
    assert {result["baselineState"] for result in results} == {"new"}


@pytest.mark.parametrize(
    ("break_it", "status"),
    [
        (lambda text: text + SLIP, 1),
        (lambda text: text + "\n[", 2),
        (lambda text: text.replace("column: silica-3um", "column: silica-5um"), 2),
        (lambda text: text.replace("kind: method", "kind: methd"), 2),
    ],
)
def test_statuses_are_those_of_check(repository: Path, break_it: object, status: int) -> None:
    text = (repository / OTHER).read_text("utf-8")
    (repository / OTHER).write_text(break_it(text), encoding="utf-8")  # type: ignore[operator]
    assert gate(repository).status == status, "as it lies in the work tree"


def test_what_was_wrong_before_is_known_and_a_stop_counts_always(repository: Path) -> None:
    git(repository, "checkout", "-q", "main")
    change(repository / CARD, *CUT)
    text = (repository / OTHER).read_text("utf-8") + SLIP
    (repository / OTHER).write_text(text, encoding="utf-8")
    commit(repository)
    git(repository, "checkout", "-q", "-B", "change")
    (repository / OTHER).write_text(f"# seen\n{text}", encoding="utf-8")
    assert gate(repository).status == 0
    assert run("check", "--changed-from", "main", cwd=repository).status == 1, "all of it counts"
    change(repository / CARD, "title:", "# seen\ntitle:")
    assert told(repository)["status"] == 1


def test_every_report_is_the_same_wherever_the_gate_is_run(repository: Path) -> None:
    change(repository / CARD, *CUT)
    commit(repository)
    for where in (".", "lab"):
        folder = repository.parent / f"reports from {where}"
        folder.mkdir()
        written = (f"{name}={folder / name}" for name in FORMATS)
        assert gate(repository / where, *(o for w in written for o in ("--write", w))).status == 1
    for name in FORMATS:
        first, second = (
            f.joinpath(name).read_text("utf-8") for f in repository.parent.glob("reports*")
        )
        assert first == second
        assert str(repository) not in first
        assert "/before" not in first


@pytest.mark.long
def test_workers_report_the_same(repository: Path) -> None:
    change(repository / CARD, *CUT)
    commit(repository)
    assert gate(repository, "--workers", "2").out == gate(repository).out


@pytest.mark.parametrize(
    "options",
    [
        ("lab",), ("--against", "base.json"), ("--paths-from", "list"), ("--hold-at", "nothing"),
    ],
)  # fmt: skip
def test_what_does_not_go_together_is_refused(repository: Path, options: tuple[str, ...]) -> None:
    assert gate(repository, *options).status == 2


def test_no_link_of_a_change_says_what_a_report_is_written_over(repository: Path) -> None:
    victim = repository.parent / "victim"
    victim.write_text("mine\n", encoding="utf-8")
    (repository / "methods.md").symlink_to(victim)
    commit(repository)
    assert gate(repository, "--write", "markdown=methods.md").status == 2
    assert victim.read_text("utf-8") == "mine\n"


def test_the_labs_own_rules_are_run_where_they_are_allowed(repository: Path) -> None:
    git(repository, "checkout", "-q", "main")
    done = run("new", "rule", "house.flow-too-high", "--into", "lab/our-rules", cwd=repository)
    assert done.status == 0
    file = repository / "lab/our-rules/house/flow_too_high.py"
    page = file.read_text("utf-8").split('"""')[1]
    file.write_text(
        f'"""{page}"""\nSUBJECT = "document"\nCLASSES = ("fault",)\nNEEDS = ()\n\n\n'
        "def judge(case):\n"
        "    if case.document.kind == 'method':\n"
        "        yield case.finding(case.at(case.document, ('flow',)), 'fault', 'as ever')\n",
        encoding="utf-8",
    )
    change(repository / "lab/lab.yaml", "kind: lab", "kind: lab\nrule_folders: [our-rules]")
    commit(repository)
    git(repository, "checkout", "-q", "-B", "change")
    change(repository / OTHER, "title:", "# seen\ntitle:")
    data = told(repository, "--allow-rules", "lab/our-rules")
    assert places(data, "house.flow-too-high") == {OTHER}
    assert data["status"] == 0, "the rule had found it before"
    text = file.read_text("utf-8")
    file.write_text(text.replace("'as ever'", "'more than ever'").replace("'flow'", "'title'"))
    data = told(repository, "--allow-rules", "lab/our-rules")
    assert places(data, "house.flow-too-high") == {OTHER, *USERS}, "with its rule, the lab changes"
    assert data["status"] == 1
    git(repository, "checkout", "-q", "-f", "main")
    assert gate(repository, "--allow-rules", "lab/our-rules").status == 0, "nothing changed"
    (repository / "note.yaml").write_text("a: 1\n", encoding="utf-8")
    assert gate(repository, "--allow-rules", "lab/our-rules").status == 0, "another lab's rules"


@pytest.fixture(scope="module")
def column_case(kept: Path, tmp_path_factory: pytest.TempPathFactory) -> Callable[[], Path]:
    """Make reports of the weaker column, for programs of other people that are there."""

    @cache
    def made() -> Path:
        folder = tmp_path_factory.mktemp("column") / "repository"
        shutil.copytree(kept, folder)
        change(folder / CARD, *CUT)
        (folder / OTHER).unlink()
        assert gate(folder, "--write", "sarif=out.sarif", "--write", "junit=out.xml").status == 1
        return folder

    return made


@pytest.mark.second_reader
def test_the_oasis_schema_accepts_the_column_case(column_case: Callable[[], Path]) -> None:
    validator = jsonschema.Draft7Validator(readers.sarif_schema())
    log = json.loads((column_case() / "out.sarif").read_text("utf-8"))
    assert list(validator.iter_errors(log)) == []


@pytest.mark.second_reader
def test_the_multitool_has_nothing_against_the_column_case(
    column_case: Callable[[], Path],
) -> None:
    readers.sarif_schema()
    assert readers.complaints_of_multitool(column_case() / "out.sarif") == []


@pytest.mark.second_reader
def test_other_readers_count_the_stopped_methods(column_case: Callable[[], Path]) -> None:
    program = readers.script("sarif", "sarif-tools")
    done = subprocess.run(
        [program, "summary", column_case() / "out.sarif"],
        capture_output=True, text=True, timeout=120, check=True,
    )  # fmt: skip
    assert f"error: {len(USERS)}" in done.stdout
    suites = junitparser.JUnitXml.fromfile(str(column_case() / "out.xml"))
    assert suites.failures == len(USERS)
    assert {suite.name for suite in suites if suite.failures} == set(USERS)
