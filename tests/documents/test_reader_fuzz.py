"""Whatever the bytes are, reading ends with a tree or with problems in printable words."""

import json
import random

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from methodlint.documents.text.limits import Limits
from methodlint.documents.text.places import path_text
from methodlint.documents.text.reader import read_text

SOUND = """\
kind: method
title: "Screen: café 🧪"
base: &base {flow: 1.5 mL/min, outlet_pressure: 150 bar(g)}
mobile_phase:
  modifiers:
    - liquid: methanol
      share: 5 % v/v
programme:
  - <<: *base
    time: 0 min
  - {time: 4 min, share: '40 % v/v', flow: 2e0 mL/min}
oven: {value: 35 degC, tolerance: 2 degC}
note: |
  two lines
  of text
list: [1, 0x1F, .5, ~, true, !!str 5, "\\x41"]
...
"""
TOKENS = ["[", "]", "{", "}", ":", "- ", "? ", "&a ", "*a", "!", "!!int ", "|", ">", "%", "@", "`", "'",
          '"', "\\", "\t", "\n", "\r\n", "\r", "#", ",", "<<: ", "---\n", "...\n", "\0", "\x1b", "\u2028",
          "\u202e", "\ufeff", "\x85", "🧪", "  ", ".nan", "1e999", "9" * 70, "~", "\udcff"]  # fmt: skip


def check(data):
    read = read_text(data, "fuzz.yaml", limits=Limits(nodes=2000))
    assert read.root is not None or read.problems
    assert (read.plain() is None) == (() in read.broken)
    for problem in read.problems:
        assert problem.rule.startswith("document.")
        assert problem.message.isprintable(), problem.message
        assert problem.remedy.isprintable(), problem.remedy
        assert path_text(problem.path).isprintable()
        place = problem.place
        assert 1 <= place.line <= place.end_line
        assert 1 <= place.column
        assert (place.line, place.column) <= (place.end_line, place.end_column)
    if read.root is not None:
        for path in list(read.broken)[:5]:
            assert read.place(path).line >= 1


def mutant(seed):
    rng = random.Random(seed)
    text = SOUND
    for _ in range(rng.randint(1, 6)):
        at = rng.randrange(len(text) + 1)
        span = rng.choice((0, 0, 1, 1, 2, 7, 40))
        piece = rng.choice((rng.choice(TOKENS), rng.choice(TOKENS) * rng.randint(1, 90), "",
                            text[at : at + rng.randint(1, 60)], chr(rng.randrange(0x3000))))  # fmt: skip
        text = text[:at] + piece + text[at + span :]
    data = text.encode("utf-8", "surrogateescape" if "\udcff" in text else "surrogatepass")
    if rng.random() < 0.1:
        at = rng.randrange(len(data))
        data = data[:at] + bytes([rng.randrange(256)]) + data[at + 1 :]
    return data


def test_the_sound_document_is_sound():
    assert read_text(SOUND.encode(), "x").problems == []


@pytest.mark.parametrize(
    "seeds", [range(1_000), pytest.param(range(1_000, 20_000), marks=pytest.mark.long)]
)
def test_mutants_of_a_sound_document(seeds):
    for seed in seeds:
        check(mutant(seed))


@settings(max_examples=300)
@given(st.binary(max_size=300))
@example(b"")
@example(b"\xef\xbb\xbf")
@example(b"\xff\xfe")
def test_random_bytes(data):
    check(data)


@settings(max_examples=300)
@given(
    st.lists(st.one_of(st.sampled_from(TOKENS[:-1]), st.text(max_size=4)), max_size=60).map("".join)
)
def test_random_tokens(text):
    check(text.encode("utf-8", "surrogatepass"))


@settings(max_examples=100)
@given(st.text(max_size=100))
def test_random_text_as_a_quoted_value_comes_back(text):
    read = read_text(('{"a": ' + json.dumps(text) + "}").encode(), "x")
    # JSON writes characters outside the basic plane as two escapes, which YAML does not join.
    if all(ord(character) < 0x10000 for character in text):
        assert read.plain() == {"a": text}
