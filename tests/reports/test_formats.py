"""One analysis, many files; the same bytes wherever and however often it is run."""

from __future__ import annotations

import os
import shutil
import stat
from pathlib import Path

import pytest

from methodlint.reports.formats import FORMATS
from tests.reports.scratch_lab import EXAMPLES, run

FLAWED = "flawed/dye-rich-end-too-fast.yaml"


@pytest.fixture
def lab(tmp_path: Path) -> Path:
    shutil.copytree(EXAMPLES, tmp_path / "lab")
    return tmp_path / "lab"


def test_what_is_written_is_what_is_shown(lab: Path) -> None:
    before = {path.name for path in lab.iterdir()}
    wanted = [f"--write={name}=out.{name}" for name in FORMATS]
    done = run("check", FLAWED, *wanted, cwd=lab)
    assert done.returncode == 1
    for name in FORMATS:
        file = lab / f"out.{name}"
        shown = run("check", FLAWED, "--show", name, cwd=lab)
        assert file.read_bytes() == shown.stdout.encode("utf-8"), name
    left = {path.name for path in lab.iterdir()} - before
    assert left == {f"out.{name}" for name in FORMATS}, "no file is left over"


@pytest.mark.parametrize("name", list(FORMATS))
def test_the_same_bytes_under_any_hash_seed_and_folder(
    lab: Path, tmp_path: Path, name: str
) -> None:
    moved = tmp_path / "another place" / "lab"
    shutil.copytree(lab, moved)
    seen = {
        run("check", "flawed", "--show", name, cwd=folder, PYTHONHASHSEED=seed).stdout
        for folder, seed in ((lab, "0"), (lab, "1"), (moved, "4711"))
    }
    assert len(seen) == 1


@pytest.mark.parametrize("name", [name for name in FORMATS if name != "words"])
def test_formats_for_machines_are_utf_8_on_any_stream(lab: Path, name: str) -> None:
    file = lab / FLAWED
    text = file.read_text(encoding="utf-8").replace("title:", "titel: Größe 10 µm\ntitle:")
    file.write_text(text, encoding="utf-8")
    ascii_stream = run("check", FLAWED, "--show", name, cwd=lab, PYTHONIOENCODING="ascii")
    assert ascii_stream.stdout == run("check", FLAWED, "--show", name, cwd=lab).stdout
    assert ascii_stream.stderr == ""


def test_a_file_gets_the_usual_permissions(lab: Path) -> None:
    run("check", FLAWED, "--write", "json=out.json", cwd=lab)
    mask = os.umask(0)
    os.umask(mask)
    assert stat.S_IMODE((lab / "out.json").stat().st_mode) == 0o666 & ~mask


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("--write", "json"), "is not FORMAT=FILE"),
        (("--write", "json="), "is not FORMAT=FILE"),
        (("--write", "pdf=a.pdf"), "is not FORMAT=FILE"),
        (("--write", "json=a", "--write", "sarif=a"), "asked for twice"),
        (("--write", "sarif=lab.yaml"), "would overwrite"),
        (("--write", "sarif=columns/diol-3um.yaml"), "would overwrite"),
        (("--write", "json=none/a.json"), "cannot write"),
        (("--show", "pdf"), "pdf"),
    ],
)
def test_refusals_write_nothing(lab: Path, arguments: tuple[str, ...], said: str) -> None:
    before = {path: path.read_bytes() for path in lab.rglob("*") if path.is_file()}
    done = run("check", FLAWED, *arguments, cwd=lab)
    assert done.returncode == 2
    assert said in done.stderr
    assert "Traceback" not in done.stderr
    assert {path: path.read_bytes() for path in lab.rglob("*") if path.is_file()} == before


def test_a_link_to_a_document_is_not_written_over(lab: Path) -> None:
    (lab / "out.json").symlink_to(lab / FLAWED)
    kept = (lab / FLAWED).read_bytes()
    assert run("check", FLAWED, "--write", "json=out.json", cwd=lab).returncode == 2
    assert (lab / FLAWED).read_bytes() == kept
