"""Lines and columns: 500 planted faults, each at a place that the test itself counts."""

import codecs
import itertools
import random

import pytest

from methodlint.documents.text.places import LineTable, Place, path_text
from methodlint.documents.text.reader import read_text
from tests.all_at_once import all_at_once

LINE_ENDS = ("\n", "\r\n", "\r")
FILLERS = (
    "name: loop wash",
    "label: 'café 🧪🧪 × 3'",
    "# a comment with 😀 and a\ttab",
    "block: |{end}  first 🙂{end}  second",
    "folded: >-{end}  one{end}  two",
    "rows: [1, 2, {{a: 3}}]",
    'quoted: "tab\\t and {{brace}}"',
    "nested:{end}  deeper:{end}    - 1{end}    - two",
    "",
    "key with blanks:\t5 mL\t# tab before and behind",
    "многострочный: a{end}  b{end}  c",
)

# What is planted, the fault behind the section sign, and the rule that reports it.
PLANTS = (
    ("flow{n}: §.nan", "document.type-trap"),
    ("emoji{n}: [😀, '🧪', §1e999]", "document.type-trap"),
    ("map{n}: {{a: 1, b: {{c: §-.inf}}}}", "document.type-trap"),
    ("tabbed{n}:\t\t§.inf", "document.type-trap"),
    ("§77{n}: number as key", "document.type-trap"),
    ("tag{n}: §!strange value", "document.unreadable"),
    ("alias{n}: §*nowhere", "document.unreadable"),
    ("§look{n}a\u0455: 1", "document.hidden-character"),
    ("in{n}:{end}  below:{end}    - x: 1{end}      §x: 2", "document.duplicate-key-or-id"),
    ("pair{n}: {{😀: 1, §😀: 2}}", "document.duplicate-key-or-id"),
)


def planted(seed):
    """Return text, rule, and the line and column of the one fault in it."""
    rng = random.Random(seed)
    end = LINE_ENDS[seed % 3]
    parts = [filler.format(end=end) for filler in rng.sample(FILLERS, rng.randint(1, 8))]
    template, rule = PLANTS[seed % len(PLANTS)]
    parts.insert(rng.randint(0, len(parts)), template.format(n=seed % 7, end=end))
    text = end.join(parts) + end
    before, _, behind = text.partition("§")
    return before + behind, rule, (before.count(end) + 1, len(before.split(end)[-1]) + 1)


@all_at_once("bom", [False, True])
@all_at_once("seed", range(250))
def test_planted_faults_are_found_where_they_stand(seed, bom):
    text, rule, place = planted(seed)
    data = (codecs.BOM_UTF8 if bom else b"") + text.encode()
    read = read_text(data, "planted.yaml")
    assert [(p.rule, (p.place.line, p.place.column)) for p in read.problems] == [(rule, place)]
    assert read.problems[0].grade == "fault"


SYNTAX = (
    ("a:\n\tb: 1\n", 2, 1, "tab"),
    ("a: 1\n\tb: 1\n", 2, 1, "tab"),
    ("a: @home\n", 1, 4, "@"),
    ("🧪: 1\nb: `x`\n", 2, 4, "`"),
    ("a: b: c\n", 1, 5, "colon"),
    ("title: SFC: chiral\n", 1, 11, "colon"),
    ("a: 1\nrows: [1, 2\nb: 3\n", 2, 7, "square bracket"),
    ("a: {b: 1\n", 1, 4, "brace"),
    ("a: 'open\nb: 1\n", 1, 4, "quotation mark"),
    ('a: "bad \\q"\n', 1, 9, "backslash"),
    ("a: 1\n  b: 2\n", 2, 3, "indented further"),
    ("a:\n  b: 1\n c: 2\n", 3, 2, "line up"),
    ("a:\n  - 1\n  b: 2\n", 3, 3, "goes on with a dash"),
    ("a: 1\njust words\nb: 2\n", 2, 1, "neither a key"),
    ("a: 1\n---\nb: 2\n", 2, 1, "second document"),
    ("%YAML 1.1\n---\na: 1\n", 1, 1, "directive"),
    ("%TAG ! tag:x,2000:\n---\na: 1\n", 1, 1, "directive"),
    ("a: \x07\n", 1, 4, "control character \\x07"),
    ("é: 1\na: x\x1b[2J\n", 2, 5, "control character \\x1b"),
    ("a: %x\n", 1, 4, "cannot start with %"),
    ("a: &\n", 1, 5, "after & or *"),
    ("a: |\n    x\n  y\n", 3, 3, ""),
)  # fmt: skip


@pytest.mark.parametrize(("text", "line", "column", "word"), SYNTAX)
@pytest.mark.parametrize("end", LINE_ENDS, ids=["lf", "crlf", "cr"])
def test_one_clear_problem_for_text_that_is_no_yaml(text, line, column, word, end):
    read = read_text(text.replace("\n", end).encode(), "x")
    (problem,) = read.problems
    assert (problem.rule, problem.grade, problem.breaks) == ("document.unreadable", "fault", True)
    assert (problem.place.line, problem.place.column) == (line, column)
    assert word in problem.message
    assert problem.remedy
    assert read.root is None
    assert read.plain() is None
    assert read.broken[()] is problem


@pytest.mark.parametrize(
    ("data", "line", "column"),
    [
        (b"a: \xff\n", 1, 4),
        ("é: 1\r\nab: 😀".encode() + b"\x80\n", 2, 6),
        (b"\xef\xbb\xbf\xe9", 1, 1),
    ],
)
def test_bytes_that_are_not_utf_8(data, line, column):
    (problem,) = read_text(data, "x").problems
    assert "is not UTF-8" in problem.message
    assert (problem.place.line, problem.place.column) == (line, column)


@pytest.mark.parametrize("encoding", ["utf-16", "utf-16-le", "utf-16-be", "utf-32"])
def test_other_encodings_are_named(encoding):
    (problem,) = read_text("kind: méthod\n".encode(encoding), "x").problems
    assert problem.rule == "document.unreadable"


@pytest.mark.parametrize("character", ["\u2028", "\u2029", "\x85"])
def test_characters_that_only_the_parser_takes_for_a_line_end_move_no_line(character):
    text = f"# note{character}hidden: 1\na: '{character}'\nb: .nan\n"
    found = {(p.rule, p.place.line, p.place.column) for p in read_text(text.encode(), "x").problems}
    assert found == {
        ("document.hidden-character", 1, 7),
        ("document.hidden-character", 2, 5),
        ("document.type-trap", 3, 4),
    }


TEXT = """\
kind: method
mobile_phase:
  modifiers: [{liquid: methanol, share: 20 % v/v}, ethanol]
programme:
  - time: 0 min
    flow: &flow 1.5 mL/min
  - time: 4 min
    flow: *flow
note: |
  two
  lines

last: "x"
"""


@pytest.mark.parametrize(
    ("path", "key", "place"),
    [
        (("kind",), False, (1, 7, 1, 13)),
        (("kind",), True, (1, 1, 1, 5)),
        (("mobile_phase",), False, (3, 3, 3, 60)),
        (("mobile_phase",), True, (2, 1, 2, 13)),
        (("mobile_phase", "modifiers"), False, (3, 14, 3, 60)),
        (("mobile_phase", "modifiers", 0), False, (3, 15, 3, 50)),
        (("mobile_phase", "modifiers", 0, "share"), False, (3, 41, 3, 49)),
        (("mobile_phase", "modifiers", 0, "share"), True, (3, 34, 3, 39)),
        (("mobile_phase", "modifiers", 1), False, (3, 52, 3, 59)),
        (("programme", 0, "flow"), False, (6, 17, 6, 27)),
        (("programme", 1, "flow"), True, (8, 5, 8, 9)),
        (("programme", 1, "flow"), False, (6, 17, 6, 27)),  # an alias: where the value stands
        (("note",), False, (9, 7, 11, 8)),
        (("last",), False, (13, 7, 13, 10)),
        # What is missing is reported at the nearest thing that is there.
        (("mobile_phase", "co2"), False, (2, 1, 2, 13)),
        (("programme", 1, "outlet_pressure"), False, (7, 5, 7, 6)),
        (("programme", 9), False, (4, 1, 4, 10)),
        (("column",), False, (1, 1, 1, 2)),
        (("kind", "x", 3), False, (1, 1, 1, 5)),
        ((), False, (1, 1, 13, 10)),
    ],
)
def test_places_of_paths(path, key, place):
    read = read_text(TEXT.encode(), "x")
    assert read.problems == []
    assert read.place(path, key=key) == Place(*place)


def test_a_document_that_cannot_be_read_has_places_too():
    assert read_text(b"[", "x").place(("a", 1)) == Place(1, 1, 1, 1)


def test_line_table_counts_every_position():
    text = "a\r\nb\rc\n\nd\u2028e"
    table = LineTable(text)
    expected = [
        (1, 1),
        (1, 2),
        (1, 3),
        (2, 1),
        (2, 2),
        (3, 1),
        (3, 2),
        (4, 1),
        (5, 1),
        (5, 2),
        (5, 3),
    ]
    assert [table.position(index) for index in range(len(text))] == expected


def test_places_sort_by_line_then_column():
    places = [Place(*spot) for spot in itertools.product((2, 1, 10), (3, 1), (9,), (9,))]
    assert [(p.line, p.column) for p in sorted(places)] == [
        (1, 1), (1, 3), (2, 1), (2, 3), (10, 1), (10, 3),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("path", "text"),
    [
        ((), ""),
        (("programme", 2, "flow"), "programme[2].flow"),
        ((0, "x-lab"), "[0].x-lab"),
        (("a b", "c"), '["a b"].c'),
        (("a", "b.c"), 'a["b.c"]'),
        (("a", "\u202e"), 'a["\\u202e"]'),
        (("a", '"'), 'a["\\""]'),
    ],
)
def test_paths_as_text(path, text):
    assert path_text(path) == text
