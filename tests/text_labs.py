"""Labs held as texts: a text is changed as a person changes it, and the whole lab judged again."""

from __future__ import annotations

import copy
import json
import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cache, lru_cache
from pathlib import Path
from typing import Any

from methodlint.checking.changed import put
from methodlint.checking.check import judge_documents
from methodlint.checking.report import Report
from methodlint.documents.library import FOLDERS, MemoryLibrary
from methodlint.documents.loading import KINDS, Loaded, load, nothing_read
from methodlint.documents.text.reader import read_text
from methodlint.judging.finding import Finding
from methodlint.judging.loader import Rule, built_in_rules

ROOT = Path(__file__).resolve().parent.parent
BASE_LAB = ROOT / "methodlint" / "rulebook" / "base_lab"
EXAMPLES = ROOT / "example_methods"
REMOVED = object()
_STEP = re.compile(r"([^.\[\]]+)|\[(\d+)\]")


@dataclass(frozen=True)
class TextLab:
    """Texts of documents by `kind/name`, and which of them are judged.

    Attributes
    ----------
    meant
        The document that a kind stands for in a change: `column` -> `column/diol-3um`.
    """

    texts: Mapping[str, str]
    targets: tuple[str, ...]
    meant: Mapping[str, str]

    def plain(self, document: str) -> Any:
        """Plain data of one text, the caller's own."""
        return copy.deepcopy(_plain(document, self.texts[document]))

    def with_text(self, document: str, text: str) -> TextLab:
        """Exchange one text."""
        return replace(self, texts={**self.texts, document: text})

    def changed(self, path: str, value: Any) -> TextLab:
        """Write a value, `REMOVED` to take it out, at `kind.path` or `kind/name:path`."""
        kind, _, rest = path.partition(".")
        document = self.meant[kind]
        data = self.plain(document)
        steps = steps_of(rest)
        if value is REMOVED:
            where = data
            for step in steps[:-1]:
                where = where[step]
            del where[steps[-1]]
        else:
            put(data, steps, value, insert=_is_beyond(data, steps))
        return self.with_text(document, as_yaml(data))

    def judged(self, rules: tuple[Rule, ...] | None = None) -> Report:
        """Judge the targets, with all rules unless some are given."""
        loaded = {key: _loaded(key, text) for key, text in self.texts.items()}
        library = MemoryLibrary(
            {(one.kind, one.name): one for one in loaded.values() if one.kind},
            lab=loaded.get("lab/lab"),
        )
        targets = [loaded[target] for target in self.targets]
        report = judge_documents(library, targets, rules or built_in_rules())
        assert not report.failed, report.failed[0].trace
        return report


def steps_of(path: str) -> tuple[str | int, ...]:
    """Steps of a path as findings print it: `lines[7].fill`."""
    return tuple(int(n) if n else name for name, n in _STEP.findall(path))


def _is_beyond(data: Any, steps: tuple[str | int, ...]) -> bool:
    """Whether a path leads to the place behind the last entry of a list."""
    for step in steps[:-1]:
        data = data.get(step) if isinstance(data, dict) else data[int(step)]
    return isinstance(data, list) and steps[-1] == len(data)


def as_yaml(data: Any) -> str:
    """Write plain data as YAML; JSON is YAML, and quotes what has to be quoted."""
    return json.dumps(data, indent=1, ensure_ascii=False, default=str) + "\n"


@lru_cache(maxsize=256)
def _plain(document: str, text: str) -> Any:
    return read_text(text.encode(), document).plain()


@lru_cache(maxsize=256)
def _loaded(key: str, text: str) -> Loaded:
    kind, _, name = key.partition("/")
    path = f"{FOLDERS.get(kind, '.')}/{name}.yaml"
    read = read_text(text.encode(), path)
    return load(read, path, name) or nothing_read(read, path, name, read.problems)


@cache
def base_lab() -> TextLab:
    """The sound lab that examples of rules change: a research gradient with its sequence."""
    texts = {f"{kind}/{kind}": (BASE_LAB / f"{kind}.yaml").read_text("utf-8") for kind in KINDS}
    return TextLab(texts, ("sequence/sequence", "method/method"), {k: f"{k}/{k}" for k in KINDS})


@cache
def example_texts() -> dict[str, str]:
    """Every sound text of the example lab."""
    texts = {"lab/lab": (EXAMPLES / "lab.yaml").read_text("utf-8")}
    kinds = {folder: kind for kind, folder in FOLDERS.items()}
    for file in sorted(EXAMPLES.glob("*/*.yaml")):
        kind = kinds.get(file.parent.name)
        text = file.read_text("utf-8")
        if kind is None and file.parent.name in ("sound", "transferred"):
            kind = text.partition("kind: ")[2].split()[0]
        if kind is not None:
            texts[f"{kind}/{file.stem}"] = text
    return texts


def example(target: str) -> TextLab:
    """One document of the example lab with everything that it refers to."""
    texts = example_texts()
    meant = {"lab": "lab/lab", target.partition("/")[0]: target}
    data = read_text(texts[target].encode(), target).plain()
    if data["kind"] == "sequence":
        for kind in ("instrument", "supply", "solvents", "room", "method"):
            meant[kind] = f"{kind}/{data[kind]}"
        data = read_text(texts[meant["method"]].encode(), target).plain()
    meant["column"] = f"column/{data['column']}"
    meant.setdefault("instrument", f"instrument/{data['runs_on'][0]}")
    return TextLab(texts, (target,), meant)


def everything(findings: list[Finding] | tuple[Finding, ...]) -> list[Finding]:
    """Findings with those beneath them."""
    return [one for top in findings for one in (top, *everything(top.because))]


def reported(report: Report) -> list[tuple[str, str, str]]:
    """Class, rule and message of every finding above a note."""
    return [(f.grade, f.rule, f.message) for f in report.findings if f.grade != "note"]
