"""Completion, references, outline, links to pages and corrections, spoken to as editors do."""

from __future__ import annotations

import json
import subprocess
from pathlib import Path
from typing import Any

import pytest
from lsprotocol import types

from tests.command import PYTHON, environment
from tests.editor.session import editor
from tests.reports.scratch_lab import copy_lab

METHOD = "methods/flavonoid-aglycones.yaml"


@pytest.mark.asyncio
async def test_what_helps_while_writing(tmp_path: Path) -> None:
    lab = copy_lab(tmp_path)
    file = lab / METHOD
    text = file.read_text(encoding="utf-8")
    async with editor(lab) as one:
        named = types.TextDocumentIdentifier(file.as_uri())
        slips = text.replace("outlet_pressure:", "outlet_presure:").replace("mL/min", "mL/mn", 1)
        assert slips.count("presure") == 1
        assert slips.count("mL/mn") == 1
        one.open(file, slips)
        marks = {mark.code: mark for mark in await one.settled(file)}
        page = marks["document.unknown-key"].code_description
        assert page is not None
        assert page.href.endswith("/rules/document/unknown_key.py")
        for at, wrong in (("outlet_presure", "outlet_presure:"), ("mL/mn", "mL/mn")):
            (fix,) = [a for a in await one.actions(file, at) if a.title.startswith("write ")]
            assert fix.is_preferred
            (edit,) = fix.edit.document_changes
            mended = one.applied(file, edit.edits)
            assert wrong not in mended
            one.change(file, mended)
        assert one.texts[file] == text

        outline = await one.client.text_document_document_symbol_async(
            types.DocumentSymbolParams(named)
        )
        names = [symbol.name for symbol in outline]
        assert names[:2] == ["kind", "title"]
        programme = next(symbol for symbol in outline if symbol.name == "programme")
        assert programme.children[0].name == "1 0 min"

        column = one.position(file, "column: ", len("column: ") + 1)
        found = await one.client.text_document_references_async(
            types.ReferenceParams(types.ReferenceContext(True), named, column)
        )
        used = {Path(place.uri).name for place in found}
        assert "flavonoid-aglycones.yaml" in used
        assert used >= {
            path.name for path in (lab / "methods").iterdir() if "diol-3um" in path.read_text()
        }

        end = types.Position(len(text.split("\n")) - 1, 0)
        one.change(file, text + "la")
        at = types.Position(end.line, 2)
        offers = await one.client.text_document_completion_async(types.CompletionParams(named, at))
        labels = {offer.label: offer for offer in offers}
        assert "flow" not in labels
        added = labels["equivalent_columns"]
        assert one.applied(file, [added.text_edit]).endswith("\nequivalent_columns: ")
        one.change(file, text)
        await one.settled(file)


def test_nothing_malformed_leaves_the_server_deaf(tmp_path: Path) -> None:
    """Spoken to byte by byte: each request after what is malformed is answered."""
    hover = {"textDocument": {"uri": (tmp_path / "a.yaml").as_uri()}, "position": {}}

    def message(number: int | None, method: str, params: Any) -> bytes:
        held = {"jsonrpc": "2.0", "method": method, "params": params}
        body = json.dumps(held if number is None else {**held, "id": number}).encode()
        return b"Content-Length: %d\r\n\r\n" % len(body) + body

    good = {**hover, "position": {"line": 0, "character": 0}}
    sent = [
        message(1, "initialize", {"processId": None, "rootUri": None, "capabilities": {}}),
        message(2, "textDocument/hover", {}),
        message(3, "textDocument/hover", {**hover, "position": {"line": 10**30, "character": -5}}),
        message(4, "textDocument/nothing", [1]),
        b'Content-Length: 5\r\n\r\n{"a":',
        message(5, "textDocument/hover", good),
        b"Content-Length: many\r\n\r\n{}",
        message(6, "textDocument/hover", good),
        b"Content-Length: 99999999999999\r\n\r\n{}",
        message(7, "textDocument/completion", good),
        message(8, "shutdown", None),
        message(None, "exit", None),
    ]
    done = subprocess.run(
        [*PYTHON, "editor"], input=b"".join(sent), capture_output=True, timeout=60,
        env=environment({}), check=False,
    )  # fmt: skip
    assert done.returncode == 0
    answers: dict[int, dict[str, Any]] = {}
    rest = done.stdout
    while rest:
        head, _, rest = rest.partition(b"\r\n\r\n")
        length = int(head.partition(b"Content-Length: ")[2].partition(b"\r\n")[0])
        held = json.loads(rest[:length])
        rest = rest[length:]
        if "id" in held and "method" not in held:
            answers[held["id"]] = held
    assert {number for number, held in answers.items() if "error" in held} == {2, 3, 4}
    assert answers.keys() == set(range(1, 9))
