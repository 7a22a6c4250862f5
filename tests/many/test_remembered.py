"""A remembered report equals a fresh one, and anything that could change it makes it fresh."""

from __future__ import annotations

import hashlib
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
from methodlint.commands.answer import seal
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
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "own"))
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


def _forged(text: str, key: bytes, answer: Any) -> bytes:
    """Return the cache file with another answer, sealed with a key."""
    stored = json.loads(text)
    (question,) = stored["answers"]
    sealed = seal(key, [question, stored["inputs"], answer])
    stored["answers"][question] = {"seal": sealed, "answer": answer}
    return json.dumps(stored).encode()


_CLEAR = {"status": 0, "lines": [[["CLEAR TO RUN", "good"]]], "text": None}
_ODD: list[Any] = [
    {**_CLEAR, "status": "0"}, {**_CLEAR, "status": True}, {**_CLEAR, "status": -25},
    {**_CLEAR, "status": 3}, {**_CLEAR, "status": 1.0}, {**_CLEAR, "lines": None},
    {**_CLEAR, "lines": 7}, {**_CLEAR, "lines": [7]}, {**_CLEAR, "lines": [[7]]},
    {**_CLEAR, "lines": [[["x"]]]}, {**_CLEAR, "lines": [[[5, "good"]]]},
    {**_CLEAR, "lines": [[["x", ["good"]]]]}, {**_CLEAR, "lines": [[["x", "loud"]]]},
    {**_CLEAR, "lines": [[["\x1b[2J", "good"]]]}, {**_CLEAR, "lines": [[["a\rb", "good"]]]},
    {**_CLEAR, "lines": [[["\u202e", "good"]]]}, {**_CLEAR, "text": "x"},
    {"status": 0, "lines": None, "text": "\x9b2J"}, {"status": 0, "lines": None, "text": ["x"]},
    {"status": 0, "lines": None, "text": "\ud800"}, {"status": 0, "text": "x"},
    {**_CLEAR, "more": 1}, [], "x", None,
]  # fmt: skip


def test_a_file_that_others_made_is_not_believed(
    lab: Path, tmp_path: Path, fresh: list[Any]
) -> None:
    """Everything of it can be computed by anybody, save the seal."""
    cache = ("--cache", str(tmp_path / "cache"))
    right = said("methods", *cache)
    (file,) = (tmp_path / "cache").iterdir()
    text = file.read_text("ascii")
    stored = json.loads(text)
    (question,) = stored["answers"]
    text_of = json.dumps(_CLEAR, sort_keys=True, separators=(",", ":"))
    plain_sum = json.loads(text)
    plain_sum["answers"][question] = {
        "sum": hashlib.sha256(text_of.encode()).hexdigest(), "answer": _CLEAR
    }  # fmt: skip
    for content in (json.dumps(plain_sum).encode(), _forged(text, bytes(32), _CLEAR)):
        file.write_bytes(content)
        before = len(fresh)
        assert said("methods", *cache) == right
        assert len(fresh) == before + 1


@pytest.mark.long
def test_even_a_sealed_answer_is_believed_only_in_the_right_shape(
    lab: Path, tmp_path: Path, fresh: list[Any]
) -> None:
    cache = ("--cache", str(tmp_path / "cache"))
    right = said("methods", *cache)
    (file,) = (tmp_path / "cache").iterdir()
    text = file.read_text("ascii")
    key = (tmp_path / "own" / "methodlint" / "key").read_bytes()
    for odd in _ODD:
        file.write_bytes(_forged(text, key, odd))
        before = len(fresh)
        assert said("methods", *cache) == right, odd
        assert len(fresh) == before + 1, odd
    # The silent twin: the same way leads to an answer that is shown.
    file.write_bytes(_forged(text, key, _CLEAR))
    assert said("methods", *cache) == (0, b"CLEAR TO RUN\n")


@pytest.mark.skipif(sys.platform == "win32", reason="owners and modes of POSIX")
@pytest.mark.parametrize("what", ["open to others", "a link", "a pipe", "a folder"])
def test_a_cache_file_that_is_not_ours_alone_is_passed_over(
    lab: Path, tmp_path: Path, fresh: list[Any], what: str
) -> None:
    cache = ("--cache", str(tmp_path / "cache"))
    right = said("methods", *cache)
    (file,) = (tmp_path / "cache").iterdir()
    if what == "open to others":
        file.chmod(0o620)
    else:
        file.rename(tmp_path / "elsewhere")
    if what == "a link":
        file.symlink_to(tmp_path / "elsewhere")
    elif what == "a pipe":
        os.mkfifo(file)
    elif what == "a folder":
        file.mkdir()
    assert said("methods", *cache) == right
    assert len(fresh) == 2


@pytest.mark.skipif(sys.platform == "win32", reason="owners and modes of POSIX")
def test_a_key_that_others_may_know_seals_nothing(
    lab: Path, tmp_path: Path, fresh: list[Any]
) -> None:
    cache = ("--cache", str(tmp_path / "cache"))
    said("methods", *cache)
    key = tmp_path / "own" / "methodlint" / "key"
    assert key.stat().st_mode & 0o777 == 0o600
    said("methods", *cache)
    assert len(fresh) == 1
    key.chmod(0o644)
    said("methods", *cache)
    assert len(fresh) == 2


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
    environment = {**os.environ, "PYTHONPATH": str(ROOT), "HOME": str(tmp_path)}
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
