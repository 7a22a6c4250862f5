"""Every page names its source: a work, a card, common practice, or one of three tags; no working notes."""

from __future__ import annotations

import ast
import re
from pathlib import Path

from methodlint.judging.loader import built_in_rules

RULES = built_in_rules()
PACKAGE = Path(__file__).parents[2] / "methodlint"

TAGS = ("(unverified)", "(abstract only)", "(second-hand)")
NOTES = re.compile(
    r"abstract seen|year not|in a transcription|from memory|title only"
    r"|first page seen|secondary quotation|page was not before us|seen in a copy|to be verified|table seen|copy seen",
    re.IGNORECASE,
)
NAMED = re.compile(
    r"\b(1[89]|20)\d\d\b|\d+ CFR|USP|Ph\. Eur\.|ICH|ISO|IEC|IUPAC|NIOSH|ANSI|YAML|Unicode|NIST|ADR|P200"
    r"|\bcards?\b|common practice|As for `|definition|no source is needed|arithmetic|documents?\b",
    re.IGNORECASE,
)


def source_of(page: str) -> str:
    return " ".join(page.rpartition("\nSource\n")[2].split())


def test_every_page_names_its_source() -> None:
    pages = {rule.id: source_of(rule.page) for rule in RULES}
    bare = [
        name for name, source in pages.items() if not NAMED.search(source) and not _tagged(source)
    ]
    assert bare == [], "name the copy that was read, or add one of the tags"


def _tagged(source: str) -> bool:
    return any(tag in source for tag in TAGS)


def test_no_working_notes_in_pages() -> None:
    notes = {rule.id: NOTES.findall(rule.page) for rule in RULES}
    assert {name: found for name, found in notes.items() if found} == {}


def test_no_working_notes_in_what_the_package_prints() -> None:
    """Text of the code that may reach a message; docstrings speak to contributors."""
    found = []
    for file in sorted(PACKAGE.rglob("*.py")):
        tree = ast.parse(file.read_text(encoding="utf-8"))
        docs = {
            id(node.value)
            for node in ast.walk(tree)
            if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)
        }
        found += [
            f"{file.relative_to(PACKAGE)}:{node.lineno} {node.value[:60]!r}"
            for node in ast.walk(tree)
            if isinstance(node, ast.Constant)
            and isinstance(node.value, str)
            and id(node) not in docs
            and NOTES.search(node.value)
        ]
    assert found == []


def test_the_test_can_fail() -> None:
    assert NOTES.search("Glenne 2020 (abstract seen)")
    assert NOTES.search("USP <621>, from memory")
    assert not NAMED.search("A figure that everybody knows.")
