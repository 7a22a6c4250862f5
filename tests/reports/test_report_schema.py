"""The published schema of the report: what we print obeys it, and it only ever grows."""

from __future__ import annotations

import copy
import json
import subprocess
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from methodlint.reports.json_report import json_text, report_data
from methodlint.reports.report_schema import schema_text
from tests.command import run
from tests.reports import readers
from tests.reports.scratch_lab import ROOT, example, example_report, plain

SCHEMA: dict[str, Any] = json.loads(schema_text())
FIRST = json.loads((Path(__file__).parent / "first_report_schema.json").read_text(encoding="utf-8"))
PARTS = ("sound", "flawed", "unreadable")


@pytest.fixture(autouse=True)
def _at_the_root(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)


def closed(schema: Any) -> Any:
    """The same schema without room for keys that it does not name."""
    if isinstance(schema, list):
        return [closed(item) for item in schema]
    if not isinstance(schema, dict):
        return schema
    same = {key: closed(value) for key, value in schema.items()}
    if schema.get("type") == "object" and "properties" in schema:
        same["additionalProperties"] = False
    return same


def test_it_is_a_schema_of_draft_2020_12() -> None:
    assert SCHEMA["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    jsonschema.Draft202012Validator.check_schema(SCHEMA)


@pytest.mark.parametrize("part", PARTS)
def test_reports_obey_it_and_hold_no_key_that_it_does_not_name(part: str) -> None:
    base = plain(example("flawed"))
    validator = jsonschema.Draft202012Validator(closed(SCHEMA))
    for report in (example(part), example(part, base=base)):
        errors = list(validator.iter_errors(plain(report)))
        assert [error.message for error in errors] == []


def test_it_refuses_what_is_no_report() -> None:
    sound = plain(example("flawed"))
    validator = jsonschema.Draft202012Validator(SCHEMA)
    assert validator.is_valid(sound)
    for key in sound:
        broken = {name: value for name, value in sound.items() if name != key}
        assert not validator.is_valid(broken), f"{key} may be missing"
    broken = copy.deepcopy(sound)
    broken["findings"][0]["class"] = "warning"
    assert not validator.is_valid(broken)
    broken = copy.deepcopy(sound)
    broken["findings"][0]["line"] = 0
    assert not validator.is_valid(broken)


def shrunk(old: Any, new: Any, path: str = "") -> list[str]:
    """What a reader of the older schema would miss in the newer one."""
    if isinstance(old, dict) and isinstance(new, dict):
        lost = [f"{path}/{key}" for key in old if key not in new and key != "description"]
        return lost + [
            line
            for key in old
            if key in new and key not in ("description", "title")
            for line in shrunk(old[key], new[key], f"{path}/{key}")
        ]
    if isinstance(old, list) and isinstance(new, list):
        plain_items = all(not isinstance(item, dict | list) for item in (*old, *new))
        if plain_items:
            return [f"{path}: {item}" for item in old if item not in new]
    return [] if old == new else [path]


def test_the_schema_only_grows() -> None:
    """`first_report_schema.json` is the schema as first published; it is never edited."""
    assert shrunk(FIRST, SCHEMA) == []
    smaller = copy.deepcopy(SCHEMA)
    del smaller["properties"]["verdict"]
    assert shrunk(FIRST, smaller) == ["/properties/verdict"]


def test_the_command_prints_it() -> None:
    done = run("schema", "report", cwd=ROOT)
    assert done.status == 0
    assert done.stdout == schema_text()


def test_every_key_says_what_it_is() -> None:
    def undescribed(schema: Any, path: str) -> list[str]:
        if not isinstance(schema, dict):
            return []
        lost = []
        for name, below in schema.get("properties", {}).items():
            told = {"description", "$ref", "const", "oneOf"} & set(below)
            lost += [] if told else [f"{path}/{name}"]
            lost += undescribed(below, f"{path}/{name}")
        return lost + undescribed(schema.get("items"), f"{path}[]")

    assert undescribed(SCHEMA, "") == []
    for name, definition in SCHEMA["$defs"].items():
        assert undescribed(definition, name) == []


@pytest.mark.second_reader
def test_check_jsonschema_and_ajv_accept_reports(tmp_path: Path) -> None:
    schema = tmp_path / "report.schema.json"
    schema.write_text(schema_text(), encoding="utf-8")
    files = []
    for number, part in enumerate(PARTS):
        file = tmp_path / f"{number}.json"
        file.write_text(json_text(report_data(example_report(part))), encoding="utf-8")
        files.append(file)
    program = readers.script("check-jsonschema", "check-jsonschema")
    subprocess.run([program, "--check-metaschema", schema], check=True, timeout=120)
    subprocess.run([program, "--schemafile", schema, *files], check=True, timeout=120)
    assert readers.complaints_of_ajv(schema, *files) == ""
