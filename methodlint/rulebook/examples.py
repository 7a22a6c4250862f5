"""Runs the examples of a rule's page.

A page holds *Unsound* and *Sound* blocks of YAML. Each block changes a sound lab that comes
with the package: every document of the block (documents are divided by `---`) names its
`kind:` and what differs; lists are replaced whole and `null` removes a key. In an unsound block
the offending line ends with `# <- here`. Blocks of the family `document` are whole documents,
read as they stand; the text of a table stands under its name in `x-tables:`. Blocks of the family
`change` are what the sound lab becomes; `x-gone: true` takes a document away. In blocks of the
family `calendar` a sequence with an `x-name:` is planned beside the sound one.
"""

from __future__ import annotations

import copy
import datetime
import re
from dataclasses import dataclass
from functools import cache, lru_cache
from pathlib import Path as FilePath
from typing import Any

from methodlint.checking.check import judge_documents
from methodlint.checking.report import Report
from methodlint.checking.review import review_loaded
from methodlint.documents.library import MemoryLibrary
from methodlint.documents.loading import (
    KINDS,
    Loaded,
    load,
    model_class,
    nothing_read,
    own_keys,
    validated,
)
from methodlint.documents.tables.files import NoTable, TableFile, TableSource
from methodlint.documents.text.nodes import Mapping, Node, Scalar, SequenceNode
from methodlint.documents.text.places import Path
from methodlint.documents.text.reader import Read, read_text
from methodlint.judging.change_case import ChangeCase
from methodlint.judging.engine import judge_case
from methodlint.judging.finding import Finding, NotChecked
from methodlint.judging.lab_rules import rule_folders
from methodlint.judging.loader import Rule, built_in_rules

_MARK = "# <- here"
_BLOCK = re.compile(
    r"^(?P<head>Unsound|Sound)[^\n]*\n+(?P<body>(?:    [^\n]*\n|\s*\n)+)", re.MULTILINE
)
_BASE = FilePath(__file__).resolve().parent / "base_lab"
EXAMPLE_DAY = datetime.date(2026, 11, 24)
"""Day that the examples of single documents are judged on: that of the sound lab's sequence."""
_PARTS = ("Reason", "Unsound", "Sound", "Remedy|Put right", "Source")  # both through 0.2


class ExampleWrong(AssertionError):
    """An example does not do what its page says."""


@dataclass(frozen=True, slots=True)
class Example:
    """One block of a page."""

    rule: str
    sound: bool
    text: str


def examples_of(rule: Rule) -> list[Example]:
    """Read the blocks of a rule's page, in order."""
    found = []
    for match in _BLOCK.finditer(rule.page + "\n"):
        body = "\n".join(line[4:] for line in match["body"].rstrip().splitlines())
        found.append(Example(rule.id, match["head"] == "Sound", body))
    return found


def parts_missing(rule: Rule) -> list[str]:
    """Headings that a rule's page lacks."""
    return [
        part.partition("|")[0]
        for part in _PARTS
        if not re.search(rf"^(?:{part})\b", rule.page, re.MULTILINE)
    ]


@cache
def base_data() -> dict[str, dict[str, Any]]:
    """Plain data of the sound lab, by kind."""
    data = {}
    for kind in KINDS:
        read = read_text((_BASE / f"{kind}.yaml").read_bytes(), f"{kind}.yaml")
        data[kind] = own_keys(read.plain())
    return data


def merged(base: Any, change: Any) -> Any:
    """Lay a change over base data: mappings merge, `None` removes, the rest replaces.

    A span replaces a value with its tolerance whole, for no document holds both.
    """
    spans = isinstance(change, dict) and not change.keys().isdisjoint(("lowest", "highest"))
    if isinstance(base, dict) and isinstance(change, dict) and not ("value" in base and spans):
        result = dict(base)
        for key, value in change.items():
            if value is None:
                result.pop(key, None)
            else:
                result[key] = merged(result.get(key), value)
        return result
    return copy.deepcopy(change)


def document(kind: str, data: dict[str, Any], read: Read, name: str | None = None) -> Loaded:
    """Build a document from plain data, with the places of another text."""
    data = copy.deepcopy(data)
    model, problems, broken = validated(model_class(kind), data, read)
    name = name or kind
    return Loaded(name, f"{name}.yaml", kind, model, data, read, tuple(problems), broken)


def lab_with(changes: str) -> dict[str, Loaded]:
    """Build the sound lab with changes laid over it.

    Parameters
    ----------
    changes
        Fragments divided by `---`, each with its `kind:`. One with an `x-name:` is a further
        document of its kind under that name, and stands under `kind name` in the result.

    Raises
    ------
    ExampleWrong
        If a fragment cannot be read or does not name its kind.
    """
    documents = dict(_changed(f"kind: {kind}\n") for kind in KINDS)
    documents.update(_changed(text) for text in _fragments(changes))
    return documents


@lru_cache(maxsize=256)
def _changed(text: str) -> tuple[str, Loaded]:
    """Lay one fragment over the sound document of its kind, which nobody changes afterwards."""
    read = read_text(text.encode(), "example.yaml")
    if read.problems:
        raise ExampleWrong(f"the example cannot be read: {read.problems[0].message}")
    plain = read.plain()
    if not isinstance(plain, dict) or plain.get("kind") not in KINDS:
        raise ExampleWrong("every document of an example names its kind")
    kind, name = plain["kind"], plain.get("x-name")
    data = merged(base_data()[kind], own_keys(_with_removals(read.root)))
    return f"{kind} {name}" if name else kind, document(kind, data, read, name)


def _with_removals(node: Node | None) -> Any:
    if isinstance(node, Mapping):
        return {key: _with_removals(value) for key, value in node.entries.items()}
    if isinstance(node, SequenceNode):
        return [_with_removals(item) for item in node.items]
    return node.value if isinstance(node, Scalar) else None


def _fragments(text: str) -> list[str]:
    return [part for part in re.split(r"^---\s*$", text, flags=re.MULTILINE) if part.strip()]


def judge_example(example: Example, rules: tuple[Rule, ...]) -> Report:
    """Judge the lab that an example describes with some rules."""
    if example.rule.startswith("document."):
        read = read_text(example.text.encode(), "example.yaml")
        loaded = load(read, "example.yaml", "example", _tables(read))
        documents = lab_with("")
        if loaded is None and read.problems:
            loaded = nothing_read(read, "example.yaml", "example", read.problems)
        if loaded is None:
            raise ExampleWrong("the example is not a document of this tool")
        library = _library(documents)
        own = rule_folders(loaded if loaded.kind == "lab" else None, _BASE / "no", (), ())
        return judge_documents(library, [loaded], rules, EXAMPLE_DAY, of_lab=own)
    if example.rule.startswith("change."):
        return _judge_change(example, rules)
    documents = lab_with(example.text)
    library = _library(documents)
    if example.rule.startswith("history."):
        return review_loaded(library, documents["logbook"], None, rules).report
    return judge_documents(library, targets_among(documents, rules), rules)


def targets_among(documents: dict[str, Loaded], rules: tuple[Rule, ...]) -> list[Loaded]:
    """Documents of a lab that are judged: every sequence by rules of the calendar alone."""
    if all(rule.subject == "calendar" for rule in rules):
        return [loaded for loaded in documents.values() if loaded.kind == "sequence"]
    return [documents["sequence"], documents["method"]]


def _tables(read: Read) -> TableSource:
    """Give the tables whose text stands in the example itself."""
    plain = read.plain()
    texts = plain.get("x-tables", {}) if isinstance(plain, dict) else {}

    def table(name: str) -> TableFile:
        if name not in texts:
            raise NoTable(f"there is no table '{name}'", "Put it under x-tables.")
        return TableFile(name, str(texts[name]).encode(), "")

    return table


def _judge_change(example: Example, rules: tuple[Rule, ...]) -> Report:
    """Judge what the sound lab becomes in an example."""
    before, after = lab_with(""), lab_with(example.text)
    report = Report(documents={})
    for text in _fragments(example.text):
        plain = read_text(text.encode(), "example.yaml").plain()
        kind = plain["kind"]
        case = ChangeCase(
            documents={},
            before=before[kind],
            after=None if "x-gone" in plain else after[kind],
            lab_before=before["lab"],
            rule_grades={rule.id: rule.grades for rule in built_in_rules()},
        )
        judged = judge_case(case, rules)
        report.findings += judged.findings
        report.failed += judged.failed
    return report


def _library(documents: dict[str, Loaded]) -> MemoryLibrary:
    return MemoryLibrary(
        {(loaded.kind, loaded.name): loaded for loaded in documents.values()},
        lab=documents["lab"],
    )


def run_example(example: Example, rule: Rule) -> Report:
    """Judge one example with its own rule, and give the report if it does what its page says.

    Raises
    ------
    ExampleWrong
        If a sound example raises a finding, or an unsound one raises none at its marked line.
    """
    report = judge_example(example, (rule,))
    if report.failed:
        raise ExampleWrong(report.failed[0].trace)
    wanted = [] if example.sound else marked(example)
    # A rule whose very say is that a figure cannot be relied on marks that figure.
    said = [item for item in report.not_checked if any(_meets(item, *mark) for mark in wanted)]
    if len(said) < len(report.not_checked):
        raise ExampleWrong(f"not checked: {report.not_checked[0].missing}")
    if example.sound:
        if report.findings:
            raise ExampleWrong(f"a sound example raises: {report.findings[0].message}")
        return report
    if said:
        return report
    if not report.findings:
        raise ExampleWrong("an unsound example raises nothing")
    if not any(_meets(finding, kind, path) for finding in report.findings for kind, path in wanted):
        seen = [(f.at.document.kind, f.at.path) for f in report.findings]
        raise ExampleWrong(f"marked {sorted(wanted, key=str)}, found at {seen}")
    return report


def marked(example: Example) -> list[tuple[str, Path]]:
    """Kinds and paths of the values on the marked lines of an example."""
    found = []
    for text in _fragments(example.text):
        lines = [n for n, line in enumerate(text.splitlines(), 1) if line.rstrip().endswith(_MARK)]
        read = read_text(text.encode(), "example.yaml")
        plain = read.plain()
        kind = plain.get("kind", "") if isinstance(plain, dict) else ""
        found += [(kind, path) for path, line in _paths(read.root, ()) if line in lines]
        found += [(kind, p.path) for p in read.problems if p.place.line in lines]
        if lines and read.root is None:
            found.append((kind, ()))
    if not found:
        raise ExampleWrong(f"an unsound example marks its line with '{_MARK}'")
    return found


def _paths(node: Node | None, path: Path) -> list[tuple[Path, int]]:
    found: list[tuple[Path, int]] = []
    if isinstance(node, Mapping):
        for key, value in node.entries.items():
            found.append(((*path, key), node.key_places[key].line))
            found += _paths(value, (*path, key))
    elif isinstance(node, SequenceNode):
        for index, item in enumerate(node.items):
            found.append(((*path, index), item.place.line))
            found += _paths(item, (*path, index))
    elif node is not None:
        found.append((path, node.place.line))
    return found


def _meets(finding: Finding | NotChecked, kind: str, path: Path) -> bool:
    """Whether a finding points at the marked value, at its parent or at one of its parts."""
    at = finding.at.path
    same = at[: len(path)] == path or path[: len(at)] == at
    return finding.at.document.kind == kind and same
