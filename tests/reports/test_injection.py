"""Document text, names of files and base reports never act in a format: each is parsed back.

Most payloads carry pytest.mark.long.
"""

from __future__ import annotations

import itertools
import json
import re
import shutil
import xml.etree.ElementTree as Xml
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any
from urllib.parse import unquote_to_bytes

import jsonschema
import pytest
from markdown_it import MarkdownIt
from markdown_it.token import Token

from methodlint.checking.check import check
from methodlint.documents.text.reader import read_document
from methodlint.documents.text.visible import is_hidden, visible
from methodlint.judging.unjudged import RuleFailed
from methodlint.reports.compare_text import comparison_lines
from methodlint.reports.consequences_compared import compared
from methodlint.reports.formats import FORMATS, written
from methodlint.reports.lines import plain_line
from methodlint.reports.markdown import markdown_comparison
from methodlint.reports.markdown_text import cell, code, inert
from methodlint.reports.prepared import Prepared
from methodlint.reports.report_schema import schema_text
from tests.reports.page_read import page_of
from tests.reports.payloads import PAYLOADS, UNREADABLE, in_turns
from tests.reports.scratch_lab import EXAMPLES, example_report, plain

# Free text of the documents: whatever stands there, the run can be rehearsed.
FREE = frozenset(
    {"title", "serial", "name", "operator", "phone", "emergency", "sample", "data_file", "reason",
     "approved_by", "cell", "edition", "selector", "lot", "supplier"}
)  # fmt: skip
PARTS = (
    "lab", "columns/amylose-3um", "columns/wide-silica-3um", "instruments/bench-a",
    "methods/triazole-enantiomers", "flawed/terpenoids-hot-and-low", "sound/triazole-day-batch",
    "supplies/yard-cylinder", "rooms/separations-room", "solvents/bench-a-bottles",
)  # fmt: skip
OUR_HEADINGS = frozenset(
    {"Do not run", "Run with care", "Clear to run", "Part of this could not be judged",
     "Findings", "New",
     "Worse than before", "Gone", "Unchanged", "Accepted by deviation", "Vanishing",
     "Not checked, and could have found a stop", "Methods by instrument", "Consequences",
     "Documents", "Appearing", "do not run -> do not run", "Do not run -> do not run"}
)  # fmt: skip
SHORT = [text for text in PAYLOADS if len(text.encode("utf-8", "surrogatepass")) <= 200]


def quoted(data: Any) -> str:
    """Write data as JSON, which is YAML too but for pairs of surrogates; half a pair stays."""

    def whole(match: re.Match[str]) -> str:
        pair = json.loads(f'"{match.group()}"')
        return f"\\U{ord(pair):08x}"

    text = json.dumps(data, ensure_ascii=True)
    return re.sub(r"\\ud[89ab][0-9a-f]{2}\\ud[c-f][0-9a-f]{2}", whole, text)


def _rewritten(data: Any, swap: Callable[[str, str], str], key: str = "") -> Any:
    if isinstance(data, dict):
        return {name: _rewritten(below, swap, name) for name, below in data.items()}
    if isinstance(data, list):
        return [_rewritten(below, swap, key) for below in data]
    return swap(key, data) if isinstance(data, str) else data


def poisoned_lab(folder: Path, payloads: Sequence[str], everything: bool) -> tuple[Path, int]:
    """Write the example lab with texts in every free field, or in every field that holds text."""
    lab = folder / "lab"
    count = 0
    turn = itertools.cycle(payloads)

    def swap(key: str, text: str) -> str:
        nonlocal count
        if key == "kind" or not (everything or key in FREE):
            return text
        count += 1
        return next(turn)

    for name in PARTS:
        file = EXAMPLES / f"{name}.yaml"
        data = read_document(file).plain()
        if data["kind"] == "method":
            data["deviations"] = [
                {"rule": "phase.two-phase-at-outlet", "reason": "x", "approved_by": "x",
                 "until": "2099-12-31"}
            ]  # fmt: skip
        data = _rewritten(data, swap)
        if everything:
            data |= {payload: {payload: payload} for payload in payloads}
        target = lab / file.relative_to(EXAMPLES)
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_text(quoted(data), encoding="utf-8")
    return lab, count


def poisoned_report(lab: Path, payloads: Sequence[str]) -> Prepared:
    report = check(lab)
    report.given = tuple((text, text) for text in payloads)
    report.failed = [RuleFailed("pressure.some-rule", text, text, text) for text in payloads]
    return Prepared(report, notes=True)


# What each format must be when it is read back ------------------------------------------------


def strings(data: Any) -> Iterator[str]:
    if isinstance(data, dict):
        for key, below in data.items():
            yield key
            yield from strings(below)
    elif isinstance(data, list):
        for below in data:
            yield from strings(below)
    elif isinstance(data, str):
        yield data


def nothing_hidden(text: str) -> None:
    bad = {character for character in text if character != "\n" and is_hidden(character)}
    assert not bad, bad


def look_at_words(text: str) -> None:
    nothing_hidden(text)
    for line in text.split("\n"):
        assert not line.lstrip().startswith("::")
        assert "##" not in line


def look_at_json(text: str) -> None:
    nothing_hidden(text)
    data = json.loads(text)
    assert all("\n" not in string for string in strings(data))
    assert not list(jsonschema.Draft202012Validator(json.loads(schema_text())).iter_errors(data))


def look_at_sarif(text: str) -> None:
    nothing_hidden(text)
    (run,) = json.loads(text)["runs"]
    links = re.compile(r"(?<!\\)\[(?:[^\[\]\\]|\\.)*(?<!\\)\]\([^)]+\)")
    for result in run["results"]:
        messages = [result["message"], *(r["message"] for r in result.get("relatedLocations", ()))]
        messages += [{"text": s["justification"]} for s in result.get("suppressions", ())]
        for message in messages:
            assert "\n" not in message["text"]
            assert not links.search(message["text"])
            assert not re.search(r"(?<!\{)(?:\{\{)*\{\d+\}", message["text"])
    for artifact in run["artifacts"]:
        uri = artifact["location"]["uri"]
        assert re.fullmatch(r"(file://)?[A-Za-z0-9%/._~-]+", uri)
        path = unquote_to_bytes(uri.removeprefix("file://"))
        assert Path(path.decode("utf-8", "surrogateescape")).exists()


def look_at_junit(text: str) -> None:
    nothing_hidden(text)
    root = Xml.fromstring(text.encode("utf-8"))
    allowed = {
        "testsuites": {"testsuite"},
        "testsuite": {"properties", "testcase"},
        "properties": {"property"},
        "testcase": {"failure", "error", "skipped", "system-out"},
    }
    for element in root.iter():
        assert {child.tag for child in element} <= allowed.get(element.tag, set())
        for value in element.attrib.values():
            assert "\n" not in value


def _tokens(tokens: list[Token]) -> Iterator[Token]:
    for token in tokens:
        yield token
        yield from _tokens(token.children or [])


MARKDOWN = MarkdownIt("gfm-like", {"linkify": False, "html": True}).disable("linkify")
ALLOWED = frozenset(
    {"heading_open", "heading_close", "paragraph_open", "paragraph_close", "inline", "text",
     "bullet_list_open", "bullet_list_close", "list_item_open", "list_item_close", "strong_open",
     "strong_close", "code_inline", "table_open", "table_close", "thead_open", "thead_close",
     "tbody_open", "tbody_close", "tr_open", "tr_close", "th_open", "th_close", "td_open",
     "td_close"}
)  # fmt: skip
# What hosts make links, names or pictures of, outside code.
LIVE = re.compile(r"@|#\d|https?:|www\.|:[\w+-]+:|\$|GH-\d|\b(?=\w*\d)[0-9a-f]{7,40}\b")


def look_at_markdown(text: str) -> None:
    nothing_hidden(text)
    assert len(text) < 65_536
    tokens = list(_tokens(MARKDOWN.parse(text)))
    assert {token.type for token in tokens} <= ALLOWED
    for index, token in enumerate(tokens):
        if token.type == "heading_open":
            assert tokens[index + 1].content in OUR_HEADINGS
        if token.type == "strong_open":
            assert tokens[index + 1].content in ("stop", "fault", "caution", "note")
        if token.type == "text":
            assert not LIVE.search(token.content), token.content


def look_at_annotations(text: str) -> None:
    nothing_hidden(text)
    assert text.endswith("\n")
    for line in text[:-1].split("\n"):
        match = re.fullmatch(r"::(error|warning|notice)(?: ([^:]*))?::(.*)", line)
        assert match, line
        properties = dict(item.split("=", 1) for item in (match[2] or "").split(",") if item)
        assert set(properties) <= {"file", "line", "endLine", "col", "endColumn", "title"}
        for name in ("line", "endLine", "col", "endColumn"):
            assert properties.get(name, "1").isdigit()
        assert not re.search(r"%(?!25|0A|0D|3A|2C)", match[3] + "".join(properties.values()))
        assert "##" not in line


def look_at_html(text: str) -> None:
    nothing_hidden(text)
    page_of(text)


LOOKS: dict[str, Callable[[str], None]] = {
    "words": look_at_words,
    "json": look_at_json,
    "sarif": look_at_sarif,
    "junit": look_at_junit,
    "markdown": look_at_markdown,
    "annotations": look_at_annotations,
    "html": look_at_html,
}


def look_at_all(report: Prepared) -> None:
    for name in FORMATS:
        if name in LOOKS:
            LOOKS[name](written(name, report))


def test_every_format_of_text_is_looked_at() -> None:
    assert set(FORMATS) == set(LOOKS)


def test_there_are_enough_payloads() -> None:
    assert len(set(PAYLOADS)) >= 60


@pytest.mark.parametrize("payloads", in_turns(5))
def test_fields(payloads: tuple[str, ...], tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    for everything in (False, True):
        lab, count = poisoned_lab(tmp_path, payloads, everything)
        assert count >= 20
        report = poisoned_report(lab, payloads)
        if not everything and payloads[0] not in UNREADABLE:
            assert any(run.rehearsal and run.run.done for run in report.report.runs)
        look_at_all(report)
        shutil.rmtree(lab)


@pytest.mark.parametrize("payloads", [SHORT[n::8] for n in range(8)], ids=range(8))
def test_names_of_files(
    payloads: list[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    for folder in ("columns", "instruments"):
        shutil.copytree(EXAMPLES / folder, tmp_path / "lab" / folder)
    shutil.copy(EXAMPLES / "lab.yaml", tmp_path / "lab")
    source = EXAMPLES / "sound" / "flame-retardant-isomers.yaml"
    text = source.read_text(encoding="utf-8") + "misspelt: 1\n"
    for payload in payloads:
        name = payload.replace("/", "∕").replace("\x00", "").replace("\ud800", "\udc80")
        methods = tmp_path / "lab" / f"m {name}"
        methods.mkdir()
        (methods / f"{name}.yaml").write_text(text, encoding="utf-8")
    report = poisoned_report(tmp_path / "lab", payloads)
    found = [f.rule for f in report.report.findings if f.grade != "note"]
    assert found.count("document.unknown-key") == len(payloads)
    assert len(report.report.runs) == len(payloads)
    look_at_all(report)


@pytest.mark.parametrize("payloads", [PAYLOADS[n::8] for n in range(8)], ids=range(8))
def test_a_base_report(payloads: tuple[str, ...]) -> None:
    report = example_report("flawed/terpenoids-hot-and-low.yaml")
    base = plain(Prepared(report))
    (run,) = base["runs"]
    base["findings"] = [
        finding | {"fingerprint": f"{text}:{n}", "message": text, "rule": text, "path": text}
        for n, finding in enumerate(base["findings"])
        for text in payloads
    ]
    base["documents"] = [item | {"path": t} for item in base["documents"] for t in payloads]
    base["runs"] = [
        run
        | {"path": text, "subject": text, "instrument": text, "figures": None, "missing": [text]}
        for text in payloads
    ]
    now = Prepared(report, base=base, notes=True)
    assert len(now.data["gone_from_base"]) >= len(payloads)
    look_at_all(now)
    comparison = compared(base, now.data)
    comparison = replace(comparison, verdicts=("do not run", "do not run"))
    look_at_markdown(markdown_comparison(comparison))
    look_at_words("".join(f"{plain_line(line)}\n" for line in comparison_lines(comparison)))


@pytest.mark.parametrize("payload", PAYLOADS, ids=range(len(PAYLOADS)))
def test_markdown_shows_the_text_itself(payload: str) -> None:
    """Whatever is made inert reads as it was written, hidden characters as escapes."""
    expected = " ".join(visible(payload).split())
    for text in (inert(payload), code(payload)):
        (paragraph,) = [t for t in MARKDOWN.parse(f"- x {text}") if t.type == "inline"]
        read = "".join(t.content for t in paragraph.children or [])
        shown = " ".join(read.removeprefix("x").split())
        if len(payload) <= 1_500:
            assert shown == expected
    table = MARKDOWN.parse(f"| a | b |\n| --- | --- |\n| {cell(payload)} | end |\n")
    cells = [t for t in table if t.type == "inline"]
    assert len(cells) == 4
    assert cells[3].content == "end"
