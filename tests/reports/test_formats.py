"""One analysis, many files; the same bytes wherever and however often it is run."""

from __future__ import annotations

import os
import shutil
import stat
import sys
from pathlib import Path

import pytest

from methodlint.reports.formats import FORMATS
from tests.command import process, run
from tests.reports.scratch_lab import EXAMPLES

FLAWED = "flawed/dye-rich-end-too-fast.yaml"


@pytest.fixture(scope="module")
def untouched(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The example lab; no test changes it."""
    folder = tmp_path_factory.mktemp("untouched") / "lab"
    shutil.copytree(EXAMPLES, folder)
    return folder


@pytest.fixture
def lab(tmp_path: Path) -> Path:
    shutil.copytree(EXAMPLES, tmp_path / "lab")
    return tmp_path / "lab"


def test_what_is_written_is_what_is_shown(lab: Path) -> None:
    before = {path.name for path in lab.iterdir()}
    wanted = [f"--write={name}=out.{name}" for name in FORMATS]
    done = run("check", FLAWED, *wanted, cwd=lab)
    assert done.status == 1
    for name in FORMATS:
        shown = run("check", FLAWED, "--show", name, cwd=lab)
        text = (lab / f"out.{name}").read_bytes()
        # A file tells by its content what wrote it; some formats do so by a last line only.
        assert text.startswith(shown.out), name
        more = text[len(shown.out) :].strip()
        assert more in (
            b"",
            b"written by methodlint 0.2.0",
            b"<!-- written by methodlint 0.2.0 -->",
        )
        assert bool(more) == (name in ("words", "annotations", "markdown")), name
    left = {path.name for path in lab.iterdir()} - before
    assert left == {f"out.{name}" for name in FORMATS}, "no file is left over"


# A whole check in every format, and a comparison in each of its own.
_EVERY_FORMAT = """
from pathlib import Path
from methodlint.reports.formats import FORMATS
from tests.command import run

here = Path.cwd()
run("check", "flawed", *(f"--write={name}=../out.{name}" for name in FORMATS), cwd=here)
run("check", "sound", "--write", "json=../sound.json", cwd=here)
for show in ("words", "json", "markdown"):
    done = run("compare", "../sound.json", "../out.json", "--show", show, cwd=here)
    (here.parent / f"compared.{show}").write_bytes(done.out)
"""


@pytest.mark.long
def test_the_same_bytes_under_any_hash_seed_and_folder(tmp_path: Path) -> None:
    """Sets are laid out anew under another seed: whatever is not sorted comes out of order."""
    seen: list[dict[str, bytes]] = []
    for seed in ("0", "4711"):
        place = tmp_path / f"place {seed}"
        shutil.copytree(EXAMPLES, place / "lab")
        done = process(
            cwd=place / "lab",
            env={"PYTHONHASHSEED": seed},
            program=(sys.executable, "-c", _EVERY_FORMAT),
        )
        assert done.status == 0, done.stderr
        seen.append({file.name: file.read_bytes() for file in place.iterdir() if file.is_file()})
    assert len(seen[0]) == len(FORMATS) + 4
    assert [name for name in seen[0] if seen[0][name] != seen[1].get(name)] == []
    assert all(seen[0].values())


def test_formats_for_machines_are_utf_8_on_any_stream(lab: Path) -> None:
    file = lab / FLAWED
    file.write_text(f"größe: 1\n{file.read_text(encoding='utf-8')}", encoding="utf-8")
    for name in FORMATS:
        if name != "words":
            arguments = ("check", FLAWED, "--show", name)
            ascii_stream = run(*arguments, cwd=lab, env={"PYTHONIOENCODING": "ascii"})
            assert "größe" in ascii_stream.out.decode("utf-8"), name
            assert ascii_stream.out == run(*arguments, cwd=lab).out, name
            assert ascii_stream.err == b"", name


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
def test_refusals_write_nothing(untouched: Path, arguments: tuple[str, ...], said: str) -> None:
    before = {path: path.read_bytes() for path in untouched.rglob("*") if path.is_file()}
    done = run("check", FLAWED, *arguments, cwd=untouched)
    assert done.status == 2
    assert said in done.stderr
    assert "Traceback" not in done.stderr
    assert {path: path.read_bytes() for path in untouched.rglob("*") if path.is_file()} == before


def test_a_link_to_a_document_is_not_written_over(lab: Path) -> None:
    (lab / "out.json").symlink_to(lab / FLAWED)
    kept = (lab / FLAWED).read_bytes()
    assert run("check", FLAWED, "--write", "json=out.json", cwd=lab).status == 2
    assert (lab / FLAWED).read_bytes() == kept
