"""What the server answers: hovers, definitions, code actions, and when it judges."""

from __future__ import annotations

import contextlib
import logging
from collections.abc import Collection, Iterator
from pathlib import Path as FilePath

from lsprotocol import types
from pygls.exceptions import JsonRpcException

from methodlint.changes.texts import changed_texts
from methodlint.documents.loading import Loaded
from methodlint.documents.text.places import Path
from methodlint.documents.text.reach import real
from methodlint.documents.text.visible import visible
from methodlint.editor.changes import edits_between, solved_findings
from methodlint.editor.diagnostics import diagnostics, range_of
from methodlint.editor.hover import hover_text
from methodlint.editor.judgement import OpenJudgement
from methodlint.editor.session import EditorServer, file_of
from methodlint.editor.values import path_at, referred_file

__all__ = ["editor_server"]


def editor_server(allowed: Collection[FilePath] = ()) -> EditorServer:
    """Make a server that is ready to start.

    Parameters
    ----------
    allowed
        Folders of the lab's own rules that may be run.
    """
    server = EditorServer(allowed)
    # Nothing but the protocol goes to standard output, and no chatter to standard error.
    logging.getLogger("pygls").setLevel(logging.CRITICAL)

    @server.feature(types.INITIALIZED)
    async def ready(params: types.InitializedParams) -> None:
        workspace = server.client_capabilities.workspace
        able = workspace.did_change_watched_files if workspace is not None else None
        if able is not None and able.dynamic_registration:
            # Cards that others change on the disk, such as by a checkout of another branch.
            watched = [types.FileSystemWatcher(f"**/*.{end}") for end in ("yaml", "yml", "csv")]
            options = types.DidChangeWatchedFilesRegistrationOptions(watched)
            method = types.WORKSPACE_DID_CHANGE_WATCHED_FILES
            asked = types.Registration("files", method, options)
            # One that refuses after all does without.
            with contextlib.suppress(JsonRpcException):
                await server.client_register_capability_async(types.RegistrationParams([asked]))

    @server.feature(types.TEXT_DOCUMENT_DID_OPEN)
    async def opened(params: types.DidOpenTextDocumentParams) -> None:
        server.judge_soon(params.text_document.uri, pause=0.0)

    @server.feature(types.TEXT_DOCUMENT_DID_CHANGE)
    async def changed(params: types.DidChangeTextDocumentParams) -> None:
        server.judge_soon(params.text_document.uri)

    @server.feature(types.TEXT_DOCUMENT_DID_SAVE)
    async def saved(params: types.DidSaveTextDocumentParams) -> None:
        server.judge_soon(params.text_document.uri, pause=0.0, saved=True)

    @server.feature(types.TEXT_DOCUMENT_DID_CLOSE)
    async def closed(params: types.DidCloseTextDocumentParams) -> None:
        server.forget(params.text_document.uri)

    @server.feature(types.WORKSPACE_DID_CHANGE_WATCHED_FILES)
    async def on_disk(params: types.DidChangeWatchedFilesParams) -> None:
        for held in server.open_texts().values():
            server.judge_soon(held.uri)

    @server.feature(types.TEXT_DOCUMENT_HOVER)
    async def hover(params: types.HoverParams) -> types.Hover | None:
        judgement = await server.judgement_of(params.text_document.uri)
        found = _value_at(judgement, params.position)
        if judgement is None or found is None:
            return None
        text = hover_text(*found, await server.reports_about(judgement))
        # Plain text: what a document says can never act as markup.
        content = types.MarkupContent(types.MarkupKind.PlainText, text)
        return types.Hover(content) if text else None

    @server.feature(types.TEXT_DOCUMENT_DEFINITION)
    async def definition(params: types.DefinitionParams) -> types.Location | None:
        judgement = await server.judgement_of(params.text_document.uri)
        found = _value_at(judgement, params.position)
        if judgement is None or found is None:
            return None
        target = referred_file(judgement.folder, *found)
        if target is None:
            return None
        start = types.Position(0, 0)
        return types.Location(server.uri_of(judgement.path_of(target)), types.Range(start, start))

    options = types.CodeActionOptions(code_action_kinds=[types.CodeActionKind.QuickFix])

    @server.feature(types.TEXT_DOCUMENT_CODE_ACTION, options)
    async def actions(params: types.CodeActionParams) -> list[types.CodeAction]:
        judgement = await server.judgement_of(params.text_document.uri)
        file = file_of(params.text_document.uri)
        if judgement is None or file is None:
            return []
        return list(_actions(server, judgement, file, params.range))

    return server


def _value_at(
    judgement: OpenJudgement | None, position: types.Position
) -> tuple[Loaded, Path] | None:
    """The document, and the path of its value at a position; None where there is none."""
    document = judgement.document if judgement is not None else None
    lines = judgement.lines_of(document.path) if judgement is not None and document else None
    if document is None or lines is None:
        return None
    path = path_at(document.read, *lines.column(position))
    return (document, path) if path is not None else None


def _actions(
    server: EditorServer, judgement: OpenJudgement, file: FilePath, wanted: types.Range
) -> Iterator[types.CodeAction]:
    """Yield the remedies of findings within a range of a file."""
    for finding, candidate in solved_findings(judgement.report.findings):
        where = range_of(finding.at, judgement)
        elsewhere = real(judgement.path_of(finding.at.file)) != real(file)
        if elsewhere or not _overlap(where, wanted):
            continue
        texts = changed_texts(candidate, judgement.folder)
        if texts is None:
            continue
        edit = _workspace_edit(server, judgement, texts)
        if edit is not None:
            marks = [
                mark
                for _, mark in diagnostics(judgement)
                if mark.code == finding.rule and mark.range.start == where.start
            ]
            yield types.CodeAction(
                visible(candidate.text),
                kind=types.CodeActionKind.QuickFix,
                diagnostics=marks,
                edit=edit,
                is_preferred=candidate is finding.solutions[0],
            )


def _workspace_edit(
    server: EditorServer, judgement: OpenJudgement, texts: dict[str, str]
) -> types.WorkspaceEdit | None:
    """Edits of whole lines; with versions where the editor can refuse what is out of date."""
    edits: dict[str, list[types.TextEdit]] = {}
    versions: dict[str, int | None] = {}
    for shown, text in texts.items():
        lines = judgement.lines_of(shown)
        if lines is None:
            return None
        uri = server.uri_of(judgement.path_of(shown))
        edits[uri] = edits_between(lines, text)
        held = judgement.texts.get(real(judgement.path_of(shown)))
        versions[uri] = held.version if held is not None else None
    workspace = server.client_capabilities.workspace
    able = workspace.workspace_edit if workspace is not None else None
    if able is None or not able.document_changes:
        return types.WorkspaceEdit(changes=edits)
    return types.WorkspaceEdit(
        document_changes=[
            types.TextDocumentEdit(
                types.OptionalVersionedTextDocumentIdentifier(uri, versions[uri]), made
            )
            for uri, made in edits.items()
        ]
    )


def _overlap(one: types.Range, other: types.Range) -> bool:
    return not (one.end < other.start or other.end < one.start)
