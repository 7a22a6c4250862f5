"""Whole checks of mutants: text in, every format out, and nothing may go wrong between.

python -m tests.hazards.whole_check FIRST LAST     judges mutants by seed
python -m tests.hazards.whole_check --every-field  puts every hostile value into every field
"""

from __future__ import annotations

import contextlib
import copy
import functools
import io
import json
import random
import re
import sys
import time
import traceback
import warnings
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from methodlint.checking.check import check, judge_documents
from methodlint.checking.report import Report
from methodlint.documents.library import FOLDERS, MemoryLibrary
from methodlint.documents.loading import Loaded, load, nothing_read
from methodlint.documents.text.reader import read_text
from methodlint.judging.loader import built_in_rules
from methodlint.reports.formats import FORMATS, written
from methodlint.reports.prepared import Prepared
from tests.hazards.mutants import as_yaml, hostile_values, mutated
from tests.hazards.our_schema import document, spots

ROOT = Path(__file__).resolve().parent.parent.parent
EXAMPLES = ROOT / "example_methods"
_NO_NUMBER = re.compile(r"(?<![\w-])[-+]?(?:nan|inf|infinity)(?![\w-])", re.IGNORECASE)


@dataclass(frozen=True)
class Scene:
    """A document to judge with everything that its check reads, as plain data by path."""

    target: str
    texts: dict[str, dict[str, Any]]


@functools.cache
def scenes() -> tuple[Scene, ...]:
    """One scene for every example that can be judged as a run or a batch."""
    found = []
    for file in sorted(EXAMPLES.glob("*/*.yaml")):
        report = check(file)
        texts = {path: own.read.plain() for path, own in report.documents.items() if own.kind}
        shown = next((p for p in texts if Path(p).name == file.name), None)
        if shown and texts[shown]["kind"] in ("method", "sequence"):
            found.append(Scene(shown, texts))
    return tuple(found)


@functools.lru_cache(maxsize=4096)
def _loaded_once(path: str, text: bytes) -> Loaded:
    name = path.rpartition("/")[2].removesuffix(".yaml")
    read = read_text(text, path)
    loaded = load(read, path, name)
    if loaded is not None:
        return loaded
    problems = read.problems or read_text(b"[", path).problems
    return nothing_read(read, path, name, problems)


def judged(scene: Scene, texts: dict[str, bytes], also: str) -> Report:
    """Judge a scene with other texts for its documents."""
    loaded = {path: _loaded_once(path, text) for path, text in texts.items()}
    lab = next((d for d in loaded.values() if d.kind == "lab"), None)
    library = MemoryLibrary({(d.kind, d.name): d for d in loaded.values() if d.kind}, lab=lab)
    targets = [loaded[path] for path in dict.fromkeys((scene.target, also))]
    return judge_documents(library, targets, built_in_rules())


def formats_of(report: Report) -> dict[str, str]:
    """Write a report in every format there is."""
    prepared = Prepared(report, notes=True)
    return {name: written(name, prepared) for name in FORMATS}


def faults_of(report: Report, texts: dict[str, str]) -> list[str]:
    """What must never happen: a rule that failed, a figure that is no number."""
    faults = [f"rule {item.rule}: {item.error}\n{item.trace}" for item in report.failed]
    for name, text in texts.items():
        match = _NO_NUMBER.search(text)
        if match is not None:
            around = text[max(0, match.start() - 150) : match.end() + 50]
            faults.append(f"{match.group()} in {name}: {around!r}")
    for name in ("json", "sarif"):
        if name in texts:
            json.loads(texts[name], parse_constant=_no_constant)
    return faults


def _no_constant(name: str) -> Any:
    raise AssertionError(f"{name} in JSON")


@dataclass
class Tally:
    """What a run over many mutants has seen."""

    tried: int = 0
    worst: float = 0.0
    worst_of: str = ""
    spent: float = 0.0
    faults: dict[str, list[str]] = field(default_factory=dict)

    def look_at(self, label: str, scene: Scene, texts: dict[str, bytes], also: str) -> None:
        """Judge once, in every format, and note what goes wrong."""
        # The process's own time: what others do on the machine is no hazard of ours.
        begin = time.process_time()
        said = io.StringIO()
        try:
            with warnings.catch_warnings(), contextlib.redirect_stderr(said):
                warnings.simplefilter("error")
                report = judged(scene, texts, also)
                faults = faults_of(report, formats_of(report))
        except Exception:
            faults = [traceback.format_exc()]
        if said.getvalue():
            faults.append(f"on stderr: {said.getvalue()}")
        took = time.process_time() - begin
        self.spent += took
        self.tried += 1
        if took > self.worst:
            self.worst, self.worst_of = took, label
        for fault in faults:
            self.faults.setdefault(_signature(fault), []).append(f"{label}\n{fault}")


def _signature(fault: str) -> str:
    """Last line of ours in a trace and the kind of error: what is one bug."""
    places = re.findall(r'File "[^"]*?((?:methodlint|rules)/[^"]*)", line (\d+)', fault)
    last = fault.strip().splitlines()[-1][:60] if "Traceback" in fault else fault[:60]
    return f"{places[-1] if places else ''} {last}"


def mutant(seed: int) -> tuple[str, Scene, dict[str, bytes], str]:
    """Build the mutant of a seed: a scene with one or two of its documents changed."""
    rng = random.Random(seed)
    everything = scenes()
    scene = everything[seed % len(everything)]
    data = dict(scene.texts)
    path = rng.choice([scene.target, scene.target, *data])
    how = rng.random()
    if how < 0.05:
        data[path] = document(data[path]["kind"], rng)
    else:
        own = path.rpartition("/")[2].removesuffix(".yaml")
        data[path] = mutated(data[path], own, rng)
    if how > 0.9:
        second = rng.choice([*data])
        data[second] = mutated(data[second], "bench-a", rng)
    texts = {where: as_yaml(plain) for where, plain in data.items()}
    if 0.05 < how < 0.1:
        texts[path] = _torn(texts[path], rng)
    return f"seed {seed}: {scene.target}, {path} changed", scene, texts, path


def _torn(text: bytes, rng: random.Random) -> bytes:
    """Cut a text or put another in its middle, as a bad merge or a full disk leaves it."""
    at = rng.randrange(len(text))
    piece = rng.choice((b"", b"<<<<<<< HEAD\n", b"\x00", b"\xff", b"&a ", b"*a", b"{", b"]", b"\t"))
    return text[:at] + piece + (text[at + rng.randint(0, 9) :] if rng.random() < 0.7 else b"")


def every_field(
    step: int = 1, first: int = 0
) -> Iterator[tuple[str, Scene, dict[str, bytes], str]]:
    """Every hostile value in every physical field that the examples write, one at a time.

    With a `step` only each so many of them, from the `first` on.
    """
    count = -1
    seen: set[tuple[str, tuple[Any, ...]]] = set()
    for scene in scenes():
        texts = {path: as_yaml(plain) for path, plain in scene.texts.items()}
        for path, plain in scene.texts.items():
            for number, spot in enumerate(spots(plain)):
                if spot.holds not in ("quantity", "number") or (path, spot.path) in seen:
                    continue
                seen.add((path, spot.path))
                for value in hostile_values(spot):
                    count += 1
                    if count % step != first:
                        continue
                    data = copy.deepcopy(plain)
                    changed = spots(data)[number]
                    changed.parent[changed.step] = value
                    label = f"{scene.target}: {path} {spot.path} = {value!r}"
                    yield label, scene, {**texts, path: as_yaml(data)}, path


def folder_of(kind: str) -> str:
    """Folder of a lab that documents of a kind lie in."""
    return FOLDERS.get(kind, ".")


def main(arguments: list[str]) -> int:
    """Judge many mutants and print each fault once; the status is 1 if there is one."""
    tally = Tally()
    if arguments and arguments[0] == "--every-field":
        part, parts = (int(n) for n in (arguments[1:] or ["0", "1"]))
        for each in every_field(parts, part):
            tally.look_at(*each)
    else:
        for seed in range(int(arguments[0]), int(arguments[1])):
            tally.look_at(*mutant(seed))
    for signature, cases in sorted(tally.faults.items(), key=lambda item: -len(item[1])):
        print(f"=== {len(cases)} x {signature}\n{cases[0]}\n")
    print(f"{tally.tried} tried, {len(tally.faults)} kinds of fault")
    print(f"worst {tally.worst:.2f} s: {tally.worst_of}")
    return 1 if tally.faults else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
