"""Settings that somebody asks about: `oven_temperature=50 degC` in place of what is written."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from methodlint.checking.changed import with_changes
from methodlint.documents.loading import KINDS, Loaded
from methodlint.documents.text.nodes import Mapping
from methodlint.documents.text.places import Path, path_text
from methodlint.documents.text.reader import read_text
from methodlint.judging.case import split_path
from methodlint.judging.finding import At, Candidate, Change


class SettingWrong(ValueError):
    """A setting cannot be read, or the document cannot have this value."""


@dataclass(frozen=True, slots=True)
class Setting:
    """One value in place of another.

    Attributes
    ----------
    key
        Key of the document, as `programme[1].flow`, or of a card that takes part, as
        `instrument.dwell_volume`.
    value
        Plain data, as YAML reads what was typed.
    """

    key: str
    value: Any

    @classmethod
    def read(cls, argument: str) -> Setting:
        """Read `KEY=VALUE`; the value is what a document may write in one line.

        Raises
        ------
        SettingWrong
            If there is no `=`, no key or no value, or the value is not valid YAML.
        """
        key, equals, text = (part.strip() for part in argument.partition("="))
        if not equals or not key or not text or not split_path(key):
            raise SettingWrong(f"'{argument}' is not KEY=VALUE, as oven_temperature='50 degC'")
        read = read_text(f"setting: {text}\n".encode(), "")
        plain = read.plain()
        if read.problems or not isinstance(plain, dict) or list(plain) != ["setting"]:
            why = read.problems[0].message if read.problems else "it is more than one value"
            raise SettingWrong(f"{key}: '{text}' cannot be read: {why}")
        if plain["setting"] is None:
            raise SettingWrong(f"{key}: no value is given")
        return cls(key, plain["setting"])


def candidate_of(
    document: Loaded, settings: Sequence[Setting], cards: Iterable[Loaded]
) -> Candidate:
    """Say which changes settings make to a document and to the cards that take part.

    Raises
    ------
    SettingWrong
        If no card of a kind takes part or several do, or a document cannot have a value.
    """
    cards = list(cards)
    changes = tuple(_change(document, setting, cards) for setting in settings)
    places = [(change.at.document.path, change.at.path) for change in changes]
    if len(set(places)) < len(places):
        twice = next(s.key for s, p in zip(settings, places, strict=True) if places.count(p) > 1)
        raise SettingWrong(f"{twice} is given twice")
    try:
        _, problems = with_changes(changes)
    except (KeyError, IndexError, TypeError, ValueError, AttributeError) as error:
        keys = ", ".join(setting.key for setting in settings)
        raise SettingWrong(f"{document.path} has no place for {keys}") from error
    for problem in problems:
        for change in changes:
            path = change.at.path
            if problem.path[: len(path)] == path or path[: len(problem.path)] == problem.path:
                said = f"{path_text(path)}: {problem.message}"
                raise SettingWrong(f"{said}; {problem.remedy}" if problem.remedy else said)
    return Candidate(changes, ", ".join(setting.key for setting in settings))


def change_value(document: Loaded, path: Path, value: Any) -> Change:
    """Change a value and leave the tolerance that stands with it."""
    node = document.read.node(path)
    if isinstance(node, Mapping) and "value" in node.entries and not isinstance(value, dict):
        path = (*path, "value")
    return Change(At(document, path), value)


def _change(document: Loaded, setting: Setting, cards: Sequence[Loaded]) -> Change:
    path = split_path(setting.key)
    if not (len(path) > 1 and path[0] in KINDS and isinstance(path[1], str)):
        return change_value(document, path, setting.value)
    kind = str(path[0])
    if kind == document.kind:
        return change_value(document, path[1:], setting.value)
    found = [card for card in cards if card.kind == kind]
    if len(found) != 1:
        names = ", ".join(sorted(card.name for card in found)) or "none"
        raise SettingWrong(f"{setting.key}: one {kind} has to take part; here: {names}")
    return change_value(found[0], path[1:], setting.value)
