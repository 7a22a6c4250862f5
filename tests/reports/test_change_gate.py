"""A change is gated: what depends on a changed file is judged, and every format says where.

The stage is a repository as a lab keeps one. A change lowers the drop that a column card allows.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
from pathlib import Path

import junitparser
import pytest

from methodlint.checking.check import check
from tests.command import run
from tests.reports.scratch_lab import change, copy_lab, line_of

CARD = "lab/columns/diol-3um.yaml"
RULE = "pressure.column-rating-exceeded"


def git(folder: Path, *arguments: str) -> str:
    environment = {
        **os.environ,
        "GIT_CONFIG_GLOBAL": "/dev/null",
        "GIT_CONFIG_SYSTEM": "/dev/null",
    }
    for role in ("AUTHOR", "COMMITTER"):
        environment[f"GIT_{role}_NAME"] = "separations laboratory"
        environment[f"GIT_{role}_EMAIL"] = "lab@example.org"
    done = subprocess.run(
        ["git", *arguments], cwd=folder, env=environment, capture_output=True, text=True, check=True
    )
    return done.stdout


@pytest.fixture(scope="module")
def kept(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The repository with the report of its base; no test changes it."""
    folder = tmp_path_factory.mktemp("kept") / "repository"
    folder.mkdir()
    lab = copy_lab(folder)
    git(folder, "init", "-q", "-b", "main")
    (folder / "README").write_text("Methods of the laboratory\n", encoding="utf-8")
    (lab / "other.yaml").write_text("steps: [build, test]\n", encoding="utf-8")
    git(folder, "add", ".")
    git(folder, "commit", "-q", "-m", "methods in use")
    run("check", "lab", "--write", "json=base.json", cwd=folder)
    git(folder, "checkout", "-q", "-b", "column-card")
    return folder


@pytest.fixture
def repository(kept: Path, tmp_path: Path) -> Path:
    """A copy of the repository to change."""
    return shutil.copytree(kept, tmp_path / "repository")


def changed_files(repository: Path) -> list[str]:
    return git(repository, "diff", "--name-only", "main", "--", "lab").split()


def test_a_card_edit_makes_methods_fail_and_every_format_says_where(repository: Path) -> None:
    names = ("dye-intermediates", "flavonoid-aglycones", "leaf-waxes")
    users = [f"lab/methods/{name}.yaml" for name in names]
    before = {path: run("check", path, cwd=repository).status for path in users}
    assert before == dict.fromkeys(users, 0)
    card = repository / CARD
    change(card, "title:", "# re-rated after the last repair\ntitle:")
    change(card, "pressure_rating: 400 bar", "pressure_rating: 200 bar")
    git(repository, "commit", "-q", "-am", "re-rate the diol column")
    done = run(
        "check", *changed_files(repository), "--dependents", "--against", "base.json",
        "--write", "sarif=out.sarif", "--write", "junit=out.xml", "--write", "markdown=out.md",
        "--write", "annotations=out.txt", "--show", "json",
        cwd=repository,
    )  # fmt: skip
    assert done.status == 1, done.stderr
    data = json.loads(done.stdout)
    line = line_of(card, "pressure_rating")

    found = [f for f in data["findings"] if f["rule"] == RULE and f["class"] == "stop"]
    assert {f["subject"] for f in found} >= {
        "dye-intermediates on bench-a",
        "flavonoid-aglycones on bench-a",
    }
    assert {(f["path"], f["line"]) for f in found} == {(CARD, line)}
    assert not {f["fingerprint"] for f in found} & set(data["known_from_base"])

    sarif = json.loads((repository / "out.sarif").read_text(encoding="utf-8"))
    results = [r for r in sarif["runs"][0]["results"] if r["ruleId"] == RULE]
    assert len(results) == len(found)
    for result in results:
        where = result["locations"][0]["physicalLocation"]
        assert where["artifactLocation"]["uri"] == CARD
        assert where["region"]["startLine"] == line
        assert result["baselineState"] == "new"
        assert result["level"] == "error"
    marks = {r["partialFingerprints"]["primaryLocationLineHash"] for r in results}
    assert marks == {f["fingerprint"] for f in found}

    suites = junitparser.JUnitXml.fromfile(str(repository / "out.xml"))
    cases = {suite.name: case for suite in suites for case in suite if case.name == RULE}
    assert CARD not in cases, "it is the methods that are stopped"
    for user in users:
        assert [type(result) for result in cases[user].result] == [junitparser.Failure]
        text = cases[user].result[0].text
        assert f"{CARD}, line {line}: pressure_rating" in text
        assert f"in: {Path(user).stem} on bench-a" in text
        assert cases[user]._elem.get("file") == user
        assert cases[user]._elem.get("line") == str(line_of(repository / user, "column:"))
    for suite in suites:
        stopped = [case.name for case in suite if case.result]
        assert suite.name in users or RULE not in stopped

    page = (repository / "out.md").read_text(encoding="utf-8")
    new = page.partition("### New")[2].partition("###")[0]
    assert f"`{CARD}`, line {line}" in new
    assert "in dye-intermediates on bench-a" in new
    assert "in flavonoid-aglycones on bench-a" in new
    said = (repository / "out.txt").read_text(encoding="utf-8").splitlines()
    for user in users:
        own = line_of(repository / user, "column:")
        (told,) = (t for t in said if t.startswith(f"::error file={user},") and RULE in t)
        assert told.startswith(f"::error file={user},line={own},endLine={own},col=")
        assert f"where: {CARD}, line {line}: pressure_rating" in told


def test_figures_of_dependents_are_compared_with_the_base(repository: Path) -> None:
    change(repository / CARD, "particle_size: 3 um", "particle_size: 2.5 um")
    done = run(
        "check", CARD, "--dependents", "--against", "base.json", "--show", "markdown",
        cwd=repository,
    )  # fmt: skip
    rows = done.stdout.partition("### Consequences")[2]
    assert "| flavonoid-aglycones on bench-a | highest pump pressure |" in rows
    assert "| leaf-waxes on bench-a | highest pump pressure |" in rows
    assert "sulfonamides" not in rows, "it runs on another column"
    assert "triazole" not in rows


@pytest.mark.parametrize(
    ("changed", "judged"),
    [
        (
            "columns/amylose-3um.yaml",
            {
                "methods/scouting-start.yaml",
                "methods/triazole-enantiomers.yaml",
                "sequences/triazole-day-batch.yaml",
            },
        ),
        ("methods/triazole-enantiomers.yaml", {"sequences/triazole-day-batch.yaml"}),
        ("supplies/yard-cylinder.yaml", {"sequences/triazole-day-batch.yaml"}),
        ("columns/silica-3um.yaml", {"methods/sulfonamides-in-honey.yaml"}),
        ("sequences/triazole-day-batch.yaml", set()),
        ("rooms/store-cupboard.yaml", set()),
    ],
)
def test_who_depends_on_what(kept: Path, changed: str, judged: set[str]) -> None:
    lab = kept / "lab"
    report = check(lab / changed, changed=True)
    subjects = {report.lab_paths[run.documents["method"].path] for run in report.runs}
    subjects |= {report.lab_paths[batch.name] for batch in report.batches}
    expected = set(judged)
    if any("sequence" in name for name in (*judged, changed)):
        expected |= {"sequences/triazole-day-batch.yaml", "methods/triazole-enantiomers.yaml"}
    assert subjects == expected


def test_the_labs_own_document_concerns_everything(kept: Path) -> None:
    report = check(kept / "lab" / "lab.yaml", changed=True)
    files = [
        *(kept / "lab" / "methods").iterdir(),
        *(kept / "lab" / "sequences").iterdir(),
    ]
    judged = {r.documents["method"].name for r in report.runs}
    judged |= {b.documents["sequence"].name for b in report.batches}
    assert judged == {file.stem for file in files}


def test_a_removed_card_fails_those_who_name_it(repository: Path) -> None:
    git(repository, "rm", "-q", CARD)
    assert changed_files(repository) == [CARD]
    done = run("check", CARD, "--dependents", "--show", "json", cwd=repository)
    data = json.loads(done.stdout)
    assert done.status == 2
    lost = {f["path"] for f in data["findings"] if f["rule"] == "document.reference-unresolved"}
    assert lost >= {"lab/methods/dye-intermediates.yaml", "lab/methods/flavonoid-aglycones.yaml"}


def test_a_card_that_no_longer_reads_fails_those_who_name_it(repository: Path) -> None:
    (repository / CARD).write_text("kind: column\nlength: [", encoding="utf-8")
    done = run("check", CARD, "--dependents", "--show", "json", cwd=repository)
    assert done.status == 2
    paths = {finding["path"] for finding in json.loads(done.stdout)["findings"]}
    assert {CARD, "lab/methods/dye-intermediates.yaml"} <= paths


def test_who_names_a_card_that_is_not_there_is_always_judged(repository: Path) -> None:
    """Nobody tells a hook that a card was renamed: it is given the new name alone."""
    card = repository / CARD
    card.rename(card.with_name("diol-3um-b.yaml"))
    users = {"lab/methods/dye-intermediates.yaml", "lab/methods/flavonoid-aglycones.yaml"}
    for changed in ("lab/columns/diol-3um-b.yaml", "lab/columns/silica-3um.yaml"):
        done = run("check", changed, "--dependents", "--show", "json", cwd=repository)
        assert done.status == 2
        data = json.loads(done.stdout)
        lost = {f["path"] for f in data["findings"] if f["rule"] == "document.reference-unresolved"}
        assert lost >= users


def test_a_name_that_is_left_to_be_filled_in_is_no_lost_one(repository: Path) -> None:
    draft = repository / "lab/methods/draft.yaml"
    draft.write_text("kind: method\nstatus: draft\ncolumn: <column>\n", encoding="utf-8")
    done = run("check", "lab/columns/silica-3um.yaml", "--dependents", cwd=repository)
    assert done.status == 0, done.stdout
    assert "draft.yaml" not in done.stdout


def test_a_card_that_is_reached_by_a_link_has_its_users_judged(repository: Path) -> None:
    lab = repository / "lab"
    (lab / "columns").rename(lab / "cards")
    (lab / "columns").symlink_to("cards", target_is_directory=True)
    (lab / "methods/alias.yaml").symlink_to("dye-intermediates.yaml")
    report = check(lab / "cards/diol-3um.yaml", changed=True)
    judged = {run.documents["method"].name for run in report.runs}
    assert judged >= {"dye-intermediates", "flavonoid-aglycones"}
    assert "sulfonamides-in-honey" not in judged, "it runs on another column"
    report = check(lab / "methods/dye-intermediates.yaml", changed=True)
    assert {run.documents["method"].name for run in report.runs} == {"dye-intermediates", "alias"}


def test_documents_that_leave_their_lab_are_judged(repository: Path) -> None:
    """Without its `lab.yaml`, or under a new one, a method looks for its cards elsewhere."""
    lab = repository / "lab"
    (lab / "methods/lab.yaml").write_text("kind: lab\n", encoding="utf-8")
    report = check(lab / "methods/lab.yaml", changed=True, shown_from=repository)
    assert "lab/methods/dye-intermediates.yaml" in {f.at.file for f in report.findings}
    (lab / "methods/lab.yaml").unlink()
    (lab / "lab.yaml").unlink()
    report = check(lab / "lab.yaml", changed=True, shown_from=repository)
    assert "lab/methods/dye-intermediates.yaml" in {f.at.file for f in report.findings}


@pytest.mark.parametrize("name", ["samples.csv", "Samples.CSV"])
def test_a_table_has_its_sequence_judged(repository: Path, name: str) -> None:
    sequence = repository / "lab/sequences/triazole-day-batch.yaml"
    text = sequence.read_text(encoding="utf-8")
    before, _, _ = text.partition("\nlines:")
    sequence.write_text(f"{before}\ntable: {name}\n", encoding="utf-8")
    table = sequence.with_name(name)
    table.write_text("sample,kind,position\nblank,blank,A1\n", encoding="utf-8")
    assert [b.name for b in check(table, changed=True).batches] == [str(sequence)]
    table.unlink()
    report = check(repository / "lab/columns/silica-3um.yaml", changed=True)
    assert [b.name for b in report.batches] == [str(sequence)]


def test_a_change_that_concerns_nothing_passes(repository: Path) -> None:
    for path in ("README", "lab/other.yaml", "gone.txt"):
        done = run("check", path, "--dependents", "--write", "sarif=o.sarif", cwd=repository)
        assert done.status == 0, done.stderr
        assert "none of these files concerns" in done.stderr
        assert done.stdout.startswith("NOTHING TO JUDGE"), "nothing is cleared that was not judged"
        assert json.loads((repository / "o.sarif").read_text())["runs"][0]["results"] == []


def test_a_link_out_of_the_lab_is_no_dependent(repository: Path) -> None:
    outside = repository / "outside.yaml"
    outside.write_text("kind: method\ncolumn: diol-3um\n", encoding="utf-8")
    (repository / "lab" / "methods" / "linked.yaml").symlink_to(outside)
    report = check(repository / CARD, changed=True)
    assert not any("linked" in path for path in report.documents)


def test_a_method_is_judged_on_each_instrument_that_it_claims(repository: Path) -> None:
    method = "lab/methods/flame-retardant-isomers.yaml"
    change(repository / method, "runs_on: [bench-a]", "runs_on: [bench-a, bench-b]")
    done = run("check", method, "--show", "json", "--write", "markdown=out.md", cwd=repository)
    data = json.loads(done.stdout)
    assert [r["instrument"] for r in data["runs"]] == ["bench-a", "bench-b"]
    assert all(not r["with_bench"] for r in data["runs"])
    pressures = [r["figures"]["highest_pump_pressure"]["value"] for r in data["runs"]]
    assert pressures[0] != pressures[1], "the two trains differ"
    # Without a sequence there is no bench: what it would decide does not arise.
    families = {item["rule"].partition(".")[0] for item in data["not_checked"]}
    assert not families & {"supply", "sequence"}
    page = (repository / "out.md").read_text(encoding="utf-8")
    assert "| method | bench-a | bench-b |" in page
    rows = [line for line in page.splitlines() if line.replace("`", "").startswith(f"| {method} |")]
    assert len(rows) == 1
    assert all(cell.strip() for cell in rows[0].split("|")[1:-1])
