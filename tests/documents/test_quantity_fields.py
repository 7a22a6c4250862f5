"""The field types of the documents' models."""

import re

import pytest
from pydantic import BaseModel, TypeAdapter, ValidationError

from methodlint.documents.quantities import quantity as fields
from methodlint.documents.quantities.quantity import Quantity

ONE_OF_EACH = {
    "Pressure": ("150 bar(g)", 150e5),
    "Temperature": ("40 degC", 313.15),
    "TemperatureDifference": ("2 degC", 2.0),
    "VolumeFlow": ("1.5 mL/min", 2.5e-8),
    "MassFlow": ("3 g/min", 5e-5),
    "AnyFlow": ("3 g/min", 5e-5),
    "Volume": ("5 uL", 5e-9),
    "Length": ("250 mm", 0.25),
    "Duration": ("2 min", 120.0),
    "Mass": ("12.5 kg", 12.5),
    "ShareAnyBasis": ("20 %", 0.2),
    "Concentration": ("20 mM", 20.0),
    "Density": ("0.79 g/mL", 790.0),
    "Frequency": ("10 Hz", 10.0),
    "Power": ("50 W", 50.0),
    "AirChangeRate": ("6 1/h", 6 / 3600),
    "PartsPerMillion": ("5000 ppm", 5e-3),
    "Voltage": ("-3000 V", -3000.0),
}


def read(name, value):
    return TypeAdapter(getattr(fields, name)).validate_python(value)


def error(name, value):
    with pytest.raises(ValidationError) as caught:
        read(name, value)
    (found,) = caught.value.errors()
    return found


@pytest.mark.parametrize("name", ONE_OF_EACH)
def test_each_type_reads_its_quantity_and_refuses_others(name):
    text, si = ONE_OF_EACH[name]
    found = read(name, text)
    assert isinstance(found, Quantity)
    assert found.si == pytest.approx(si)
    assert found.text == text
    assert read(name, found) is found
    assert error(name, "7 lb/parsec")["type"] == "document.unit-missing-or-wrong-kind"


@pytest.mark.parametrize("name", ONE_OF_EACH)
def test_the_json_schema_accepts_what_is_read(name):
    schema = TypeAdapter(getattr(fields, name)).json_schema()
    text, mapping = schema["anyOf"]
    pattern = re.compile(text["pattern"])
    assert pattern.search(ONE_OF_EACH[name][0])
    assert not pattern.search("7")
    assert not pattern.search(ONE_OF_EACH[name][0] + " x")
    for example in text["examples"]:
        assert pattern.search(example)
        assert read(name, example).text == example
    assert mapping["required"] == ["value"]


def test_an_error_carries_rule_message_and_remedy():
    found = error("Pressure", "40 degC")
    assert found["type"] == "document.unit-missing-or-wrong-kind"
    assert found["msg"] == '"40 degC" is a temperature; a pressure is expected here'
    assert found["ctx"]["message"] == found["msg"]
    assert "150 bar" in found["ctx"]["remedy"]


def test_braces_in_a_value_do_not_disturb_the_message():
    found = error("Pressure", "{remedy} {message}")
    assert found["ctx"]["message"].startswith('"{remedy} {message}" does not')


def test_a_percentage_without_a_basis():
    assert error("Concentration", "0.1 %")["type"] == "document.percent-basis-missing"
    assert error("Concentration", "0.1 %")["ctx"]["remedy"].startswith('write "0.1 % v/v"')
    assert read("ShareAnyBasis", "20 %").basis is None
    assert read("Concentration", "0.1 % v/v").dimension == "share"


@pytest.mark.parametrize(
    "name", ["VolumeFlow", "Length", "Duration", "Mass", "ShareAnyBasis", "Volume"]
)
def test_what_cannot_be_negative(name):
    text = "-" + ONE_OF_EACH[name][0]
    assert error(name, text)["type"] == "document.value-implausible"


class Oven(BaseModel):
    temperature: fields.Temperature
    limit: fields.Pressure | None = None


@pytest.mark.parametrize(
    ("form", "si", "tolerance"),
    [
        ({"value": "35 degC", "tolerance": "2 degC"}, 308.15, 2.0),
        ({"value": "95 degF", "tolerance": "9 degF"}, 308.15, 5.0),
        ({"value": "308.15 K", "tolerance": "0.5 K"}, 308.15, 0.5),
        ({"value": "35 degC"}, 308.15, None),
    ],
)
def test_a_tolerance_of_a_temperature_is_a_difference(form, si, tolerance):
    found = Oven(temperature=form).temperature
    assert found.si == pytest.approx(si)
    assert found.tolerance == (None if tolerance is None else pytest.approx(tolerance))


def test_a_tolerance_in_percent_is_of_the_value():
    found = read("Pressure", {"value": "150 bar", "tolerance": "2 %"})
    assert found.tolerance == pytest.approx(3e5)
    assert read(
        "ShareAnyBasis", {"value": "20 % v/v", "tolerance": "1 %"}
    ).tolerance == pytest.approx(0.01)
    assert (
        error("ShareAnyBasis", {"value": "20 % v/v", "tolerance": "1 % w/w"})["ctx"]["part"]
        == "tolerance"
    )


@pytest.mark.parametrize(
    ("form", "rule", "part"),
    [
        ({"value": "35-40 C", "tolerance": "1 C"}, "document.range-or-about", "value"),
        ({"value": "35 C", "tolerance": "about 1 C"}, "document.range-or-about", "tolerance"),
        ({"value": "35 C", "tolerance": 1}, "document.unit-missing-or-wrong-kind", "tolerance"),
        ({"value": "35 C", "tolerance": "-1 C"}, "document.value-implausible", "tolerance"),
        ({"value": "35 C", "tolerance": None}, "document.unit-missing-or-wrong-kind", "tolerance"),
        ({"value": {"value": "35 C"}}, "document.unit-missing-or-wrong-kind", ""),
        ({"tolerance": "1 C"}, "document.unit-missing-or-wrong-kind", ""),
        ({"value": "35 C", "tolerence": "1 C"}, "document.unknown-key", ""),
    ],
)
def test_wrong_forms_with_a_tolerance(form, rule, part):
    found = error("Temperature", form)
    assert (found["type"], found["ctx"]["part"]) == (rule, part)


def test_a_tolerance_too_large_to_compute_with():
    form = {"value": "1e308 Pa", "tolerance": "500 %"}
    assert error("Pressure", form)["type"] == "document.type-trap"
