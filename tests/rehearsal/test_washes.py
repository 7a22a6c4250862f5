"""Needle washes (common practice, no source).

Ammonium acetate does not dissolve in neat acetonitrile: limits of buffer salts in acetonitrile,
LCGC blog (0 mM at 100 %).
"""

from __future__ import annotations

import pytest

from methodlint.rehearsal.batch.injected import injected
from methodlint.rehearsal.batch.washes import (
    Wash,
    calibration_span,
    dissolves,
    salt_thrown_out,
    washes_of,
)
from methodlint.rulebook.examples import lab_with


def test_washes_come_in_the_order_in_which_they_wash() -> None:
    bottles = ", ".join(
        f"{{line: {line}, liquid: methanol}}" for line in ("weak-wash", "modifier-1", "strong-wash")
    )
    documents = lab_with(f"kind: solvents\nbottles: [{bottles}]")
    assert [(wash.line, wash.index) for wash in washes_of(documents)] == [
        ("strong-wash", 2),
        ("weak-wash", 0),
    ]


def test_the_bottle_s_word_comes_before_the_instrument_s() -> None:
    text = "kind: solvents\nbottles: [{line: wash, liquid: methanol{}}]"
    assert washes_of(lab_with(text.replace("{}", "")))[0].enters is True
    assert washes_of(lab_with(text.replace("{}", ", enters_flow: false")))[0].enters is False
    assert washes_of({}) == []


def test_a_quarter_of_a_good_liquid_is_enough() -> None:
    assert dissolves((("water", 0.75), ("2-propanol", 0.25)), "lipids")
    assert not dissolves((("water", 0.8), ("2-propanol", 0.2)), "lipids")
    assert dissolves((("moonshine", 1.0),), "waxes")
    assert not dissolves((), "polar")


def test_span_of_the_calibrators() -> None:
    documents = lab_with("kind: sequence")
    assert calibration_span(documents) == pytest.approx(50.0)
    documents = lab_with("kind: sequence\nlines: [{kind: calibrator, sample: C, level: 1}]")
    assert calibration_span(documents) is None


@pytest.mark.parametrize(
    ("wash", "salt"),
    [
        ((("acetonitrile", 1.0),), "ammonium acetate"),
        ((("methanol", 1.0),), None),
        ((("n-heptane", 0.3), ("2-propanol", 0.3), ("methanol", 0.4)), None),
    ],
)
def test_a_salt_that_falls_out(wash: tuple[tuple[str, float], ...], salt: str | None) -> None:
    diluent = "{liquid: methanol, additives: [{additive: ammonium acetate, level: 5 mM}]}"
    (group,) = injected(lab_with(f"kind: sequence\ndiluent: {diluent}"))
    assert salt_thrown_out(group, Wash(0, "wash", wash, True)) == salt
    assert salt_thrown_out(group, Wash(0, "wash", wash, False)) is None
