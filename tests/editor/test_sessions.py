"""Sessions with the server: what it watches, how it ends, and what must not end it."""

from __future__ import annotations

import asyncio
import re
from pathlib import Path

import pytest
from lsprotocol import types

from tests.command import run
from tests.editor.session import Editor, editor
from tests.reports.scratch_lab import change, copy_lab

pytestmark = pytest.mark.asyncio

HOT = "methods/terpenoids-hot-and-low.yaml"
DIOL = "columns/diol-3um.yaml"


async def test_a_session_over_pipes(tmp_path: Path) -> None:
    lab = copy_lab(tmp_path, sound=False)
    file = lab / HOT
    async with editor(lab, process=True) as one:
        one.open(file)
        assert "phase.two-phase-at-outlet" in {mark.code for mark in await one.settled(file)}
        assert "bench-a at 8 min" in await one.hover(file, "time: 8 min")
        actions = await one.actions(file, "90 bar")
        assert {action.kind for action in actions} == {types.CodeActionKind.QuickFix}
        assert one.watched == ["workspace/didChangeWatchedFiles"]


async def test_a_card_that_others_change_on_the_disk_is_noticed(tmp_path: Path) -> None:
    lab = copy_lab(tmp_path)
    method = lab / "methods" / "flavonoid-aglycones.yaml"
    async with editor(lab) as one:
        one.open(method)
        await one.settled(method)
        assert one.watched == ["workspace/didChangeWatchedFiles"]
        (lab / DIOL).unlink()
        gone = types.FileEvent((lab / DIOL).as_uri(), types.FileChangeType.Deleted)
        one.client.workspace_did_change_watched_files(types.DidChangeWatchedFilesParams([gone]))
        await one.until(method, "document.reference-unresolved")


async def test_an_editor_that_watches_no_files_is_served_too(tmp_path: Path) -> None:
    lab = copy_lab(tmp_path)
    method = lab / "methods" / "flavonoid-aglycones.yaml"
    async with editor(lab, refuses=True) as one:
        one.open(method, "kind: method\nflow: 2\n")
        await one.until(method, "document.unit-missing-or-wrong-kind")
        assert one.watched == []


async def test_yaml_of_others_gets_no_marks(tmp_path: Path) -> None:
    lab = copy_lab(tmp_path)
    async with editor(lab) as one:
        for number, text in enumerate(["kind: Pod\n", "a: [\n", "", "kind: Service\n---\na: b\n"]):
            one.open(lab / f"other{number}.yaml", text)
            assert await one.settled(lab / f"other{number}.yaml") == []


async def survives(one: Editor, file: Path, text: str) -> None:
    one.change(file, text)
    await one.settled(file)
    named = types.TextDocumentIdentifier(file.as_uri())
    for line in (0, text.count("\n"), 10_000):
        at = types.Position(line, 7)
        await one.client.text_document_hover_async(types.HoverParams(named, at))
        await one.client.text_document_definition_async(types.DefinitionParams(named, at))


async def test_no_text_ends_the_session(tmp_path: Path) -> None:
    lab = copy_lab(tmp_path, sound=False)
    file = lab / HOT
    sound = file.read_text("utf-8")
    async with editor(lab) as one:
        one.open(file)
        await one.settled(file)
        cuts = [sound[:length] for length in range(0, len(sound), 307)]
        odd = [
            "\x00",
            "\ufeff" + sound,
            "a: &a [*a, *a]",
            "? [x]\n: y",
            "{" * 5000,
            "\t",
            "- " * 900,
        ]
        odd += [sound.replace("\n", "\r"), "kind: method\n" + "x: 1\n" * 3_000, sound * 2]
        odd += ["kind: method\ncolumn: ../../../etc/passwd\n", "kind: method\nflow: 9e999 mL/min\n"]
        for text in [*cuts, *odd]:
            await survives(one, file, text)
        # JSON can carry half a pair of surrogates, which no text may hold.
        one.change(file, "kind: method\ntitle: \ud83d\n")
        await one.until(file, "document.unreadable")
        one.change(file, sound)
        await one.until(file, "phase.two-phase-at-outlet")


async def test_documents_that_are_on_no_disk(tmp_path: Path) -> None:
    lab = copy_lab(tmp_path)
    async with editor(lab) as one:
        item = types.TextDocumentItem("untitled:Untitled-1", "yaml", 1, "kind: method\n")
        one.client.text_document_did_open(types.DidOpenTextDocumentParams(item))
        card = lab / "columns" / "not-yet-saved.yaml"
        one.open(card, (lab / DIOL).read_text("utf-8"))
        method = lab / "methods" / "leaf-waxes.yaml"
        text = re.sub(
            r"^column: .*$", "column: not-yet-saved", method.read_text("utf-8"), flags=re.MULTILINE
        )
        one.open(method, text)
        marks = await one.settled(method)
        assert not [m for m in marks if m.code == "document.reference-unresolved"]
        assert await one.definition(method, "column: not-yet-saved") == card


async def test_changes_in_a_hurry_are_judged_once(tmp_path: Path) -> None:
    lab = copy_lab(tmp_path)
    file = lab / "methods" / "leaf-waxes.yaml"
    async with editor(lab) as one:
        one.open(file)
        await one.settled(file)
        told: list[int | None] = []

        def remember(params: types.PublishDiagnosticsParams) -> None:
            told.append(params.version)

        one.client.protocol.fm.features.pop("textDocument/publishDiagnostics", None)
        one.client.feature("textDocument/publishDiagnostics")(remember)
        for number in range(20):
            one.change(file, one.texts[file] + f"# {number}\n")
            await asyncio.sleep(0.01)
        for _ in range(200):
            if told:
                break
            await asyncio.sleep(0.05)
        assert told == [21]


async def test_rules_of_the_lab_are_not_run_by_an_editor(tmp_path: Path) -> None:
    lab = copy_lab(tmp_path)
    made = run("new", "rule", "house.never", "--into", "our-rules", cwd=lab)
    assert made.status == 0, made.stderr
    (rule,) = (lab / "our-rules" / "house").glob("*.py")
    trace = lab / "was-run"
    rule.write_text(f"open({str(trace)!r}, 'w')\n" + rule.read_text("utf-8"), encoding="utf-8")
    change(lab / "lab.yaml", "kind: lab", "kind: lab\nrule_folders: [our-rules]")
    async with editor(lab) as one:
        one.open(lab / "lab.yaml")
        marks = await one.settled(lab / "lab.yaml")
    assert not trace.exists()
    assert any("our-rules" in mark.message for mark in marks)
