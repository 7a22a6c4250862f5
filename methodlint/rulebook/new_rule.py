"""Writes the file of a new rule, whose examples fail until it is filled in."""

from __future__ import annotations

from pathlib import Path

from methodlint.judging.loader import built_in_ids, rules_folder
from methodlint.rulebook.rule_shape import is_rule_id

_TEXT = '''"""<what has to hold, in one sentence>.

Reason
    <why it matters, for somebody who is new in the lab>

Unsound
    kind: method
    settling_time: 0.5 min  # <- here

Sound
    kind: method
    settling_time: 6 min

Remedy
    <what to do about it>

Source
    <paper and table, standard and clause, or: common practice, no source>
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import Finding, RunCase

# document: each document by itself; run: one method on one instrument; batch: a whole sequence
SUBJECT = "run"
# classes that its findings may have: stop, fault, caution, note
CLASSES = ("caution",)
# figures without which it is "not checked"; "run" is the rehearsal
NEEDS = ("method.settling_time",)


def judge(case: RunCase) -> Iterator[Finding]:
    """<what is compared with what>."""
    # given = case.get("method.settling_time").si
    # yield case.finding("method.settling_time", "caution", f"... {given / 60.0:g} min ...")
    yield from ()
'''


_TEST = '''"""<what is wrong>: <where the limits come from>."""

from __future__ import annotations

from tests.rules.harness import findings

RULE = "{id}"
SOUND = """kind: method
settling_time: <sound value>
"""
UNSOUND = """kind: method
settling_time: <unsound value>
"""


def test_silent_where_it_is_sound() -> None:
    assert findings(SOUND, RULE) == []


def test_found_where_it_is_not() -> None:
    (finding,) = findings(UNSOUND, RULE)
    assert finding.grade == "caution"
    assert "<words of the message>" in finding.message
'''


class RuleNotWritten(ValueError):
    """A rule's file cannot be written."""


def rule_text() -> str:
    """The text of a new rule's file."""
    return _TEXT


def test_of(name: str, file: Path) -> tuple[Path, str] | None:
    """File and text of the test of a rule of this tool; None for a rule of a lab.

    Parameters
    ----------
    name
        Id of the rule.
    file
        Where its file goes.
    """
    folder = file.resolve().parent.parent
    tests = folder.parent / "tests" / "rules"
    if folder != rules_folder().resolve() or not tests.is_dir():
        return None
    return tests / file.parent.name / f"test_{file.name}", _TEST.replace("{id}", name)


def new_rule_file(name: str, folder: str | Path) -> Path:
    """Where the file of a new rule goes.

    Parameters
    ----------
    name
        Id: `family.what-is-wrong`.
    folder
        Folder of families.

    Raises
    ------
    RuleNotWritten
        If the id is not made of words or is taken.
    """
    if not is_rule_id(name):
        raise RuleNotWritten(f"'{name}' is not an id in words such as house.settling-too-short")
    if name in built_in_ids():
        raise RuleNotWritten(f"there is a rule {name} already that comes with this tool")
    family, _, what = name.partition(".")
    file = Path(folder) / family / f"{what.replace('-', '_')}.py"
    if file.exists():
        raise RuleNotWritten(f"there is a file {file} already")
    return file
