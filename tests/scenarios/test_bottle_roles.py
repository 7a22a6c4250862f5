"""Bottles have roles: a wash is a wash on whatever line, and a flush is drawn from where it stands.

Each lab is the sound one under other names; what is found under the names of old has to be found
under the new ones, and the sound lab stays silent under both.
"""

from __future__ import annotations

from typing import Any

import pytest

from methodlint.checking.report import Report
from methodlint.rehearsal.batch.bottles import bottle_uses
from tests.text_labs import TextLab, base_lab, everything, reported

WASH = 3
OLD = ("modifier-1", "modifier-2", "makeup", "needle-wash")
NEW = ("A", "B", "M", "W1")
ROLES = ("modifier", "modifier", "makeup", "wash")


def named(names: tuple[str, ...], roles: tuple[str | None, ...]) -> TextLab:
    """The sound lab with other names for its lines."""
    lab = base_lab()
    for index, (name, role) in enumerate(zip(names, roles, strict=True)):
        lab = lab.changed(f"solvents.bottles[{index}].line", name)
        if role is not None:
            lab = lab.changed(f"solvents.bottles[{index}].role", role)
    lab = lab.changed("instrument.modifier_pump.lines", list(names[:2]))
    return lab.changed("method.mobile_phase.modifier.line", names[0])


NO_ROLES = (None,) * 4
SPELLINGS = [
    pytest.param(OLD, NO_ROLES, id="as in 0.1"),
    pytest.param(NEW, ROLES, id="A, B, M and W1 with roles"),
    pytest.param(("A", "B", "makeup", "needle wash"), NO_ROLES, id="needle wash with a blank"),
    pytest.param(("A", "B", "make-up", "W1"), NO_ROLES, id="W1 without a role"),
    pytest.param(("1", "2", "3", "4"), ROLES, id="numbers with roles"),
]


def found(report: Report, rule: str) -> list[str]:
    return [f.message for f in everything(report.findings) if f.rule == rule]


@pytest.mark.parametrize(("names", "roles"), SPELLINGS)
def test_the_sound_lab_is_clear(names: tuple[str, ...], roles: tuple[str | None, ...]) -> None:
    report = named(names, roles).judged()
    assert reported(report) == []
    assert report.verdict == "clear to run"
    assert report.not_checked == []


@pytest.mark.parametrize(("names", "roles"), SPELLINGS)
@pytest.mark.parametrize(
    ("rule", "path", "value"),
    [
        ("solvent.reservoir-too-small", f"solvents.bottles[{WASH}].fill", "52 mL"),
        ("solvent.pair-not-miscible", f"solvents.bottles[{WASH}].liquid", "hexane"),
        ("injection.wash-missing-or-unfit", f"solvents.bottles[{WASH}].liquid", "heptane"),
        (
            "solvent.salt-not-soluble",
            f"solvents.bottles[{WASH}].additives",
            [{"additive": "ammonium acetate", "level": "2 mol/L"}],
        ),
    ],
)
def test_a_wash_is_found_out_under_every_name(
    names: tuple[str, ...], roles: tuple[str | None, ...], rule: str, path: str, value: Any
) -> None:
    lab = named(names, roles)
    if rule == "solvent.pair-not-miscible":
        lab = lab.changed("method.injection.diluent", "water").changed("sequence.diluent", "water")
    assert found(lab.changed(path, value).judged(), rule)


@pytest.mark.parametrize(("names", "roles"), SPELLINGS)
def test_makeup_of_the_method_comes_from_the_makeup_bottle(
    names: tuple[str, ...], roles: tuple[str | None, ...]
) -> None:
    """0.2 mL/min over 4 h and more are above 45 mL; 500 mL suffice, 70 mL with 50 dead do not."""
    makeup = {"liquid": "methanol", "flow": "0.2 mL/min", "tee": "before the regulator"}
    makeup["additives"] = [{"additive": "ammonium formate", "level": "5 mM"}]  # type: ignore[assignment]
    lab = named(names, roles).changed("method.makeup", makeup)
    assert found(lab.judged(), "solvent.reservoir-too-small") == []
    lab = lab.changed("solvents.bottles[2].fill", "70 mL")
    [message] = found(lab.judged(), "solvent.reservoir-too-small")
    assert f"on {names[2]}" in message


FLUSH = {"line": "C", "role": "flush", "liquid": "2-propanol", "fill": "500 mL",
         "dead_volume": "50 mL", "opened": "2026-11-20", "expires": "2027-10-31", "grade": "MS"}  # fmt: skip


def with_flush(bottle: dict[str, Any] | None) -> TextLab:
    lab = named(NEW, ROLES).changed("sequence.lines[18].liquid", "2-propanol")
    if bottle is None:
        return lab
    return lab.changed("solvents.bottles", [*lab.plain("solvents/solvents")["bottles"], bottle])


def test_a_flush_without_a_bottle_is_found() -> None:
    assert found(with_flush(None).judged(), "sequence.flush-liquid-missing")


def test_twin_a_bottle_to_flush_with_is_found_on_any_line() -> None:
    report = with_flush(FLUSH).judged()
    assert found(report, "sequence.flush-liquid-missing") == []
    [case] = report.batches
    uses, missing = bottle_uses(
        case.batch, case.documents["solvents"], case.documents["instrument"]
    )
    assert missing == ()
    # 5 min at 1.5 mL/min, of which the starting share of 5 % comes from the bottle
    assert uses[4].parts["flush"] == pytest.approx(0.375e-6, rel=1e-6)


def test_a_wash_of_the_same_liquid_is_no_bottle_to_flush_with() -> None:
    assert found(with_flush({**FLUSH, "role": "wash"}).judged(), "sequence.flush-liquid-missing")


def test_a_flush_bottle_with_an_additive_is_not_the_liquid() -> None:
    salted = {**FLUSH, "additives": [{"additive": "diethylamine", "level": "0.1 % v/v"}]}
    [message] = found(with_flush(salted).judged(), "sequence.flush-liquid-missing")
    assert "C holds" in message
    assert "diethylamine" in message


def test_of_two_bottles_that_without_the_additive_is_drawn() -> None:
    """Methanol with an amine on A, methanol alone on C: the flush with methanol draws from C."""
    amine = [{"additive": "diethylamine", "level": "0.1 % v/v"}]
    lab = with_flush({**FLUSH, "liquid": "methanol"}).changed(
        "solvents.bottles[0].additives", amine
    )
    lab = lab.changed("method.mobile_phase.modifier.additives", amine)
    lab = lab.changed("sequence.lines[18].liquid", "methanol")
    [case] = lab.judged().batches
    uses, _ = bottle_uses(case.batch, case.documents["solvents"], case.documents["instrument"])
    assert uses[4].parts["flush"] > 0.0
    assert uses[0].parts["flush"] == 0.0


def test_an_unknown_role_is_a_finding_with_the_word_meant() -> None:
    report = base_lab().changed(f"solvents.bottles[{WASH}].role", "rinse").judged()
    [message] = [f for f in everything(report.findings) if f.grade == "fault"]
    assert "rinse" in message.message
    assert "wash" in message.remedy
    assert report.verdict == "do not run"
