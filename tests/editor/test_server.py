"""What the server answers, spoken to as editors do."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from lsprotocol import types

import methodlint
from tests.editor.session import checked, editor, units
from tests.reports.scratch_lab import copy_lab, line_of

pytestmark = pytest.mark.asyncio

SEVERITY = {
    "stop": types.DiagnosticSeverity.Error,
    "fault": types.DiagnosticSeverity.Error,
    "caution": types.DiagnosticSeverity.Warning,
    "note": types.DiagnosticSeverity.Information,
}
RATING = "pressure.column-rating-exceeded"
HOT = "methods/terpenoids-hot-and-low.yaml"
DIOL = "columns/diol-3um.yaml"


def as_seen(marks: list[types.Diagnostic], path: str) -> set[tuple[object, ...]]:
    """Rule, class, lines, columns and words of marks, without notes on what was not checked."""
    return {
        (
            mark.code,
            mark.severity,
            mark.range.start.line,
            mark.range.start.character,
            mark.range.end.line,
            mark.range.end.character,
            mark.message.partition("\n")[0].partition(": ")[2],
        )
        for mark in marks
        if mark.code != "not-checked" and not mark.message.startswith("set aside")
    }


def end_of(finding: dict[str, Any], lines: list[str], encoding: str) -> tuple[int, int]:
    """Where the mark of a finding ends: with its first line at the latest."""
    row = finding["line"] - 1
    if finding["end_line"] == finding["line"]:
        return row, units(lines[row][: finding["end_column"] - 1], encoding)
    return row, units(lines[row], encoding)


def as_checked(lab: Path, path: str, encoding: str) -> set[tuple[object, ...]]:
    """The same from the report in JSON, with columns counted by Python's codecs."""
    lines = re.split(r"\r\n|\r|\n", (lab / path).read_bytes().decode("utf-8"))
    return {
        (
            finding["rule"],
            SEVERITY[finding["class"]],
            finding["line"] - 1,
            units(lines[finding["line"] - 1][: finding["column"] - 1], encoding),
            *end_of(finding, lines, encoding),
            finding["message"],
        )
        for finding in checked(lab, path)
    }


async def test_marks_are_what_check_finds(tmp_path: Path) -> None:
    lab = copy_lab(tmp_path, sound=False)
    paths = sorted(
        file.relative_to(lab).as_posix()
        for folder in ("methods", "sequences")
        for file in (lab / folder).glob("*.yaml")
    )
    assert len(paths) > 8
    async with editor(lab) as one:
        seen = {}
        for path in paths:
            one.open(lab / path)
            seen[path] = await one.settled(lab / path)
            one.close(lab / path)
    for path, marks in seen.items():
        assert as_seen(marks, path) == as_checked(lab, path, "utf-16"), path


async def test_what_is_not_checked_is_marked_with_the_figure_to_give(tmp_path: Path) -> None:
    lab = copy_lab(tmp_path)
    file = lab / "methods" / "leaf-waxes.yaml"
    async with editor(lab) as one:
        one.open(file, file.read_text("utf-8").replace("oven_temperature", "x-oven"))
        marks = await one.settled(file)
    lacking = [m for m in marks if m.code == "not-checked"]
    places = [(m.range.start.line, m.range.start.character) for m in lacking]
    assert len(places) == len(set(places)), "one mark at each place"
    lines = [line for mark in lacking for line in mark.message.split("\n")]
    (line,) = [line for line in lines if "temperature.subcritical" in line]
    assert line.startswith("give method.oven_temperature")
    assert any(line.startswith("give ") and RATING in line for line in lines)
    assert {mark.severity for mark in lacking} == {types.DiagnosticSeverity.Information}


@pytest.mark.parametrize("encoding", ["utf-8", "utf-16", "utf-32"])
@pytest.mark.parametrize("end", ["\n", "\r\n"])
async def test_columns_behind_characters_of_any_width(
    tmp_path: Path, encoding: str, end: str
) -> None:
    lab = copy_lab(tmp_path)
    file = lab / "methods" / "smile.yaml"
    rows = [
        "kind: method",
        "# 𐐀 µ",
        'injection: {x-who: "😀 é 𐐀", volume: 2 \u00b5L, flushes: ten}',
    ]
    rows += ["title: Zürich 😀", "flow: 2 bar"]
    file.write_bytes((end.join(rows) + end).encode("utf-8"))
    async with editor(lab, encodings=[encoding]) as one:
        assert one.encoding == encoding
        one.open(file)
        marks = await one.settled(file)
        assert as_seen(marks, "") == as_checked(lab, "methods/smile.yaml", encoding)
        (mark,) = [m for m in marks if m.range.start.line == 2]
        line = rows[2]
        assert mark.range.start.character == units(line[: line.index("ten")], encoding)
        assert mark.range.end.character == units(line[: line.index("}")], encoding)
        assert await one.hover(file, "volume") == ""
        assert "Loop volumes" in await one.hover(file, "flushes")


async def test_the_unsaved_text_counts_and_so_do_other_open_texts(tmp_path: Path) -> None:
    lab = copy_lab(tmp_path)
    method, card = lab / "methods" / "flavonoid-aglycones.yaml", lab / DIOL
    async with editor(lab) as one:
        one.open(method)
        assert not [m for m in await one.settled(method) if m.severity == SEVERITY["fault"]]
        one.change(method, one.texts[method].replace("oven_temperature: 40 degC", "oven: 40"))
        await one.until(method, "document.unknown-key")
        one.change(method, method.read_text("utf-8"))
        await one.until(method, "document.unknown-key", there=False)

        one.open(card)
        await one.settled(card)
        lowered = one.texts[card].replace("pressure_rating: 400 bar", "pressure_rating: 200 bar")
        one.change(card, "# never saved\n" + lowered)
        marks = await one.until(card, RATING)
        lines = {mark.range.start.line for mark in marks if mark.code == RATING}
        assert lines == {line_of(card, "pressure_rating")}, "one line lower than on disk"
        one.close(card)
        await one.until(card, RATING, there=False)


async def test_saving_a_card_judges_what_depends_on_it(tmp_path: Path) -> None:
    lab = copy_lab(tmp_path)
    card = lab / DIOL
    async with editor(lab) as one:
        one.open(card)
        assert not [m for m in await one.settled(card) if m.code == RATING]
        one.change(card, one.texts[card].replace("rating: 400 bar", "rating: 200 bar"))
        assert not [m for m in await one.settled(card) if m.code == RATING], (
            "not before it is saved"
        )
        one.save(card)
        marks = await one.until(card, RATING)
        said = "\n".join(mark.message for mark in marks if mark.code == RATING)
        assert "flavonoid-aglycones" in said
        assert "dye-intermediates" in said
        one.change(card, one.texts[card] + "# a remark\n")
        await one.until(card, RATING, there=False)


async def test_hover_tells_the_state_at_a_row(tmp_path: Path) -> None:
    lab = copy_lab(tmp_path, sound=False)
    file = lab / HOT
    async with editor(lab) as one:
        one.open(file)
        text = await one.hover(file, "time: 8 min")
    state = methodlint.rehearse(file)
    row = int(np.argmin(np.abs(state.time - 8 * 60.0)))
    assert "terpenoids-hot-and-low on bench-a at 8 min" in text
    assert f"column inlet {state.column_inlet_pressure[row] / 1e5:.0f} bar" in text
    assert f"{state.mean_column_density[row]:.0f} kg/m3 in the column" in text
    below = re.search(r"phase boundary: ([\d.]+) bar below it", text)
    assert below
    assert float(below.group(1)) == pytest.approx(-state.least_margin[row] / 1e5, rel=0.01)


async def test_hover_tells_what_the_limit_of_a_card_meets(tmp_path: Path) -> None:
    lab = copy_lab(tmp_path)
    async with editor(lab) as one:
        one.open(lab / DIOL)
        text = await one.hover(lab / DIOL, "pressure_rating")
    state = methodlint.rehearse(lab / "methods" / "flavonoid-aglycones.yaml")
    worst = state.column_inlet_pressure.max() / 1e5
    assert "Highest pressure at the inlet." in text
    part = text.partition("flavonoid-aglycones on bench-a")[2]
    assert f"inlet: up to {worst:.0f} bar" in part
    assert f"limit 400 bar, margin {400 - worst:.0f} bar" in part


async def test_hover_tells_when_a_line_runs(tmp_path: Path) -> None:
    lab = copy_lab(tmp_path)
    file = lab / "sequences" / "triazole-day-batch.yaml"
    async with editor(lab) as one:
        one.open(file)
        first = one.texts[file].index("kind:", one.texts[file].index("lines:"))
        text = await one.hover(file, one.texts[file][first : first + 12])
        assert "injection 1" in text
        assert "CO2 taken until its end" in text
        assert "injections in" in await one.hover(file, "supply")


async def test_go_to_the_card_that_is_named(tmp_path: Path) -> None:
    lab = copy_lab(tmp_path)
    method = lab / "methods" / "flavonoid-aglycones.yaml"
    batch = lab / "sequences" / "triazole-day-batch.yaml"
    async with editor(lab) as one:
        one.open(method)
        one.open(batch)
        assert await one.definition(method, "column: diol-3um") == lab / DIOL
        assert await one.definition(method, "[bench-a") == lab / "instruments" / "bench-a.yaml"
        assert await one.definition(method, "oven_temperature") is None
        for key, folder in {"supply": "supplies", "solvents": "solvents", "room": "rooms"}.items():
            name = re.search(rf"^{key}: (\S+)$", one.texts[batch], re.MULTILINE)
            assert name
            found = await one.definition(batch, name.group(0))
            assert found == lab / folder / f"{name.group(1)}.yaml"


@pytest.mark.parametrize("end", ["\n", "\r\n"])
async def test_a_remedy_is_offered_as_a_change_that_clears_it(tmp_path: Path, end: str) -> None:
    lab = copy_lab(tmp_path, sound=False)
    file = lab / HOT
    text = file.read_text("utf-8").replace("title: ", "title: 😀 ")
    file.write_bytes(text.replace("\n", end).encode("utf-8"))
    async with editor(lab) as one:
        one.open(file)
        await one.until(file, "phase.two-phase-at-outlet")
        assert await one.actions(file, "kind") == []
        actions = await one.actions(file, "90 bar")
        assert actions[0].title.startswith("set the outlet pressure to 150 bar")
        assert [action.is_preferred for action in actions] == [True, *[False] * (len(actions) - 1)]
        before = one.texts[file]
        # The ends of lines are the same for every action.
        for action in actions if end == "\n" else actions[:1]:
            assert action.kind == types.CodeActionKind.QuickFix
            codes = [mark.code for mark in action.diagnostics or ()]
            assert codes == ["phase.two-phase-at-outlet"]
            assert action.edit is not None
            (whole,) = action.edit.document_changes or ()
            assert isinstance(whole, types.TextDocumentEdit)
            assert whole.text_document.version == 1, "the version that the actions were made for"
            edits = [edit for edit in whole.edits if isinstance(edit, types.TextEdit)]
            new = one.applied(file, edits)
            assert new != before
            assert new.count(end) == before.count(end)
            one.change(file, new)
            await one.until(file, "phase.two-phase-at-outlet", there=False)
            assert not [m for m in await one.settled(file) if m.severity == SEVERITY["fault"]]
            one.change(file, before)
            await one.until(file, "phase.two-phase-at-outlet")
            actions_again = await one.actions(file, "90 bar")
            assert [a.title for a in actions_again] == [a.title for a in actions]
