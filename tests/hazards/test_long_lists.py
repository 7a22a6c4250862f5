"""Long lists within a document take work in proportion to their length, or are refused in a line."""

from __future__ import annotations

import json
import random
from pathlib import Path
from typing import Any

import pytest

from methodlint.checking.check import check
from methodlint.checking.remedies import _FINDINGS_OF_A_RULE
from methodlint.checking.report import Report
from methodlint.documents.text.reader import read_document
from methodlint.judging.engine import fold
from methodlint.judging.finding import Finding
from tests.hazards.long_lists import LISTS, METHOD, ROOM, SEQUENCE, lab_with
from tests.judging.test_engine import rule
from tests.work_done import calls_of

# The work of a list four times as long, over that of the list: 4 for each entry in proportion.
_FOUR_TIMES = 6.0


def judged(file: Path) -> Report:
    return check(file)


@pytest.mark.long
@pytest.mark.parametrize("name", LISTS)
def test_work_grows_in_proportion(tmp_path: Path, name: str) -> None:
    most = LISTS[name][3]
    files = [lab_with(tmp_path / f"lab{n}", name, most // n) for n in (64, 4, 1)]
    judged(files[0])
    some, more = (calls_of(lambda file=file: judged(file)) for file in files[1:])  # type: ignore[misc]
    assert more <= _FOUR_TIMES * some


@pytest.mark.parametrize(
    ("name", "most"),
    [("deviations", 500), ("classes", 500), ("waste contents", 100)],
)
def test_more_entries_than_anybody_needs_are_refused(tmp_path: Path, name: str, most: int) -> None:
    _, document, _, _ = LISTS[name]
    report = judged(lab_with(tmp_path / "over", name, most + 1))
    (refused,) = [f for f in report.findings if f.rule == "document.too-large"]
    assert f"has {most + 1} entries; the limit is {most}" in refused.message
    assert refused.at.document.path.endswith(document.rpartition("/")[2])
    # The silent twin: as many as are allowed.
    report = judged(lab_with(tmp_path / "most", name, most))
    assert not [f for f in report.findings if f.rule == "document.too-large"]


def test_changes_are_tried_for_the_first_findings_of_a_rule(tmp_path: Path) -> None:
    """The others say so, and offer no change that was not tried."""
    report = judged(lab_with(tmp_path / "lab", "transitions and peaks", 40))
    found = [f for f in report.findings if f.rule == "detector.window-misses-peak"]
    tried = [f for f in found if f.solutions]
    others = [f for f in found if not f.solutions]
    assert len(tried) == _FINDINGS_OF_A_RULE
    assert len(found) == 40
    for finding in others:
        assert finding.remedy == (
            "correct the other findings of this rule (changes were tried for the first "
            f"{_FINDINGS_OF_A_RULE} findings of this rule only)"
        )
        assert not finding.candidates


def test_folding_is_that_of_every_pair() -> None:
    """By the definition: beneath the first of its causes, worst first, and never in a circle."""
    chance = random.Random(20261126)
    documents = check(METHOD_FILE).documents
    document = next(iter(documents.values()))
    for _ in range(200):
        names = [f"made.{letter}" for letter in "abcdef"]
        rules = [
            rule(
                name, lambda case: iter(()), causes=tuple(chance.sample(names, chance.randrange(4)))
            )
            for name in names
        ]
        findings = [
            made(document, chance.choice(names), chance.choice(["stop", "fault", "note"]), number)
            for number in range(chance.randrange(12))
        ]
        ours = fold(findings, rules)
        assert tree(ours) == tree(of_every_pair(findings, rules))


METHOD_FILE = Path(__file__).resolve().parents[2] / "example_methods" / METHOD


def made(document: Any, name: str, grade: Any, number: int) -> Finding:
    from methodlint.judging.finding import At

    return Finding(rule=name, grade=grade, at=At(document, ("x", number)), message=str(number))


def tree(findings: Any) -> Any:
    return [(f.rule, f.grade, f.message, tree(f.because)) for f in findings]


def of_every_pair(findings: list[Finding], rules: Any) -> list[Finding]:
    from methodlint.judging.engine import _is_beneath, _order, _with_children

    everything = sorted(findings, key=_order)
    causes = {rule.id: rule.causes for rule in rules}
    parent: dict[int, int] = {}
    for index, child in enumerate(everything):
        for other, cause in enumerate(everything):
            if other != index and child.rule in causes[cause.rule] and not _is_beneath(
                other, index, parent
            ):  # fmt: skip
                parent[index] = other
                break
    children: dict[int, list[int]] = {}
    for index, above in parent.items():
        children.setdefault(above, []).append(index)
    return [
        _with_children(n, everything, children) for n in range(len(everything)) if n not in parent
    ]


@pytest.mark.parametrize("foreign", ["columns", "other"])
def test_foreign_files_cost_no_more_than_their_names(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, foreign: str
) -> None:
    """Also where a card is missing and what may be meant is looked for."""
    file = lab_with(tmp_path / "lab", "peaks", 1)
    plain: Any = read_document(file).plain()
    plain["column"] = "silika-3um"
    file.write_text(json.dumps(plain), encoding="utf-8")
    judged(file)
    before = calls_of(lambda: judged(file))
    folder = tmp_path / "lab" / foreign
    folder.mkdir(exist_ok=True)
    count = 2_000
    for number in range(count):
        (folder / f"{number}-foreign.yaml").write_text("a: 1\n", encoding="utf-8")
    assert "silica-3um" in str(judged(file).findings[0].remedy)
    # A dozen calls for a name that may be meant; no file is opened, no path made of it.
    assert calls_of(lambda: judged(file)) - before <= (12 if foreign == "columns" else 0.1) * count


def test_rooms_and_sequences_of_the_lists_are_those_of_the_examples() -> None:
    assert {LISTS[name][0] for name in LISTS} == {METHOD, SEQUENCE}
    assert ROOM.startswith("rooms/")
