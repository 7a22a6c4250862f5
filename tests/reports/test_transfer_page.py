"""The transfer record as a page: complete, inert whatever the documents say, read by others."""

from __future__ import annotations

import contextlib
import hashlib
import json
import os
from functools import cache
from pathlib import Path
from typing import Any

import pytest

import methodlint
from methodlint.documents.text.reader import read_document
from methodlint.documents.text.visible import is_hidden, visible
from methodlint.reports.html.transfer_page import transfer_page
from methodlint.reports.lines import plain_line
from methodlint.reports.transfer_json import transfer_json
from methodlint.reports.transfer_text import transfer_lines
from methodlint.transfer.result import Transfer
from methodlint.transfer.sides import CannotTransfer
from tests.reports import readers
from tests.reports.page_read import Node, page_of
from tests.reports.payloads import UNREADABLE, in_turns
from tests.reports.scratch_lab import EXAMPLES
from tests.reports.test_injection import (
    SHORT,
    look_at_words,
    nothing_hidden,
    poisoned_lab,
    quoted,
    strings,
)
from tests.transfer.lab import GRADIENT, make_lab

ISOCRATIC = EXAMPLES / "methods" / "triazole-enantiomers.yaml"


@cache
def _isocratic() -> Transfer:
    return methodlint.transfer(ISOCRATIC, "bench-b", allowances="pharmacopoeial")


@pytest.fixture(scope="module")
def gradient(tmp_path_factory: pytest.TempPathFactory) -> Transfer:
    file = make_lab(tmp_path_factory.mktemp("gradient"))
    return methodlint.transfer(file, "there", "narrow", allowances="pharmacopoeial")


@pytest.fixture(scope="module")
def impossible(tmp_path_factory: pytest.TempPathFactory) -> Transfer:
    slow = "kind: instrument\nx-name: there\ndwell_volume: 2 mL\n"
    file = make_lab(tmp_path_factory.mktemp("impossible"), GRADIENT, slow)
    return methodlint.transfer(file, "there", "narrow")


def _read(transfer: Transfer) -> Node:
    return page_of(transfer_page(transfer))


def _table(page: Node, header: str) -> list[list[str]]:
    """Cells of the body of the first table whose first header is this."""
    found = next(t for t in page.all("table") if t.all("th")[0].text == header)
    rows = found.all("tbody")[0].all("tr")
    return [[cell.text for cell in row.children if isinstance(cell, Node)] for row in rows]


def _headings(page: Node) -> list[str]:
    return [heading.text for heading in page.all("h2")]


# What it says ------------------------------------------------------------------------------------


def test_every_line_of_the_record_has_its_four_columns_and_its_reason(gradient: Transfer) -> None:
    rows = _table(_read(gradient), "item")
    assert len(rows) == len(gradient.entries)
    for row, entry in zip(rows, gradient.entries, strict=True):
        assert row[0] == visible(entry.item)
        shown = [entry.source or "-", entry.geometry or "-", entry.proposed or "-"]
        assert row[1:4] == [text.replace("+-", "±") for text in shown]
        assert row[4] in ("as above", entry.reason.replace("+-", "±"))
        if row[4] == "as above":
            assert rows.index(row) > 0


def test_flow_by_hand(gradient: Transfer) -> None:
    """5 um, 4.6 mm to 3 um, 3.0 mm: x (3.0/4.6)^2 x (5/3) = 0.709, u dp kept.

    3 mL/min become 2.13 mL/min. Formula: USP <621>, gradient elution, adjusted for dp.
    """
    flow = next(row for row in _table(_read(gradient), "item") if row[0] == "flow")
    assert flow[1] == "3.0 mL/min"
    assert float(flow[2].split()[0]) == pytest.approx(3.0 * (3.0 / 4.6) ** 2 * 5 / 3, rel=0.005)
    assert flow[4].startswith("derived")


def test_inputs_stand_with_the_sum_of_their_bytes() -> None:
    rows = _table(_read(_isocratic()), "document")
    assert [row[1] for row in rows] == [
        "method", "source column", "source instrument", "target column", "target instrument",
        "proposed method",
    ]  # fmt: skip
    for path, _, digest in rows[:-1]:
        assert hashlib.sha256(Path(path).read_bytes()).hexdigest() == digest
    assert hashlib.sha256(_isocratic().text.encode()).hexdigest() == rows[-1][2]


def test_allowances_say_what_is_exceeded_and_where_none_was_found(gradient: Transfer) -> None:
    for transfer in (gradient, _isocratic()):
        rows = {row[0]: row for row in _table_of_allowances(_read(transfer))}
        assert len(rows) == len(transfer.uses)
        for use in transfer.uses:
            assert (rows[use.item][3] == "EXCEEDED") is use.exceeded
            if use.span.startswith("no allowance"):
                assert rows[use.item][3] == "change"
    assert "by analogy" in _read(gradient).text


def _table_of_allowances(page: Node) -> list[list[str]]:
    [found] = [t for t in page.all("table") if "standing" in t.all("thead")[0].text]
    rows = found.all("tbody")[0].all("tr")
    return [[cell.text for cell in row.children if isinstance(cell, Node)] for row in rows]


def test_corners_are_drawn_as_they_are_listed(gradient: Transfer) -> None:
    page = _read(gradient)
    assert gradient.attempt is not None
    corners = _table(page, "corner: modifier")
    assert len(corners) == len(gradient.attempt.states)
    [figure] = page.all("figure")
    plotted = [
        [cell.text for cell in row.children if isinstance(cell, Node)]
        for row in figure.all("tbody")[0].all("tr")
    ]
    for row, match, state in zip(
        plotted, gradient.attempt.matches, gradient.attempt.states, strict=True
    ):
        assert float(row[1]) == pytest.approx(match.source.mean_density, abs=0.51)
        assert float(row[2]) == pytest.approx(state.mean_density, abs=0.51)
    assert len(figure.all("circle")) == len(corners)
    assert _read(_isocratic()).all("figure") == [], "one corner is a row, not a line"


def test_what_remains_is_shown_with_what_to_do() -> None:
    page = _read(_isocratic())
    shown = [article.text for article in page.all("article")]
    assert len(shown) == len(_isocratic().remaining) > 0
    for text, finding in zip(shown, _isocratic().remaining, strict=True):
        assert finding.message.replace("+-", "±") in text
        assert finding.rule in text
    assert "Check of the proposal: run with care" in _headings(page)


def test_it_is_predicted_and_to_be_verified() -> None:
    page = _read(_isocratic())
    assert "predicted; verify on both systems" in page.text
    assert "Verify" in _headings(page)
    for name in _isocratic().verification:
        assert name in page.text


def test_what_stops_the_source_too_is_not_kept_silent(gradient: Transfer) -> None:
    assert gradient.report is not None
    assert gradient.report.verdict == "do not run"
    assert gradient.exit_status() == 0
    page = _read(gradient)
    assert "What stops it stops the source too" in page.text
    assert [part for part in page.all("div") if part.attributes.get("class") == "verdict stop"]


def test_an_impossible_transfer_names_what_binds(impossible: Transfer) -> None:
    page = _read(impossible)
    assert "NO FEASIBLE TRANSFER" in page.text
    assert "Nothing is written. Binding: dwell volume." in page.text
    assert "mixer" in page.all("article")[0].text
    assert "Verify" not in _headings(page)


def test_the_same_bytes_twice() -> None:
    again = methodlint.transfer(ISOCRATIC, "bench-b", allowances="pharmacopoeial")
    assert transfer_page(again) == transfer_page(_isocratic())


# Whatever the documents say -----------------------------------------------------------------------


def _look(transfer: Transfer) -> None:
    text = transfer_page(transfer)
    nothing_hidden(text)
    page_of(text)
    look_at_words("".join(f"{plain_line(line)}\n" for line in transfer_lines(transfer)))
    record = transfer_json(transfer)
    nothing_hidden(record)
    assert all("\n" not in text for text in strings(json.loads(record)))


@pytest.mark.parametrize("payloads", in_turns(5))
def test_fields(payloads: tuple[str, ...], tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    lab, _ = poisoned_lab(tmp_path, payloads, everything=False)
    method = lab / "methods" / "triazole-enantiomers.yaml"
    data = read_document(method).plain()
    if data is None:
        assert payloads[0] in UNREADABLE
        with pytest.raises(ValueError, match=r"methods/triazole-enantiomers|lab/lab\.yaml"):
            methodlint.transfer(method, "bench-a", "wide-silica-3um")
        return
    # One key a line: what is not carried over is moved aside line by line.
    method.write_text("".join(f"{key}: {quoted(data[key])}\n" for key in data), encoding="utf-8")
    if set(payloads[0]) == {"x"}:  # reads as what a starter leaves to be filled in
        with pytest.raises(ValueError, match="left to be filled in"):
            methodlint.transfer(method, "bench-a", "wide-silica-3um")
        return
    _look(methodlint.transfer(method, "bench-a", "wide-silica-3um"))


def _names() -> list[Any]:
    """Names made of as many texts as a name of a file has room for, and each by itself."""
    names = [
        text.replace("/", "∕").replace("\x00", "").replace("\ud800", "\udc80") for text in SHORT
    ]
    joined: list[str] = []
    for hidden in (False, True):
        joined.append("")
        for name in names:
            if any(map(is_hidden, name)) is hidden:
                together = f"{joined[-1]} {name}".strip(" ")
                if len(os.fsencode(together)) > 200:
                    joined.append(name)
                else:
                    joined[-1] = together
    return [
        *(pytest.param(name, id=f"joined {n}") for n, name in enumerate(joined)),
        *(pytest.param(name, id=ascii(name)[:40], marks=pytest.mark.long) for name in names),
    ]


@pytest.mark.parametrize("name", _names())
def test_names_of_files(name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    file = make_lab(tmp_path / f"l {name}")
    file = file.rename(file.with_name(f"{name}.yaml"))
    refused: contextlib.AbstractContextManager[None] = contextlib.nullcontext()
    if any(map(is_hidden, name)):
        # The proposal names its source, and some such names is not allowed in a document.
        refused = contextlib.suppress(CannotTransfer)
    with refused:
        _look(methodlint.transfer(file, "there", "narrow"))


# Other people's programs --------------------------------------------------------------------------


@pytest.fixture(scope="module")
def files(
    gradient: Transfer, impossible: Transfer, tmp_path_factory: pytest.TempPathFactory
) -> list[Path]:
    folder = tmp_path_factory.mktemp("transfers")
    shown = {"isocratic": _isocratic(), "gradient": gradient, "impossible": impossible}
    for name, transfer in shown.items():
        (folder / f"{name}.html").write_text(transfer_page(transfer), encoding="utf-8")
    return [folder / f"{name}.html" for name in shown]


@pytest.mark.second_reader
def test_html_validate_finds_no_error(files: list[Path]) -> None:
    assert readers.complaints_of_html_validate(*files) == ""


@pytest.mark.second_reader
def test_axe_finds_no_violation_and_nothing_is_crowded(files: list[Path], tmp_path: Path) -> None:
    seen = readers.seen_by_a_browser(tmp_path, *files)
    assert seen["violations"] == []
    assert seen["crowded"] == []
    assert seen["refused"] == []
    assert all(float(str(size)) >= 11.0 for size in seen["smallest"])
    assert all(int(str(width)) <= 400 for width in seen["widest"])
    assert {str(address) for address in seen["asked"]} == {f"file://{file}" for file in files}
