"""A method that two sequences run is judged with the bottles, the supply and the room of each."""

from __future__ import annotations

from pathlib import Path

from methodlint.checking.check import check
from methodlint.many.check_many import check_many
from methodlint.reports.formats import written
from methodlint.reports.prepared import Prepared
from tests.fail_closed.lab import BATCH, METHOD, day_batch, judged
from tests.reports.scratch_lab import change

BOTTLES = "solvents/bench-a-bottles.yaml"
SECOND = "sequences/triazole-next-day.yaml"


def _second(lab: Path, bottles: str = "bench-a-bottles") -> None:
    text = (lab / BATCH).read_text(encoding="utf-8")
    text = text.replace("solvents: bench-a-bottles", f"solvents: {bottles}")
    text = text.replace("2026-11-24", "2026-11-25")
    (lab / SECOND).write_text(text, encoding="utf-8")


def test_the_bench_of_the_second_sequence_counts_in_a_folder_too(tmp_path: Path) -> None:
    lab = day_batch(tmp_path)
    _second(lab, "other-bottles")
    text = (lab / BOTTLES).read_text(encoding="utf-8")
    (lab / "solvents/other-bottles.yaml").write_text(
        text.replace("{line: modifier-1, liquid: methanol", "{line: modifier-1, liquid: acetone"),
        encoding="utf-8",
    )
    for name in (SECOND, ".", "sequences"):
        verdict, status, report = judged(lab, name)
        assert (verdict, status) == ("do not run", 1), name
        assert "solvent.line-mismatch" in {finding.rule for finding in report.findings}, name
    alone, many = check(lab), check_many([lab])
    assert written("json", Prepared(alone)) == written("json", Prepared(many))


def test_silent_for_two_sequences_on_a_sound_bench(tmp_path: Path) -> None:
    lab = day_batch(tmp_path)
    _second(lab)
    assert judged(lab)[:2] == ("clear to run", 0)


def test_what_both_have_is_told_once(tmp_path: Path) -> None:
    lab = day_batch(tmp_path)
    change(lab / METHOD, "retention_time: 1.6 min", "retention_time: 4.6 min")
    change(lab / METHOD, "title: ", "deviations: [{rule: pressure.low-limit-missing, reason: "
           "the leak sensor stops the pumps, approved_by: Head, until: 2026-12-31}]\ntitle: ")  # fmt: skip
    change(lab / METHOD, "{high: 260 bar, low: 165 bar}", "{high: 260 bar}")
    before = check(lab)
    assert before.set_aside
    _second(lab)
    after = check(lab)
    assert len(after.set_aside) == len(before.set_aside)
    of_method = [f for f in before.findings if f.at.document.path.endswith(METHOD)]
    assert of_method
    again = [f for f in after.findings if f.at.document.path.endswith(METHOD)]
    assert [f.message for f in again] == [f.message for f in of_method]
