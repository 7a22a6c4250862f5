"""Dimensions of columns: spans are common practice, no source; volumes are arithmetic."""

from __future__ import annotations

import pytest

from methodlint.judging.finding import Finding
from tests.rules.harness import findings, judged

RULE = "column.dimensions-implausible"


def said(text: str) -> list[Finding]:
    return findings(f"kind: column\n{text}\n", RULE)


def test_silent_for_a_monolith_whatever_its_particle_size() -> None:
    assert said("particle_type: monolith\nparticle_size: 5 mm") == []
    assert len(said("particle_type: porous\nparticle_size: 5 mm")) == 1


@pytest.mark.parametrize(
    "text",
    [
        "length: 10 mm\ninner_diameter: 2.1 mm",
        "length: 500 mm\ninner_diameter: 4.6 mm",
        "length: 0.25 m\ninner_diameter: 30 mm",
        "length: 5 in",
        "particle_size: 1 um",
        "particle_size: 50 um",
        "particle_size: null",
    ],
)
def test_silent_for_columns_that_exist(text: str) -> None:
    assert said(text) == []


@pytest.mark.parametrize(
    ("text", "guess"),
    [
        ("particle_size: 5 mm", "5 um"),
        ("particle_size: 3 nm", "3 um"),
        ("inner_diameter: 4.6 cm\nlength: 250 mm", None),
        ("inner_diameter: 4.6 m", "4.6 mm"),
        ("inner_diameter: 3.0 um", "3 mm"),
        ("length: 250 m", "250 mm"),
        ("length: 150 um", "150 mm"),
    ],
)
def test_the_unit_that_is_meant(text: str, guess: str | None) -> None:
    found = said(text)
    if guess is None:
        assert found == []
        return
    (finding,) = found
    assert finding.grade == "fault"
    assert f"({guess}?)" in finding.message
    assert finding.remedy.startswith(f"did you mean {guess}?")


def test_no_unit_helps() -> None:
    (finding,) = said("length: 9000 mm")
    assert "9000 mm" in finding.message
    assert "look at the label" in finding.remedy


def test_the_volume_that_follows() -> None:
    # 0.65 pi/4 (0.3 mm)^2 25 mm = 0.00115 mL
    (finding,) = said("length: 25 mm\ninner_diameter: 0.3 mm")
    assert finding.found is not None
    assert finding.found.value == pytest.approx(0.001149, rel=1e-3)
    assert finding.limit is not None
    assert (finding.limit.value, finding.limit.unit) == (pytest.approx(0.002), "mL")
    # 0.65 pi/4 (50 mm)^2 500 mm = 638 mL
    (finding,) = said("length: 500 mm\ninner_diameter: 50 mm")
    assert finding.found is not None
    assert finding.found.value == pytest.approx(638.1, rel=1e-3)
    assert finding.limit is not None
    assert finding.limit.value == pytest.approx(500.0)


def test_other_documents_are_not_asked() -> None:
    assert judged("kind: instrument\nvent_line: {length: 9000 m, bore: 4 mm}", RULE).findings == []


@pytest.mark.parametrize("bore", ["0.3 mm", "0.5 mm"])
def test_silent_for_a_packed_capillary(bore: str) -> None:
    assert said(f"length: 150 mm\ninner_diameter: {bore}") == []
