"""The YAML 1.2 core schema, and the values that other readers take for something else."""

import datetime
import math

import pytest
from hypothesis import given, reject, settings
from hypothesis import strategies as st
from ruamel.yaml import YAML
from ruamel.yaml.error import YAMLError

from methodlint.documents.text.nodes import Scalar
from methodlint.documents.text.places import Place
from methodlint.documents.text.scalars import resolve, scalar_trap, unusable


def scalar(text, quoted=False):
    return Scalar(text if quoted else resolve(text), text, quoted, Place(1, 1, 1, 2))


@pytest.mark.parametrize(
    ("text", "value"),
    [
        # YAML 1.2.2, section 10.3.2, examples of the core schema (example 10.9 and its table).
        ("null", None), ("Null", None), ("NULL", None), ("~", None), ("", None),
        ("true", True), ("True", True), ("TRUE", True),
        ("false", False), ("False", False), ("FALSE", False),
        ("0", 0), ("0o7", 7), ("0x3A", 58), ("-19", -19),
        ("0.", 0.0), ("-0.0", -0.0), (".5", 0.5), ("+12e03", 12000.0), ("-2E+05", -200000.0),
        # What the core schema leaves as text although YAML 1.1 does not.
        ("yes", "yes"), ("no", "no"), ("on", "on"), ("off", "off"), ("y", "y"),
        ("12:30", "12:30"), ("1_000", "1_000"), ("2024-05-01", "2024-05-01"), ("0b11", "0b11"),
        ("017", 17), ("08", 8), ("1E2", 100.0), ("nULL", "nULL"), ("tRue", "tRue"),
        ("1.5 mL/min", "1.5 mL/min"), ("+", "+"), ("-", "-"), (".", "."), ("0x", "0x"),
        ("1e", "1e"), ("0o8", "0o8"), ("++1", "++1"), ("٣", "٣"), ("１", "１"),
    ],
)  # fmt: skip
def test_core_schema(text, value):
    found = resolve(text)
    assert found == value
    assert type(found) is type(value)


@pytest.mark.parametrize(
    "text", [".inf", "-.INF", "+.Inf", ".nan", ".NaN", "1e999", "-1e999", "9e9999"]
)
def test_what_is_no_finite_number_stays_text_and_is_unusable(text):
    assert resolve(text) == text
    assert unusable(text).rule == "document.type-trap"


def test_a_number_that_reads_as_zero_is_unusable():
    assert unusable("1e-400") is not None
    assert unusable("0e-400") is None
    assert unusable("5e-324") is None


def test_a_number_of_more_than_64_characters_is_unusable():
    assert resolve("1" * 64) == int("1" * 64)
    assert unusable("1" * 64) is None
    assert resolve("1" * 65) == "1" * 65
    assert unusable("1" * 65).rule == "document.too-large"
    assert unusable("1" * 70 + " bar") is None


@pytest.mark.parametrize(
    "text", ["word", "1.5 mL/min", "-", "12:30", "no", "0x1F", ".infinite", "nan"]
)
def test_what_may_be_used(text):
    assert unusable(text) is None


@settings(max_examples=400)
@given(st.text("0123456789+-.eExXoOaAfFnNiIuUlLtTrRsS:~", min_size=1, max_size=12))
def test_agrees_with_the_library_reading_yaml_1_2(text):
    try:
        loaded = YAML(typ="safe", pure=True).load(f"a: {text}\n")["a"]
    except (ValueError, YAMLError):  # no plain value, or one that the library cannot convert
        reject()
    if isinstance(loaded, datetime.date) or (
        isinstance(loaded, float) and not math.isfinite(loaded)
    ):  # a date is read by the field that wants one
        assert resolve(text) == text
    else:
        assert (resolve(text), type(resolve(text))) == (loaded, type(loaded))


@pytest.mark.parametrize(
    ("text", "wants"),
    [
        ("12:30", "clock"), ("12:30", "quantity"), ("1:30", "number"), ("1:30:00", "text"),
        ("no", "flag"), ("yes", "flag"), ("off", "flag"), ("On", "flag"), ("no", "text"),
        ("NO", "text"), ("y", "text"), ("no", "quantity"), ("true", "text"), ("FALSE", "text"),
        ("1E2", "text"), ("1e5", "text"), ("017", "text"), ("08", "text"), ("1.50", "text"),
        ("+5", "text"), ("0x1F", "text"), ("null", "text"), ("~", "text"),
        ("017", "integer"), ("017", "number"), ("08", "integer"), ("1_000", "number"),
        ("0x1F", "number"), ("0o17", "integer"), ("0x1F", "quantity"), ("1_000", "quantity"),
        ("20240501", "date"), ("1230", "clock"),
    ],
)  # fmt: skip
def test_traps(text, wants):
    trap = scalar_trap(scalar(text), wants)
    assert trap is not None
    assert trap.rule == "document.type-trap"
    assert text in trap.message
    assert trap.remedy


@pytest.mark.parametrize(
    ("text", "wants"),
    [
        ("A1", "text"), ("12", "text"), ("-3", "text"), ("0", "text"), ("chiral-03", "text"),
        ("2024-05-01", "date"), ("2024-05-01", "text"), ("08:30", "clock"), ("00:15", "clock"),
        ("true", "flag"), ("false", "flag"), ("5", "integer"), ("-5", "integer"), ("0", "number"),
        ("0.5", "number"), ("1e3", "number"), ("1.5 mL/min", "quantity"), ("2", "quantity"),
        ("", "text"), ("note", "text"), ("12:30 in the afternoon", "text"), ("A:1", "text"),
    ],
)  # fmt: skip
def test_sound_values_are_no_traps(text, wants):
    assert scalar_trap(scalar(text), wants) is None


@pytest.mark.parametrize("text", ["12:30", "no", "1E2", "017", "true", "~", "1_000"])
@pytest.mark.parametrize("wants", ["text", "clock", "date"])
def test_quotation_marks_disarm_a_trap(text, wants):
    assert scalar_trap(scalar(text, quoted=True), wants) is None


def test_messages_say_what_was_read():
    assert "the number 100" in scalar_trap(scalar("1E2"), "text").message
    assert "750" in scalar_trap(scalar("12:30"), "clock").message  # 12 x 60 + 30
    assert scalar_trap(scalar("no"), "flag").remedy == "write false"
    assert scalar_trap(scalar("017"), "integer").remedy == "write 17"
    assert "octal" in scalar_trap(scalar("017"), "integer").message
    assert "octal" not in scalar_trap(scalar("08"), "integer").message
