"""What a sequence leaves on its column; 10 hold-up volumes: common practice, no source.

Ten times 0.689 mL at 1.5 mL/min are 4.6 min.
"""

from __future__ import annotations

import pytest

from methodlint.judging.finding import Finding
from tests.rules.harness import findings, judged

RULE = "column.storage-not-planned"
SAMPLE = "  - {kind: sample, sample: x, plate: 1, well: A1}\n"


def method(additive: str = "TFA", liquid: str = "methanol") -> str:
    entry = f"[{{additive: {additive}, level: 20 mM}}]" if additive else "[]"
    return (
        f"kind: method\nmobile_phase: {{modifier: {{liquid: {liquid}, line: null, "
        f"additives: {entry}}}}}\n"
    )


def said(lines: str, text: str = "", own: str | None = None, column: str = "") -> list[Finding]:
    parts = [
        own or method(),
        f"kind: sequence\n{text}\nlines:\n{lines}",
        f"kind: column\n{column}\n",
    ]
    return findings("---\n".join(parts), RULE)


def flush(minutes: float, liquid: str = "methanol") -> str:
    return f"  - {{kind: flush, liquid: {liquid}, duration: {minutes} min}}\n"


@pytest.mark.parametrize("text", ["after: next booking", "continuous: true"])
def test_silent_where_the_next_booking_goes_on(text: str) -> None:
    assert said(SAMPLE, text) == []
    assert len(said(SAMPLE, "after: shutdown")) == 1


def test_silent_without_additive_in_the_storage_liquid() -> None:
    assert said(SAMPLE, own=method("")) == []


def test_silent_after_ten_hold_up_volumes() -> None:
    assert said(SAMPLE + flush(4.6)) == []
    assert len(said(SAMPLE + flush(4.5))) == 1


@pytest.mark.parametrize("additive", ["TFA", "diethylamine", "ammonium formate"])
def test_additive_left(additive: str) -> None:
    (finding,) = said(SAMPLE, own=method(additive))
    assert finding.grade == "caution"
    assert f"the last line leaves {additive} on column" in finding.message
    assert finding.at.path == ("lines", 0)


def test_an_injection_after_the_flush_spoils_it() -> None:
    (finding,) = said(SAMPLE + flush(6) + SAMPLE)
    assert finding.at.path == ("lines", 2)


def test_a_flush_with_additive_cleans_nothing() -> None:
    liquid = "{liquid: methanol, additives: [{additive: TFA, level: 0.1 % v/v}]}"
    assert len(said(SAMPLE + flush(6, liquid))) == 1


def test_another_liquid_than_the_storage_liquid_is_a_note() -> None:
    (finding,) = said(SAMPLE, own=method("", "ethanol"))
    assert finding.grade == "note"
    assert "stored in methanol, the last line leaves ethanol on column" in finding.message
    assert said(SAMPLE, own=method("", "ethanol"), column="storage_liquid: ethanol") == []


def test_the_printed_remedy_was_tried() -> None:
    (finding,) = said(SAMPLE)
    assert finding.remedy == "flush with methanol without additive, 6.89 mL, 5 min, after line 1"
    assert said(SAMPLE + flush(5)) == []


def test_the_flush_runs_at_the_flow_that_the_method_begins_with() -> None:
    """Ten times 0.689 mL at 0.75 mL/min are 9.2 min, though the programme doubles the flow."""
    rows = "programme:\n  - {time: 0 min, modifier_share: 5 % v/v, flow: 0.75 mL/min}\n"
    rows += "  - {time: 0.1 min, modifier_share: 5 % v/v, flow: 1.5 mL/min}\n"
    rows += "  - {time: 6 min, modifier_share: 40 % v/v, flow: 1.5 mL/min}\n"
    [finding] = said(SAMPLE, own=method() + rows)
    assert "6.89 mL, 10 min" in finding.remedy


def test_a_missing_storage_liquid_is_not_checked() -> None:
    report = judged("kind: column\nstorage_liquid: null\n", RULE)
    assert report.findings == []
    assert report.not_checked[0].missing == ("column.storage_liquid",)
