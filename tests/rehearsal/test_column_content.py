"""What a column holds when a line begins, against Darcy's law worked by hand.

Superficial flow resistance 1000. 2-propanol: 1.77 mPa s at 30 degC and 1 bar (CRC Handbook,
unverified); pressure makes an alcohol more viscous, by less than 40 % at 350 bar (common practice,
no source).
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from methodlint.rehearsal.plan.column_content import Content, pushing_programme
from methodlint.rehearsal.plan.programme import SetPoint
from tests.scenarios.show import HERE, sound_lab
from tests.text_labs import everything

NEAT = Content((("2-propanol", 1.0),), 1.0, 1e-8)
METHANOL = (("methanol", 1.0),)


@pytest.mark.parametrize(
    ("content", "liquid", "share", "thicker"),
    [
        (NEAT, METHANOL, 1.0, True),
        (NEAT, NEAT.liquid, 1.0, False),
        (NEAT, NEAT.liquid, 0.2, True),
        (Content(METHANOL, 0.2, 1e-8), NEAT.liquid, 1.0, False),
        (Content(METHANOL, 0.2, 1e-8), (("ethanol", 1.0),), 0.2, False),
        (Content((), 0.0, 1e-8), METHANOL, 0.2, False),
    ],
)
def test_what_may_be_thicker(content: Content, liquid: object, share: float, thicker: bool) -> None:
    assert content.may_be_thicker(liquid, share) is thicker  # type: ignore[arg-type]


def test_the_flow_rises_within_the_ramp_and_what_pushes_comes_behind() -> None:
    start = SetPoint(0.0, 0.2, 4e-8, 150e5, 313.0)
    programme = pushing_programme(NEAT, start, 60.0, 600.0, 0.0)
    assert programme.flow_at([0.0, 30.0, 60.0]) == pytest.approx([1e-8, 2.5e-8, 4e-8])
    shares = programme.delayed_share(np.array([1.0, 599.0]), np.array([1e-6]))
    assert shares[:, 0] == pytest.approx([1.0, 0.2])


FLUSH = {"kind": "flush", "liquid": "2-propanol", "co2": "off", "flow": "0.6 mL/min"}
SAMPLE = {"kind": "sample", "sample": "batch 4", "plate": "1", "well": "B4", "fill": "1 mL"}


def found(*lines: dict[str, str], ramp: str | None = None) -> list[float]:
    """Highest inlet pressures [bar] of the lines behind a flush with neat 2-propanol."""
    lab = sound_lab(HERE / "lines").changed("column.pressure_rating", "160 bar")
    lab = lab.changed("method.flow_ramp", ramp)
    known = lab.plain("sequence/morning")["lines"]
    known[-1:-1] = [{**FLUSH, "duration": "50 min"}, *lines]
    return [
        one.found.value
        for one in everything(lab.changed("sequence.lines", known).judged().findings)
        if one.rule == "pressure.column-rating-exceeded" and "pushing 2-propanol out" in one.message
        if one.found is not None
    ]


def test_the_first_moment_is_that_of_the_neat_liquid() -> None:
    """At 2.5 mL/min through 4.6 mm: dP = 1000 x 1.77 mPa s x 2.51 mm/s x 0.15 m/(5 um)^2."""
    velocity = 2.5e-6 / 60.0 / (math.pi / 4.0 * 4.6e-3**2)
    drop = 1000.0 * 1.77e-3 * velocity * 0.15 / 5e-6**2 / 1e5
    [pressure] = found(SAMPLE)
    assert 150.0 + drop < pressure < 150.0 + 1.4 * drop


def test_a_ramp_pushes_some_of_it_out_before_the_flow_is_reached() -> None:
    [steep], [gentle] = found(SAMPLE), found(SAMPLE, ramp="3 min")
    assert gentle < steep - 50.0


def test_it_is_gone_behind_the_first_line() -> None:
    assert len(found(SAMPLE, {**SAMPLE, "well": "B5", "sample": "batch 5"})) == 1


def test_too_short_a_step_leaves_it_there() -> None:
    """0.5 mL of dwell and hold-up of 0.8 and 1.6 mL."""
    short = {"kind": "equilibration", "flow": "0.5 mL/min", "duration": "1 min"}
    assert len(found(short, SAMPLE)) == 2
