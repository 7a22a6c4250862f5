"""Bombs are refused while the parser's events come in, before there is a tree."""

import itertools

import pytest
from ruamel.yaml.cyaml import CParser

from methodlint.documents.assembly import Refused
from methodlint.documents.limits import DOCUMENT, SEQUENCE, Limits
from methodlint.documents.places import LineTable
from methodlint.documents.reader import read_document, read_text
from methodlint.documents.tree import TreeBuilder


def refused(data, **options):
    read = read_text(data, "bomb.yaml", **options)
    problem = read.problems[-1]
    assert problem.rule == "document.too-large"
    assert "the limit" in problem.message
    assert problem.remedy
    assert read.root is None
    return problem


class CountingParser:
    def __init__(self, text):
        self.parser = CParser(text.encode())
        self.taken = 0

    def get_event(self):
        self.taken += 1
        return self.parser.get_event()


def events_until_refused(text):
    parser = CountingParser(text)
    builder = TreeBuilder(text, LineTable(text), DOCUMENT)
    with pytest.raises(Refused):
        builder.build(parser)
    assert builder.events == parser.taken
    return parser.taken


@pytest.mark.parametrize("unit", ["[", "{a: ", "- ", "? ", "[{a: ", "{[", "- - "])
def test_a_hundred_thousand_levels_are_left_at_the_limit(unit):
    # Two events before the first level, at most two per level.
    assert events_until_refused(unit * 100_000) <= 2 + 2 * (DOCUMENT.depth + 1)


def test_depth_ends_exactly_at_the_limit():
    inner = DOCUMENT.depth - 1
    assert read_text(b"a: " + b"[" * inner + b"]" * inner, "x").problems == []
    assert "64 levels" in refused(b"a: " + b"[" * (inner + 1) + b"]" * (inner + 1)).message


def test_depth_counts_through_aliases():
    # Each line nests the line before it: 80 levels although no line is deep.
    lines = ["a0: &a0 [1]"] + [f"a{n}: &a{n} [*a{n - 1}]" for n in range(1, 80)]
    assert "64 levels" in refused("\n".join(lines).encode()).message


def test_expanded_aliases_count_as_nodes():
    lines = ["a0: &a0 [x, x, x, x, x, x, x, x, x, x]"]
    lines += [f"a{n}: &a{n} [" + ", ".join([f"*a{n - 1}"] * 9) + "]" for n in range(1, 9)]
    text = "\n".join(lines)
    assert "keys and values" in refused(text.encode()).message
    assert events_until_refused(text) < 100


def test_merges_count_as_nodes():
    base = "b: &b {" + ", ".join(f"k{n}: 1" for n in range(2100)) + "}\n"
    assert (
        "keys and values"
        in refused((base + "".join(f"m{n}: {{<<: *b}}\n" for n in range(60))).encode()).message
    )


def test_uses_of_anchors():
    sound = "a: &a 1\nb: [" + ", ".join(["*a"] * DOCUMENT.aliases) + "]\n"
    assert read_text(sound.encode(), "x").problems == []
    assert "100 uses" in refused(sound.replace("[", "[*a, ").encode()).message


def test_anchors_that_nobody_uses():
    sound = "".join(f"a{n}: &x{n} 1\n" for n in range(DOCUMENT.anchors - 1)) + "b: &y [1]\n"
    assert read_text(sound.encode(), "x").problems == []
    problem = refused((sound + "c: &z 1\n").encode())
    assert "1000 anchors" in problem.message
    assert (problem.place.line, problem.place.column) == (DOCUMENT.anchors + 1, 4)
    bomb = "".join(f"a{n}: &x{n} 1\n" for n in range(100_000))
    # Three events come before the first key, two with every key.
    assert events_until_refused(bomb) <= 3 + 2 * (DOCUMENT.anchors + 1)


def test_nodes():
    few = Limits(nodes=10)
    assert read_text(b"a: [1, 2, 3, 4, 5, 6, 7]", "x", limits=few).problems == []
    assert "10 keys and values" in refused(b"a: [1, 2, 3, 4, 5, 6, 7, 8]", limits=few).message
    assert events_until_refused("a: [" + "1, " * 400_000 + "]") <= DOCUMENT.nodes + 3


def test_the_size_of_a_document_and_of_a_sequence(tmp_path):
    assert (DOCUMENT.size, SEQUENCE.size) == (2 * 2**20, 10 * 2**20)
    sound = b"a: 1\n#" + b"x" * (DOCUMENT.size - 6)
    assert read_text(sound, "x").problems == []
    assert str(DOCUMENT.size) in refused(sound + b"x").message
    file = tmp_path / "large.yaml"
    file.write_bytes(sound + b"x")
    assert read_document(file).problems[0].rule == "document.too-large"
    assert read_document(file, sequence_limits=True).problems == []


def test_the_length_of_a_value():
    sound = b"a: '" + b"x" * DOCUMENT.scalar + b"'\nb: 1\n"
    assert read_text(sound, "x").problems == []
    read = read_text(sound.replace(b"xx", b"xxx", 1), "x")
    assert read.problems[0].rule == "document.too-large"
    assert read.plain() == {"b": 1}
    # Bytes count, not characters.
    assert read_text(("a: " + "é" * 40_000).encode(), "x").problems[0].rule == "document.too-large"


def test_a_long_key_or_number():
    assert read_text(b"a" * 70_000 + b": 1\n", "x").problems
    assert read_text(b"a: " + b"9" * 100_000, "x").problems[0].rule == "document.too-large"
    assert read_text(b"a: " + b"9" * 60_000, "x").plain() == {}


def test_many_directives_do_not_reach_the_parser():
    for start in ("", "a: 1\n...\n"):
        text = start + "".join(f"%TAG !e{n}! tag:x,2000:\n" for n in range(50_000))
        assert "start with %" in refused(text.encode()).message


def test_many_problems_end_the_reading():
    read = read_text(b"a: 1\n" * 5000, "x")
    assert len(read.problems) == DOCUMENT.problems + 1
    assert read.problems[-1].rule == "document.too-large"
    assert read.plain() is None


@pytest.mark.parametrize(
    "text",
    [
        "a: '" + "\n" * 500_000,
        " " * 500_000 + "a: 1",
        "#" * 500_000,
        "a: " + "b " * 30_000,
        "a:" + "\t" * 500_000 + "1",
        "!" * 100_000,
        "&" + "a" * 100_000,
        ": " * 100_000,
        "a: &" + "a" * 100_000 + " 1",
        "".join(" " * n + "a:\n" for n in range(700)),
        "a: |\n" + "  \n" * 100_000,
        "? a\n" * 20_000,
        "'" * 100_001,
        "a: " + "!a " * 20_000 + "x",
        "a: " + "[" * 63 + "]" * 63 + "\n" + "b" * 1000,
    ],
    ids=itertools.count(),
)  # fmt: skip
def test_long_and_strange_texts_come_to_an_end(text):
    read = read_text(text.encode(), "x")
    assert read.root is not None or read.problems
