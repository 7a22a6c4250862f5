"""Inputs that nobody meant to write, by seed, and what must hold of each when it is read."""

from __future__ import annotations

import functools
import json
import random
import time
import traceback
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from methodlint.documents.loading import KINDS, load
from methodlint.documents.tables.files import NoTable, TableFile
from methodlint.documents.text.limits import DOCUMENT, SEQUENCE
from methodlint.documents.text.reader import read_text
from tests.hazards.mutants import as_yaml, mutated
from tests.hazards.our_schema import document

ROOT = Path(__file__).resolve().parents[2]
EXAMPLES = ROOT / "example_methods"
TOKENS = (
    "[", "]", "{", "}", ":", ": ", "- ", "? ", "&a ", "*a", "!", "!!int ", "!!python/name:os ", "|", ">",
    "%", "@", "`", "'", '"', "\\", "\t", "\n", "\r\n", "\r", "#", ",", "<<: *a", "---\n", "...\n", "\0",
    "\x1b[2J", "\u2028", "\u202e", "\ufeff", "\x85", "🧪", "  ", ".nan", "1e999", "9" * 70, "~", "\ud800",
    "12:30", "no", "017", "1_000", "1,5 bar", "35-40 degC", "0x1F", "kind: sequence\n", "table: x.csv\n",
    "<<<<<<< HEAD\n", " % v/v", " bar(g)", "<fill in>", "x-", "=1+1", "\u0430", "\u00a0",
)  # fmt: skip


@functools.cache
def _texts() -> tuple[tuple[str, bytes], ...]:
    """Every example: documents, the broken ones too, and tables."""
    files = sorted(f for f in EXAMPLES.rglob("*") if f.suffix in (".yaml", ".csv"))
    return tuple((file.name, file.read_bytes()) for file in files)


def _torn(text: bytes, rng: random.Random) -> bytes:
    for _ in range(rng.choice((1, 1, 2, 3, 6, 12))):
        at = rng.randrange(len(text) + 1)
        span = rng.choice((0, 0, 1, 1, 2, 7, 40, 400))
        token = rng.choice(TOKENS).encode("utf-8", "surrogatepass")
        other = rng.choice(_texts())[1]
        begin = rng.randrange(len(other))
        piece = rng.choice(
            (token, token * rng.randint(1, 90), b"", bytes([rng.randrange(256)]),
             other[begin : begin + rng.randint(1, 200)])
        )  # fmt: skip
        text = text[:at] + piece + text[at + span :]
    return text


def _mutant(rng: random.Random) -> tuple[str, bytes]:
    name, text = rng.choice(_texts())
    return name, _torn(text, rng)


def _random_bytes(rng: random.Random) -> tuple[str, bytes]:
    return "bytes.yaml", rng.randbytes(rng.choice((1, 5, 40, 300, 3_000)))


def _tokens(rng: random.Random) -> tuple[str, bytes]:
    head = rng.choice(("", f"kind: {rng.choice(KINDS)}\n"))
    text = head + "".join(rng.choices(TOKENS, k=rng.randint(1, 80)))
    return "tokens.yaml", text.encode("utf-8", "surrogatepass")


def _grown(rng: random.Random) -> tuple[str, bytes]:
    return "grown.yaml", as_yaml(document(rng.choice(KINDS), rng))


def _grown_and_changed(rng: random.Random) -> tuple[str, bytes]:
    data = document(rng.choice(KINDS), rng)
    return "changed.yaml", as_yaml(mutated(data, "grown", rng))


def _grown_and_torn(rng: random.Random) -> tuple[str, bytes]:
    text = json.dumps(document(rng.choice(KINDS), rng), ensure_ascii=False, indent=1)
    return "torn.yaml", _torn(text.encode("utf-8", "surrogatepass"), rng)


MAKERS: tuple[Callable[[random.Random], tuple[str, bytes]], ...] = (
    _mutant, _mutant, _mutant, _mutant, _random_bytes, _tokens, _grown_and_changed, _grown_and_torn,
    _mutant, _grown,
)  # fmt: skip


def made(seed: int) -> tuple[str, bytes]:
    """Name and bytes of the input of a seed."""
    return MAKERS[seed % len(MAKERS)](random.Random(seed))


def look_at(data: bytes, name: str = "input.yaml") -> None:
    """Read an input as far as that goes; raises where a promise does not hold."""
    if name.endswith(".csv"):
        _look_at_table(data)
        return
    sequence = b"sequence" in data[:200]
    read = read_text(data, name, limits=SEQUENCE if sequence else DOCUMENT)
    assert read.root is not None or read.problems
    assert (read.plain() is None) == (() in read.broken)
    loaded = load(read, name, "input", lambda asked: _table(asked, data))
    problems = read.problems if loaded is None else loaded.problems
    for problem in problems:
        assert problem.rule.startswith("document.")
        assert problem.message.isprintable()
        assert problem.remedy.isprintable()
        place = problem.place
        assert place.line >= 1
        assert place.column >= 1
        assert (place.line, place.column) <= (place.end_line, place.end_column)


def _table(asked: str, data: bytes) -> TableFile:
    if asked == "none.csv":
        raise NoTable("there is no such table", "Put it there.")
    return TableFile("table.csv", data[:2_000], "")


def _look_at_table(data: bytes) -> None:
    text = b"kind: sequence\ninstrument: bench-a\ntable: samples.csv\n"
    read = read_text(text, "of-a-table.yaml")
    loaded = load(read, "of-a-table.yaml", "input", lambda _: TableFile("samples.csv", data, ""))
    assert loaded is not None
    for problem in loaded.problems:
        assert problem.message.isprintable()
        assert problem.remedy.isprintable()


@dataclass
class Seen:
    """What reading many inputs has shown.

    Attributes
    ----------
    worst
        Longest processor time of one [s].
    faults
        Traces, by their last lines.
    """

    tried: int = 0
    worst: float = 0.0
    worst_of: str = ""
    faults: dict[str, str] = field(default_factory=dict)

    def read(self, first: int, last: int) -> None:
        """Read the inputs of some seeds."""
        for seed in range(first, last):
            name, data = made(seed)
            begin = time.process_time()
            try:
                look_at(data, name)
            except Exception:
                trace = traceback.format_exc()
                self.faults.setdefault("\n".join(trace.splitlines()[-3:]), f"seed {seed}\n{trace}")
            took = time.process_time() - begin
            self.tried += 1
            if took > self.worst:
                self.worst, self.worst_of = took, f"seed {seed} ({name}, {len(data)} bytes)"
