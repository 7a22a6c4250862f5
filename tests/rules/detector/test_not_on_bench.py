"""A detector of the method is on the bench and in the flow; common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.harness import findings

RULE = "detector.not-on-bench"
CELL = "{part: cell, name: UV cell, volume: 11 uL, pressure_rating: 350 bar, detector: UV}"
REGULATOR = "{part: regulator, name: regulator, pressure_rating: 380 bar}"


def train(*parts: str) -> str:
    lines = "".join(f"  - {part}\n" for part in ("{part: injector}", "{part: column}", *parts))
    return f"---\nkind: instrument\ntrain:\n{lines}"


def uses(*detectors: str) -> str:
    return f"kind: method\ndetectors: [{', '.join(detectors)}]\n"


UV = "{type: UV, cell: UV cell, wavelength: 254 nm}"


def test_silent_for_the_sound_lab() -> None:
    assert findings("", RULE) == []


@pytest.mark.parametrize(
    "detector",
    [
        "{type: UV, wavelength: 254 nm}",
        "{type: PDA, cell: UV cell, wavelength: 254 nm}",
        "{type: MS, source: ESI, polarity: positive}",
    ],
)
def test_silent_for_what_the_bench_has(detector: str) -> None:
    assert findings(uses(detector), RULE) == []


def test_silent_for_a_cell_without_a_name_and_for_a_card_without_a_train() -> None:
    assert findings(uses(UV) + train(CELL.replace("name: UV cell, ", ""), REGULATOR), RULE) == []
    assert findings(uses("{type: FID}") + "---\nkind: instrument\ntrain: []\n", RULE) == []


def test_silent_for_a_detector_that_stands_downstream_of_the_regulator_by_design() -> None:
    light = "{part: source, name: light scattering, detector: ELSD}"
    assert findings(uses("{type: ELSD}") + train(REGULATOR, light), RULE) == []


@pytest.mark.parametrize("kind", ["ELSD", "CAD", "FID"])
def test_a_detector_that_the_bench_lacks(kind: str) -> None:
    (found,) = findings(uses(UV, f"{{type: {kind}}}"), RULE)
    assert found.grade == "fault"
    assert f"the bench has no {kind} detector" in found.message
    assert found.at.path == ("detectors", 1)


def test_a_cell_that_is_not_there_is_told_with_the_one_that_may_be_meant() -> None:
    (found,) = findings(uses(UV.replace("UV cell", "UV cel")), RULE)
    assert "no part 'UV cel'" in found.message
    assert found.remedy == "did you mean 'UV cell'?"


def test_a_cell_that_is_bypassed() -> None:
    off = CELL.replace("}", ", bypassed: true}")
    (found,) = findings(uses(UV) + train(off, REGULATOR), RULE)
    assert "the UV cell is bypassed" in found.message


def test_a_cell_downstream_of_the_regulator_sees_gas_and_droplets() -> None:
    (found,) = findings(uses(UV) + train(REGULATOR, CELL), RULE)
    assert "downstream of the regulator" in found.message


def test_a_cell_of_another_detector() -> None:
    (found,) = findings(uses("{type: FID, cell: UV cell}"), RULE)
    assert "the UV cell is a UV detector" in found.message


def test_a_spectrometer_that_was_taken_off() -> None:
    bare = train(CELL, REGULATOR).replace("kind: instrument\n", "kind: instrument\nms: null\n")
    (found,) = findings(uses("{type: MS, source: ESI}") + bare, RULE)
    assert "no MS detector" in found.message


def test_another_source_than_the_one_that_is_fitted() -> None:
    (found,) = findings(uses("{type: MS, source: APCI}"), RULE)
    assert found.grade == "caution"
    assert "uses APCI, the bench has ESI fitted" in found.message
    bare = "---\nkind: instrument\nms: {source: null}\n"
    assert findings(uses("{type: MS, source: APCI}") + bare, RULE) == []
