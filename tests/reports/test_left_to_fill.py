"""Places that are left to be filled in are told document by document in words, and each in JSON."""

from __future__ import annotations

from pathlib import Path

from methodlint.checking.check import check
from methodlint.documents.starters import starter
from methodlint.reports.lines import plain_line
from methodlint.reports.text import report_lines

RULE = "document.placeholder-left"


def words(report: object) -> str:
    return "\n".join(plain_line(line) for line in report_lines(report))  # type: ignore[arg-type]


def test_a_few_are_told_one_by_one(tmp_path: Path) -> None:
    text = "kind: column\ntitle: <title>\nserial: <number>\nlength: <150 mm>\n"
    (tmp_path / "column.yaml").write_text(text, encoding="utf-8")
    report = check(tmp_path / "column.yaml")
    assert report.count("fault") == 3
    assert words(report).count(f"  rule   {RULE}") == 3


def test_many_are_one_paragraph_for_each_document(tmp_path: Path) -> None:
    for kind in ("column", "supply"):
        (tmp_path / f"{kind}.yaml").write_text(starter(kind), encoding="utf-8")
    report = check(tmp_path)
    left = [finding for finding in report.findings if finding.rule == RULE]
    files = [finding.at.document.path.rpartition("/")[2] for finding in left]
    said = words(report)
    assert said.count(f"  rule   {RULE}") == 2
    flat = " ".join(said.split())
    for kind in ("column", "supply"):
        count = files.count(f"{kind}.yaml")
        assert count > 3
        assert f"FAULT {count} places of " in flat
    assert "length (line 9), inner_diameter (line 10)" in flat


def test_a_very_long_list_is_cut_and_says_so(tmp_path: Path) -> None:
    (tmp_path / "instrument.yaml").write_text(starter("instrument"), encoding="utf-8")
    report = check(tmp_path / "instrument.yaml")
    count = sum(finding.rule == RULE for finding in report.findings)
    assert count > 40
    assert f"and {count - 40} more" in " ".join(words(report).split())
