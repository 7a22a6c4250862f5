"""Judge one document of an editor with the texts of all documents that are open."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from pathlib import Path as FilePath

from methodlint.checking.check import judge_documents
from methodlint.checking.dependents import dependents
from methodlint.checking.report import Report
from methodlint.documents.library import LabFolder, lab_root
from methodlint.documents.loading import Loaded
from methodlint.documents.text.reach import real
from methodlint.editor.positions import TextLines
from methodlint.judging.lab_rules import rule_folders
from methodlint.judging.loader import built_in_rules

__all__ = ["OpenJudgement", "OpenText", "judge"]


@dataclass(frozen=True, slots=True)
class OpenText:
    """A document as the editor holds it: where, its text, the editor's count of its changes."""

    uri: str
    text: str
    version: int | None


@dataclass
class OpenJudgement:
    """What was found about one document.

    Attributes
    ----------
    file
        The file that was judged, as the editor names it.
    folder
        Its lab folder, with every text that was read.
    document
        The document; None if the file has nothing to do with this tool.
    texts
        What was open, by real paths.
    encoding
        Unit of the editor's positions.
    """

    file: FilePath
    folder: LabFolder
    document: Loaded | None
    report: Report
    texts: Mapping[FilePath, OpenText]
    encoding: str
    _lines: dict[FilePath, TextLines] = field(default_factory=dict)

    def path_of(self, shown: str) -> FilePath:
        """Path of a file by its path as shown."""
        return self.folder.shown_from / shown

    def lines_of(self, shown: str) -> TextLines | None:
        """Text of a file that took part; None where it has no lines, as a workbook."""
        file = real(self.path_of(shown))
        if file not in self._lines:
            text = self._text_of(shown, file)
            if text is None:
                return None
            self._lines[file] = TextLines(text, self.encoding)
        return self._lines[file]

    def _text_of(self, shown: str, file: FilePath) -> str | None:
        if file in self.texts:
            return self.texts[file].text
        for table in self.report.tables:
            if table.path == shown:
                return None if table.workbook else table.data.decode("utf-8", "replace")
        for document in self.report.documents.values():
            if document.path == shown:
                return document.read.data.decode("utf-8", "replace")
        return None


def judge(
    file: FilePath,
    texts: Mapping[FilePath, OpenText],
    encoding: str,
    *,
    with_dependents: bool = False,
    allowed: Collection[FilePath] = (),
) -> OpenJudgement:
    """Judge a file as `check` does, with the texts that are open in place of those on disk.

    Parameters
    ----------
    file
        The file; it need not be on disk if it is open.
    texts
        What is open, by real paths.
    encoding
        Unit of the editor's positions.
    with_dependents
        Judge methods and sequences that depend on it too.
    allowed
        Folders of the lab's own rules that may be run, resolved.
    """
    root = lab_root(file)
    data = {path: held.text.encode("utf-8", "surrogatepass") for path, held in texts.items()}
    # Paths are shown from the lab's folder: the server's own folder says nothing to anybody.
    folder = LabFolder(root, root, data)
    document = folder.open(file) or folder.unreadable(file, asked_for=False)
    if document is None:
        return OpenJudgement(file, folder, None, Report(documents={}), texts, encoding)
    targets = [document]
    if with_dependents:
        targets += dependents(folder, targets)
    rules = built_in_rules()
    of_lab = rule_folders(folder.lab, root, allowed, {rule.id for rule in rules})
    report = judge_documents(folder, targets, rules, of_lab=of_lab)
    return OpenJudgement(file, folder, document, report, texts, encoding)
