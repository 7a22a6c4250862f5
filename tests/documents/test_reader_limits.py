"""Bombs are refused while the parser's events come in, before there is a tree."""

import itertools
import random

import pytest
from ruamel.yaml.cyaml import CParser

from methodlint.documents.text import early_limits, tree
from methodlint.documents.text.assembly import TextRefused
from methodlint.documents.text.limits import DOCUMENT, SEQUENCE, Limits
from methodlint.documents.text.places import LineTable
from methodlint.documents.text.reader import read_document, read_text
from methodlint.documents.text.tree import TreeBuilder


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
    with pytest.raises(TextRefused):
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


# Half a million items below the limit of size, which took the parser a second to refuse: the events
# are those of the lines above, the list or mapping, and nothing of its items.
VERY_MANY = {
    "numbers-in-brackets": ("a: [" + "1, " * 500_000 + "]", 5),
    "numbers-in-brackets-on-lines": ("a: [" + "1,\n" * 500_000 + "]", 5),
    "words-in-quotes": ('a: ["x", ' + '"a, b", ' * 250_000 + "]", 5),
    "empty-lists": ("a: [" + "[ ], " * 400_000 + "]", 5),
    "small-mappings": ("a: [" + "{b: 1}, " * 205_000 + "]", 5),
    "pairs-in-braces": ("{" + "".join(f"x{n}: 1, " for n in range(150_000)) + "}", 3),
    "a-list-of-lines": ("a:\n" + "- 1\n" * 500_000, 5),
    "a-list-of-lines-of-a-dos-machine": ("a:\r\n" + "- 1\r\n" * 400_000, 5),
    "a-list-further-in": ("a:\n  b:\n" + "    - 1\n" * 205_000, 7),
    "keys": ("".join(f"x{n}: 1\n" for n in range(150_000)), 3),
    "keys-in-a-list": ("- x: 1\n" + "".join(f"  x{n}: 1\n" for n in range(150_000)), 4),
}


@pytest.mark.parametrize("name", VERY_MANY)
def test_very_many_plain_items_are_foreseen(name):
    text, events = VERY_MANY[name]
    assert events_until_refused(text) == events
    assert f"{DOCUMENT.nodes} keys and values" in refused(text.encode()).message


def parsed_to_its_end(text, limits, monkeypatch):
    """Read with every item parsed: nothing is foreseen."""
    with monkeypatch.context() as patch:
        patch.setattr(tree, "exceeds_limit_early", lambda *_, **__: None)
        return read_text(text.encode(), "x", limits=limits)


ITEMS = ("1", "-1.5 bar", "word", "two words", '"a, b"', "'- c'", "{a: 1, b: [", "[a, b]", "{ }", "~",
         "a#b", "a #b", "a: 1", "&a 1", "*a", "!!str 1", "- 1", "a\n   b", "x, y", "|\n   1, 2,", "''", "")  # fmt: skip
KEYS = ("a", "b-c", "'d'", "e f", "? g", "- h", "1")


def items_of_all_kinds(rng):
    plain = rng.random() < 0.7
    items = rng.choices(ITEMS[:4] if plain else ITEMS, k=rng.randint(0, 30))
    pairs = [f"{rng.choice(KEYS)}{n}: {item}" for n, item in enumerate(items)]
    end = rng.choice(("\n", "\r\n"))
    indent = " " * rng.randint(0, 2)
    comma = rng.choice((",", ", ", f" ,{end}  ", f", # , , ,{end}  "))
    shape = rng.choice(("flow", "flow pairs", "lines", "lines of pairs"))
    if shape == "flow":
        body = " [" + comma.join(items) + "]"
    elif shape == "flow pairs":
        body = " {" + comma.join(pairs) + "}"
    elif shape == "lines":
        body = end + end.join(f"{indent}- {item}" for item in items)
    else:
        body = end + end.join(f" {pair}" for pair in pairs)
    text = f"k: 1{end}x:{body}{end}"
    return text + rng.choice(("", f"y: a, b,{end}  - c{end}  - d{end}", f"# - 1{end}"))


@pytest.mark.parametrize("seeds", [600, pytest.param(6_000, marks=pytest.mark.long)])
@pytest.mark.parametrize("stride", [1, 3, 4096])
def test_nothing_is_foreseen_that_the_parser_would_not_find(monkeypatch, stride, seeds):
    monkeypatch.setattr(early_limits, "_STRIDE", stride)
    early_limits._patterns.cache_clear()
    number = 0
    for seed in range(seeds):
        rng = random.Random(seed)
        text = items_of_all_kinds(rng)
        limits = Limits(nodes=rng.randint(4, 40))
        quick = read_text(text.encode(), "x", limits=limits)
        whole = parsed_to_its_end(text, limits, monkeypatch)
        if quick.problems == whole.problems:
            continue
        # The same is told at a later item, where some count more than once, or earlier than what
        # else is wrong with the text.
        number += 1
        assert quick.problems[-1].rule == "document.too-large"
        assert whole.root is None
        if whole.problems[-1].rule == "document.too-large":
            assert quick.problems[-1].place.line >= whole.problems[-1].place.line
    early_limits._patterns.cache_clear()
    assert seeds / 150 < number < seeds / 6


def test_what_is_foreseen_stands_where_the_parser_finds_it(monkeypatch):
    # Odd, so that a pair too many is told at its key.
    limits = Limits(nodes=11)
    for text in ("a: [" + "1, " * 20 + "]", "b:\r\n  a:\r\n" + "  - x\r\n" * 20, "a: 1\n" + "".join(
        f"b{n}: 2\n" for n in range(20))):  # fmt: skip
        quick = read_text(text.encode(), "x", limits=limits)
        assert quick.problems == parsed_to_its_end(text, limits, monkeypatch).problems
        assert quick.problems


@pytest.mark.parametrize("nodes", [2_000, pytest.param(DOCUMENT.nodes, marks=pytest.mark.long)])
def test_as_many_items_as_the_limit_are_read(nodes):
    for text in (
        "a: [" + "1, " * (nodes - 4) + "1]\n",
        "a:\n" + "- 1\n" * (nodes - 3),
        "".join(f"x{n}: 1\n" for n in range(nodes // 2 - 1)),
    ):
        limits = Limits(nodes=nodes)
        assert read_text(text.encode(), "x", limits=limits).problems == []
        refused(text.replace("1", "[1, 2]", 1).encode(), limits=limits)


@pytest.mark.parametrize(
    "text",
    [
        "a: |\n" + "  1, 1, 1,\n" * 5_000 + "b: [1, 2]\n" + "# 1, 1, 1,\n" * 150_000,
        "# [" + "1, " * 600_000 + "\na: [1, # " + "1, " * 50_000 + "\n 2]\n",
        "a:\n- 1\n#\n" + "#- 1\n" * 300_000,
    ],
    ids=["block-and-comments", "comment", "commented-items"],
)
def test_what_is_long_and_below_the_limit_is_read(text):
    assert read_text(text.encode(), "x").problems == []


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
