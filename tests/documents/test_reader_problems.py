"""What a tree holds, what is left out of it, and why."""

import pytest

from methodlint.documents.text.nodes import Mapping, Scalar, walk
from methodlint.documents.text.problems import Problem
from methodlint.documents.text.reader import read_text


def read(text):
    return read_text(text.encode(), "x.yaml")


def rules(found):
    return [problem.rule for problem in found.problems]


def test_a_sound_document():
    found = read(
        "kind: method\nflow: 1.5 mL/min\nn: 3\nok: true\nnone:\nrows: [a, 0.5]\nempty: {}\n"
    )
    assert found.problems == []
    assert found.broken == {}
    assert found.plain() == {
        "kind": "method",
        "flow": "1.5 mL/min",
        "n": 3,
        "ok": True,
        "none": None,
        "rows": ["a", 0.5],
        "empty": {},
    }
    # SHA-256 of "abc", FIPS 180-4 example.
    assert read("abc").sha256.startswith("ba7816bf8f01cfea")
    assert found.data.startswith(b"kind")


def test_nodes_keep_the_text_and_the_quotation_marks():
    found = read("a: 1E2\nb: '1E2'\nc: \"x\"\nd: |\n  y\ne: !!str 5\nf: !!int 7\ng: !!float 2\n")
    nodes = {path[0]: node for path, node in walk(found.root) if path}
    assert all(isinstance(node, Scalar) for node in nodes.values())
    assert [(n.value, n.text, n.quoted) for n in nodes.values()] == [
        (100.0, "1E2", False),
        ("1E2", "1E2", True),
        ("x", "x", True),
        ("y\n", "y\n", True),
        ("5", "5", True),
        (7, "7", True),
        (2.0, "2", True),
    ]
    assert found.node(("a",)) is nodes["a"]
    assert found.node(("a", "b")) is None
    assert found.node(("z", 0)) is None
    assert isinstance(found.node(()), Mapping)


def test_a_key_that_stands_twice_is_reported_with_both_places():
    found = read("flow: 2\nother: 1\nflow: 1.5 mL/min\nflow: 3 mL/min\n")
    assert rules(found) == ["document.duplicate-key-or-id"] * 2
    first, second = found.problems
    assert (first.place.line, first.also[0].line) == (3, 1)
    assert (second.place.line, second.also[0].line) == (4, 1)
    assert first.path == ("flow",)
    assert first.breaks
    assert found.plain() == {"other": 1}
    assert found.broken[("flow",)] is first


def test_values_that_cannot_be_used_are_left_out_and_the_rest_stays():
    found = read("a: .nan\nb: [1, .inf, {c: 1e999, d: 2}]\ne: 5\n")
    assert found.plain() == {"b": [1, None, {"d": 2}], "e": 5}
    assert set(found.broken) == {("a",), ("b", 1), ("b", 2, "c")}


@pytest.mark.parametrize("number", ["1e999", ".inf", "-.INF", ".nan", "1e-999", "9" * 65])
def test_numbers_that_cannot_be_computed_with(number):
    found = read(f"a: {number}\nb: '{number}'\n")
    assert found.plain() == {"b": number}
    assert found.problems[0].remedy


@pytest.mark.parametrize(
    ("key", "rule"),
    [
        ("1", "document.type-trap"),
        ("1.5", "document.type-trap"),
        ("true", "document.type-trap"),
        ("null", "document.type-trap"),
        ("~", "document.type-trap"),
        (".inf", "document.type-trap"),
        ("[a, b]", "document.unreadable"),
        ("{a: b}", "document.unreadable"),
        ("? [a]\n", "document.unreadable"),
        ("? \n", "document.type-trap"),
        ("fl\u043ew", "document.hidden-character"),
        ("\u0441olumn", "document.hidden-character"),
        ("flow\u200b", "document.hidden-character"),
        ("fl\u00adow", "document.hidden-character"),
        ("f\u202elow", "document.hidden-character"),
        ("flow\u00a0rate", "document.hidden-character"),
        ("\uff46low", "document.hidden-character"),
        ('"a\\x1b"', "document.hidden-character"),
        ('"a\\0"', "document.hidden-character"),
        ("column\u2010id", "document.hidden-character"),
    ],
)
def test_keys_that_are_no_plain_words(key, rule):
    found = read(f"kind: method\n{key}: 1\nlast: 2\n")
    assert rule in rules(found)
    assert found.plain() == {"kind": "method", "last": 2}
    for problem in found.problems:
        assert problem.message.isprintable()
        assert problem.place.line == 2


def test_a_look_alike_key_is_shown_by_code_point():
    (problem,) = read("fl\u043ew: 1\n").problems
    assert "U+043E" in problem.message
    assert problem.remedy == 'type it again: "flow"'


@pytest.mark.parametrize(
    "key", ["température", "x-поток", "Größe", "流速", "x-µm", "no", "on", "'1'", "a.b"]
)
def test_honest_keys_in_any_script_pass(key):
    assert read(f"{key}: 1\n").problems == []


def test_aliases_stand_for_their_value():
    found = read("a: &x {p: 1, q: [2]}\nb: *x\nc: [*x, *x]\n")
    assert found.problems == []
    assert found.plain()["c"] == [{"p": 1, "q": [2]}] * 2
    assert found.plain()["b"] == {"p": 1, "q": [2]}


def test_what_is_broken_behind_an_anchor_is_broken_behind_its_aliases():
    found = read("a: &x {p: .nan, q: 2}\nb: *x\nc:\n  <<: *x\n  r: 3\n")
    assert set(found.broken) == {("a", "p"), ("b", "p"), ("c", "p")}
    assert found.plain() == {"a": {"q": 2}, "b": {"q": 2}, "c": {"q": 2, "r": 3}}
    assert len(found.problems) == 1


@pytest.mark.parametrize(
    ("text", "word"),
    [
        ("a: *b\n", "not set above"),
        ("a: [*b, 1]\nc: &b 1\n", "not set above"),
        ("a: &x [1, *x]\n", "part of"),
        ("a: &x {b: {c: *x}}\n", "part of"),
    ],
)
def test_aliases_that_lead_nowhere_or_in_a_circle(text, word):
    found = read(text)
    assert word in found.problems[0].message
    assert found.plain() is not None


def test_one_plain_merge_keeps_places_and_lets_own_keys_win():
    found = read("base: &b\n  x: 1\n  y: 2\nuse:\n  x: 9\n  <<: *b\n  z: 3\n")
    assert found.problems == []
    assert found.plain()["use"] == {"x": 9, "z": 3, "y": 2}
    assert found.place(("use", "y"), key=True).line == 3
    assert found.place(("use", "y")).line == 3
    assert found.place(("use", "x")).line == 5


@pytest.mark.parametrize(
    "merge",
    [
        "<<: [*b, *c]",
        "<<: {x: 1}",
        "<<: *s",
        "<<: 5",
        "<<:",
        "<<: *nested",
        "<<: *b\n  <<: *c",
        "<<: *nowhere",
        "<<: .nan",
    ],
)
def test_other_merges_are_refused_with_one_problem(merge):
    text = "b: &b {x: 1}\nc: &c {y: 1}\ns: &s 5\nn: &nested {<<: *b}\nuse:\n  " + merge + "\n"
    found = read(text)
    assert rules(found)[-1] == "document.unreadable"
    assert found.plain() is None


def test_a_quoted_merge_sign_is_a_key():
    assert read("'<<': 1\n").plain() == {"<<": 1}


@pytest.mark.parametrize(
    "tag",
    ["!x", "!!set", "!!binary", "!!timestamp", "!!python/object:os.system", "!<tag:example,2000:x>",
     "!!python/name:os.system", "!!merge", "!!omap", "!!int", "!!null"],
)  # fmt: skip
def test_tags_outside_the_core_are_not_read(tag):
    found = read(f"a: {tag} word\nb: 1\n")
    assert rules(found) == ["document.unreadable"]
    assert found.plain() == {"b": 1}


@pytest.mark.parametrize("value", ["!!map [a]", "!!seq {a: 1}", "!x {a: 1}", "!!python/tuple [1]"])
def test_tags_of_mappings_and_lists(value):
    assert read(f"a: {value}\n").plain() is None
    assert read("a: !!map {b: 1}\nc: !!seq [1]\n").plain() == {"a": {"b": 1}, "c": [1]}


@pytest.mark.parametrize("text", ["", "# only a comment\n", "---\n", "null\n", "\ufeff", "\n\n\n"])
def test_an_empty_document(text):
    (problem,) = read(text).problems
    assert problem.message == "the document is empty"


@pytest.mark.parametrize("text", ["word", "[1, 2]", "- a\n- b\n", "5", "'quoted'", "true"])
def test_a_document_that_is_no_mapping(text):
    found = read(text)
    assert rules(found) == ["document.unreadable"]
    assert found.root is None


def test_a_yaml_1_2_directive_and_document_marks_are_read():
    assert read("%YAML 1.2\n---\na: 1\n...\n").plain() == {"a": 1}


@pytest.mark.parametrize("character", ["\u202e", "\u2066", "\u200b", "\ufeff", "\u200f"])
def test_unseen_characters_in_values_are_a_caution_and_break_nothing(character):
    found = read(f"a: one{character}two\n")
    assert [(p.rule, p.grade, p.breaks) for p in found.problems] == [
        ("document.hidden-character", "caution", False)
    ]
    assert found.plain() == {"a": f"one{character}two"}


def test_many_unseen_characters_are_reported_a_few_times():
    assert len(read("a: '" + "\u202e" * 500 + "\u2028" * 500 + "'\n").problems) == 20


def test_a_problem_reads_as_one_line():
    found = read("a:\n  b: .nan\n")
    assert str(found.problems[0]) == (
        "line 2, column 6: a.b: .nan is read as a number that cannot be computed with "
        "[document.type-trap]"
    )
    assert isinstance(found.problems[0], Problem)


def test_what_others_mark_as_broken_is_left_out_too():
    found = read("a: {b: 1, c: 2}\n")
    place = found.place(("a", "b"))
    found.broken["a", "b"] = Problem("document.unknown-key", "fault", ("a", "b"), place, "no")
    assert found.plain() == {"a": {"c": 2}}
