"""Workbooks that cost much: few bytes that unpack to very many, or very many of what is allowed."""

from __future__ import annotations

import functools
import io
import zipfile
from collections.abc import Mapping

MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
PACKAGE = "http://schemas.openxmlformats.org/package/2006/relationships"
SHEET = "xl/worksheets/sheet1.xml"
HEADER = '<row r="1"><c r="A1" t="inlineStr"><is><t>sample</t></is></c><c r="B1" t="inlineStr"><is><t>well</t></is></c></row>'


def packed(parts: Mapping[str, str | bytes], *, sheets: int = 1) -> bytes:
    """Pack parts as a workbook of as many sheets; those that a workbook needs are added."""
    names = range(1, sheets + 1)
    listed = "".join(f'<sheet name="S{n}" sheetId="{n}" r:id="rId{n}"/>' for n in names)
    related = "".join(
        f'<Relationship Id="rId{n}" Type="{OFFICE}/worksheet" Target="worksheets/sheet{n}.xml"/>'
        for n in names
    )
    for kind in ("styles", "sharedStrings"):
        if f"xl/{kind}.xml" in parts:
            related += f'<Relationship Id="{kind}" Type="{OFFICE}/{kind}" Target="{kind}.xml"/>'
    needed: dict[str, str | bytes] = {
        "_rels/.rels": f'<Relationships xmlns="{PACKAGE}"><Relationship Id="a" '
        f'Type="{OFFICE}/officeDocument" Target="xl/workbook.xml"/></Relationships>',
        "xl/workbook.xml": f'<workbook xmlns="{MAIN}" xmlns:r="{OFFICE}"><sheets>{listed}</sheets></workbook>',
        "xl/_rels/workbook.xml.rels": f'<Relationships xmlns="{PACKAGE}">{related}</Relationships>',
    }
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, text in {**needed, **parts}.items():
            archive.writestr(name, text)
    return out.getvalue()


def sheet(rows: str, *, before: str = "") -> str:
    """XML of a sheet of some rows."""
    return f'<worksheet xmlns="{MAIN}">{before}<sheetData>{HEADER}{rows}</sheetData></worksheet>'


def strings(*texts: str) -> str:
    """XML of the texts that cells share, each already XML."""
    return f'<sst xmlns="{MAIN}">' + "".join(f"<si>{text}</si>" for text in texts) + "</sst>"


def styles(formats: str) -> str:
    """XML of the cell formats."""
    return f'<styleSheet xmlns="{MAIN}"><cellXfs>{formats}</cellXfs></styleSheet>'


def _cell(reference: str, text: str) -> str:
    return f'<c r="{reference}" t="inlineStr"><is><t>{text}</t></is></c>'


# They take a while to make: who only asks for their names does without.
NAMES = (
    "last-row",
    "empty-rows",
    "rows-of-the-last-column",
    "cells-as-many-as-allowed",
    "cells-without-places",
    "styles",
    "fonts",
    "long-format",
    "cell-of-90-megabytes",
    "cell-of-30-megabytes",
    "cell-of-lines",
    "cell-of-references",
    "number-of-30-megabytes",
    "one-text-everywhere",
    "shared-texts",
    "attributes-of-few-names",
    "runs-of-a-text",
    "attributes",
    "names-of-elements",
    "deep",
    "merged",
    "sheets",
    "sheets-that-unpack-to-much",
    "parts",
    "blanks",
    "zip-in-stored-form",
)


@functools.cache
def hostile_workbooks() -> dict[str, bytes]:
    """Workbooks below 10 MiB."""
    far = sheet('<row r="1048576"><c r="A1048576"><v>1</v></c></row>')
    many_cells = "".join(
        f'<row r="{n}">' + "".join(f'<c r="{c}{n}" s="1"><v>{n}</v></c>' for c in "ABCD") + "</row>"
        for n in range(2, 49_990)
    )
    wide = "".join(f'<row r="{n}"><c r="GR{n}"><v>1</v></c></row>' for n in range(2, 50_000))
    long_text = strings(f"<t> {'x' * 4_000}</t>")
    return {
        "last-row": packed({SHEET: far}),
        "empty-rows": packed({SHEET: sheet("".join(f'<row r="{n}"/>' for n in range(2, 1_000_000)))}),
        "rows-of-the-last-column": packed({SHEET: sheet(wide)}),
        "cells-as-many-as-allowed": packed(
            {SHEET: sheet(many_cells), "xl/styles.xml": styles('<xf numFmtId="0"/><xf numFmtId="14"/>')}
        ),
        "cells-without-places": packed({SHEET: sheet("<row>" + "<c><v>1</v></c>" * 400_000)}),
        "styles": packed({SHEET: sheet(""), "xl/styles.xml": styles('<xf numFmtId="14"/>' * 889_000)}),
        "fonts": packed(
            {SHEET: sheet(""),
             "xl/styles.xml": f'<styleSheet xmlns="{MAIN}"><fonts>{"<font><b/></font>" * 500_000}</fonts></styleSheet>'}
        ),
        "long-format": packed(
            {SHEET: sheet(""), "xl/styles.xml": f'<styleSheet xmlns="{MAIN}"><numFmts><numFmt numFmtId="200" '
             f'formatCode="{"[" * 9_000_000}"/></numFmts></styleSheet>'}
        ),
        "cell-of-90-megabytes": packed({SHEET: sheet(f'<row r="2">{_cell("A2", "x" * 90_000_000)}</row>')}),
        "cell-of-30-megabytes": packed({SHEET: sheet(f'<row r="2">{_cell("A2", "x" * 30_000_000)}</row>')}),
        "cell-of-lines": packed({SHEET: sheet(f'<row r="2">{_cell("A2", chr(10) * 30_000_000)}</row>')}),
        "cell-of-references": packed({SHEET: sheet(f'<row r="2">{_cell("A2", "&#65;" * 6_000_000)}</row>')}),
        "number-of-30-megabytes": packed({SHEET: sheet(f'<row r="2"><c r="A2"><v>{"9" * 30_000_000}</v></c></row>')}),
        "one-text-everywhere": packed(
            {SHEET: sheet("".join(f'<row r="{n}"><c r="A{n}" t="s"><v>0</v></c></row>' for n in range(2, 50_000))),
             "xl/sharedStrings.xml": long_text}
        ),
        "shared-texts": packed({SHEET: sheet(""), "xl/sharedStrings.xml": strings(*["<t>x</t>"] * 210_000)}),
        "attributes-of-few-names": packed({SHEET: sheet('<row a="1" b="1" c="1"/>' * 290_000)}),
        "runs-of-a-text": packed({SHEET: sheet(""), "xl/sharedStrings.xml": strings("<r><t>x</t></r>" * 210_000)}),
        "attributes": packed({SHEET: sheet("<row " + " ".join(f'a{n}="1"' for n in range(890_000)) + "/>")}),
        "names-of-elements": packed({SHEET: sheet("".join(f"<a{n}/>" for n in range(1_290_000)))}),
        "deep": packed({SHEET: sheet("<a>" * 1_290_000)}),
        "merged": packed({SHEET: sheet("") .replace("</worksheet>", '<mergeCells>' + '<mergeCell ref="A1:XFD1048576"/>' * 300_000 + "</mergeCells></worksheet>")}),
        "sheets": packed({f"xl/worksheets/sheet{n}.xml": sheet("") for n in range(1, 501)}, sheets=500),
        "sheets-that-unpack-to-much": packed(
            {f"xl/worksheets/sheet{n}.xml": sheet("", before="<x>" + " " * 1_900_000 + "</x>") for n in range(1, 51)}, sheets=50
        ),
        "parts": packed({SHEET: sheet(""), **{f"{n}": b"" for n in range(60_000)}}),
        "blanks": packed({SHEET: sheet("", before=" " * 95_000_000)}),
        "zip-in-stored-form": _stored({SHEET: sheet(many_cells[: 9_000_000].rpartition("<row")[0])}),
    }  # fmt: skip


def _stored(parts: dict[str, str | bytes]) -> bytes:
    out = io.BytesIO()
    with (
        zipfile.ZipFile(io.BytesIO(packed(parts))) as packed_parts,
        zipfile.ZipFile(out, "w", zipfile.ZIP_STORED) as archive,
    ):
        for name in packed_parts.namelist():
            archive.writestr(name, packed_parts.read(name))
    return out.getvalue()
