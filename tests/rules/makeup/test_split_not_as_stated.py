"""Flow through a restrictor goes as pressure over viscosity (Hagen and Poiseuille). Carbon dioxide
with 5 to 40 % methanol at 40 degC and 120 bar: 77 to 169 uPa s (logarithmic mixing, computed)."""

from __future__ import annotations

import re

from tests.rules.harness import findings, judged

RULE = "makeup.split-not-as-stated"
MS = "kind: method\ndetectors: [{type: MS, source: ESI, polarity: positive}]\n"
ISOCRATIC = MS + "programme: []\nmobile_phase: {modifier: {liquid: methanol, line: modifier-1}, "
ISOCRATIC += "modifier_share: 20 % v/v}\n"


def _train(active: str) -> str:
    return f"""---
kind: instrument
train:
  - {{part: mixer, name: mixer, volume: 0.2 mL}}
  - {{part: column}}
  - {{part: splitter, name: splitter, split_ratio: 10 %{active}}}
  - {{part: regulator, name: regulator, pressure_rating: 380 bar}}
  - {{part: source, name: source, detector: MS}}
"""


FIXED = _train(", active: false")


def test_silent_with_an_active_splitter() -> None:
    assert findings(MS + _train(", active: true"), RULE) == []


def test_silent_without_a_splitter() -> None:
    assert judged(MS, RULE).checked == 0


def test_silent_for_isocratic_runs() -> None:
    assert findings(ISOCRATIC + FIXED, RULE) == []


def test_gradient_with_a_fixed_restrictor_is_a_caution() -> None:
    (found,) = findings(MS + FIXED, RULE)
    assert found.grade == "caution"
    assert found.found is not None
    # twice the viscosity halves the flow: a change of about 100 % and more
    assert 80.0 < found.found.value < 250.0
    # the stated 10 % holds at the start, give or take what the stream's density does
    (first,) = re.findall(r"from ([0-9.]+) to [0-9.]+ % of", found.message)
    assert 10.0 <= float(first) < 10.5
    assert found.remedy == "use an active splitter"


def test_internal_standard_makes_it_a_note() -> None:
    (found,) = findings(MS + FIXED + "---\nkind: sequence\ninternal_standard: true\n", RULE)
    assert found.grade == "note"


def test_a_splitter_of_unknown_kind_is_not_checked() -> None:
    assert judged(MS + _train(""), RULE).not_checked[0].missing == ("instrument.train[2].active",)


def test_without_a_word_on_detectors_it_is_not_checked_and_with_a_uv_cell_alone_not_asked() -> None:
    report = judged("kind: method\ndetectors: []\n" + FIXED, RULE)
    assert report.findings == []
    assert [item.missing for item in report.not_checked] == [("method.detectors",)]
    uv = "kind: method\ndetectors: [{type: UV, wavelength: 254 nm, rate: 20 Hz}]\n"
    assert judged(uv + FIXED, RULE).checked == 0
