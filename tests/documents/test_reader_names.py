"""Text made safe to show, and names found for misspelt ones."""

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from methodlint.documents.text.keys import key_trouble
from methodlint.documents.text.names import edit_distance, nearest
from methodlint.documents.text.visible import code_points, excerpt, visible


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("plain text, 5 % v/v", "plain text, 5 % v/v"),
        ("café µL °C – 流速 🧪", "café µL °C – 流速 🧪"),
        ("\x1b[2J", "\\x1b[2J"),
        ("a\nb\r\tc", "a\\nb\\r\\tc"),
        ("\u202eabc", "\\u202eabc"),
        ("\u200b\u2066\ufeff", "\\u200b\\u2066\\ufeff"),
        ("\x00\x7f\x85\x9b", "\\x00\\x7f\\x85\\x9b"),
        ("\u2028\u2029", "\\u2028\\u2029"),
        ("a\u00a0b\u3000", "a\\xa0b\\u3000"),
        ("\U000e0041", "\\U000e0041"),
        ("\ud800", "\\ud800"),
        ("\u3164\u00ad", "\\u3164\\xad"),
        ("", ""),
    ],
)
def test_hidden_characters_are_written_out(text, shown):
    assert visible(text) == shown


@settings(max_examples=500)
@given(st.text(st.characters(exclude_categories=())))
def test_what_is_shown_is_printable_and_stays_so(text):
    shown = visible(text)
    assert shown.isprintable()
    assert visible(shown) == shown
    assert not re.search("[\x00-\x1f\x7f-\x9f\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff]", shown)
    assert len(excerpt(text)) <= 40 * 10 + 3


def test_excerpt_and_code_points():
    assert excerpt("x" * 41) == "x" * 40 + "..."
    assert excerpt("x" * 40) == "x" * 40
    assert code_points("fl\u043ew\u202e") == "U+043E U+202E"


@pytest.mark.parametrize(
    ("first", "second", "distance"),
    [
        # Worked examples of the literature: "kitten" to "sitting" takes 3 edits (a standard example
        # of the Levenshtein distance); "CA" to "ABC" takes 3 when no stretch is edited twice.
        ("kitten", "sitting", 3),
        ("CA", "ABC", 3),
        ("ab", "ba", 1),
        ("chirl-03", "chiral-03", 1),
        ("chirl-03", "chiral-08", 2),
        ("", "abc", 3),
        ("same", "same", 0),
    ],
)
def test_edit_distance(first, second, distance):
    assert edit_distance(first, second) == distance
    assert edit_distance(second, first) == distance
    assert edit_distance(first, second, limit=1) == min(distance, 2)


@settings(max_examples=300)
@given(st.text("abc", max_size=7), st.text("abc", max_size=7), st.text("abc", max_size=7))
def test_distance_is_symmetric_bounded_and_zero_for_equals_only(a, b, limit_source):
    distance = edit_distance(a, b)
    for limit in range(4):
        assert edit_distance(a, b, limit) == min(distance, limit + 1)
    limit = len(limit_source)
    assert distance == edit_distance(b, a)
    assert (distance == 0) == (a == b)
    assert abs(len(a) - len(b)) <= distance <= max(len(a), len(b))
    assert edit_distance(a, b, limit) == min(distance, limit + 1)


def test_nearest_names_come_first_and_ties_are_alphabetical():
    cards = ["chiral-08", "chiral-03", "amylose-3um"]
    assert nearest("chirl-03", cards) == [("chiral-03", 1), ("chiral-08", 2)]
    assert nearest("chirl-03", cards, count=1) == [("chiral-03", 1)]
    assert nearest("chiral-0", cards) == [("chiral-03", 1), ("chiral-08", 1)]
    assert nearest("nothing-alike", cards) == []
    assert nearest("Outlet Pressure", ["outlet_pressure"]) == [("outlet_pressure", 1)]
    assert nearest("ab", ["cd", "ac"]) == [("ac", 1)]
    assert nearest("x" * 100_000, ["x" * 100_001]) == []


@pytest.mark.parametrize("key", ["flow", "x-my key", "température", "х-поток", "流速", "a_b-c.d"])
def test_honest_keys(key):
    assert key_trouble(key) is None


def test_a_key_wholly_of_look_alikes_is_found():
    message, remedy = key_trouble("\u0441\u043e\u0440\u0435")
    assert "U+0441 U+043E U+0440 U+0435" in message
    assert '"cope"' in remedy
