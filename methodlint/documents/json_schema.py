"""JSON Schema of a kind of document, for editors: draft 2020-12, made from the model itself.

Keys that may be left out do not offer `null`; quantities of a dimension share one definition with
a pattern, so that an editor completes units; keys that begin with `x-` are the lab's own.
"""

from __future__ import annotations

import json
import re
from typing import Any

from pydantic.json_schema import GenerateJsonSchema, JsonSchemaValue
from pydantic_core import core_schema

from methodlint.documents.loading import model_class

DIALECT = "https://json-schema.org/draft/2020-12/schema"
EDITION = 1
_SHORT_FORMS = {
    "_liquid_from_text": ("a liquid by its name", "methanol"),
    "_liquid_with_line": ("a liquid by its name", "methanol"),
    "_table_from_text": ("a table by its file", "samples.csv"),
}
_WORDS = {
    "kind": "Which kind of document this is.",
    "status": "A draft, approved, or retired.",
    "approval": "Who approved it, when, and the hash of what was approved.",
    "deviations": "Exceptions from rules: rule, reason, who approved, until when.",
    "additives": "Additives and their levels.",
    "policy": "Thresholds that legitimately differ between labs.",
    "classes": "Rules whose class this lab raises or lowers, with a reason; never a stop.",
    "serial": "Serial number of this very column.",
    "lines": "Injections and steps in the order in which they are made.",
    "programme": "Values reached at their time, linearly from the row before.",
    "detectors": "Detectors as this method uses them.",
    "bottles": "Every bottle with the line that draws from it.",
}
_DATE = r"^[0-9]{4}-[0-9]{2}-[0-9]{2}$"
_MOMENT = r"^[0-9]{4}-[0-9]{2}-[0-9]{2}([T ][0-9]{2}:[0-9]{2}(:[0-9]{2})?)?$"


class _Generator(GenerateJsonSchema):
    """Says what the models accept beyond their fields' types."""

    schema_dialect = DIALECT

    def function_before_schema(
        self, schema: core_schema.BeforeValidatorFunctionSchema
    ) -> JsonSchemaValue:
        """Offer the short forms that a validator turns into the whole one."""
        inner = super().function_before_schema(schema)
        name = getattr(schema["function"]["function"], "__name__", "")
        if name in _SHORT_FORMS:
            words, example = _SHORT_FORMS[name]
            short = {"type": "string", "minLength": 1, "description": words, "examples": [example]}
            return {"anyOf": [short, inner]}
        if name == "_one_or_many":
            return {"anyOf": [*_alternatives(inner["items"]), inner]}
        if name == "_place_text":
            return {"anyOf": [inner, {"type": "integer"}]}
        return inner

    def date_schema(self, schema: core_schema.DateSchema) -> JsonSchemaValue:
        """Dates are text in YAML."""
        return {"type": "string", "pattern": _DATE, "examples": ["2026-11-24"]}

    def datetime_schema(self, schema: core_schema.DatetimeSchema) -> JsonSchemaValue:
        """Moments are local ones, to the minute."""
        return {"type": "string", "pattern": _MOMENT, "examples": ["2026-11-24T09:00"]}


def kind_schema(kind: str) -> dict[str, Any]:
    """Give the JSON Schema of one kind of document.

    Raises
    ------
    KeyError
        If there is no such kind.
    """
    model = model_class(kind)
    made = model.model_json_schema(schema_generator=_Generator)
    definitions: dict[str, Any] = made.pop("$defs", {})
    quantities: dict[str, Any] = {}
    whole = _tidied(made, quantities)
    defs = {name: _tidied(below, quantities) for name, below in definitions.items()}
    return {
        "$schema": DIALECT,
        "$id": f"urn:methodlint:schema:{kind}:{EDITION}",
        "title": f"A {kind} document of methodlint",
        **whole,
        "$defs": dict(sorted({**defs, **quantities}.items())),
    }


def kind_schema_text(kind: str) -> str:
    """Give the JSON Schema of one kind of document as text; the same bytes every time."""
    return json.dumps(kind_schema(kind), indent=2, ensure_ascii=False) + "\n"


def _alternatives(schema: dict[str, Any]) -> list[dict[str, Any]]:
    return list(schema.get("anyOf", [schema]))


def _tidied(schema: Any, quantities: dict[str, Any]) -> Any:
    """Take out titles and nulls, move quantities to definitions, describe every key."""
    if isinstance(schema, list):
        return [_tidied(item, quantities) for item in schema]
    if not isinstance(schema, dict):
        return schema
    found = {key: value for key, value in schema.items() if key != "title"}
    if found.get("default", "") is None:
        del found["default"]
        found = _without_null(found)
    if _is_quantity(found):
        return _as_reference(found, quantities)
    if "properties" in found:
        properties = {
            key: _described(key, _tidied(value, quantities))
            for key, value in found["properties"].items()
        }
        rest = {k: _tidied(v, quantities) for k, v in found.items() if k != "properties"}
        return {**rest, "properties": properties, "patternProperties": {"^x-": True}}
    return {
        key: value
        if key in ("examples", "default", "enum", "const")
        else _tidied(value, quantities)
        for key, value in found.items()
    }


def _without_null(schema: dict[str, Any]) -> dict[str, Any]:
    kept = [item for item in schema.get("anyOf", ()) if item != {"type": "null"}]
    rest = {key: value for key, value in schema.items() if key != "anyOf"}
    if len(kept) == 1:
        # What the key says of itself goes before what its type says.
        return {**kept[0], **rest}
    return {**rest, "anyOf": kept} if kept else rest


def _is_quantity(schema: dict[str, Any]) -> bool:
    first: Any = next(iter(schema.get("anyOf", ())), {})
    return isinstance(first, dict) and "quantity" in first.get("$comment", "")


def _as_reference(schema: dict[str, Any], quantities: dict[str, Any]) -> dict[str, Any]:
    one = schema["anyOf"][0]
    name = one["$comment"]
    quantities[name] = {
        "description": one["description"],
        "anyOf": [
            {key: v for key, v in item.items() if key != "$comment"} for item in schema["anyOf"]
        ],
    }
    quantities[name]["anyOf"][1]["properties"]["value"] = quantities[name]["anyOf"][0]
    said = schema.get("description", "")
    text = said if said == one["description"] else f"{said} {one['description']}".strip()
    extra = {k: v for k, v in schema.items() if k not in ("anyOf", "description")}
    return {"$ref": f"#/$defs/{name}", "description": text, "examples": one["examples"], **extra}


def _described(key: str, schema: Any) -> Any:
    if not isinstance(schema, dict) or "description" in schema:
        return schema
    if key in _WORDS:
        return {"description": _WORDS[key], **schema}
    words = re.sub(r"_+", " ", key)
    return {"description": f"{words[0].upper()}{words[1:]}.", **schema}
