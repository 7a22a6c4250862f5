"""What the server answers: hovers, definitions, code actions, and when it judges."""

from __future__ import annotations

import contextlib
import logging
from collections.abc import Collection, Iterator
from pathlib import Path as FilePath

from lsprotocol import types
from pygls.exceptions import JsonRpcException

from methodlint.changes.texts import changed_texts
from methodlint.checking.dependents import SUFFIXES, documents_of
from methodlint.documents.library import LabFolder, lab_root
from methodlint.documents.loading import Loaded
from methodlint.documents.tables.files import SUFFIXES as TABLES
from methodlint.documents.text.one_line import one_line
from methodlint.documents.text.places import Path
from methodlint.documents.text.reach import real
from methodlint.documents.text.visible import visible
from methodlint.editor.changes import edits_between, solved_findings
from methodlint.editor.completion import Offer, offers_at, spot_at
from methodlint.editor.diagnostics import diagnostics, range_of
from methodlint.editor.hover import hover_text
from methodlint.editor.judgement import OpenJudgement
from methodlint.editor.positions import TextLines
from methodlint.editor.session import EditorServer, file_of
from methodlint.editor.symbols import symbols_of
from methodlint.editor.values import path_at, references_in, referred_file

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
            watched = [types.FileSystemWatcher(f"**/*{end}") for end in (*SUFFIXES, *TABLES)]
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

    @server.feature(types.TEXT_DOCUMENT_REFERENCES)
    async def references(params: types.ReferenceParams) -> list[types.Location]:
        judgement = await server.judgement_of(params.text_document.uri)
        if judgement is None or judgement.document is None:
            return []
        found = _value_at(judgement, params.position)
        target = referred_file(judgement.folder, *found) if found is not None else None
        return list(_references(server, judgement, target or judgement.document.path))

    @server.feature(types.TEXT_DOCUMENT_DOCUMENT_SYMBOL)
    async def outline(params: types.DocumentSymbolParams) -> list[types.DocumentSymbol]:
        judgement = await server.judgement_of(params.text_document.uri)
        document = judgement.document if judgement is not None else None
        lines = judgement.lines_of(document.path) if judgement is not None and document else None
        return symbols_of(document.read, lines) if document is not None and lines else []

    @server.feature(
        types.TEXT_DOCUMENT_COMPLETION, types.CompletionOptions(trigger_characters=[" ", ":"])
    )
    async def completion(params: types.CompletionParams) -> list[types.CompletionItem]:
        file = file_of(params.text_document.uri)
        held = server.open_texts().get(real(file)) if file is not None else None
        if held is None or file is None:
            return []
        lines = TextLines(held.text, server.encoding)
        root = lab_root(file)
        folder = LabFolder(root, root)
        spot = spot_at(lines.lines, *lines.column(params.position))
        return [] if spot is None else list(_items(offers_at(spot, folder), lines, params.position))

    options = types.CodeActionOptions(code_action_kinds=[types.CodeActionKind.QuickFix])

    @server.feature(types.TEXT_DOCUMENT_CODE_ACTION, options)
    async def actions(params: types.CodeActionParams) -> list[types.CodeAction]:
        judgement = await server.judgement_of(params.text_document.uri)
        file = file_of(params.text_document.uri)
        if judgement is None or file is None:
            return []
        return [
            *_replacements(server, judgement, file, params.range),
            *_actions(server, judgement, file, params.range),
        ]

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
                is_preferred=candidate is next(solved_findings([finding]))[1],
            )


def _replacements(
    server: EditorServer, judgement: OpenJudgement, file: FilePath, wanted: types.Range
) -> Iterator[types.CodeAction]:
    """Yield what may be meant in place of what is written within a range of a file."""
    marks = [mark for _, mark in diagnostics(judgement)]
    for finding in judgement.report.findings:
        where = range_of(finding.at, judgement)
        lines = judgement.lines_of(finding.at.file)
        elsewhere = real(judgement.path_of(finding.at.file)) != real(file)
        if elsewhere or lines is None or not _overlap(where, wanted):
            continue
        own = [m for m in marks if m.code == finding.rule and m.range.start == where.start]
        for number, text in enumerate(finding.meant):
            edits = [types.TextEdit(where, one_line(text))]
            yield types.CodeAction(
                visible(f"write {text}"),
                kind=types.CodeActionKind.QuickFix,
                diagnostics=own,
                edit=_as_workspace_edit(server, judgement, {finding.at.file: edits}),
                is_preferred=number == 0 and len(finding.meant) == 1,
            )


def _references(
    server: EditorServer, judgement: OpenJudgement, shown: str
) -> Iterator[types.Location]:
    """Yield the places in the lab that name a file, by its path as shown."""
    for document in documents_of(judgement.folder):
        lines = TextLines(document.read.data.decode("utf-8", "replace"), server.encoding)
        uri = server.uri_of(judgement.path_of(document.path))
        for place in references_in(judgement.folder, document, shown):
            yield types.Location(uri, lines.range_of(place))


_SORTS = {
    "key": types.CompletionItemKind.Field,
    "word": types.CompletionItemKind.EnumMember,
    "unit": types.CompletionItemKind.Unit,
    "name": types.CompletionItemKind.Reference,
    "value": types.CompletionItemKind.Value,
}


def _items(
    offers: Iterator[Offer], lines: TextLines, position: types.Position
) -> Iterator[types.CompletionItem]:
    line, column = lines.column(position)
    for number, offer in enumerate(offers):
        start = lines.position(line, column - offer.replaces)
        text = offer.text if offer.sort in ("key", "unit") else one_line(offer.text)
        yield types.CompletionItem(
            offer.text.removesuffix(": "),
            kind=_SORTS[offer.sort],
            detail=offer.detail or None,
            sort_text=f"{number:04d}",
            text_edit=types.TextEdit(types.Range(start, position), text),
        )


def _workspace_edit(
    server: EditorServer, judgement: OpenJudgement, texts: dict[str, str]
) -> types.WorkspaceEdit | None:
    """Edits of whole lines; with versions where the editor can refuse what is out of date."""
    edits = {}
    for shown, text in texts.items():
        lines = judgement.lines_of(shown)
        if lines is None:
            return None
        edits[shown] = edits_between(lines, text)
    return _as_workspace_edit(server, judgement, edits)


def _as_workspace_edit(
    server: EditorServer, judgement: OpenJudgement, by_file: dict[str, list[types.TextEdit]]
) -> types.WorkspaceEdit:
    edits: dict[str, list[types.TextEdit]] = {}
    versions: dict[str, int | None] = {}
    for shown, made in by_file.items():
        uri = server.uri_of(judgement.path_of(shown))
        edits[uri] = made
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
