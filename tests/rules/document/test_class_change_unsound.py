"""Policy moves classes of rules that exist, and never a stop: common practice, no source."""

from __future__ import annotations

from pathlib import Path

from methodlint.checking.check import check
from tests.rules.document.pages import found_in
from tests.rules.harness import judged

RULE = "document.class-change-unsound"


def _lab(*changes: str) -> str:
    lines = "".join(f"  - {{{change}, reason: we have a reason}}\n" for change in changes)
    return f"kind: lab\nclasses:\n{lines}"


def test_silent_for_a_fault_that_becomes_a_caution() -> None:
    # (fault, caution)
    assert found_in(_lab("rule: supply.cylinder-runs-out, to: caution"), RULE) == []


def test_silent_for_raising_what_is_milder_than_a_stop() -> None:
    # (stop, fault, caution): the cautions become faults, the stops are not touched.
    assert found_in(_lab("rule: pressure.cutoff-unsound, to: fault"), RULE) == []
    assert found_in(_lab("rule: pressure.cutoff-unsound, to: stop"), RULE) == []


def test_silent_for_a_rule_of_a_folder_that_is_not_allowed_here(tmp_path: object) -> None:
    from tests.lab_rules.labs import lab, rule_file

    root = Path(str(tmp_path))
    text = "rule_folders: [our-rules]\nclasses: [{rule: house.other, to: fault, reason: why not}]"
    sequence = lab(root, text)
    rule_file(root)
    assert [f for f in check(sequence).findings if f.rule == RULE] == []
    told = check(sequence, allow_rules=[root / "our-rules"]).findings
    assert [f.message for f in told if f.rule == RULE] == ["there is no rule house.other to move"]


def test_a_rule_that_does_not_exist() -> None:
    (found,) = found_in(_lab("rule: supply.cylinder-runs-ot, to: caution"), RULE)
    assert found.grade == "fault"
    assert found.remedy == "did you mean supply.cylinder-runs-out?"


def test_an_attempt_to_lower_a_stop() -> None:
    (found,) = found_in(_lab("rule: safety.monitor-wrong-kind, to: caution"), RULE)
    assert found.grade == "fault"
    assert "policy cannot lower a stop" in found.message


def test_lowering_what_stands_beside_a_stop_is_a_caution() -> None:
    (found,) = found_in(_lab("rule: pressure.cutoff-unsound, to: note"), RULE)
    assert found.grade == "caution"
    assert "only its fault and caution become note" in found.message


def test_a_rule_that_is_moved_twice() -> None:
    twice = _lab("rule: sequence.no-sst, to: note", "rule: sequence.no-sst, to: caution")
    (found,) = found_in(twice, RULE)
    assert "moved twice" in found.message
    assert found.at.path == ("classes", 1)


def test_the_stop_stays_a_stop_all_the_same() -> None:
    attempt = _lab("rule: safety.monitor-wrong-kind, to: caution")
    room = (
        "---\nkind: room\nvolume: 20 m3\nmonitors: [{gas: O2}]\n---\nkind: supply\nplace: inside\n"
    )
    report = judged(attempt + room, RULE, "safety.monitor-wrong-kind")
    assert {f.rule: f.grade for f in report.findings} == {
        RULE: "fault",
        "safety.monitor-wrong-kind": "stop",
    }


def test_a_slip_is_told_though_a_folder_of_own_rules_is_not_allowed_here(tmp_path: Path) -> None:
    (tmp_path / "lab.yaml").write_text(
        "kind: lab\nrule_folders: [our-rules]\n"
        "classes: [{rule: sequence.overun-slot, to: fault, reason: always full}]\n",
        encoding="utf-8",
    )
    (tmp_path / "our-rules").mkdir()
    told = [f for f in check(tmp_path).findings if f.rule == RULE]
    assert [(f.message, f.remedy) for f in told] == [
        ("there is no rule sequence.overun-slot to move", "did you mean sequence.overruns-slot?")
    ]
