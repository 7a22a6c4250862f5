"""Which additives evaporate: common practice, no source. Solid of one day by hand: 5 mM x 136.09 g/mol
(standard atomic weights) x 0.5 mL/min x 8 h = 0.163 g.
"""

from __future__ import annotations

import pytest

from tests.rules.harness import findings
from tests.rules.solvent.modifiers import modifier, salt

RULE = "solvent.salt-not-volatile"


@pytest.mark.parametrize("name", ["ammonium formate", "formic acid", "DEA", "ammonium bicarbonate"])
def test_silent_for_volatile_additives(name: str) -> None:
    assert findings(modifier(salt(name, "10 mM")), RULE) == []


def test_silent_for_washes_that_never_enter_the_flow_path() -> None:
    bottles = (
        "kind: solvents\nbottles:\n  - {line: modifier-1, liquid: methanol}\n  - line: seal-wash\n"
    )
    bottles += "    liquid: water\n    additives: [{additive: sodium acetate, level: 10 mM}]\n"
    assert findings(bottles, RULE) == []


def test_phosphate_with_uv_only_is_a_caution() -> None:
    (found,) = findings(modifier(salt("KH2PO4", "5 mM")), RULE)
    assert found.grade == "caution"


def test_phosphate_with_a_mass_spectrometer_is_a_fault() -> None:
    spectrometer = "detectors: [{type: MS, source: ESI, polarity: positive}]\n"
    (found,) = findings(modifier(salt("KH2PO4", "5 mM"), rest=spectrometer), RULE)
    assert found.grade == "fault"


def test_solid_of_a_day_against_the_figure_by_hand() -> None:
    """2.5 mL/min with 20 % of modifier are 0.5 mL/min."""
    rest = "programme: []\nflow: 2.5 mL/min\n"
    text = modifier(salt("KH2PO4", "5 mM"), rest=rest)
    text = text.replace("mobile_phase: {", "mobile_phase: {modifier_share: 20 % v/v, ")
    (found,) = findings(text, RULE)
    assert "leaves 163 mg in eight hours" in found.message


@pytest.mark.parametrize(
    "flow",
    ["flow: 0.5 mL/min", "programme: [{time: 0 min, flow: 0 mL/min}, {time: 0.01 min, flow: 0.5 mL/min}]"],
    ids=["steady", "from the first second on"],
)  # fmt: skip
def test_solid_of_a_day_that_the_makeup_brings(flow: str) -> None:
    """The same 5 mM at 0.5 mL/min; what a programme begins with does not last the day."""
    makeup = f"{{liquid: methanol, {flow}, additives: [{salt('KH2PO4', '5 mM')}]}}"
    (found,) = findings(f"kind: method\nmakeup: {makeup}\n", RULE)
    assert "at 0.5 mL/min leaves 163 mg in eight hours" in found.message


def test_salt_in_the_bottle_of_the_makeup() -> None:
    """The bottle says what the makeup is where the method names none; 5 mM at 0.5 mL/min again."""
    bottles = f"""---
kind: solvents
bottles:
  - {{line: modifier-1, liquid: methanol}}
  - {{line: makeup, liquid: methanol, additives: [{salt("KH2PO4", "5 mM")}]}}
  - {{line: seal-wash, liquid: water}}
"""
    (found,) = findings(f"kind: method\nmakeup: {{flow: 0.5 mL/min}}\n{bottles}", RULE)
    assert found.at.document.kind == "solvents"
    assert found.at.path == ("bottles", 1, "additives", 0)
    assert "leaves 163 mg in eight hours" in found.message


def test_remedy_was_applied() -> None:
    (found,) = findings(modifier(salt("sodium formate", "5 mM")), RULE)
    assert found.remedy == "use 10 mM ammonium formate in its place"


def test_explains_the_deposit_at_the_regulator() -> None:
    (found,) = findings(modifier(salt("sodium formate", "5 mM")), RULE, "makeup.deposits-at-bpr")
    assert [child.rule for child in found.because] == ["makeup.deposits-at-bpr"]


def test_the_one_that_stays_is_found_behind_one_that_evaporates() -> None:
    both = salt("formic acid", "0.1 % v/v") + ", " + salt("KH2PO4", "5 mM")
    (found,) = findings(modifier(both), RULE)
    assert found.at.path[-1] == 1
