"""Odd but legal YAML, and what is nearly YAML: as whole documents, and as values of every key.

All of it was thought of here: markers, directives, tags, anchors on keys, keys that are no words,
text blocks, tabs, marks of byte order in the middle, letters that cannot be seen.
"""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from methodlint.checking.check import check
from methodlint.checking.report import Report
from methodlint.documents.loading import KINDS
from methodlint.documents.text.reader import read_text
from methodlint.reports.formats import FORMATS, written
from methodlint.reports.prepared import Prepared
from tests.all_at_once import all_at_once
from tests.hazards.our_schema import document
from tests.hazards.reading import look_at

_WRITTEN = Path(__file__).with_name("odd_documents.json").read_text(encoding="utf-8")
_METHOD = "kind: method\n"
ODD: dict[str, str] = json.loads(_WRITTEN) | {
    "number-of-5000-digits": f"{_METHOD}name: !!int {'9' * 5_000}\n",
    "letter-with-2000-accents": "k" + "\u0301" * 2_000 + ": x\nkind: method\n",
    "long-value": f"{_METHOD}name: {'x' * 70_000}\n",
    "long-value-of-many-lines": f"{_METHOD}name: " + "\n  ".join(["x y"] * 5_000) + "\n",
    "long-key": f"{'k' * 1_025}: x\n",
    "long-key-in-braces": f"{{{'k' * 1_025}: x}}\n",
    "long-key-behind-a-question-mark": f"? {'k' * 3_000}\n: x\nkind: method\n",
}
VALUES = (
    "", " ", "~", "null", "no", "on", "y", "=", "<<", "*", "&a", "!", "!!str", "!!float 5", "|", ">-", "-",
    "- a", "? a", ": a", "a: b", "#", "a #b", "%YAML 1.1", "---", "...", "@", "`", "[", "[]", "{}", "{a}",
    "[,]", "'", "\"", "''", "0x1F", "0o17", "0b1", "017", "1_000", "1e999", "-.inf", ".NaN", "12:30:45",
    "2026-02-30", "1,5", "1.2.3", "+", "+.", "\u0661\u0662 bar", "\uff11 bar", "5\u202fbar", "5 \u338d",
    "\N{MINUS SIGN}5 bar", "\u221e bar", "\u00bd mL", "\u202e5 bar", "\u200b", "\ufeff", "\ufeff5 bar", "\u00ad",
    "\U0001f600", "\U0001f468\u200d\U0001f469\u200d\U0001f467", "\u05d0\u05d1", "a\u0301" * 50, "\u2028",
    "\x85", "\u3164", "\ue000", "\U0010fffd", "\U000e0041", "\ufffd", "=1+1", "-1+1", "@x",
    "<script>alert(1)</script>", "::error::x", "${HOME}", "../../x", "C:\\x", "//x", "9" * 400, "x" * 3_000,
)  # fmt: skip
_CONTROL = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069]")
# What is wrong, and the line and column on which it stands, by the text itself.
PLACES = {
    "two-markers": (2, 1), "yaml11": (1, 1), "tab-block": (3, 1), "anchor-key": (2, 1), "alias-key": (3, 1),
    "alias-undefined": (2, 7), "self": (3, 6), "empty-key": (1, 1), "flow-open": (1, 1), "merge-twice": (4, 5),
    "tag-map-seq": (1, 1), "tag-set": (1, 1), "q-esc-bad": (2, 8), "q-open": (2, 7), "dup-esc": (2, 1),
    "dup-deep": (2, 13), "vt": (1, 5), "nul": (1, 4), "plain-at": (2, 7), "bom-in-value": (2, 8),
}  # fmt: skip


@all_at_once("name", ODD)
def test_every_odd_document_is_read_or_refused(name: str) -> None:
    look_at(ODD[name].encode())


@pytest.mark.parametrize("name", PLACES)
def test_what_is_wrong_is_told_where_it_stands(name: str) -> None:
    place = read_text(ODD[name].encode(), name).problems[0].place
    assert (place.line, place.column) == PLACES[name]


def test_a_key_is_missing_before_a_colon() -> None:
    for text in (": a\n", ":\n"):
        assert "key is missing" in read_text(text.encode(), "x").problems[0].message


@pytest.mark.parametrize("text", ["k" * 1_025 + ": x\n", "a: 1\n" + "k" * 1_025 + ": x\n"])
def test_a_key_that_is_too_long_is_told_as_that(text: str) -> None:
    (problem,) = read_text(text.encode(), "x").problems
    assert "1024" in problem.message
    assert (problem.place.line, problem.place.column) == (text.count("\n"), 1)


@pytest.mark.parametrize("one_by_one", [False, pytest.param(True, marks=pytest.mark.long)])
@pytest.mark.parametrize("kind", KINDS)
def test_every_value_under_every_key(kind: str, one_by_one: bool) -> None:
    import random

    keys = {key for seed in range(12) for key in document(kind, random.Random(seed))} - {"kind"}
    assert len(keys) > 1
    for value in VALUES:
        quoted = json.dumps(value)
        for shown in (value, quoted, f"[{quoted}]", f"{{{quoted}: {quoted}}}"):
            lines = "".join(f"{key}: {shown}\n" for key in sorted(keys))
            look_at(f"kind: {kind}\n{lines}".encode())
        for key in sorted(keys) if one_by_one else ():
            look_at(f"kind: {kind}\n{key}: {value}\n".encode())


@pytest.fixture(scope="module")
def odd(tmp_path_factory: pytest.TempPathFactory) -> Report:
    """Judge a lab that holds all of them at once."""
    lab = tmp_path_factory.mktemp("odd")
    (lab / "lab.yaml").write_text("kind: lab\n", encoding="utf-8")
    for name, text in ODD.items():
        (lab / f"{name}.yaml").write_bytes(text.encode())
    for number, value in enumerate(VALUES):
        text = f"kind: method\nname: {json.dumps(value)}\nruns_on: {json.dumps([value])}\n"
        (lab / f"value{number}.yaml").write_bytes(text.encode())
    return check(lab)


def test_no_rule_fails_on_any_of_them(odd: Report) -> None:
    assert not odd.failed
    told = {Path(finding.at.document.path).name for finding in odd.findings}
    # What says nowhere of what kind it is may belong to another program.
    ours = [name for name, text in ODD.items() if text.startswith(_METHOD)]
    refused = {name for name in ours if read_text(ODD[name].encode(), name).root is None}
    assert len(refused) > 30
    assert {f"{name}.yaml" for name in refused} <= told


@pytest.mark.parametrize("name", FORMATS)
def test_no_control_character_reaches_any_format(odd: Report, name: str) -> None:
    assert not _CONTROL.search(written(name, Prepared(odd)))
