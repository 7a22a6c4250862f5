"""Cases of the public YAML test suite, by their ids, that the parser by itself gets wrong.

What YAML 1.2.2 says: chapter 6.1 (indentation is blanks), 6.6 (a comment is divided off by blanks),
6.9.2 (names of anchors), 7.3 and 7.4 (lines in quotation marks and brackets), 8.1 (texts that
begin with | or >). Each refusal has a twin that is read.
"""

from __future__ import annotations

import os
from typing import Any

import pytest

from methodlint.documents.text.reader import Read, read_text
from tests.hazards.hostile_lab import EXAMPLES


def read(text: str) -> Read:
    return read_text(text.encode(), "x.yaml")


REFUSED = [
    ("9C9N", "---\nflow: [a,\nb,\nc]\n", 3, 1, "not indented further than its key"),
    ("9C9N, in a list", "k:\n- [a,\nb]\n", 3, 1, "not indented further"),
    ("9C9N, in a list of mappings", "k:\n  - l: {a: 1,\n  b: 2}\n", 3, 3, "not indented further"),
    ("9C9N, text within", 'k: [a, "b\nc"]\n', 2, 1, "not indented further"),
    ("DK95/01", 'foo: "bar\n\tbaz"\n', 2, 1, "a tab indents"),
    ("DK95/01, brackets", "foo: [bar,\n\tbaz]\n", 2, 1, "a tab indents"),
    ("QB6E", '---\nquoted: "a\nb\nc"\n', 3, 1, "not indented further"),
    ("QB6E, single marks", "k:\n  quoted: 'a\n  b'\n", 3, 3, "not indented further"),
    ("QB6E, line ends of one sign", "quoted: 'a\rb'\r", 2, 1, "not indented further"),
    ("QB6E, line ends of two signs", "quoted: 'a\r\nb'\r\n", 2, 1, "not indented further"),
    ("S98Z", "empty block scalar: >\n \n  \n   \n # comment\n", 5, 1, "has more spaces"),
    ("S98Z, kept lines", "k:\n  l: |+\n\n      \n    text\n", 5, 1, "has more spaces"),
    ("SU5Z", 'key: "value"# invalid comment\n', 1, 13, "right after a value"),
    ("9JBA, in a mapping", "key: [ a, b, c, ]#invalid\n", 1, 18, "right after a value"),
    ("CVW2, in a mapping", "key: [ a, b, c,#invalid\n ]\n", 1, 16, "right after a value"),
    ("X4QW", "block: ># comment\n  scalar\n", 1, 9, "right after | or >"),
    ("X4QW, with marks", "block: |2-# comment\n  scalar\n", 1, 11, "right after | or >"),
    ("652Z", "{ ?foo: bar,\nbar: 42\n}\n", 1, 3, "question mark"),
    ("652Z, a list", "k: [?foo]\n", 1, 5, "question mark"),
    ("652Z, quoted", 'k: {?"foo" : 1}\n', 1, 5, "question mark"),
    ("652Z, brackets", "k: {?[a] : 1}\n", 1, 5, "question mark"),
    ("Y2GN", "---\nkey: &an:chor value\n", 2, 7, "name of an anchor"),
    ("Y2GN, behind a tag", "key: !!str &an:chor value\n", 1, 13, "name of an anchor"),
    ("Y2GN, above a list", "key: &an:chor\n  - value\n", 1, 7, "name of an anchor"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("case", "text", "line", "column", "said"), REFUSED, ids=[r[0] for r in REFUSED]
)
def test_what_another_reader_would_refuse_or_read_otherwise_is_refused(
    case: str, text: str, line: int, column: int, said: str
) -> None:
    found = read(text)
    assert found.root is None, case
    (problem,) = found.problems
    assert problem.rule == "document.unreadable"
    assert said in problem.message
    assert problem.remedy
    assert (problem.place.line, problem.place.column) == (line, column)


SOUND: list[tuple[str, str, Any]] = [
    ("9C9N", "---\nflow: [a,\n b,\n c]\n", {"flow": ["a", "b", "c"]}),
    ("no block around it", "{a: [1,\n2],\nb: 3}\n", {"a": [1, 2], "b": 3}),
    ("JSON", '{\n"a": [\n1\n],\n"b": "x\ny"\n}\n', {"a": [1], "b": "x y"}),
    ("comments stand anywhere", "k: [a,\n# note\n  b] # note\nl: 1\n", {"k": ["a", "b"], "l": 1}),
    ("closed under the key", "k: [\n  a,\n]\nl: {\n  m: [{n: 1\n  }, {\n    n: 2}\n]}\n",
     {"k": ["a"], "l": {"m": [{"n": 1}, {"n": 2}]}}),
    ("empty lines", 'k: "a\n\n\n b"\nl: [1,\n\n 2]\n', {"k": "a\n\nb", "l": [1, 2]}),
    ("DK95/02", 'foo: "bar\n  \tbaz"\n', {"foo": "bar baz"}),
    ("QB6E", 'quoted: "a\n b\n c"\n', {"quoted": "a b c"}),
    ("QB6E, in a list", 'k:\n- "a\n b"\n', {"k": ["a b"]}),
    ("S98Z, as many blanks", "k: >\n \n  \n  # text\nl: 1\n", {"k": "\n\n# text\n", "l": 1}),
    ("S98Z, no text", "k: |\n      \n\nl: 1\n", {"k": "", "l": 1}),
    ("S98Z, a comment outside", "k: |\n    \n# comment\nl: 1\n", {"k": "", "l": 1}),
    ("S98Z, said how far", "k: |1\n   \n a\n", {"k": "  \na\n"}),
    ("SU5Z", 'key: "value" # comment\n', {"key": "value"}),
    ("SU5Z, no comment", "key: value#text\nl: a,#b\nm: [a#b, '#c', \"#d\"]\n",
     {"key": "value#text", "l": "a,#b", "m": ["a#b", "#c", "#d"]}),
    ("comments of all kinds", "#a\nk: #b\n  - #c\n   1 #d\n  - {a: #e\n    2, #f\n    #g\n    }\n#h",
     {"k": [1, {"a": 2}]}),
    ("X4QW", "block: > # comment\n  scalar\n", {"block": "scalar\n"}),
    ("X4QW, a tab", "block: >-\t# comment\n  scalar\n", {"block": "scalar"}),
    ("652Z", "{ ? foo: bar,\n'?bar': 42 }\n", {"foo": "bar", "?bar": 42}),
    ("652Z, a block", "?foo: bar\na?: b ?\n", {"?foo": "bar", "a?": "b ?"}),
    ("Y2GN", "key: &an-chor_1 value\nl: *an-chor_1\nm: [*an-chor_1, &b c]\nn: &c [1]\no: {p: *c}\n",
     {"key": "value", "l": "value", "m": ["value", "c"], "n": [1], "o": {"p": [1]}}),
    ("Y2GN, behind a tag", "key: !!str &a 1\nl: &b !!str 1\nm: *a\n", {"key": "1", "l": "1", "m": "1"}),
    ("L24T/00", "foo: |\n  x\n   \n", {"foo": "x\n \n"}),
    ("L24T/01", "foo: |\n  x\n   ", {"foo": "x\n \n"}),
    ("L24T/01, kept", "foo: |+\n  x\n   ", {"foo": "x\n \n"}),
    ("an end without a line end", "foo: |\n  x", {"foo": "x"}),
    ("an end of blanks", "foo: 1\n   ", {"foo": 1}),
]  # fmt: skip


@pytest.mark.parametrize(("case", "text", "plain"), SOUND, ids=[s[0] for s in SOUND])
def test_what_is_sound_is_read(case: str, text: str, plain: Any) -> None:
    found = read(text)
    assert found.problems == [], case
    assert found.plain() == plain


@pytest.mark.parametrize(
    "name", ["methods", "sound", "columns", "instruments", "supplies", "rooms"]
)
def test_examples_are_read_with_every_line_end(name: str) -> None:
    for file in sorted((EXAMPLES / name).glob("*.yaml")):
        text = file.read_text(encoding="utf-8")
        plain = read(text).plain()
        assert plain is not None, os.fspath(file)
        assert read(text.replace("\n", "\r\n")).plain() == plain
        assert read(text.rstrip("\n")).plain() == plain
