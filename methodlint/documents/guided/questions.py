"""The questions of the guided set-up, in the words of the trade."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from methodlint.documents.text.reader import read_text

__all__ = ["QUESTIONS", "TEMPLATES", "Question", "Value", "questions_for"]

_FILE = Path(__file__).with_name("questions.yaml")

Form = Literal["quantity", "word", "text", "name", "yes", "number", "shares", "clock"]

TEMPLATES = {
    "uv": "UV detection",
    "uv-ms": "UV and mass spectrometer, with splitter and makeup",
    "preparative": "preparative, with a fraction collector",
}


@dataclass(frozen=True, slots=True)
class Value:
    """One value of an answer.

    Attributes
    ----------
    key
        Its place in the templates.
    words
        What it is called at the prompt.
    form
        How it is written.
    unit
        Unit that a bare number gets, as the prompt says.
    choices
        Words allowed; empty if the document itself says.
    """

    key: str
    words: str
    form: Form = "quantity"
    unit: str = ""
    choices: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Question:
    """One prompt.

    Attributes
    ----------
    key
        Its name in a file of answers.
    heading
        What it is about.
    values
        What is asked for, in this order, divided by commas.
    example
        An answer.
    default
        What Enter means; empty: not known.
    more
        What `?` tells.
    only
        Templates that ask it; empty for all.
    """

    key: str
    heading: str
    values: tuple[Value, ...]
    example: str
    default: str = ""
    more: str = ""
    only: tuple[str, ...] = ()


def questions_for(template: str) -> tuple[Question, ...]:
    """Questions of one template, in their order."""
    return tuple(q for q in QUESTIONS if not q.only or template in q.only)


def _questions() -> Iterator[Question]:
    for key, asked in read_text(_FILE.read_bytes(), _FILE.name).plain().items():
        values = tuple(
            Value(name, **{**value, "choices": tuple(value.get("choices", ()))})
            for name, value in asked.pop("ask").items()
        )
        yield Question(key, values=values, **{**asked, "only": tuple(asked.get("only", ()))})


QUESTIONS: tuple[Question, ...] = tuple(_questions())
