"""An editor in miniature: a client of pytest-lsp, and a server that it talks to.

Both sides speak the bytes of the protocol. Most sessions keep the server in this process, with
two streams in memory between them; a session with a process of its own goes over pipes.
"""

from __future__ import annotations

import asyncio
import json
import re
import threading
from collections.abc import AsyncIterator, Sequence
from contextlib import asynccontextmanager
from pathlib import Path
from typing import Any

from lsprotocol import types
from pygls.io_ import run_async
from pytest_lsp import LanguageClient, client_capabilities, make_test_lsp_client

from methodlint.editor.server import editor_server
from tests.command import PYTHON, environment, run

PATIENCE = 60.0
_WIDTH = {"utf-8": ("utf-8", 1), "utf-16": ("utf-16-le", 2), "utf-32": ("utf-32-le", 4)}


class Editor:
    """Documents that are open, and what the server says about them."""

    def __init__(self, client: LanguageClient, encoding: str) -> None:
        self.client = client
        self.encoding = encoding
        self.watched: list[str] = []
        self.texts: dict[Path, str] = {}
        self.versions: dict[Path, int] = {}

    def open(self, file: Path, text: str | None = None) -> None:
        """Open a file; with a text, one that is not what is on disk."""
        if text is None:
            text = file.read_bytes().decode("utf-8")
        self.texts[file], self.versions[file] = text, 1
        item = types.TextDocumentItem(file.as_uri(), "yaml", 1, text)
        self.client.text_document_did_open(types.DidOpenTextDocumentParams(item))

    def change(self, file: Path, text: str) -> None:
        """Type a new text."""
        self.texts[file] = text
        self.versions[file] += 1
        version = types.VersionedTextDocumentIdentifier(self.versions[file], file.as_uri())
        whole = types.TextDocumentContentChangeWholeDocument(text)
        self.client.text_document_did_change(types.DidChangeTextDocumentParams(version, [whole]))

    def save(self, file: Path) -> None:
        """Write what is open to the disk."""
        file.write_bytes(self.texts[file].encode("utf-8"))
        named = types.TextDocumentIdentifier(file.as_uri())
        self.client.text_document_did_save(types.DidSaveTextDocumentParams(named))

    def close(self, file: Path) -> None:
        """Close a document without saving it."""
        named = types.TextDocumentIdentifier(file.as_uri())
        self.client.text_document_did_close(types.DidCloseTextDocumentParams(named))

    async def settled(self, file: Path) -> list[types.Diagnostic]:
        """Marks of a file once its present text has been judged."""
        named = types.TextDocumentIdentifier(file.as_uri())
        await asyncio.wait_for(
            self.client.text_document_code_action_async(
                types.CodeActionParams(
                    named,
                    types.Range(types.Position(0, 0), types.Position(0, 0)),
                    types.CodeActionContext([]),
                )
            ),
            PATIENCE,
        )
        return self.marks(file)

    def marks(self, file: Path) -> list[types.Diagnostic]:
        """Marks that the server has shown last."""
        return list(self.client.diagnostics.get(file.as_uri(), ()))

    async def until(self, file: Path, code: str, there: bool = True) -> list[types.Diagnostic]:
        """Wait until a rule is among the marks of a file, or no longer is."""
        for _ in range(int(PATIENCE / 0.05)):
            if any(mark.code == code for mark in self.marks(file)) is there:
                return self.marks(file)
            await asyncio.sleep(0.05)
        raise AssertionError(f"{code} {'never came' if there else 'stayed'}: {self.marks(file)}")

    def position(self, file: Path, text: str, behind: int = 0) -> types.Position:
        """Position of the first place where a text stands."""
        index = self.texts[file].index(text) + behind
        before = re.split(r"\r\n|\r|\n", self.texts[file][:index])
        return types.Position(len(before) - 1, units(before[-1], self.encoding))

    async def hover(self, file: Path, text: str) -> str:
        """What is said at a text; empty if nothing is."""
        named = types.TextDocumentIdentifier(file.as_uri())
        found = await self.client.text_document_hover_async(
            types.HoverParams(named, self.position(file, text, 1))
        )
        if found is None:
            return ""
        assert isinstance(found.contents, types.MarkupContent)
        return found.contents.value

    async def definition(self, file: Path, text: str) -> Path | None:
        """File that is gone to from the last character of a text."""
        named = types.TextDocumentIdentifier(file.as_uri())
        found = await self.client.text_document_definition_async(
            types.DefinitionParams(named, self.position(file, text, len(text) - 1))
        )
        if found is None:
            return None
        assert isinstance(found, types.Location)
        from pygls.uris import to_fs_path

        return Path(to_fs_path(found.uri) or "")

    async def actions(self, file: Path, text: str) -> list[types.CodeAction]:
        """Actions that are offered at a text."""
        named, at = types.TextDocumentIdentifier(file.as_uri()), self.position(file, text)
        found = await self.client.text_document_code_action_async(
            types.CodeActionParams(named, types.Range(at, at), types.CodeActionContext([]))
        )
        return [action for action in found or () if isinstance(action, types.CodeAction)]

    def applied(self, file: Path, edits: Sequence[types.TextEdit]) -> str:
        """The text of a file after edits, applied from the last to the first."""
        text = self.texts[file]
        ordered = sorted(
            edits, key=lambda e: (e.range.start.line, e.range.start.character), reverse=True
        )
        for edit in ordered:
            begin, end = (
                index_of(text, at, self.encoding) for at in (edit.range.start, edit.range.end)
            )
            text = text[:begin] + edit.new_text + text[end:]
        return text

    @property
    def errors(self) -> list[str]:
        """Errors that the server has logged or shown."""
        told = [*self.client.log_messages, *self.client.messages]
        return [one.message for one in told if one.type == types.MessageType.Error]


def units(text: str, encoding: str) -> int:
    """Length of a text in the units of an encoding, as Python's codecs count them."""
    codec, width = _WIDTH[encoding]
    return len(text.encode(codec)) // width


def index_of(text: str, at: types.Position, encoding: str) -> int:
    """Index into a text of a position, found by counting up."""
    starts = [0, *(match.end() for match in re.finditer(r"\r\n|\r|\n", text))]
    index = starts[at.line]
    while units(text[starts[at.line] : index], encoding) < at.character:
        index += 1
    return index


@asynccontextmanager
async def editor(
    folder: Path,
    *,
    encodings: Sequence[str] | None = None,
    refuses: bool = False,
    process: bool = False,
) -> AsyncIterator[Editor]:
    """Start a server with a folder open, and end it as an editor does."""
    client = make_test_lsp_client()
    watched: list[str] = []

    @client.feature(types.CLIENT_REGISTER_CAPABILITY)
    def registered(params: types.RegistrationParams) -> None:
        if refuses:
            raise ValueError("no")
        watched.extend(registration.method for registration in params.registrations)

    able = client_capabilities("visual-studio-code")
    if encodings is not None:
        assert able.general is not None
        able.general.position_encodings = list(encodings)
    opened = types.WorkspaceFolder(folder.as_uri(), folder.name)
    async with (over_pipes if process else in_memory)(client, folder):
        said = await client.initialize_session(
            types.InitializeParams(capabilities=able, workspace_folders=[opened])
        )
        chosen = said.capabilities.position_encoding or types.PositionEncodingKind.Utf16
        made = Editor(client, str(getattr(chosen, "value", chosen)))
        made.watched = watched
        yield made
    assert made.errors == []


@asynccontextmanager
async def over_pipes(client: LanguageClient, folder: Path) -> AsyncIterator[None]:
    """A server in a process of its own, which ends with status 0."""
    variables = environment({"PYTHONWARNINGS": "error::RuntimeWarning"})
    await client.start_io(*PYTHON, "editor", cwd=str(folder), env=variables)
    try:
        yield
    finally:
        await client.shutdown_session()
        await client.stop()
    assert client._server is not None
    assert client._server.returncode == 0


class Sending:
    """Where one side writes, and what the other side reads from."""

    def __init__(self) -> None:
        self.reader = asyncio.StreamReader()
        self.ended = threading.Event()

    def write(self, data: bytes) -> None:
        """Pass bytes on."""
        self.reader.feed_data(data)

    def close(self) -> None:
        """Say that nothing more comes."""
        self.reader.feed_eof()


@asynccontextmanager
async def in_memory(client: LanguageClient, folder: Path) -> AsyncIterator[None]:
    """A server in this process."""
    server = editor_server()
    to_server, to_client = Sending(), Sending()
    client.protocol.set_writer(to_server)
    server.protocol.set_writer(to_client)
    sides = [
        asyncio.create_task(
            run_async(
                stop_event=sent.ended,
                reader=sent.reader,
                protocol=side.protocol,
                error_handler=side.report_server_error,
            )
        )
        for side, sent in ((server, to_server), (client, to_client))
    ]
    try:
        yield
    finally:
        # Only `exit` is left out: it would end this process.
        await client.shutdown_async(None)
        to_server.close()
        to_client.close()
        await asyncio.gather(*sides)
        server.shutdown()


def checked(lab: Path, path: str) -> list[dict[str, Any]]:
    """Findings of the command line about one document, at places in that document."""
    done = run("check", path, "--show", "json", cwd=lab)
    data = json.loads(done.stdout)
    return [finding for finding in data["findings"] if finding["path"] == path]
