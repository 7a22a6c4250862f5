"""What is open in an editor, when it is judged, and what is shown of it."""

from __future__ import annotations

import asyncio
import traceback
from collections.abc import Collection, Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path as FilePath
from typing import Any, BinaryIO, cast
from urllib.parse import urlsplit

from lsprotocol import types
from pygls import uris
from pygls.lsp.server import LanguageServer

from methodlint.checking.report import Report
from methodlint.documents.text.reach import real
from methodlint.editor.diagnostics import diagnostics, without_repeats
from methodlint.editor.hover import concerns
from methodlint.editor.incoming import AnsweringProtocol, Incoming, refusal
from methodlint.editor.judgement import OpenJudgement, OpenText, judge
from methodlint.version import __version__

__all__ = ["EditorServer", "file_of"]

PAUSE = 0.3
"""Time [s] without a further change after which a text is judged."""


class EditorServer(LanguageServer):
    """Judges what is open in an editor.

    Attributes
    ----------
    judged
        The last judgement of every open document.
    with_dependents
        Judgements with what depends on a document, as it was when it was saved last.
    """

    def __init__(self, allowed: Collection[FilePath] = ()) -> None:
        super().__init__(
            "methodlint",
            __version__,
            protocol_cls=AnsweringProtocol,
            # Whole texts: lines are divided here in the protocol's way and in no other.
            text_document_sync_kind=types.TextDocumentSyncKind.Full,
        )
        self.judged: dict[FilePath, OpenJudgement] = {}
        self.with_dependents: dict[FilePath, OpenJudgement] = {}
        self._looked_up: dict[FilePath, OpenJudgement] = {}
        self._allowed = {folder.resolve() for folder in allowed}
        self._waiting: dict[FilePath, asyncio.Task[None]] = {}
        self._shown: dict[str, list[types.Diagnostic]] = {}
        # One at a time: a judgement is all computation, and results arrive in order.
        self._pool = ThreadPoolExecutor(max_workers=1)

    def serve(self, source: BinaryIO) -> None:
        """Answer what is read from standard input until the editor ends the session."""

        def refuse(reason: str) -> None:
            self.protocol._send_response(cast(Any, None), error=refusal(reason))

        self.start_io(cast(BinaryIO, Incoming(source, refuse)))

    # What is open --------------------------------------------------------------------------

    def open_texts(self) -> dict[FilePath, OpenText]:
        """Texts of everything that is open, by real paths."""
        found = {}
        for document in list(self.workspace.text_documents.values()):
            file = file_of(document.uri)
            if file is not None:
                held = OpenText(document.uri, document.source, document.version)
                found[real(file)] = held
        return found

    @property
    def encoding(self) -> str:
        """Unit of positions that was agreed on."""
        agreed = self.workspace.position_encoding
        return str(getattr(agreed, "value", agreed))

    def uri_of(self, file: FilePath) -> str:
        """URI of a file, spelt as the editor spells it if it is open there."""
        held = self.open_texts().get(real(file))
        return held.uri if held is not None else file.as_uri()

    # Judging -------------------------------------------------------------------------------

    def judge_soon(self, uri: str, *, pause: float = PAUSE, saved: bool = False) -> None:
        """Judge a document once no further change has come for a while."""
        file = file_of(uri)
        if file is None:
            return
        self._no_longer_wait(real(file))
        task = asyncio.ensure_future(self._judge_after(file, pause, saved))
        self._waiting[real(file)] = task

    def _no_longer_wait(self, key: FilePath) -> None:
        waiting = self._waiting.pop(key, None)
        if waiting is not None:
            waiting.cancel()

    async def _judge_after(self, file: FilePath, pause: float, saved: bool) -> None:
        await asyncio.sleep(pause)
        # From here on a change waits for its turn instead of stopping what is under way.
        self._waiting.pop(real(file), None)
        try:
            await self._judge(file)
            for other in self._open_users(file):
                await self._judge(other)
            if saved:
                self.with_dependents[real(file)] = await self._judgement(file, dependents=True)
            self._publish()
        except Exception as error:
            # The session goes on; the next change may be judged again.
            text = f"methodlint: an error of this tool: {type(error).__name__}: {error}"
            told = types.LogMessageParams(
                types.MessageType.Error, f"{text}\n{traceback.format_exc()}"
            )
            self.window_log_message(told)

    def _open_users(self, file: FilePath) -> list[FilePath]:
        """Other open documents whose judgement may look at a file."""
        users = []
        for key, judgement in self.judged.items():
            reads = {real(judgement.path_of(path)) for path in judgement.report.documents}
            lost = any(
                finding.rule == "document.reference-unresolved"
                for finding in judgement.report.findings
            )
            if key != real(file) and (real(file) in reads or lost):
                users.append(judgement.file)
        return users

    async def _judge(self, file: FilePath) -> None:
        judgement = await self._judgement(file)
        if real(file) in self.open_texts():
            self.judged[real(file)] = judgement

    async def _judgement(self, file: FilePath, *, dependents: bool = False) -> OpenJudgement:
        texts, encoding = self.open_texts(), self.encoding

        def run() -> OpenJudgement:
            return judge(file, texts, encoding, with_dependents=dependents, allowed=self._allowed)

        return await asyncio.get_running_loop().run_in_executor(self._pool, run)

    async def judgement_of(self, uri: str) -> OpenJudgement | None:
        """The judgement of a document's present text; None if it is none of ours."""
        file = file_of(uri)
        if file is None:
            return None
        key = real(file)
        held = self.open_texts().get(key)
        found = self.judged.get(key)
        if held is not None and (found is None or found.texts[key] != held):
            self._no_longer_wait(key)
            await self._judge_after(file, 0.0, saved=False)
            found = self.judged.get(key)
        return found if found is not None and found.document is not None else None

    async def reports_about(self, judgement: OpenJudgement) -> list[Report]:
        """Reports with the runs and batches that a document takes part in."""
        assert judgement.document is not None
        path, root = judgement.document.path, judgement.folder.root
        known = [*self.judged.values(), *self.with_dependents.values()]
        reports = [judgement.report]
        reports += [one.report for one in known if one.folder.root == root]
        if not any(concerns(report, path) for report in reports):
            key = real(judgement.file)
            looked_up = self._looked_up.get(key)
            if looked_up is None or looked_up.texts != judgement.texts:
                looked_up = await self._judgement(judgement.file, dependents=True)
                self._looked_up[key] = looked_up
            reports.append(looked_up.report)
        return reports

    def forget(self, uri: str) -> None:
        """A document was closed: what is on disk counts again."""
        file = file_of(uri)
        if file is None:
            return
        for kept in (self.judged, self.with_dependents, self._looked_up):
            kept.pop(real(file), None)
        self._no_longer_wait(real(file))
        for other in self._open_users(file):
            self.judge_soon(self.uri_of(other))
        self._publish()

    # Diagnostics ---------------------------------------------------------------------------

    def _publish(self) -> None:
        """Show what has changed since it was shown last."""
        marks: dict[FilePath, list[types.Diagnostic]] = {}
        names: dict[FilePath, FilePath] = {}
        for judgement in self._in_force():
            for shown, mark in diagnostics(judgement):
                file = judgement.path_of(shown)
                key = real(file)
                if self._same_text(judgement, key):
                    names.setdefault(key, file)
                    marks.setdefault(key, []).append(mark)
        texts = self.open_texts()
        told = {self.uri_of(names[key]): without_repeats(found) for key, found in marks.items()}
        for key in self.judged:
            if key in texts:
                told.setdefault(texts[key].uri, [])
        for uri in [uri for uri in self._shown if uri not in told]:
            told[uri] = []
        for uri, found in told.items():
            at = file_of(uri)
            own = self.judged.get(real(at)) if at is not None else None
            if self._shown.get(uri) != found or own is not None:
                version = own.texts[real(own.file)].version if own is not None else None
                self.text_document_publish_diagnostics(
                    types.PublishDiagnosticsParams(uri, found, version)
                )
        self._shown = {uri: found for uri, found in told.items() if found}

    def _in_force(self) -> Iterator[OpenJudgement]:
        yield from self.judged.values()
        yield from self.with_dependents.values()

    def _same_text(self, judgement: OpenJudgement, key: FilePath) -> bool:
        """Whether a judgement has seen the text of a file that the file's own has seen.

        What was judged when a document was saved says nothing about open texts once that document
        has changed again.
        """
        own = self.judged.get(key)
        source = real(judgement.file)
        now = self.judged.get(source)
        if own is not None and now is not None and not self._same(judgement, now, source):
            return False
        if own is None:
            return key not in judgement.texts or key in self.open_texts()
        return self._same(judgement, own, key)

    @staticmethod
    def _same(one: OpenJudgement, other: OpenJudgement, key: FilePath) -> bool:
        held, known = one.texts.get(key), other.texts.get(key)
        return (held and held.text) == (known and known.text)


def file_of(uri: str) -> FilePath | None:
    """File of a URI; None for what is not on a disk, such as a text without a name."""
    try:
        if urlsplit(uri).scheme != "file":
            return None
        path = uris.to_fs_path(uri)
    except ValueError:
        return None
    return FilePath(path) if path and "\0" not in path else None
