"""Methods within braces, as programs write them: one line, or lines of several entries each.

ruamel.yaml writes them and is the second reader; the same method in block style is the measure.
"""

from __future__ import annotations

import datetime
import io
import json
from typing import Any

import pytest
from ruamel.yaml import YAML

from methodlint.documents.text.reader import read_text
from methodlint.transfer.text_edits import TextEdits

from .lab import GRADIENT, ISOCRATIC, make_lab, moved, transferred

BEHIND = GRADIENT + (
    "status: approved\nedition: 3\n"
    "approval: {by: A. Nobody, on: 2026-01-05}\n"
    "deviations: [{rule: gradient.start-too-lean, reason: seen, approved_by: nobody, until: 2027-01-01}]\n"
    "measured_pressures: [{modifier_share: 5 % v/v, pump_pressure: 210 bar}]\n"
)
MORE_DWELL = "kind: instrument\nx-name: there\ndwell_volume: 1.43 mL\n"
HOLD = GRADIENT.replace(
    "  - {time: 6 min", "  - {time: 1.5 min, modifier_share: 5 % v/v}\n  - {time: 6 min"
)
METHODS = {"gradient": GRADIENT, "isocratic": ISOCRATIC, "approved": BEHIND, "hold": HOLD}


def plain(text: str) -> Any:
    return YAML(typ="safe").load(text)


def in_one_line(text: str) -> str:
    yaml, out = YAML(typ="safe"), io.StringIO()
    yaml.default_flow_style, yaml.width = True, 100_000
    yaml.dump(plain(text), out)
    assert out.getvalue().count("\n") == 1
    return out.getvalue()


def as_json(text: str) -> str:
    return json.dumps(plain(text), default=str) + "\n"


def in_narrow_lines(text: str) -> str:
    """Several entries to a line, and lines that end anywhere."""
    yaml, out = YAML(typ="safe"), io.StringIO()
    yaml.default_flow_style, yaml.width = True, 60
    yaml.dump(plain(text), out)
    assert out.getvalue().count("\n") > 5
    return out.getvalue()


def braces_in_lines_of_their_own(text: str) -> str:
    entries = ",\n".join(f"  {key}: {json.dumps(v, default=str)}" for key, v in plain(text).items())
    return f"{{\n{entries},\n}}\n"


STYLES = [in_one_line, as_json, in_narrow_lines, braces_in_lines_of_their_own]


def values(text: str) -> Any:
    """What another reader makes of a text, dates as text."""
    return json.loads(json.dumps(plain(text), default=str))


@pytest.mark.parametrize("style", STYLES, ids=lambda f: f.__name__)
@pytest.mark.parametrize("name", METHODS)
def test_it_says_the_same_as_the_method_in_lines(tmp_path, name, style):
    card = MORE_DWELL if name == "hold" else ""
    cards = (card,) if card else ()
    there = transferred(METHODS[name], *cards)
    here = moved(make_lab(tmp_path / "braces", style(METHODS[name]), *cards))
    assert there.feasible
    assert values(here.text) == values(there.text)
    if name == "hold":
        assert len(plain(there.text)["programme"]) == len(plain(HOLD)["programme"]) - 1
    assert values(here.text) != values(METHODS[name])


@pytest.mark.parametrize("style", STYLES, ids=lambda f: f.__name__)
def test_every_changed_value_says_why(tmp_path, style):
    result = moved(make_lab(tmp_path, style(GRADIENT)))
    changed = [e for e in result.entries if e.path and e.source and e.proposed != e.source]
    assert len(changed) > 6
    comments = "\n".join(one for one in result.text.splitlines() if one.startswith("# "))
    assert comments.count("derived: ") + comments.count("limited by ") >= 6
    assert "x 0.7089 = (3/4.6)^2 x (5/3)" in comments


def test_reasons_stand_above_one_line_by_name():
    result = transferred(in_one_line(BEHIND))
    *above, line = result.text.splitlines()
    assert all(one.startswith("# ") for one in above)
    assert "# flow: derived: x 0.7089 = (3/4.6)^2 x (5/3), d^2/dp" in above
    assert "# approval: derived: not carried over, it is the source's" in above
    assert "#" not in line


@pytest.mark.parametrize("style", STYLES, ids=lambda f: f.__name__)
def test_a_chain_keeps_no_reason_of_the_step_before(tmp_path, style):
    file = make_lab(tmp_path, style(GRADIENT))
    first = moved(file)
    (file.parent / "moved.yaml").write_text(first.text, encoding="utf-8")
    back = moved(file.parent / "moved.yaml", to="here", column="wide")
    assert back.text.count("transferred_from") == 1
    assert back.text.count("transfer: {") == 1
    assert "x 0.7089" not in back.text
    assert "x 1.411 = (4.6/3)^2 x (3/5)" in back.text


def edited(text: str) -> TextEdits:
    return TextEdits(read_text(text.encode(), "x.yaml"))


@pytest.mark.parametrize(
    ("text", "path", "left"),
    [
        ("{a: 1, b: 2, c: 3}\n", ("a",), {"b": 2, "c": 3}),
        ("{a: 1, b: 2, c: 3}\n", ("c",), {"a": 1, "b": 2}),
        ("{a: 1}\n", ("a",), {}),
        ("a: [1, 2, 3]\nb: 4\n", ("a", 1), {"a": [1, 3], "b": 4}),
        ("a: {b: [1, 2], c: &x 3}\nd: *x\n", ("a", "b"), {"a": {"c": 3}, "d": 3}),
        ("a: {b: &x 3, c: *x, d: 5}\n", ("a", "c"), {"a": {"b": 3, "d": 5}}),
        ("{\n  a: 1, # one\n  b: 2, # two\n}\n", ("b",), {"a": 1}),
        ("{\n  a: [1,\n    2], b: 2\n}\nx", ("a",), None),
    ],
)
def test_an_entry_within_braces_is_taken_out(text, path, left):
    if left is None:
        text, left = text.removesuffix("x"), {"b": 2}
    edits = edited(text)
    edits.comment_out(path, "not needed")
    assert plain(edits.text()) == left


def test_what_changes_in_an_entry_goes_with_it():
    edits = edited("a: [{b: 1, c: 2}, {b: 3}]\nd: 4\n")
    edits.set(("a", 0, "b"), "a much longer value")
    edits.comment_out(("a", 0), "not needed")
    assert plain(edits.text()) == {"a": [{"b": 3}], "d": 4}


def test_a_reason_behind_a_list_of_several_lines_swallows_nothing():
    """The list becomes one line; its reason must not turn the next line into a comment."""
    edits = edited("a: [\n  1,\n  2\n]\nb: 3\nc: 4\n")
    edits.set(("a",), "[5]", "derived: of another kind")
    edits.set(("b",), "6", "derived: too")
    assert plain(edits.text()) == {"a": [5], "b": 6, "c": 4}
    assert edits.text() == "a: [5]  # derived: of another kind\nb: 6  # derived: too\nc: 4\n"


@pytest.mark.parametrize("text", ["{a: 1}\n", "{\n  a: 1\n}\n", "{\n  a: 1,\n}\n", "{a: 1,}\n"])
def test_a_key_is_added_whatever_ends_the_line_before(text):
    edits = edited(text)
    edits.add(("b",), "2")
    assert plain(edits.text()) == {"a": 1, "b": 2}


def test_dates_stay_dates(tmp_path):
    dated = GRADIENT.replace("purpose: research\n", "purpose: research\nx-made: 2026-02-03\n")
    result = moved(make_lab(tmp_path, in_one_line(dated)))
    assert plain(result.text)["x-made"] == datetime.date(2026, 2, 3)
