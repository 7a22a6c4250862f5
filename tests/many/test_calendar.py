"""A calendar is the same whoever judges the sequences, and it is printed with what ends when."""

from __future__ import annotations

import json
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

from methodlint.checking.check import check
from methodlint.many import check_many as many
from methodlint.reports.formats import written
from methodlint.reports.prepared import Prepared
from methodlint.reports.week import week_block
from tests.fail_closed.lab import BATCH, day_batch

SUPPLY = "supplies/yard-cylinder.yaml"


def _week(tmp_path: Path) -> Path:
    """Three days of the same batch; the second begins before the first has ended."""
    lab = day_batch(tmp_path)
    text = (lab / BATCH).read_text(encoding="utf-8")
    for name, day in (("second", "2026-11-24T11:00"), ("third", "2026-11-25T09:00")):
        other = text.replace("begins: 2026-11-24T09:00", f"begins: {day}")
        (lab / f"sequences/{name}.yaml").write_text(other, encoding="utf-8")
    card = (
        (lab / SUPPLY).read_text(encoding="utf-8").replace("net_mass: 31.0 kg", "net_mass: 9.7 kg")
    )
    (lab / SUPPLY).write_text(card, encoding="utf-8")
    return lab


def test_calendar_is_that_of_the_batches_together(tmp_path: Path, monkeypatch) -> None:  # type: ignore[no-untyped-def]
    lab = _week(tmp_path)
    alone = Prepared(check(lab))
    monkeypatch.setattr(many, "BATCH", 2)
    with ThreadPoolExecutor(2) as threads:
        parts = Prepared(many.check_many([lab], threads))
    assert written("json", alone) == written("json", parts)
    assert written("words", alone) == written("words", parts)
    found = json.loads(written("json", alone))
    rules = {finding["rule"] for finding in found["findings"]}
    assert {"calendar.bench-booked-twice", "calendar.cylinder-ends"} <= rules
    verdicts = [one["verdict"] for one in found["calendar"]["sequences"]]
    assert verdicts[1] == "do not run" and "do not run" not in (verdicts[0], verdicts[2])
    assert [one["cylinder"] for one in found["calendar"]["cylinders"]] == [1, 1, 2]


def test_cylinder_weighed_after_a_sequence_is_named_as_not_counted(tmp_path: Path) -> None:
    lab = _week(tmp_path)
    texts = []
    for weighed in ("2026-11-24", "2026-11-25"):
        card = (lab / SUPPLY).read_text(encoding="utf-8")
        lines = [one for one in card.splitlines() if not one.startswith("weighed:")]
        (lab / SUPPLY).write_text("\n".join([*lines, f"weighed: {weighed}", ""]), encoding="utf-8")
        block = week_block(check(lab))
        assert block is not None
        texts.append(" ".join(f"{name} {said}" for name, said in block.rows))
    assert "not counted" not in texts[0]
    assert "weighed 2026-11-25, after 2 sequences began: not counted" in texts[1]
