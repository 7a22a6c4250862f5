"""The JSON Schemas of documents, read by an independent reader: what the tool accepts an editor
accepts, and what an editor can know to be wrong it marks.

JSON Schema, draft 2020-12 (json-schema.org); the reader is the package jsonschema, ajv and
check-jsonschema behind the marker.
"""

from __future__ import annotations

import functools
import json
import re
import subprocess
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from methodlint.documents.json_schema import kind_schema, kind_schema_text
from methodlint.documents.loading import KINDS, load
from methodlint.documents.quantities.unit_table import UNITS
from methodlint.documents.quantities.units import UnitProblem, parse_quantity
from methodlint.documents.starters import starter
from methodlint.documents.text.reader import read_document, read_text
from methodlint.judging.loader import built_in_rules
from methodlint.rulebook.examples import ExampleWrong, base_data, examples_of, lab_with
from tests.command import ROOT, run
from tests.reports import readers


@functools.cache
def reader(kind: str) -> Draft202012Validator:
    return Draft202012Validator(kind_schema(kind))


def complaints(kind: str, data: Any) -> list[str]:
    return [f"{error.json_path}: {error.message[:200]}" for error in reader(kind).iter_errors(data)]


@pytest.mark.parametrize("kind", KINDS)
def test_it_is_a_schema_of_the_draft_with_a_name_of_its_own(kind: str) -> None:
    schema = kind_schema(kind)
    assert schema["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    assert schema["$id"] == f"urn:methodlint:schema:{kind}:1"
    Draft202012Validator.check_schema(schema)


def parts(schema: Any, path: str = "") -> Iterator[tuple[str, dict[str, Any]]]:
    """Every mapping of a schema with its path."""
    if isinstance(schema, dict):
        yield path, schema
        for key, below in schema.items():
            yield from parts(below, f"{path}/{key}")
    elif isinstance(schema, list):
        for number, below in enumerate(schema):
            yield from parts(below, f"{path}/{number}")


@pytest.mark.parametrize("kind", KINDS)
def test_every_key_is_described_and_no_key_offers_null(kind: str) -> None:
    number = 0
    for path, part in parts(kind_schema(kind)):
        for key, below in part.get("properties", {}).items() if "type" in part else ():
            number += 1
            where = f"{path}/{key}"
            assert below.get("description"), where
            assert {"type": "null"} not in below.get("anyOf", ()), where
            assert "default" not in below or below["default"] is not None, where
            if "$ref" in below and "quantity" in below["$ref"]:
                assert below["examples"], where
    assert number > 5


def test_units_are_those_of_the_parser() -> None:
    """Every symbol of every dimension, with and without a blank, in every quantity of a schema."""
    symbols = sorted({symbol for units in UNITS.values() for symbol in units})
    seen = set()
    for kind in KINDS:
        for name, definition in kind_schema(kind)["$defs"].items():
            if not name.startswith("quantity-") or name in seen:
                continue
            seen.add(name)
            pattern = re.compile(definition["anyOf"][0]["pattern"])
            words = name.removeprefix("quantity-").removesuffix("-with-its-basis")
            basis = name.endswith("with-its-basis")
            dimensions = tuple(word.replace("-", " ") for word in words.split("-or-"))
            for symbol in symbols:
                for text in (f"1 {symbol}", f"1{symbol}", f"1.5e0 {symbol}", f"1 {symbol}x"):
                    assert (pattern.match(text) is not None) == _parses(text, dimensions, basis), (
                        name,
                        text,
                    )
    assert "quantity-pressure" in seen
    assert any(name.endswith("with-its-basis") for name in seen)
    assert len(seen) >= 15


def _parses(text: str, dimensions: tuple[str, ...], basis: bool) -> bool:
    try:
        quantity = parse_quantity(text, dimensions)
    except UnitProblem:
        return False
    return not (basis and quantity.dimension == "share" and quantity.basis is None)


@pytest.mark.parametrize("text", ["150 bar(g)", "150 bar(a)", "150 barg", "-0.5 bar(g)", "2e3 psi"])
def test_spellings_of_pressures(text: str) -> None:
    parse_quantity(text, "pressure")
    assert complaints("supply", {"kind": "supply", "line_loss": text}) == []


# What the tool accepts ------------------------------------------------------------------------


def test_sound_documents_are_accepted() -> None:
    files = sorted((ROOT / "example_methods").rglob("*.yaml"))
    number = 0
    for file in files:
        read = read_document(file)
        loaded = load(read, file.name, file.stem)
        plain = read.plain()
        if loaded is None or loaded.problems or "table" in plain or "blocks" in plain:
            continue
        number += 1
        assert complaints(loaded.kind, plain) == [], file
    assert number > 25


def test_tables_and_blocks_are_accepted() -> None:
    files = sorted((ROOT / "example_methods" / "sound").glob("overnight-*.yaml"))
    assert files
    for file in files:
        assert complaints("sequence", read_document(file).plain()) == [], file


@pytest.mark.parametrize("kind", KINDS)
def test_the_sound_lab_and_starters_are_accepted(kind: str) -> None:
    assert complaints(kind, base_data()[kind]) == []
    filled = re.sub(r"<([^<>\n]*)>", r"\1", starter(kind))
    assert complaints(kind, read_text(filled.encode(), "starter.yaml").plain()) == []


def test_documents_of_all_pages_of_rules_are_accepted() -> None:
    number = 0
    for rule in built_in_rules():
        if rule.id.startswith("document."):
            continue
        for example in examples_of(rule):
            kinds = re.findall(r"^kind: (\w+)", example.text, re.MULTILINE)
            try:
                documents = lab_with(example.text)
            except ExampleWrong:
                continue
            for kind in kinds:
                if not documents[kind].problems:
                    number += 1
                    assert complaints(kind, documents[kind].data) == [], (rule.id, example.text)
    assert number > 300


def test_keys_of_the_lab_s_own_are_accepted_at_every_level() -> None:
    data = {"kind": "method", "x-ours": {"a": 1}, "injection": {"x-needle": [1], "volume": "2 uL"}}
    assert complaints("method", data) == []


@pytest.mark.parametrize("value", ["methanol", {"liquid": "methanol"}])
def test_a_liquid_is_a_name_or_a_mapping(value: object) -> None:
    assert complaints("column", {"kind": "column", "storage_liquid": value}) == []
    phase = {"kind": "method", "mobile_phase": {"modifier": value}}
    assert complaints("method", phase) == []


# What it refuses ------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "text",
    [
        "flow: 1.5",
        "flow: 1.5 bar",
        "outlet_pressure: 150 bar (g)",
        "flow: 1,5 mL/min",
        "outlet_pressure: 150",
        "outlet_pressure: null",
        "outlet_presure: 150 bar",
        "mobile_phase: {modifier: {liquid: methanol, additives: [{additive: TFA, level: 0.1 %}]}}",
        "purpose: fun",
        "runs_on: bench-a",
        "injection: {volume: 2 uL, mode: quickly}",
        "programme: [{modifier_share: 5 % v/v}]",
        "approval: {by: QA, on: 24.11.2026}",
        "oven_temperature: {value: 40 degC, spread: 2 K}",
        "suitability: {replicates: five}",
        "kind: methods",
    ],
)
def test_what_an_editor_can_know_to_be_wrong_is_marked(text: str) -> None:
    body = text if text.startswith("kind") else f"kind: method\n{text}"
    plain = read_text(f"{body}\n".encode(), "m.yaml").plain()
    assert complaints("method", plain), text


def test_a_document_without_its_kind_is_marked() -> None:
    assert complaints("method", {"flow": "1.5 mL/min"})


# The command and other readers ----------------------------------------------------------------


@pytest.mark.parametrize("kind", KINDS)
def test_the_command_prints_it(kind: str) -> None:
    done = run("schema", kind)
    assert done.status == 0
    assert done.stdout == kind_schema_text(kind)
    assert json.loads(done.stdout)["$id"].endswith(f":{kind}:1")


def test_a_kind_that_is_not_there_is_refused() -> None:
    assert run("schema", "methods").status == 2


@pytest.mark.second_reader
def test_check_jsonschema_and_ajv_accept_the_sound_lab(tmp_path: Path) -> None:
    program = readers.script("check-jsonschema", "check-jsonschema")
    for kind in KINDS:
        schema = tmp_path / f"{kind}.schema.json"
        schema.write_text(kind_schema_text(kind), encoding="utf-8")
        file, wrong = tmp_path / f"{kind}.json", tmp_path / f"{kind}.wrong.json"
        file.write_text(json.dumps(base_data()[kind]), encoding="utf-8")
        wrong.write_text(json.dumps({**base_data()[kind], "titel": "x"}), encoding="utf-8")
        subprocess.run([program, "--check-metaschema", schema], check=True, timeout=120)
        subprocess.run([program, "--schemafile", schema, file], check=True, timeout=120)
        assert readers.complaints_of_ajv(schema, file) == ""
        assert "titel" in readers.complaints_of_ajv(schema, wrong)
