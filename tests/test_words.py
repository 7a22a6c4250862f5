"""Texts for users keep to the words of the trade.

The phrases left out, each with what is written instead; words of the trade that look alike
(a blank, a split, the hold-up time) are not meant. Strings of the package and pages of the rules
are looked at; a test that fails names file, line and phrase.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
LEFT_OUT = {
    r"\b(?:behind|in front of) (?:the|a) (?:column|regulator|splitter|cell|mixer)\b": "downstream",
    r"\bput right\b": "Remedy, correct",
    r"\bfor want of\b": "missing",
    r"\bat the wrong end\b": "in the worst case",
    r"\bto spare\b": "in reserve",
    r"\broom enough\b": "sufficient",
    r"\b(?:is|are) (?:told|said)\b": "is reported",
    r"\bparts? into two\b": "forms two liquid phases",
    r"\b(?:is|are) wanted\b": "is expected, is recommended",
    r"\bfolds? beneath\b": "is grouped under",
    r"\bstands twice\b": "duplicate key",
    r"\bnext to nothing\b": "negligible",
    r"\breckon\b": "use, compute",
    r"\bto type in\b": "to set",
    r"\b(?:moved|moves|set|sets) (?:a stop |a finding |one stop |nothing |anything )?aside\b": "accept",
    r"\b(?:column|phase|selector|it|\}|of a material that) bears\b": "withstands",
    r"\b(?:abstract seen|year not seen|in a transcription)\b": "(abstract only), (unverified)",
    r"\bsame number of blanks\b|\bordinary blank\b": "space",
}


def user_texts(file: Path) -> Iterator[tuple[int, str]]:
    """Strings of a file with their lines; of docstrings only the page of a rule."""
    tree = ast.parse(file.read_text(encoding="utf-8"))
    docs = {
        id(node.body[0].value)
        for node in ast.walk(tree)
        if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef)
        and node.body
        and isinstance(node.body[0], ast.Expr)
    }
    if "rules" in file.relative_to(ROOT).parts[0]:
        docs.discard(id(tree.body[0].value) if isinstance(tree.body[0], ast.Expr) else 0)
    # A text after an assignment documents it for readers of the code, not for users.
    for node in ast.walk(tree):
        if isinstance(node, ast.Expr) and node is not tree.body[0]:
            docs.add(id(node.value))
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in docs:
            yield node.lineno, " ".join(node.value.split())


def left_out(folder: str) -> list[str]:
    """Phrases found, each with its place and what is written instead."""
    found = []
    for file in sorted((ROOT / folder).rglob("*.py")):
        for line, text in user_texts(file):
            for phrase, instead in LEFT_OUT.items():
                for match in re.finditer(phrase, text):
                    place = f"{file.relative_to(ROOT).as_posix()}:{line}"
                    found.append(f"{place}: '{match[0]}', write: {instead}")
    return found


@pytest.mark.parametrize("folder", ["methodlint", "rules"])
def test_texts_for_users_are_in_words_of_the_trade(folder: str) -> None:
    assert left_out(folder) == []


def test_the_pages_for_users_too() -> None:
    pages = ("README.md", "example_methods/README.md", "rules/CATALOGUE.md")
    text = " ".join((ROOT / "rules" / "CATALOGUE.md").read_text("utf-8").split())
    assert len(text) > 10_000
    found = [
        f"{page}: {match[0]}"
        for page in pages
        for phrase in LEFT_OUT
        for match in re.finditer(phrase, " ".join((ROOT / page).read_text("utf-8").split()))
    ]
    assert found == []


def test_words_of_the_trade_are_let_through() -> None:
    sentences = (
        "a blank follows",
        "the hold-up time",
        "split the stream",
        "stays behind as vapour",
    )
    assert not any(re.search(phrase, text) for phrase in LEFT_OUT for text in sentences)
    assert any(re.search(phrase, "it bears 60 degC") for phrase in LEFT_OUT)
