"""The proposed document keeps the source's text; ruamel.yaml is the second reader."""

from __future__ import annotations

import difflib
import io
import json

import pytest
from ruamel.yaml import YAML

from methodlint.documents.loading import load
from methodlint.documents.text.reader import read_text
from methodlint.transfer.record import transfer_data
from methodlint.transfer.text_edits import TextEdits, as_scalar

from .lab import GRADIENT, ISOCRATIC, make_lab, moved, transferred


def comments_of(text: str) -> list[str]:
    """What ruamel.yaml's round trip takes for comments, as the reader of a person would."""
    yaml = YAML()
    stream = io.StringIO()
    yaml.dump(yaml.load(text), stream)
    return [
        line.partition("#")[2].strip() for line in stream.getvalue().splitlines() if "#" in line
    ]


def keys_of(text: str) -> list[str]:
    return list(YAML().load(text))


def test_comments_and_order_are_kept():
    result = transferred()
    for comment in ("A comment at the top stays.", "kept, blanks and all", "the critical pair"):
        assert any(comment in found for found in comments_of(result.text))
    before = keys_of(GRADIENT)
    after = [key for key in keys_of(result.text) if key in before]
    assert after == before


def test_only_values_change_on_their_lines():
    """Take the reasons behind the lines away: what is left differs in values alone."""
    result = transferred()
    old, new = GRADIENT.splitlines(), result.text.splitlines()
    matcher = difflib.SequenceMatcher(None, [_bones(x) for x in old], [_bones(x) for x in new])
    added = []
    for kind, begin, end, first, last in matcher.get_opcodes():
        assert kind in ("equal", "insert"), (old[begin:end], new[first:last])
        if kind == "insert":
            added += new[first:last]
    allowed = ("transferred_from:", "transfer:", "- {time:")
    assert all(line.strip().startswith(allowed) for line in added), added


def _bones(line: str) -> str:
    """A line without its numbers, its names of cards and what is said behind it."""
    head = line.partition("  # ")[0].partition("   #")[0]
    for name in ("wide", "narrow", "here", "there"):
        head = head.replace(f" {name}", " NAME").replace(f"[{name}]", "[NAME]")
    return "".join("9" if c.isdigit() else c for c in head).replace(".", "").replace("9", "")


def test_unchanged_lines_are_the_same_to_the_letter():
    result = transferred()
    kept = ("title", "purpose", "oven_temperature", "  modifier:", "#")
    lines = [line for line in GRADIENT.splitlines() if line.startswith(kept)]
    assert lines
    assert set(lines) <= set(result.text.splitlines())


def test_every_changed_value_says_why_on_its_line():
    result = transferred()
    new = result.proposed.read
    changed = [
        entry.path
        for entry in result.entries
        if entry.path and entry.path[0] != "programme" and entry.source != entry.proposed
    ]
    assert changed
    for path in changed:
        line = result.text.splitlines()[new.place(path).end_line - 1]
        assert "#" in line, line


@pytest.mark.parametrize("ending", ["\r\n", "\r"])
def test_line_ends_are_kept(tmp_path, ending):
    result = moved(make_lab(tmp_path, GRADIENT.replace("\n", ending)))
    assert result.text.count(ending) >= GRADIENT.count("\n")
    assert "\n" not in result.text.replace(ending, "")


def test_a_value_with_tolerance_keeps_it(tmp_path):
    text = ISOCRATIC.replace("flow: 3.0 mL/min", "flow: {value: 3.0 mL/min, tolerance: 0.1 mL/min}")
    result = moved(make_lab(tmp_path, text))
    assert "flow: {value: 2.13 mL/min, tolerance: 0.1 mL/min}" in result.text


def test_units_of_the_source_are_kept(tmp_path):
    text = ISOCRATIC.replace("3.0 mL/min", "3000 uL/min").replace("150 bar", "15 MPa")
    text = text.replace("10 min", "600 s")
    result = moved(make_lab(tmp_path, text))
    assert "flow: 2130 uL/min" in result.text
    assert result.entry("outlet pressure").proposed.endswith(" MPa")
    assert result.entry("run length").proposed.endswith(" s")


def test_approval_deviations_and_measurements_stay_behind_as_comments(tmp_path):
    text = ISOCRATIC + (
        "status: approved\nedition: 4\napproval: {by: A. Nobody, on: 2026-01-05}\n"
        "deviations:\n  - {rule: detector.rate-too-slow, reason: agreed}\n"
    )
    result = moved(make_lab(tmp_path, text))
    model = result.proposed.model
    assert (model.status, model.approval, model.deviations) == ("draft", None, ())
    assert "# not carried over" in result.text
    assert "agreed" in result.text


def test_block_style_rows_are_written_too(tmp_path):
    rows = """\
programme:
  - time: 0 min
    modifier_share: 5 % v/v
  - time: 1 min
    modifier_share: 5 % v/v
  - time: 6 min
    modifier_share: 35 % v/v
run_length: 10 min
"""
    head, _, rest = GRADIENT.partition("programme:\n")
    text = head + rows + rest.partition("run_length: 10 min\n")[2]
    result = moved(make_lab(tmp_path, text))
    assert result.feasible
    times = [row.time.si for row in result.proposed.model.programme]
    assert times == sorted(times)
    assert len(times) == 3


def test_a_chain_names_its_last_step(tmp_path):
    file = make_lab(tmp_path)
    first = moved(file)
    second_file = file.with_name("second.yaml")
    second_file.write_text(first.text, encoding="utf-8")
    second = moved(second_file, to="here", column="wide")
    assert second.proposed.model.transferred_from == "second"
    assert second.proposed.model.transfer.source_instrument == "there"


def test_record_is_the_same_every_time_and_finite(tmp_path):
    file = make_lab(tmp_path)
    one, two = (json.dumps(transfer_data(moved(file)), allow_nan=False) for _ in range(2))
    assert one == two
    data = json.loads(one)
    assert data["wording"] == "predicted; verify"
    assert len(data["inputs"]["method"]["sha256"]) == 64
    assert data["corners"][0]["target_mean_density"] > 0.0


def test_verification_sequences_can_be_read():
    result = transferred()
    assert len(result.verification) == 2
    instruments = []
    for name, text in result.verification.items():
        loaded = load(read_text(text.encode(), f"{name}.yaml"), f"{name}.yaml", name)
        assert loaded is not None
        assert loaded.problems == ()
        instruments.append(loaded.model.instrument)
        assert any(line.kind == "suitability" for line in loaded.model.lines)
        assert "Accept if" in text
    assert instruments == ["here", "there"]


def test_written_files_never_replace_what_was_read(tmp_path):
    file = make_lab(tmp_path)
    before = file.read_bytes()
    result = moved(file)
    with pytest.raises(FileExistsError):
        result.write(file)
    assert file.read_bytes() == before
    written = result.write(file.with_name("moved.yaml"))
    assert [path.name for path in written] == [
        "moved.yaml",
        "moved-transfer.json",
        "moved-verify-source.yaml",
        "moved-verify-target.yaml",
    ]
    assert not list(file.parent.glob(".*"))


ODD_NAMES = [
    "plain-name",
    "yes",
    "12",
    "a: b",
    "with #",
    "3um",
    'say "10 mm"',
    "a\\b",
    "no\u200bwidth",
]


@pytest.mark.parametrize("name", ODD_NAMES)
def test_names_are_read_back_as_names(name):
    assert YAML(typ="safe").load(f"key: {as_scalar(name)}") == {"key": name}


@pytest.mark.parametrize("name", ODD_NAMES)
def test_a_cell_that_is_called_otherwise_on_the_target_is_named_as_it_is_there(tmp_path, name):
    method = GRADIENT.replace("  - type: UV\n", "  - type: UV\n    cell: long cell\n")
    file = make_lab(tmp_path, method)
    for bench, cell in (("here", "long cell"), ("there", name)):
        card = file.parent.parent / "instruments" / f"{bench}.yaml"
        data = YAML(typ="safe").load(card.read_text("utf-8"))
        (part,) = [part for part in data["train"] if part["part"] == "cell"]
        part["name"] = cell
        card.write_text(json.dumps(data), encoding="utf-8")
    (detector,) = YAML(typ="safe").load(moved(file).text)["detectors"]
    assert detector["cell"] == name


def test_edits_by_themselves():
    text = b"a: {x: 1 bar, y: [1, 2]}  # said\nb: 'two'\nc:\n  d: 3\n"
    edits = TextEdits(read_text(text, "edits.yaml"))
    edits.set(("a", "x"), "2 bar", "why")
    edits.set(("a", "z"), "9")
    edits.set(("b",), "three")
    edits.set(("c", "e"), "4", "new")
    assert edits.text() == (
        "a: {x: 2 bar, y: [1, 2], z: 9}  # said  # why\nb: three\nc:\n  d: 3\n  e: 4  # new\n"
    )
