"""What is not checked is listed whole where all can be judged, and by name where it cannot."""

from __future__ import annotations

import dataclasses
from pathlib import Path

from methodlint.checking.check import check
from methodlint.judging.unjudged import Unjudged
from methodlint.reports.prepared import Prepared
from methodlint.reports.text import prepared_text
from tests.rules.harness import judged

UNUSABLE = [Unjudged("method.yaml", "it cannot be used", "document.unreadable", 1)]
ALONE = """kind: method
oven_temperature: 40 degC
outlet_pressure: 150 bar
flow: 2 mL/min
mobile_phase: {modifier: {liquid: methanol, line: modifier-1}, modifier_share: 20 % v/v}
run_length: 5 min
injection: {volume: 2 uL, mode: part-filled loop, diluent: methanol}
detectors: [{type: UV, wavelength: 254 nm, rate: 10 Hz, filter: 0.1 s}]
"""
LACKING = "kind: method\noutlet_pressure: null\n---\nkind: column\nphase: null\n"


def test_every_rule_that_is_not_checked_is_named_once_either_way() -> None:
    report = judged(LACKING)
    names = {item.rule for item in report.not_checked}
    assert len(names) > 10
    for unreadable in (False, True):
        unusable = UNUSABLE if unreadable else []
        text = prepared_text(Prepared(dataclasses.replace(report, unusable=unusable), notes=True))
        tail = text[text.index("NOT CHECKED") :]
        assert all(name in tail for name in names)
        assert ("first correct what is listed above" in tail) is unreadable


def test_what_could_stop_a_run_keeps_its_own_figures() -> None:
    report = dataclasses.replace(judged(LACKING), unusable=UNUSABLE)
    text = prepared_text(Prepared(report))
    tail = text[text.index("NOT CHECKED") :]
    before, after = tail.split("first correct what is listed above", 1)
    rules = {item.rule for item in report.not_checked if item.can_stop}
    assert rules
    assert all(rule in before for rule in rules)
    assert not any(f" {rule}," in after for rule in rules)


def test_many_that_could_not_stop_a_run_are_counted_and_named_on_request() -> None:
    report = judged(LACKING)
    minor = sorted({item.rule for item in report.not_checked if not item.can_stop})
    short = prepared_text(Prepared(report))
    tail = short[short.index("NOT CHECKED") :]
    assert "named with --notes" in tail
    assert not all(name in tail for name in minor)
    assert all(item.rule in tail for item in report.not_checked if item.can_stop)


def test_a_card_that_is_not_named_is_asked_for_once(tmp_path: Path) -> None:
    file = tmp_path / "method.yaml"
    file.write_text(ALONE, encoding="utf-8")
    report = check(file)
    text = prepared_text(Prepared(report))
    assert text.startswith("JUDGED IN PART\n")
    tail = " ".join(text[text.index("NOT CHECKED") :].split())
    waiting = [item for item in report.not_checked if all(ask.refers for ask in item.asks)]
    assert len(waiting) > 20
    assert f"`column` and `runs_on` in {file} for {len(waiting)} more checks" in tail
    assert tail.count("`runs_on`") == 1
    assert "column.phase" not in tail


def test_a_method_alone_that_names_cards_learns_how_it_is_judged(tmp_path: Path) -> None:
    """What is advised is what was done above: without the two keys it is judged in part."""
    file = tmp_path / "method.yaml"
    file.write_text(ALONE + "column: diol\nruns_on: [bench]\n", encoding="utf-8")
    report = check(file)
    found = [one for one in report.findings if one.rule == "document.reference-unresolved"]
    assert len(found) == 2
    assert all("without `column` and `runs_on`" in (one.remedy or "") for one in found)


def test_a_sequence_alone_is_not_sent_to_a_method(tmp_path: Path) -> None:
    file = tmp_path / "sequence.yaml"
    file.write_text("kind: sequence\ninstrument: bench\n", encoding="utf-8")
    found = [one for one in check(file).findings if one.rule == "document.reference-unresolved"]
    assert found
    assert not any("`runs_on`" in (one.remedy or "") for one in found)
