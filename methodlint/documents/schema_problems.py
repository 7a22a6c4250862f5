"""From a validation error of pydantic to a problem in the words of this tool."""

from __future__ import annotations

import dataclasses
import types
import typing
from collections.abc import Iterator
from typing import Any

from pydantic import BaseModel
from pydantic_core import ErrorDetails

from methodlint.documents.kinds.base import Document
from methodlint.documents.quantities.number_findings import PLACEHOLDER, is_placeholder
from methodlint.documents.synonyms import HINTS, SEVERAL, SEVERAL_WORDS, SYNONYMS, WORDS
from methodlint.documents.text.names import nearest
from methodlint.documents.text.nodes import Mapping, Scalar
from methodlint.documents.text.places import Path, path_text
from methodlint.documents.text.problems import Problem
from methodlint.documents.text.reader import Read
from methodlint.documents.text.scalars import Trap, scalar_trap
from methodlint.documents.text.slips import Slip, slip_of_entry, slip_of_item
from methodlint.documents.text.visible import visible


def problem_from_error(
    detail: ErrorDetails, model: type[BaseModel], data: Any, read: Read, *, suggest: bool = True
) -> tuple[Problem, Path]:
    """Say in plain words what one validation error means.

    Parameters
    ----------
    suggest
        Look for the key that may have been meant by one that is not known.

    Returns
    -------
    tuple
        The problem, and the path of the value that has to be taken out before the rest of
        the document can be validated.
    """
    kind = detail["type"]
    context = detail.get("ctx") or {}
    path = _path_in_data(detail["loc"], data)
    if kind == "extra_forbidden":
        return _unknown_key(path, model, read, suggest=suggest), path
    if kind == "missing":
        key = str(detail["loc"][-1])
        message = f"'{key}' is missing in {path_text(path) or 'the document'}"
        remedy = f"add '{key}:'"
        problem = _problem("document.shape-wrong", path, read, message, remedy)
        return dataclasses.replace(problem, missing=key), path
    shown = _shown(detail.get("input"))
    if kind.startswith("document."):
        message = str(context.get("message", detail["msg"]))
        problem = _problem(kind, path, read, message, str(context.get("remedy", "")))
        return dataclasses.replace(problem, meant=tuple(context.get("meant", ()))), path
    input_text = detail.get("input")
    allowed = _allowed(str(context.get("expected", ""))) if kind == "literal_error" else []
    meant = WORDS.get(_plain(str(input_text)))
    if isinstance(input_text, str) and is_placeholder(input_text) and meant not in allowed:
        message = f"{shown} is left to be filled in"
        return _problem(
            PLACEHOLDER, path, read, message, "write the value, or take the key out"
        ), path
    trap = _trap(kind, path, read)
    if trap is not None:
        return _problem(trap.rule, path, read, trap.message, trap.remedy), path
    if kind == "literal_error":
        message = f"{shown} is not a word that '{_last(path)}' knows"
        best, hint = _meant_words(str(input_text), allowed)
        asked = f"did you mean {' or '.join(map(repr, best))}?{hint}" if best else ""
        remedy = f"{asked} write one of: {', '.join(allowed)}".strip()
        problem = _problem("document.word-not-known", path, read, message, remedy)
        return dataclasses.replace(problem, meant=best), path
    if kind in {"value_error", "string_type", "int_type", "bool_type", "bool_parsing"}:
        reason = str(context.get("error", detail["msg"]))
        if isinstance(detail.get("input"), (bool, int, float, str)):
            message = f"'{_last(path)}' reads {shown}: {_lower(reason)}"
            return _problem("document.type-trap", path, read, message, _trap_remedy(kind)), path
    if kind == "string_type":
        message = f"'{_last(path)}' reads {shown}: one value is expected here"
        remedy = "write it without brackets" if isinstance(input_text, (list, tuple)) else ""
        return _problem("document.shape-wrong", path, read, message, remedy), path
    if kind == "too_long":
        most, found = context.get("max_length"), len(detail.get("input") or ())
        message = f"'{_last(path)}' has {found} entries; the limit is {most}"
        return _problem("document.too-large", path, read, message, "take out what is idle"), path
    if kind in _SHAPES:
        return _other_shape(kind, path, shown, model, detail.get("input"), read), path
    message = f"'{_last(path) or 'the document'}' reads {shown}: {_lower(detail['msg'])}"
    return _problem("document.shape-wrong", path, read, message, ""), path


def _meant_words(written: str, allowed: list[str]) -> tuple[tuple[str, ...], str]:
    """Words that may be meant, all that are equally likely, and what tells them apart."""
    plain, hint = _plain(written), ""
    meant = WORDS.get(plain)
    close = [(meant, 0)] if meant in allowed else nearest(written, allowed, limit=3)
    if not close:
        for word, _ in [(plain, 0), *nearest(plain, SEVERAL_WORDS, limit=2)]:
            several, hint = SEVERAL_WORDS.get(word, ((), ""))
            close = [(one, 0) for one in several if one in allowed]
            if close:
                break
    best = tuple(word for word, distance in close if distance == close[0][1])
    return best, f" {hint};" if hint else ""


# What pydantic calls the shapes that a document has.
_SHAPES = {
    "tuple_type": "a list",
    "list_type": "a list",
    "model_type": "a mapping",
    "model_attributes_type": "a mapping",
    "dict_type": "a mapping",
}


def _other_shape(
    kind: str, path: Path, shown: str, model: type[BaseModel], value: Any, read: Read
) -> Problem:
    """Say that a list or a mapping is wanted, with what stands in it."""
    keys = _fields_at(model, path)
    remedy = ""
    if keys:
        inner = f"{{{', '.join(f'{key}: ...' for key in keys[:4])}}}"
        remedy = f"write {inner if _SHAPES[kind] == 'a mapping' else f'[{inner}]'}"
        remedy += f"; known there: {', '.join(keys)}" if len(keys) <= 24 else ""
    elif _SHAPES[kind] == "a list" and isinstance(value, str):
        remedy = f"write [{visible(value[:60].strip('()[]{} '))}]"
    message = f"'{_last(path) or 'the document'}' reads {shown}: {_SHAPES[kind]} is expected here"
    slip = _slip_in_shape(_SHAPES[kind], value)
    if slip is not None:
        message, remedy = f"{message}; {slip.message}", slip.remedy
    return _problem("document.shape-wrong", path, read, message, remedy)


def _slip_in_shape(wanted: str, value: Any) -> Slip | None:
    """Look for the slip that made a text or a mapping of what should be another shape."""
    if wanted == "a mapping":
        return slip_of_entry(value) if isinstance(value, str) else None
    if isinstance(value, dict):
        found = slip_of_item(next(iter(value), ""))
        return (
            None
            if found is None
            else dataclasses.replace(found, remedy="put a space after the dash")
        )
    return slip_of_item(value) if isinstance(value, str) else None


def _plain(word: str) -> str:
    # A sign at the end is no divider: "ESI-".
    body, sign = (word[:-1], "-") if word.endswith("-") else (word, "")
    return " ".join(body.casefold().replace("_", " ").replace("-", " ").split()) + sign


# The value was read as what it looks like; it is another one that is wanted.
_NO_TRAPS = frozenset(
    {"literal_error", "less_than", "less_than_equal", "greater_than", "greater_than_equal"}
)


def _trap(kind: str, path: Path, read: Read) -> Trap | None:
    """Explain a value that is read as something else than it looks like."""
    node = read.node(path)
    if kind in _NO_TRAPS or not isinstance(node, Scalar):
        return None
    return scalar_trap(node, "flag" if kind.startswith("bool") else "text")


def _problem(rule: str, path: Path, read: Read, message: str, remedy: str) -> Problem:
    return Problem(
        rule=rule, grade="fault", path=path, place=read.place(path), message=message, remedy=remedy
    )


def _unknown_key(path: Path, model: type[BaseModel], read: Read, *, suggest: bool) -> Problem:
    key = str(path[-1])
    here = sorted(_fields_at(model, path[:-1])) if suggest else []
    plain = key.lower().replace("-", "_").replace(" ", "_")
    several = (*SEVERAL.get(plain, ()), SYNONYMS.get(plain, ""))
    meant = [word for word in several if word in here][:1]
    trade_words = list(SYNONYMS) if suggest else []
    by_trade = [SYNONYMS[word] for word, _ in nearest(plain, trade_words, limit=2)]
    meant += [word for word, _ in nearest(plain, here, limit=2)]
    meant += [word for word in by_trade if word in here]
    hint, wants = HINTS.get(plain, ("", ()))
    if hint and all(word in here for word in wants):
        remedy = hint
    elif meant:
        remedy = f"did you mean '{meant[0]}'? Keys of your own start with 'x-'"
    else:
        own = [word for word in here if word not in Document.model_fields or len(here) <= 8]
        remedy = f"known here: {', '.join(own[:24])}{', ...' if len(own) > 24 else ''}"
    message = f"'{visible(key)}' is not a key of {path_text(path[:-1]) or 'this document'}"
    decimals = _parted_number(path, read)
    slip = slip_of_entry(key) if getattr(read.node(path), "text", None) == "" else None
    if decimals is not None:
        message += "; the comma inside a number parts keys here"
        remedy = f"write {visible(decimals)}"
    elif slip is not None:
        message, remedy = f"{message}; {slip.message}", slip.remedy
    return Problem(
        rule="document.unknown-key",
        grade="fault",
        path=path,
        place=read.place(path, key=True),
        message=message,
        remedy=remedy,
        breaks=False,
        meant=tuple(dict.fromkeys(meant)) if decimals is None and slip is None and not hint else (),
    )


def _parted_number(path: Path, read: Read) -> str | None:
    """Return the number that a decimal comma parted into a value and a key, such as 0.5 min."""
    key, place = str(path[-1]), read.place(path, key=True)
    above = read.node(path[:-1])
    if not isinstance(above, Mapping) or not key[:1].isdigit():
        return None
    for before in above.entries.values():
        if isinstance(before, Scalar) and not before.quoted and before.text.isdigit():
            end = before.place.end_line, before.place.end_column
            if end == (place.line, place.column - 1):
                return f"{before.text}.{key}"
    return None


def _path_in_data(loc: tuple[int | str, ...], data: Any) -> Path:
    """Follow an error's location through the data, leaving out the names of union members."""
    path: list[str | int] = []
    for step in loc:
        in_mapping = isinstance(data, dict) and step in data
        in_list = isinstance(data, list) and isinstance(step, int) and step < len(data)
        if in_mapping or in_list:
            data = data[step]
            path.append(step)
    return tuple(path)


def _fields_at(model: type[BaseModel], path: Path) -> list[str]:
    """Names of the fields that a mapping at this path may have, over all union members, in order."""
    models = [model]
    for step in path:
        if isinstance(step, int):
            continue
        models = [
            inner
            for outer in models
            if step in outer.model_fields
            for inner in _models_in(outer.model_fields[step].annotation)
        ]
    return list(dict.fromkeys(name for found in models for name in found.model_fields))


def _models_in(annotation: Any) -> Iterator[type[BaseModel]]:
    if isinstance(annotation, type) and not isinstance(annotation, types.GenericAlias):
        if issubclass(annotation, BaseModel):
            yield annotation
        return
    for inner in typing.get_args(annotation):
        yield from _models_in(inner)


def _allowed(expected: str) -> list[str]:
    return [word.strip().strip("'") for word in expected.replace(" or ", ", ").split(", ")]


def _shown(value: Any) -> str:
    if isinstance(value, str):
        return f"'{visible(value[:60])}'"
    if isinstance(value, bool):
        return str(value).lower()
    if value is None:
        return "nothing"
    if isinstance(value, dict):
        return "a mapping"
    if isinstance(value, (list, tuple)):
        return "a list"
    return visible(str(value)[:60])


def _last(path: Path) -> str:
    return visible(path_text(path))


def _lower(message: str) -> str:
    text = visible(message.removeprefix("Value error, "))
    return text[:1].lower() + text[1:]


def _trap_remedy(kind: str) -> str:
    return "put the value in quotes" if kind in {"value_error", "string_type"} else ""
