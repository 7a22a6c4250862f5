"""A remembered report equals a fresh one, and anything that could change it makes it fresh."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from methodlint.cli import commands
from methodlint.commands.remembered import READ, Remembered, cache_folder
from methodlint.documents.library import FOLDERS
from tests.benchmarks.lab_folder import lab_of_methods

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture
def lab(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A lab folder with two methods, which is the working folder."""
    lab_of_methods(tmp_path / "lab", 2)
    monkeypatch.chdir(tmp_path / "lab")
    monkeypatch.delenv("CI", raising=False)
    return tmp_path / "lab"


def said(*arguments: str) -> tuple[int, bytes]:
    """Exit status and standard output of a check."""
    done = CliRunner().invoke(commands, ["check", *arguments], standalone_mode=False)
    assert done.exception is None, done.exception
    return done.return_value, done.stdout_bytes


@pytest.fixture
def fresh(monkeypatch: pytest.MonkeyPatch) -> list[Any]:
    """Count the checks that are really made."""
    from methodlint.many import check_many

    made: list[Any] = []
    real = check_many.check_with_workers

    def counted(*arguments: Any, **options: Any) -> Any:
        made.append(arguments)
        return real(*arguments, **options)

    monkeypatch.setattr(check_many, "check_with_workers", counted)
    return made


@pytest.mark.parametrize("options", [[], ["--notes"], ["--show", "json"], ["--show", "sarif"]])
def test_a_remembered_report_equals_a_fresh_one(
    lab: Path, tmp_path: Path, fresh: list[Any], options: list[str]
) -> None:
    without = said("methods", "--cache", "off", *options)
    cache = ("--cache", str(tmp_path / "cache"))
    first = said("methods", *cache, *options)
    assert len(fresh) == 2
    again = said("methods", *cache, *options)
    assert len(fresh) == 2
    assert without == first == again
    assert len(list((tmp_path / "cache").iterdir())) == 1


def _replace(file: Path, old: str, new: str) -> None:
    text = file.read_text("utf-8")
    assert old in text
    file.write_text(text.replace(old, new), encoding="utf-8")


def _edit_method(lab: Path) -> None:
    _replace(lab / "methods" / "screening-00001.yaml", "temperature: 34", "temperature: 39")


def _edit_card(lab: Path) -> None:
    _replace(lab / "columns" / "cellulose-5um.yaml", "pressure_rating: ", "pressure_rating: 0.")


def _new_method(lab: Path) -> None:
    shutil.copy(lab / "methods" / "screening-00001.yaml", lab / "methods" / "third.yaml")


def _remove_card(lab: Path) -> None:
    (lab / "columns" / "cellulose-5um.yaml").unlink()


def _second_card_of_a_name(lab: Path) -> None:
    shutil.copy(lab / "columns" / "cellulose-5um.yaml", lab / "methods" / "cellulose-5um.yaml")


def _another_root(lab: Path) -> None:
    (lab / "methods" / "lab.yaml").write_text("kind: lab\nname: inner\n", encoding="utf-8")


@pytest.mark.parametrize(
    "change",
    [
        _edit_method, _edit_card, _new_method, _remove_card, _second_card_of_a_name, _another_root,
    ],
)  # fmt: skip
def test_every_change_that_matters_is_seen(
    lab: Path, tmp_path: Path, fresh: list[Any], change: Any
) -> None:
    cache = ("--cache", str(tmp_path / "cache"))
    before = said("methods", *cache)
    change(lab)
    after = said("methods", *cache)
    assert len(fresh) == 2
    assert after == said("methods", "--cache", "off")
    assert after != before


@pytest.mark.parametrize("options", [["--as-of", "2026-01-01"], ["--hold-at", "stop"], ["--notes"]])
def test_every_option_is_part_of_the_question(
    lab: Path, tmp_path: Path, fresh: list[Any], options: list[str]
) -> None:
    cache = ("--cache", str(tmp_path / "cache"))
    said("methods", *cache)
    said("methods", *cache, *options)
    assert len(fresh) == 2
    said("methods", *cache)
    assert len(fresh) == 2, "both answers are remembered"


def _spoilt(text: str) -> list[bytes]:
    stored = json.loads(text)
    (question,) = stored["answers"]
    wrong = json.loads(text)
    wrong["answers"][question]["answer"]["status"] = 0
    other = json.loads(text)
    other["answers"][question] = {"sum": 3}
    return [
        b"", b"{", b"[]", b"null", text.encode()[:-40], b"\xff\xfe" * 9, b"[" * 100_000,
        json.dumps(wrong).encode(), json.dumps(other).encode(),
        json.dumps({**stored, "edition": 99}).encode(),
        json.dumps({**stored, "answers": 5}).encode(),
    ]  # fmt: skip


def test_a_spoilt_cache_is_computed_anew_in_silence(
    lab: Path, tmp_path: Path, fresh: list[Any], capfd: pytest.CaptureFixture[str]
) -> None:
    cache = ("--cache", str(tmp_path / "cache"))
    right = said("methods", *cache)
    (file,) = (tmp_path / "cache").iterdir()
    text = file.read_text("ascii")
    spoilt = _spoilt(text)
    for number, content in enumerate(spoilt):
        file.write_bytes(content)
        assert said("methods", *cache) == right, content[:40]
        assert len(fresh) == number + 2, content[:40]
        assert json.loads(file.read_text("ascii"))["answers"], "it is put right"
    assert capfd.readouterr().err == ""


def test_a_cache_folder_that_cannot_be_used_changes_nothing(lab: Path, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    blocked = said("methods", "--cache", str(tmp_path / "file"))
    assert blocked == said("methods", "--cache", "off")


def test_a_single_document_is_not_remembered(lab: Path, tmp_path: Path) -> None:
    said("methods/screening-00001.yaml", "--cache", str(tmp_path / "cache"))
    assert not (tmp_path / "cache").exists()


def test_a_linked_folder_makes_every_check_a_fresh_one(lab: Path, tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    (lab / "methods" / "linked").symlink_to(tmp_path / "elsewhere", target_is_directory=True)
    assert Remembered.of(str(tmp_path / "cache"), ["methods"], {}) is None


def test_where_the_cache_lies() -> None:
    assert cache_folder("off", {}) is None
    assert cache_folder("here", {"CI": "true"}) == "here"
    assert cache_folder(None, {"CI": "true", "HOME": "/h"}) is None
    assert cache_folder(None, {}) is None
    if os.name == "posix" and sys.platform != "win32":
        given = {"XDG_CACHE_HOME": "/x", "HOME": "/h"}
        assert cache_folder(None, given) == "/x/methodlint"
        assert cache_folder(None, {"XDG_CACHE_HOME": "relative", "HOME": "/h", "CI": "0"}) == (
            "/h/.cache/methodlint"
        )


def test_all_that_a_check_reads_is_looked_at() -> None:
    assert {".yaml", ".yml"} <= set(READ)
    assert FOLDERS
    try:
        from methodlint.documents.tables.files import SUFFIXES
    except ImportError:
        return
    assert set(SUFFIXES) <= set(READ)


def test_a_remembered_report_needs_neither_numpy_nor_pydantic(lab: Path, tmp_path: Path) -> None:
    script = (
        "import sys\n"
        "from methodlint.cli import main\n"
        "try:\n"
        f"    main(['check', 'methods', '--cache', {str(tmp_path / 'cache')!r}])\n"
        "except SystemExit as ended:\n"
        "    heavy = {'numpy', 'pydantic', 'ruamel', 'rich', 'CoolProp'} & set(sys.modules)\n"
        "    print(sorted(heavy), ended.code, file=sys.stderr)\n"
    )
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    runs = [
        subprocess.run(
            [sys.executable, "-c", script], capture_output=True, env=environment, check=True
        )
        for _ in range(2)
    ]
    assert runs[0].stdout == runs[1].stdout
    assert runs[0].stdout
    first, second = (run.stderr.decode().split("]") for run in runs)
    assert "numpy" in first[0]
    assert second[0] == "["
    assert first[1] == second[1]
