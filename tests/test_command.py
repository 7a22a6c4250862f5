"""The runner of the tests gives what a process gives, and leaves its own process as it was."""

from __future__ import annotations

import gc
import os
import sys
from pathlib import Path

import pytest

from tests.command import process, run
from tests.lab_rules.labs import lab, rule_file

FLAWED = "example_methods/flawed/terpenoids-hot-and-low.yaml"


@pytest.mark.parametrize(
    ("arguments", "env"),
    [
        (("check", FLAWED), {"PYTHONIOENCODING": "ascii:replace", "COLUMNS": "60"}),
        (("check", "no-such-file.yaml"), {}),
    ],
)
def test_a_process_of_its_own_gives_the_same(
    arguments: tuple[str, ...], env: dict[str, str]
) -> None:
    inside, own = run(*arguments, env=env), process(*arguments, env=env)
    assert own.status in (1, 2)
    assert (inside.status, inside.out, inside.err) == (own.status, own.out, own.err)


def test_what_a_command_changes_is_put_back(tmp_path: Path) -> None:
    sequence = lab(tmp_path)
    rule_file(tmp_path)

    def state() -> list[object]:
        ours = [name for name in sys.modules if name.startswith("methodlint_lab_rules")]
        streams = sys.stdin, sys.stdout, sys.stderr
        return [os.getcwd(), dict(os.environ), streams, sys.argv, gc.get_threshold(), ours]

    before = state()
    done = run("check", sequence.name, "--allow-rules", "our-rules", cwd=tmp_path)
    assert "house.settles-too-short" in done.stdout
    assert state() == before


def test_an_error_that_no_command_should_raise_is_a_traceback(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def broken() -> None:
        raise RuntimeError("out of order")

    monkeypatch.setattr("methodlint.cli.main", broken)
    done = run("rules")
    assert done.status == 1
    assert "RuntimeError: out of order" in done.stderr


def test_standard_input_and_closed_streams(monkeypatch: pytest.MonkeyPatch) -> None:
    def echo() -> None:
        sys.stdout.write(sys.stdin.read().upper())
        sys.stdout.close()
        raise SystemExit("a last word")

    monkeypatch.setattr("methodlint.cli.main", echo)
    done = run(stdin="µL")
    assert (done.status, done.stdout, done.stderr) == (1, "ΜL", "a last word\n")
