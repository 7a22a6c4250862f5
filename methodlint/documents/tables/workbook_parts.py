"""Opens a workbook: the parts that a table needs, each bounded before it is unpacked and read.

A workbook (ISO/IEC 29500-1, ECMA-376) is a zip archive of XML parts. Sizes that an archive states
may be wrong and few bytes may unpack to very many, so every part is cut off at a limit, and its
tags and attributes are counted before the XML is read.
"""

from __future__ import annotations

import io
import posixpath
import re
import zipfile
import zlib
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from xml.parsers import expat

from methodlint.documents.tables.grid import LIMITS, TOO_LARGE, UNREADABLE
from methodlint.documents.text.visible import visible

SAVE = "Open the file in a spreadsheet, save it, and check again."
_DIVIDE = "Save the one sheet as CSV, or divide the table."
_NO_WORKBOOK = "the file is no workbook, or it is damaged or locked"
# What the library for archives stumbles over, by what the file holds.
_DAMAGED = (zipfile.BadZipFile, zlib.error, NotImplementedError, RuntimeError, OSError, EOFError,
            OverflowError, ValueError)  # fmt: skip
_END = b"PK\x05\x06"
_END_BYTES = 22
_DIRECTORY_BYTES = 256 * 1024
_WORKBOOK = "xl/workbook.xml"
_PIECE = 4 * 1024 * 1024
_NAMES = 2_000
_LONGEST_FORMAT = 255
# Formats that are known by number alone (ECMA-376 part 1, 18.8.30); dates of any kind as one.
_KNOWN_FORMATS = {1: "0", 2: "0.00", 9: "0%", 10: "0.00%", 11: "0.00E+00", 46: "[h]:mm:ss",
                  48: "##0.0E+0"} | dict.fromkeys(
    [*range(14, 23), *range(27, 37), 45, 47, *range(50, 59)], "yyyy-mm-dd"
)  # fmt: skip


class NoWorkbook(Exception):
    """A file is not read as a workbook; message, remedy and the id of the rule that says so."""

    def __init__(self, message: str, remedy: str = SAVE, rule: str = UNREADABLE) -> None:
        super().__init__(message)
        self.message, self.remedy, self.rule = message, remedy, rule


class Enough(Exception):
    """What was wanted of a part has been read."""


def too_large(what: str, most: int) -> NoWorkbook:
    """Say that a workbook exceeds a limit."""
    return NoWorkbook(
        f"the workbook has more than {most} {what}; the limit is that", _DIVIDE, TOO_LARGE
    )


Start = Callable[[str, dict[str, str]], None]
"""Takes the name of an element and its attributes."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """A sheet of a workbook.

    Attributes
    ----------
    name : str
        Its title.
    part : str
        Name of its part in the archive.
    shown : bool
        Whether the spreadsheet shows it.
    """

    name: str
    part: str
    shown: bool


@dataclass(slots=True)
class Workbook:
    """A workbook that is open.

    Attributes
    ----------
    sheets : list of Sheet
        In order.
    formats : list of str
        Number format of each cell style; `General` is empty.
    strings : list of str
        Texts that cells share, blanks at the ends taken off, cut off one character beyond the
        longest allowed.
    from_1904 : bool
        Whether days are counted from 1904-01-01.
    tags, attributes : int
        Counted so far, in all parts that were read.
    """

    archive: zipfile.ZipFile
    sheets: list[Sheet] = field(default_factory=list)
    formats: list[str] = field(default_factory=list)
    strings: list[str] = field(default_factory=list)
    from_1904: bool = False
    tags: int = 0
    attributes: int = 0

    def read(
        self,
        name: str,
        start: Start,
        end: Callable[[str], None] = lambda element: None,
        text: Callable[[str], None] = lambda text: None,
        *,
        top: int | None = None,
    ) -> None:
        """Read a part, or the first `top` bytes of it.

        Parameters
        ----------
        start, end, text
            What to call at elements, by their names without a prefix, and at characters; they may
            raise `Enough`.

        Raises
        ------
        NoWorkbook
            When it is not there, is no XML, declares a document type, or exceeds a limit.
        """
        most = LIMITS.part if top is None else top
        try:
            with self.archive.open(name) as stream:
                data = stream.read(most + (top is None))
        except KeyError:
            raise NoWorkbook(f"the workbook lacks its part {visible(name[:80])}") from None
        except _DAMAGED as error:
            raise NoWorkbook(_NO_WORKBOOK) from error
        if len(data) > most:
            raise too_large("bytes in one part", most)
        self.tags += data.count(b"<")
        self.attributes += data.count(b"=")
        if self.tags > LIMITS.tags:
            raise too_large("tags", LIMITS.tags)
        if self.attributes > LIMITS.attributes:
            raise too_large("attributes", LIMITS.attributes)
        _parse(data, start, end, text, whole=top is None)


def open_workbook(data: bytes) -> Workbook:
    """Open a workbook and read what its sheets share.

    Raises
    ------
    NoWorkbook
        When it is none, is damaged, or exceeds a limit.
    """
    try:
        _look_at_directory(data)
        book = Workbook(zipfile.ZipFile(io.BytesIO(data)))
        if sum(info.file_size for info in book.archive.infolist()) > LIMITS.unpacked:
            raise too_large("bytes when it is unpacked", LIMITS.unpacked)
        main, _ = _related(book, "")
        name = next(iter(main.get("officeDocument", [_WORKBOOK])))
        related, by_id = _related(book, name)
        _read_sheets(book, name, by_id)
        for part in related.get("styles", [])[:1]:
            _read_formats(book, part)
        for part in related.get("sharedStrings", [])[:1]:
            _read_strings(book, part)
    except _DAMAGED as error:
        raise NoWorkbook(_NO_WORKBOOK) from error
    return book


def _look_at_directory(data: bytes) -> None:
    """Look how long the list of parts is before anything makes an object of each entry."""
    at = len(data) - _END_BYTES
    if at < 0 or data[at : at + 4] != _END or data[-2:] != b"\0\0":
        at = data.rfind(_END, max(0, len(data) - _END_BYTES - 65_536))
    if (
        at < 0
        or len(data) < at + _END_BYTES
        or data[max(0, at - 20) : at].startswith(b"PK\x06\x07")
    ):
        raise NoWorkbook(_NO_WORKBOOK)
    if int.from_bytes(data[at + 12 : at + 16], "little") > _DIRECTORY_BYTES:
        raise NoWorkbook("the workbook lists far too many parts", _DIVIDE, TOO_LARGE)


def _parse(
    data: bytes,
    start: Start,
    end: Callable[[str], None],
    text: Callable[[str], None],
    *,
    whole: bool,
) -> None:
    # Whatever encoding it declares: counting the tags would not count those of another.
    names: dict[str, str] = {}
    parser = expat.ParserCreate("utf-8", None, names)
    parser.buffer_text = True
    parser.buffer_size = 16 * 1024

    def refuse(*_: object) -> None:
        raise NoWorkbook("the workbook declares what no workbook needs (DOCTYPE); it is refused")

    def root(element: str, given: dict[str, str]) -> None:
        if ":" in element:
            parser.StartElementHandler = lambda e, given: start(e.rpartition(":")[2], given)
            parser.EndElementHandler = lambda e: end(e.rpartition(":")[2])
        else:
            parser.StartElementHandler, parser.EndElementHandler = start, end
        start(element.rpartition(":")[2], given)

    parser.StartDoctypeDeclHandler = refuse
    parser.StartElementHandler = root
    parser.CharacterDataHandler = text
    try:
        for first in range(0, len(data), _PIECE):
            last = first + _PIECE >= len(data)
            parser.Parse(data[first : first + _PIECE], whole and last)
            if len(names) > _NAMES:
                break
    except Enough:
        pass
    except expat.ExpatError as error:
        raise NoWorkbook(f"the workbook cannot be read: {expat.ErrorString(error.code)}") from None
    if len(names) > _NAMES:
        raise too_large("names of tags and attributes", _NAMES)


def _related(book: Workbook, part: str) -> tuple[dict[str, list[str]], dict[str, tuple[str, str]]]:
    """Parts that a part names: by the last word of their kind, and kind and part by their id."""
    folder, name = posixpath.split(part)
    kinds: dict[str, list[str]] = {}
    by_id: dict[str, tuple[str, str]] = {}

    def start(element: str, given: dict[str, str]) -> None:
        if element == "Relationship" and given.get("TargetMode") != "External":
            kind = given.get("Type", "").rpartition("/")[2]
            target = posixpath.normpath(
                posixpath.join("/", folder, given.get("Target", ""))
            ).lstrip("/")
            kinds.setdefault(kind, []).append(target)
            by_id[given.get("Id", "")] = (kind, target)

    book.read(posixpath.join(folder, "_rels", f"{name}.rels"), start)
    return kinds, by_id


def _read_sheets(book: Workbook, part: str, by_id: Mapping[str, tuple[str, str]]) -> None:
    def start(element: str, given: dict[str, str]) -> None:
        if element == "workbookPr":
            book.from_1904 = given.get("date1904", "").lower() in ("1", "true")
        elif element == "sheet":
            ids = [value for key, value in given.items() if key.rpartition(":")[2] == "id"]
            kind, target = by_id.get(ids[0] if ids else "", ("", ""))
            if kind == "worksheet":
                shown = given.get("state", "visible") == "visible"
                book.sheets.append(Sheet(given.get("name", ""), target, shown))
                if len(book.sheets) > LIMITS.sheets:
                    raise too_large("sheets", LIMITS.sheets)

    book.read(part, start)
    if not book.sheets:
        raise NoWorkbook("the workbook has no sheet")


def _read_formats(book: Workbook, part: str) -> None:
    own: dict[str, str] = {}
    inside: list[bool] = []

    def start(element: str, given: dict[str, str]) -> None:
        if element == "numFmt":
            code = given.get("formatCode", "")
            own[given.get("numFmtId", "")] = code if len(code) <= _LONGEST_FORMAT else ""
        elif element == "cellXfs":
            inside.append(True)
        elif element == "xf" and inside:
            number = given.get("numFmtId", "0")
            known = (
                _KNOWN_FORMATS.get(int(number), "") if re.fullmatch("[0-9]{1,9}", number) else ""
            )
            book.formats.append(own.get(number, known))

    def end(element: str) -> None:
        if element == "cellXfs":
            raise Enough

    book.read(part, start, end)


def _read_strings(book: Workbook, part: str) -> None:
    strings = book.strings
    pieces: list[str] = []
    reading = TextRuns(pieces)

    def end(element: str) -> None:
        reading.end(element)
        if element == "si":
            strings.append("".join(pieces).strip()[: LIMITS.cell + 1])
            pieces.clear()

    book.read(part, reading.start, end, reading.text)


class TextRuns:
    """Gathers the texts (`t`) of one string, without those that say how it is pronounced (`rPh`)."""

    def __init__(self, pieces: list[str]) -> None:
        self._pieces = pieces
        self._open = False
        self._spoken = False

    def start(self, element: str, given: dict[str, str]) -> None:
        """An element begins."""
        if element == "t":
            self._open = not self._spoken
        elif element == "rPh":
            self._spoken = True

    def end(self, element: str) -> None:
        """An element ends."""
        if element == "t":
            self._open = False
        elif element == "rPh":
            self._spoken = False

    def text(self, text: str) -> None:
        """Characters; those of an endless text are let go once it is too long anyway."""
        if self._open and len(self._pieces) <= LIMITS.cell:
            self._pieces.append(text)
