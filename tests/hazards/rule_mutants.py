"""Mutation testing of the rules and of what judges: are faults planted in our code noticed?

    nice python -m tests.hazards.rule_mutants [--each-rule 2] [--each-helper 8] [--only TEXT]

The mutations are those of cosmic-ray, which is no dependency of the tests: `pip install
cosmic-ray`. Its own driver starts one command for all files, and rules are loaded by path beneath
names that trampolines cannot know, so the sampling and the running are done here: a seeded sample
of places in every file, each with one mutation, in a copy of the checkout. Each mutant meets the
tests that belong to its file and, for a rule, the examples on its page. What cannot matter is left
out: annotations, decorators, documentation.
"""

from __future__ import annotations

import argparse
import ast
import datetime
import json
import os
import random
import re
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
RECORD = Path(__file__).resolve().parent / "records" / "rule_mutants.json"
FOLDERS = ("rules", "methodlint/judging", "methodlint/checking", "methodlint/rulebook")
# Sound tests may take so long [s], on a busy machine too; a mutant some times as long as they did.
_TIMEOUT = 600.0
_TIMES, _AT_LEAST = 5.0, 20.0
_MOST_TESTS = 8
_LEFT_OUT = ("core/VariableInserter", "core/VariableReplacer", "core/RemoveDecorator")
# Tests of the helpers that no rule calls.
_ENGINE = ("tests/judging/test_engine.py", "tests/judging/test_remedies.py",
           "tests/judging/test_deviations.py", "tests/judging/test_scouting.py")  # fmt: skip
_GATE = "tests/reports/test_change_gate.py"
_LAB_RULES = ("tests/lab_rules/test_rule_folders.py", "tests/lab_rules/test_try_rules.py")
_OF_HELPERS = {
    "assemble": (*_ENGINE, "tests/rehearsal/test_bench_state.py", "tests/transfer/test_numbers.py"),
    "case": ("tests/judging/test_parts_of_judging.py", *_ENGINE, "tests/rules/test_lab_policy.py", "tests/rules/document",
             "tests/rules/transfer/test_system_rules.py"),
    "check": ("tests/judging/test_parts_of_judging.py", *_ENGINE, _GATE, "tests/lab_rules/test_rule_folders.py"),
    "dependents": (_GATE,),
    "deviations": ("tests/judging/test_parts_of_judging.py", "tests/judging/test_deviations.py",),
    "engine": (*_ENGINE, "tests/rules/test_lab_policy.py"),
    "examples": (*_LAB_RULES, "tests/rules/test_base_lab.py"),
    "figures": ("tests/judging/test_figures.py", *_ENGINE),
    "finding": ("tests/judging/test_parts_of_judging.py", *_ENGINE, "tests/reports/test_formats.py"),
    "given": ("tests/test_cli.py", "tests/judging/test_scouting.py", "tests/lab_rules"),
    "lab_policy": ("tests/rules/test_lab_policy.py", "tests/judging/test_deviations.py"),
    "lab_rules": ("tests/lab_rules",),
    "loader": ("tests/judging/test_parts_of_judging.py", *_LAB_RULES, "tests/rules/test_shape.py"),
    "new_rule": ("tests/lab_rules", "tests/starters"),
    "not_miscible": ("tests/judging/test_not_miscible.py", "tests/rules/makeup"),
    "pages": ("tests/judging/test_parts_of_judging.py", "tests/lab_rules", "tests/rules/test_catalogue.py"),
    "purposes": ("tests/rules/document/test_purpose_missing.py", *_ENGINE),
    "remedies": (*_ENGINE, "tests/rules/pressure", "tests/rules/gradient"),
    "report": (*_ENGINE, "tests/reports/test_formats.py"),
    "rule_shape": ("tests/lab_rules",),
    "scouting": ("tests/judging/test_scouting.py",),
    "targets": ("tests/judging/test_parts_of_judging.py", _GATE, "tests/test_cli.py"),
    "cylinder_words": ("tests/judging/test_parts_of_judging.py", "tests/rules/supply/test_cylinder_runs_out.py"),
    "supply_end": ("tests/judging/test_parts_of_judging.py", "tests/rules/supply"),
    "traces": ("tests/judging/test_parts_of_judging.py", "tests/rules/makeup"),
    "try_rules": ("tests/lab_rules",),
}  # fmt: skip


@dataclass(frozen=True)
class Planted:
    """One mutation: where it is, and what it does."""

    file: str
    line: int
    operator: str
    occurrence: int
    was: str


def _dull(source: str) -> list[tuple[tuple[int, int], tuple[int, int]]]:
    """Stretches in which a change changes nothing: annotations, decorators."""
    found = []
    for node in ast.walk(ast.parse(source)):
        parts: list[ast.AST | None] = []
        if isinstance(node, ast.FunctionDef | ast.ClassDef):
            parts += node.decorator_list
        if isinstance(node, ast.FunctionDef):
            parts.append(node.returns)
        if isinstance(node, ast.arg | ast.AnnAssign):
            parts.append(node.annotation)
        if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "cast":
            parts.append(node.args[0])
        if isinstance(node, ast.If) and getattr(node.test, "id", "") == "TYPE_CHECKING":
            parts.append(node)
        for part in parts:
            if isinstance(part, ast.expr | ast.stmt):
                end = (part.end_lineno or 0, part.end_col_offset or 0)
                found.append(((part.lineno, part.col_offset), end))
    return found


def mutations(file: Path) -> list[list[Planted]]:
    """Every mutation of a file, those of one place together."""
    from cosmic_ray.ast import ast_nodes, get_ast  # type: ignore[import-not-found]
    from cosmic_ray.plugins import get_operator, operator_names  # type: ignore[import-not-found]

    source = file.read_text(encoding="utf-8")
    lines, dull, nodes = source.splitlines(), _dull(source), list(ast_nodes(get_ast(source)))
    name = file.relative_to(ROOT).as_posix()
    places: dict[tuple[int, int], list[Planted]] = {}
    for operator_name in sorted(operator_names()):
        if operator_name in _LEFT_OUT:
            continue
        operator = get_operator(operator_name)()
        occurrence = -1
        for node in nodes:
            for start, _ in operator.mutation_positions(node):
                occurrence += 1
                # What follows a decorator's or an annotation's first sign lies inside it too.
                if not any(first <= start <= last for first, last in dull):
                    made = Planted(name, start[0], operator_name, occurrence,
                                   lines[start[0] - 1].strip())  # fmt: skip
                    places.setdefault(start, []).append(made)
    return [places[start] for start in sorted(places)]


def sample(each_rule: int, each_helper: int, only: str, seed: int) -> Iterator[Planted]:
    """So many mutations of every file; each file draws for itself, so that others may change."""
    for folder, count in zip(FOLDERS, (each_rule, *[each_helper] * 3), strict=True):
        for file in sorted((ROOT / folder).rglob("*.py")):
            if file.name == "__init__.py" or only not in file.as_posix():
                continue
            rng = random.Random(f"{seed} {file.relative_to(ROOT).as_posix()}")
            places = mutations(file)
            for place in rng.sample(places, min(count, len(places))):
                yield rng.choice(place)


def lived(only: str) -> Iterator[Planted]:
    """What lived according to the record, where it stands now."""
    for folder in json.loads(RECORD.read_text(encoding="utf-8")).values():
        for survivor in folder["survivors"]:
            was = Planted(**survivor)
            if only not in was.file or not (ROOT / was.file).is_file():
                continue
            now = [
                each
                for place in mutations(ROOT / was.file)
                for each in place
                if (each.operator, each.was) == (was.operator, was.was)
            ]
            if now:
                yield min(now, key=lambda each: abs(each.occurrence - was.occurrence))


def tests_of(file: str) -> list[str]:
    """The tests that belong to a file, as pytest takes them."""
    path = Path(file)
    if path.parts[0] == "rules":
        family, stem = path.parent.name, path.stem
        rule = f"{family}.{stem.replace('_', '-')}"
        own = ROOT / "tests" / "rules" / family / f"test_{stem}.py"
        found = [own] if own.is_file() else _naming([rule], ROOT / "tests")
        examples = f"tests/rules/test_shape.py::test_examples_do_what_the_page_says[{rule}]"
        return [*(f.relative_to(ROOT).as_posix() for f in found), examples]
    if path.stem in _OF_HELPERS:
        return list(_OF_HELPERS[path.stem])
    tree = ast.parse((ROOT / file).read_text(encoding="utf-8"))
    names = [n.name for n in tree.body if isinstance(n, ast.FunctionDef | ast.ClassDef)]
    names = [name for name in names if not name.startswith("_")]
    used = [test for rule in _naming(names, ROOT / "rules") for test in tests_of(
        rule.relative_to(ROOT).as_posix())]  # fmt: skip
    named = [f.relative_to(ROOT).as_posix() for f in _naming(names, ROOT / "tests")]
    return list(dict.fromkeys([*named[:4], *used[: 2 * _MOST_TESTS]])) or ["tests/judging"]


def _naming(words: list[str], folder: Path) -> list[Path]:
    pattern = re.compile("|".join(rf"(?<![\w.-]){re.escape(word)}(?![\w-])" for word in words))
    files = sorted(folder.rglob("*.py"))
    return [f for f in files if "hazards" not in f.parts and
            words and pattern.search(f.read_text(encoding="utf-8"))]  # fmt: skip


# Running -------------------------------------------------------------------------------------


def _copied(target: Path) -> None:
    listed = subprocess.run(
        ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"],
        cwd=ROOT, capture_output=True, check=True,
    )  # fmt: skip
    for name in listed.stdout.decode().split("\0"):
        if name and (ROOT / name).is_file():
            (target / name).parent.mkdir(parents=True, exist_ok=True)
            shutil.copy(ROOT / name, target / name)


def _made_ready(copy: Path) -> None:
    """Import, from the copy, all that no mutation touches: children inherit it."""
    import importlib

    os.chdir(copy)
    sys.dont_write_bytecode = True
    os.environ["PYTHONPATH"] = str(copy)
    os.environ["PYTHONDONTWRITEBYTECODE"] = "1"
    sys.path[:] = [str(copy), *(part for part in sys.path if Path(part or ".").resolve() != ROOT)]
    for name in [n for n in sys.modules if n.partition(".")[0] in ("tests", "methodlint")]:
        del sys.modules[name]
    for name in ("numpy", "pytest", "pydantic", "scipy.optimize"):
        importlib.import_module(name)
    for part in ("documents", "fluids", "hydraulics", "rehearsal", "scaling"):
        for file in sorted((copy / "methodlint" / part).rglob("*.py")):
            steps = file.relative_to(copy).with_suffix("").parts
            importlib.import_module(".".join(step for step in steps if step != "__init__"))
    assert not [name for name in sys.modules if name.startswith("methodlint.judging")]


def _status(tests: list[str], patience: float) -> int:
    """Exit status of pytest in a child; -1 when it takes longer than `patience` [s]."""
    child = os.fork()
    if child == 0:
        os.setsid()
        silent = os.open(os.devnull, os.O_RDWR)
        for stream in (0, 1, 2):
            os.dup2(silent, stream)
        import pytest

        os._exit(int(pytest.main(["-x", "-q", "-p", "no:cacheprovider", *tests])))
    until = time.monotonic() + patience
    while time.monotonic() < until:
        done, status = os.waitpid(child, os.WNOHANG)
        if done:
            return os.waitstatus_to_exitcode(status)
        time.sleep(0.02)
    os.killpg(child, signal.SIGKILL)
    os.waitpid(child, 0)
    return -1


def run(planted: list[Planted], copy: Path) -> dict[str, Any]:
    """Plant one after the other and see whether the tests notice."""
    from cosmic_ray.ast import get_ast
    from cosmic_ray.mutating import MutationVisitor  # type: ignore[import-not-found]
    from cosmic_ray.plugins import get_operator

    sound: dict[str, bool] = {}
    patience: dict[str, float] = {}
    survivors: list[dict[str, Any]] = []
    by_file: dict[str, list[int]] = {}
    for number, each in enumerate(planted, 1):
        tests = tests_of(each.file)
        if each.file not in sound:
            begin = time.monotonic()
            sound[each.file] = _status(tests, _TIMEOUT) == 0
            patience[each.file] = _AT_LEAST + _TIMES * (time.monotonic() - begin)
            if not sound[each.file]:
                print(f"the tests of {each.file} fail or are none: {tests}", flush=True)
        if not sound[each.file]:
            continue
        file = copy / each.file
        source = file.read_text(encoding="utf-8")
        visitor = MutationVisitor(each.occurrence, get_operator(each.operator)())
        file.write_text(visitor.walk(get_ast(source)).get_code(), encoding="utf-8")
        assert file.read_text(encoding="utf-8") != source, each
        try:
            status = _status(tests, patience[each.file])
        finally:
            file.write_text(source, encoding="utf-8")
        count = by_file.setdefault(each.file, [0, 0])
        count[0] += 1
        count[1] += status != 0
        if status == 0:
            survivors.append(asdict(each))
            print(f"{number}/{len(planted)} lived {each.file}:{each.line} "
                  f"{each.operator} | {each.was}", flush=True)  # fmt: skip
    left_out = [file for file, well in sound.items() if not well]
    return {"by_file": by_file, "survivors": survivors, "left_out": left_out}


def _keep(result: dict[str, Any], command: str) -> None:
    """Keep what became of each folder, with the day and the command."""
    record = json.loads(RECORD.read_text(encoding="utf-8")) if RECORD.exists() else {}
    for folder in FOLDERS:
        here = {name: count for name, count in result["by_file"].items() if name.startswith(folder)}
        if here:
            record[folder] = {
                "date": datetime.date.today().isoformat(),
                "command": command,
                "files": len(here),
                "tried": sum(tried for tried, _ in here.values()),
                "killed": sum(killed for _, killed in here.values()),
                "not looked at": [f for f in result["left_out"] if f.startswith(folder)],
                "survivors": [s for s in result["survivors"] if s["file"].startswith(folder)],
            }
    RECORD.write_text(json.dumps(record, indent=1) + "\n", encoding="utf-8")


def _renew(planted: list[Planted], survivors: list[dict[str, Any]]) -> None:
    """Take out of the record what no longer lives."""
    record = json.loads(RECORD.read_text(encoding="utf-8"))
    tried = [(each.file, each.operator, each.was) for each in planted]
    still = [(each["file"], each["operator"], each["was"]) for each in survivors]
    for folder in record.values():
        kept = [
            each
            for each in folder["survivors"]
            if (each["file"], each["operator"], each["was"]) not in tried
            or (each["file"], each["operator"], each["was"]) in still
        ]
        folder["killed"] += len(folder["survivors"]) - len(kept)
        folder["survivors"] = kept
    RECORD.write_text(json.dumps(record, indent=1) + "\n", encoding="utf-8")


def main(arguments: list[str]) -> int:
    """Plant a sample, print what lives, and keep the record when everything was looked at."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--each-rule", type=int, default=2)
    parser.add_argument("--each-helper", type=int, default=8)
    parser.add_argument("--only", default="")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--again", action="store_true", help="only what lived; renews the record")
    asked = parser.parse_args(arguments)
    planted = list(
        lived(asked.only)
        if asked.again
        else sample(asked.each_rule, asked.each_helper, asked.only, asked.seed)
    )
    print(f"{len(planted)} mutations of {len({each.file for each in planted})} files", flush=True)
    begin = time.monotonic()
    with tempfile.TemporaryDirectory() as folder:
        copy = Path(folder).resolve()
        _copied(copy)
        _made_ready(copy)
        result = run(planted, copy)
        os.chdir(ROOT)
    tried, killed = (sum(count[n] for count in result["by_file"].values()) for n in (0, 1))
    print(f"{killed} of {tried} killed ({killed / max(1, tried):.1%}) "
          f"in {time.monotonic() - begin:.0f} s")  # fmt: skip
    if asked.again:
        _renew(planted, result["survivors"])
    elif asked.only in ("", *FOLDERS):
        _keep(result, "python -m tests.hazards.rule_mutants " + " ".join(arguments))
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
