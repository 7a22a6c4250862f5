"""Ordinary slips of people who write YAML by hand: where they are told, and in which words.

The section sign is given where the slip is; what is told is read as somebody new to the format would.
"""

import pytest

from methodlint.documents.loading import load
from methodlint.documents.text.reader import read_text
from methodlint.documents.text.slips import slip_of_entry, slip_of_item
from tests.all_at_once import all_at_once

# Text behind "kind: method", a word of the message and one of the remedy.
SLIPS = {
    "no-break blank behind a colon": ("flow:§\u00a03 mL/min\n", "no-break space (U+00A0)", "flow: 3 mL/min"),
    "wide blank behind a colon": ("flow:§\u30003 mL/min\n", "double width (U+3000)", "flow: 3 mL/min"),
    "thin blank behind a colon": ("flow:§\u20093 mL/min\n", "unusual space (U+2009)", "flow: 3 mL/min"),
    "no-break blank in braces": ("programme:\n- {time:§\u00a00 min, flow: 3 mL/min}\n", "no-break", "time: 0 min"),
    "no-break blanks as indentation": ("mobile_phase:\n§\u00a0\u00a0co2: food\n", "indent nothing", "space bar"),
    "no-break blank behind a dash": ("programme:\n§-\u00a0{time: 0 min}\n", "follows the dash", "space bar"),
    "no-break blank in a key": ("§outlet\u00a0pressure: 130 bar\n", "hidden", '"outlet pressure"'),
    "no-break blank before a unit": ("flow: §3\u00a0mL/min\n", "one ordinary space", '"3 mL/min"'),
    "colon of full width": ("flow§\uff1a 3 mL/min\n", "(U+FF1A) is not the colon", "flow: 3 mL/min"),
    "colon of full width, no blank": ("name: x\nflow§\uff1a3 mL/min\nruns_on: [a]\n", "U+FF1A", "flow: 3 mL/min"),
    "colon of full width, further in": ("mobile_phase:\n  §co2\uff1a food\n", "U+FF1A", "co2: food"),
    "comma of full width": ("programme:\n- {time: 0 min§\uff0c flow: 3 mL/min}\n", "U+FF0C", "a comma"),
    "digit of full width": ("flow: §\uff13 mL/min\n", "U+FF13", '"3 mL/min"'),
    "text behind a bar": ("title: §|x\n  a\n", "begins with | or >", "quotation marks"),
    "text that begins with >": ("title: §>5 min run\n", "begins with | or >", "quotation marks"),
    "tag on a value": ("flow: §!foo 3 mL/min\n", "the tag !foo", "take the tag out"),
    "tag that does not fit": ("flow: §!!int 3 mL/min\n", "not what its tag says", "take the tag out"),
    "tag behind an anchor": ("x-a: &a §!foo x\n", "the tag !foo", "take the tag out"),
    "text that begins with !": ("title: §!important run\n", "!important", "quotation marks"),
    "tab as indentation": ("mobile_phase:\n§\tco2: food\n", "a tab", "spaces"),
    "tab in a second line": ("mobile_phase:\n  co2: food\n§\tmodifiers: []\n", "a tab", "spaces"),
    "tab in a text block": ("title: |\n§\tx\n", "a tab", "spaces"),
    "no blank behind a colon": ("flow§:3 mL/min\n", "no space follows", "flow: 3 mL/min"),
    "no blank behind a colon, key below": ("mobile_phase:\n  co2§:food\n  modifiers: []\n", "no space", "co2: food"),
    "no blank behind a colon, comment between": ("x-a:\n  a§:1 b\n  # note\n\n  c: 2\n", "no space", "a: 1 b"),
    "no blank behind a colon in braces": ("programme:\n- {time§:0 min, flow: 3 mL/min}\n", "no space", "time: 0 min"),
    "an equals sign": ("flow §= 3 mL/min\n", "= is written where a colon", "flow: 3 mL/min"),
    "no colon at all": ("§flow 3 mL/min\n", "neither a key", 'write "key: value"'),
    "a unit in the next line": ("flow: 3\n§mL/min\n", "neither a key", "goes on with the value above"),
    "typographic quotes on a quantity": ("flow: §\u201c3 mL/min\u201d\n", "U+201C", "3 mL/min"),
    "typographic quotes around a colon": ("title: §\u201crun: one\u201d\n", "U+201C", '"run: one"'),
    "typographic quotes on a key": ("§\u201cflow\u201d: 3 mL/min\n", "not a key", "'flow'"),
    "decimal comma": ("flow: §1,5 mL/min\n", "decimal sign", '"1.5 mL/min"'),
    "decimal comma in braces": ("programme:\n- {time: 0,§5 min, flow: 3 mL/min}\n", "comma inside a number", "0.5 min"),
    "degree sign alone": ("oven_temperature: §40\u00b0\n", "not a unit of a temperature", "40 \u00b0C"),
    "ordinal sign for degrees": ("oven_temperature: §40 \u00baC\n", "not a unit", "40 degC"),
    "percent sign first": ("x-a: §%5\n", "start with %", '"5 % v/v"'),
    "percent sign and comma": ("x-a: §% 2,5\n", "start with %", '"2.5 % v/v"'),
    "percent sign first in a line": ("§%5 methanol\n", "directive", "comment starts with #"),
    "at sign": ("title: §@home\n", "start with @", "quotation marks"),
    "backtick": ("title: §`run`\n", "start with `", "quotation marks"),
    "quotation mark never closed": ('title: §"run one\nflow: 3 mL/min\n', "never closed", "close it"),
    "quotation mark closed by the next": ("title: §'run one\nflow: 3 mL/min\nx-a: 'b'\n", "not closed in its line", "close it"),
    "apostrophe in single quotation marks": ("title: 'Ann'§s run'\n", "ended at the quotation mark", "''"),
    "text behind a quotation mark": ('title: "run" §one\n', "ended at the quotation mark", "the whole value"),
    "backslash in quotation marks": ('title: "C:§\\data"\n', "backslash", "two backslashes"),
    "indented further": ("flow: 3 mL/min\n  §outlet_pressure: 130 bar\n", "indented further", "same number of spaces"),
    "indented less": ("x-a:\n    b: 1\n  §c: 2\n", "does not line up", "same number of spaces"),
    "key among dashes": ("programme:\n  - time: 0 min\n  §flow: 3 mL/min\n", "goes on with a dash", "indent the key"),
    "dash among keys": ("programme:\n  time: 0 min\n  §- flow: 3 mL/min\n", "dash is written among keys", "indent the dash"),
    "key twice": ("flow: 3 mL/min\n§flow: 2 mL/min\n", "a duplicate key, first at line 2", "keep one"),
    "dash without space": ("runs_on:\n  §-bench-a\n  -bench-b\n", "no space follows this dash", "- bench-a"),
    "one dash without space": ("runs_on:\n  - bench-a\n  §-bench-b\n", "no space follows this dash", "- bench-b"),
    "dash without space before a brace": ("programme:\n  §-{time: 0 min}\n", "no space follows this dash", "after the dash"),
    "long dash": ("runs_on:\n  §\u2013 bench-a\n  \u2013 bench-b\n", "U+2013", "- bench-a"),
    "bullet": ("runs_on:\n  §\u2022 bench-a\n", "U+2022", "- bench-a"),
    "dash behind a key": ("flow: §- 3 mL/min\n", "begins no list in the same line", "- item"),
    "round brackets": ("runs_on: §(bench-a, bench-b)\n", "a list is expected", "[bench-a, bench-b]"),
    "nothing where a list is wanted": ("programme:§\n", "reads nothing", "write ["),
    "second colon": ("title: run§: one\n", "second colon", '"run: one"'),
    "second key in the line": ("flow: 3 mL/min name§: x\n", "second colon", "a line of its own"),
    "second colon in braces": ("x-a: {title: run§: one}\n", "second colon", "quotation marks"),
    "# as a number": ("x-a: {kind: x, vial: §#5}\n", "a comment begins at this #", "quotation marks"),
    "comment without blank": ("flow: §3 mL/min# set\n", "no comment begins at #", "a blank and #"),
    "comment of other languages": ("§// set by hand\nflow: 3 mL/min\n", "no comment", "write #"),
    "comment of other languages behind": ("flow: §3 mL/min // set\n", "no comment begins at //", "a blank and #"),
    "comma missing": ("programme:\n- {time: 0 min §flow: 3 mL/min}\n", "a comma is missing", "separate each"),
    "comma missing between quotes": ('runs_on: ["a" §"b"]\n', "a comma is missing", "each item"),
    "bracket closed as brace": ("x-a: {name: methanol§]\n", "] is given where } is due", "close { with }"),
    "bracket closed twice": ("runs_on: [bench-a]§]\n", "closes nothing", "take it out"),
    "something behind a bracket": ("runs_on: [bench-a] §x\n", "ended the value", "take it out"),
    "bracket not closed": ("runs_on: §[bench-a\nflow: 3 mL/min\n", "opened here and not closed", "close it with ]"),
    "clock time": ("run_length: §1:30\n", "clock time", '"2 min"'),
    "leading zeros": ("title: §007\n", "the number 7", '"007"'),
    "a lone question mark": ("flow: §?\n", "question mark", "write the value"),
    "name behind an asterisk": ("title: §*new\n", "an anchor that is not set", "write the value out"),
    "two versions": ("§<<<<<<< HEAD\nflow: 3 mL/min\n=======\nflow: 2 mL/min\n>>>>>>> x\n", "merged", "keep one"),
    "mark between two versions": ("flow: 3 mL/min\n§=======\nflow: 2 mL/min\n", "merged", "keep one"),
    "minus sign of typesetters": ("oven_temperature: §\u22125 degC\n", "U+2212", '"-5 degC"'),
}  # fmt: skip


def told(text):
    read = read_text(text.encode(), "x.yaml")
    loaded = None if read.root is None else load(read, "x.yaml", "x")
    return read.problems if loaded is None else loaded.problems


@all_at_once("end", ["\n", "\r\n", "\r"])
@all_at_once("slip", SLIPS)
def test_a_slip_is_told_where_it_stands_in_plain_words(slip, end):
    marked, word, remedy = SLIPS[slip]
    before, _, behind = f"kind: method\n{marked}".partition("§")
    place = before.count("\n") + 1, len(before.split("\n")[-1]) + 1
    found = [
        problem
        for problem in told((before + behind).replace("\n", end))
        if (problem.place.line, problem.place.column) == place and word in problem.message
    ]
    assert len(found) == 1
    assert remedy in found[0].remedy
    assert found[0].message.isprintable()


def test_the_first_key_without_a_blank_and_keys_that_stand_further_out():
    (problem,) = told("kind:method\nflow: 3 mL/min\n")
    assert (problem.place.line, problem.place.column) == (1, 5)
    assert problem.remedy == "write kind: method"
    (problem,) = told("  kind: method\nflow: 3 mL/min\n")
    assert (problem.place.line, problem.place.column) == (2, 1)
    assert "indented less" in problem.message


@pytest.mark.parametrize("encoding", ["utf-16", "utf-16-le", "utf-16-be", "utf-32-le"])
def test_wide_encodings_are_named_even_where_the_bytes_are_utf_8_too(encoding):
    read = read_text("kind: method\n".encode(encoding), "x")
    assert [problem.message for problem in read.problems] == [
        "the text is UTF-16 or UTF-32, not UTF-8"
    ]


# Windows-1252: https://www.unicode.org/Public/MAPPINGS/VENDORS/MICSFT/WINDOWS/CP1252.TXT
@pytest.mark.parametrize(
    ("byte", "character"), [(b"\xe9", "\u00e9"), (b"\xb0", "\u00b0"), (b"\x93", "\u201c")]
)
def test_a_byte_of_western_europe_is_shown_as_its_letter(byte, character):
    (problem,) = read_text(b"kind: method\ntitle: x" + byte + b"\n", "x").problems
    assert problem.message.endswith(f"it is {character})")
    assert (problem.place.line, problem.place.column) == (2, 9)


def test_a_byte_that_is_no_letter_anywhere_is_shown_as_a_number_alone():
    (problem,) = read_text(b"kind: method\ntitle: x\x81\n", "x").problems
    assert problem.message == "the byte 0x81 is not UTF-8"


SOUND = {
    "tab behind a colon": ("title:\trun\n", "run"),
    "byte-order mark and Windows newlines": ("title: run\r\n", "run"),
    "address": ("title: see http://x.example/a\n", "see http://x.example/a"),
    "colon without a blank": ("title: at 12:30\n", "at 12:30"),
    "sharp sign inside a word": ("title: lot#5\n", "lot#5"),
    "at sign inside": ("title: a @ b\n", "a @ b"),
    "inch": ('title: 4" pipe\n', '4" pipe'),
    "typographic quotes": ("title: \u201crun one\u201d\n", "\u201crun one\u201d"),
    "blank before a colon": ("title : run\n", "run"),
    "text that goes on": ("title: run\n  one\n", "run one"),
    "equals sign in a text": ("title: a = b\n", "a = b"),
    "dash in a text": ("title: -x - y\n", "-x - y"),
}


@pytest.mark.parametrize("case", SOUND)
def test_silent_for_what_only_looks_like_a_slip(case):
    text, title = SOUND[case]
    read = read_text(f"\ufeffkind: method\n{text}".encode(), "x")
    assert read.problems == []
    assert read.plain()["title"] == title


@pytest.mark.parametrize(
    "entry",
    ["http://x.example", "C:\\data", "12:30", "two words", "a::b", "", "-", "- x", "==", "x ="],
)
def test_no_slip_is_seen_where_none_is(entry):
    assert slip_of_entry(entry) is None
    assert slip_of_item(entry) is None


@pytest.mark.parametrize(
    "text",
    [
        "a" + " " * 300_000 + "b\n",
        "x-a: " + "1 " * 300_000 + ": x\n",
        "x-a: [a" + " [" * 60 + "#" * 300_000 + "\n",
        "x-a: [1\n" + "# x\n" * 200_000 + "b: 1\n",
        "x-a: 'b\n" + "c: d\n" * 200_000 + "x-b: 'e'\n",
        "b: 1\n" + "\n" * 400_000 + "  c: 2\n",
    ],
    ids=["blanks", "words", "sharps", "comments", "lines", "empty-lines"],
)
def test_looking_for_a_slip_takes_no_time_that_grows_with_its_square(text, monkeypatch):
    from methodlint.documents.text import slips_nearby

    seen = 0
    honest = slips_nearby.line_at

    def counted(whole, start):
        nonlocal seen
        line = honest(whole, start)
        seen += len(line)
        return line

    monkeypatch.setattr(slips_nearby, "line_at", counted)
    assert told(f"kind: method\n{text}")
    assert seen < 8 * len(text)
