"""What is typed at the prompts: read into values, checked as a document is, kept in a file."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping

from methodlint.documents.guided.questions import Question, Value
from methodlint.documents.text.names import nearest

__all__ = ["AnswerWrong", "answers_text", "read_answer", "read_answers"]

UNKNOWN = "-"
_YES = {"yes": "true", "y": "true", "true": "true", "no": "false", "n": "false", "false": "false"}
_NUMBER = re.compile(r"[+-]?\d+(\.\d+)?\Z")
_PLAIN = re.compile(r"[A-Za-z][A-Za-z0-9 ()+./-]*[A-Za-z0-9)]\Z|[A-Za-z]\Z")
_NAME = re.compile(r"[A-Za-z][A-Za-z0-9 ._+-]*\Z")
_TRAPS = {"yes", "no", "on", "off", "true", "false", "null", "y", "n"}
_CLOCK = re.compile(r"\d{4}-\d\d-\d\d([T ]\d\d:\d\d)?\Z|\d\d:\d\d\Z")
_ROW = re.compile(r"(\d+(?:\.\d+)?)\s*(?:min)?\s+(\d+(?:\.\d+)?)\s*%?(?:\s*v/v)?\Z")
_SHARE = re.compile(r"(\d+(?:\.\d+)?)\s*%?(?:\s*v/v)?\Z")


class AnswerWrong(ValueError):
    """An answer that cannot be used; the message says why and what to write."""


def read_answer(question: Question, text: str) -> dict[str, str]:
    """Read one answer.

    Parameters
    ----------
    question
        What was asked.
    text
        What was typed; empty takes the question's default.

    Returns
    -------
    dict of str to str
        YAML text by key; what is not known is absent.

    Raises
    ------
    AnswerWrong
        If a value cannot be read.
    """
    text = text.strip() or question.default
    if not text:
        return {}
    if question.values[0].form == "shares":
        return _shares(text)
    parts = [part.strip() for part in re.split(r"\s*,\s*|\s+x\s+", text)]
    if len(parts) > len(question.values):
        asked = ", ".join(value.words for value in question.values)
        raise AnswerWrong(
            f"{len(parts)} values, {len(question.values)} are asked for: {asked}; divide them by "
            f"commas and write decimals with a point: {question.example}"
        )
    found = {}
    for value, part in zip(question.values, parts, strict=False):
        if part and part != UNKNOWN:
            found[value.key] = _read(value, part)
    return found


def _read(value: Value, text: str) -> str:
    if value.form == "quantity":
        return f"{text} {value.unit}" if _NUMBER.match(text) else text
    if value.form == "number":
        if not _NUMBER.match(text):
            raise AnswerWrong(f"{value.words}: {text!r} is not a number")
        return text
    if value.form == "yes":
        known = _YES.get(text.lower())
        if known is None:
            raise AnswerWrong(f"{value.words}: write yes or no, or {UNKNOWN} if not known")
        return known
    if value.form == "word":
        return _word(value, text)
    if value.form == "clock":
        if not _CLOCK.match(text):
            raise AnswerWrong(
                f"{value.words}: {text!r} is not a day or a time; write 2026-11-24, "
                "2026-11-24T09:00 or 08:00"
            )
        return text.replace(" ", "T")
    if value.form == "name" and not _NAME.match(text):
        raise AnswerWrong(
            f"{value.words}: a name begins with a letter and holds letters, digits, blanks and "
            f". _ + -; not {text!r}"
        )
    return text if _PLAIN.match(text) and text.lower() not in _TRAPS else json.dumps(text)


def _word(value: Value, text: str) -> str:
    lower = {choice.lower(): choice for choice in value.choices}
    if text.lower() in lower:
        return lower[text.lower()]
    begins = [choice for choice in value.choices if choice.lower().startswith(text.lower())]
    if len(begins) == 1:
        return begins[0]
    near = nearest(text.lower(), list(lower))
    meant = f"; did you mean {lower[near[0][0]]}?" if near else ""
    raise AnswerWrong(f"{value.words}: one of {', '.join(value.choices)}{meant}")


def _shares(text: str) -> dict[str, str]:
    """One share, or rows of time and share."""
    single = _SHARE.match(text)
    if single is not None:
        return {"share": f"{single[1]} % v/v"}
    rows = []
    for part in text.split(","):
        found = _ROW.match(part.strip())
        if found is None:
            raise AnswerWrong(
                f"{part.strip()!r} is not a time and a share; write 20 %, or rows divided by "
                "commas: 0 min 5 %, 5 min 40 %"
            )
        rows.append(f"\n  - {{time: {found[1]} min, modifier_share: {found[2]} % v/v}}")
    return {"programme": "".join(rows)}


def read_answers(text: str) -> dict[str, str]:
    """Read a file of answers: a line `question: answer` for each.

    Raises
    ------
    AnswerWrong
        If a line has no colon.
    """
    found = {}
    for number, line in enumerate(text.splitlines(), start=1):
        if not line.strip() or line.lstrip().startswith("#"):
            continue
        key, colon, answer = line.partition(":")
        if not colon:
            raise AnswerWrong(f"line {number}: write 'question: answer'")
        found[key.strip()] = answer.strip()
    return found


def answers_text(template: str, answers: Mapping[str, str]) -> str:
    """Write answers as `read_answers` reads them."""
    lines = [
        "# answers to methodlint start; an empty answer is: not known",
        f"template: {template}",
    ]
    return "".join(f"{line}\n" for line in [*lines, *(f"{k}: {v}" for k, v in answers.items())])
