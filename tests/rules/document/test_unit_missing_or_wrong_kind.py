"""A value of a quantity is a number and a unit: ISO 80000-1 (from memory)."""

from __future__ import annotations

import pytest

from tests.rules.document.pages import found_in, report_on

RULE = "document.unit-missing-or-wrong-kind"


@pytest.mark.parametrize(
    "text",
    [
        "flow: 2 mL/min",
        "flow: 2 ml/min",
        "flow: 2000 µL/min",
        "flow: 0.002 L/min",
        "flow: 1.9 g/min",
    ],
)
def test_silent_for_every_unit_of_the_kind(text: str) -> None:
    assert found_in(f"kind: method\n{text}\n", RULE) == []


def test_silent_for_counts_ratios_and_keys_of_the_lab() -> None:
    text = "suitability: {replicates: 5, resolution: 1.5, tailing: 1.8}\nx-flow: 2\n"
    assert found_in(f"kind: method\n{text}", RULE) == []


@pytest.mark.parametrize(
    ("text", "instead"),
    [
        ("flow: 2", "2 mL/min"),
        ("oven_temperature: 40", "40 degC"),
        ("outlet_pressure: 150", "150 bar"),
        ("run_length: 8", "8 min"),
    ],
)
def test_a_bare_number_is_offered_with_the_unit_that_makes_it_usual(
    text: str, instead: str
) -> None:
    report = report_on(f"kind: method\n{text}\n", RULE)
    (found,) = report.findings
    key = text.partition(":")[0]
    assert (found.grade, found.at.path) == ("fault", (key,))
    assert f'"{instead}"' in found.remedy
    assert getattr(report.documents["page.yaml"].model, key) is None, "no unit is guessed"


def test_a_bare_zero_is_usual_in_no_unit() -> None:
    (found,) = found_in("kind: method\nflow: 0\n", RULE)
    assert '"0 ' not in found.remedy


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("outlet_pressure: 40 degC", "a temperature; a pressure"),
        ("flow: 2 mL", "a volume; a flow"),
        ("flow: 2 furlongs", '"furlongs"'),
        ("flow: 2 mL/min extra", '"mL/min extra"'),
    ],
)
def test_a_unit_of_another_kind_or_of_none(text: str, words: str) -> None:
    (found,) = found_in(f"kind: method\n{text}\n", RULE)
    assert found.grade == "fault"
    assert words in found.message


@pytest.mark.parametrize(
    ("text", "instead"), [("flow: 2 mL", "2 mL/min"), ("oven_temperature: 100 F", "100 degF")]
)
def test_the_unit_that_is_nearest_is_offered(text: str, instead: str) -> None:
    (found,) = found_in(f"kind: method\n{text}\n", RULE)
    assert found.remedy == f'did you mean "{instead}"?'
