"""Documents grown from our own schema, and what stands where in a document that exists.

Everything here draws from a `random.Random`; hypothesis hands in one of its own, so that the
same code serves property tests, which shrink, and long runs by seed.
"""

from __future__ import annotations

import functools
import random
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from hypothesis import strategies as st

from methodlint.documents.loading import KINDS, model_class
from methodlint.documents.quantities.unit_table import UNITS

# Names that documents of the examples lab know, so that references and liquids often resolve.
NAMES = (
    "amylose-3um", "diol-3um", "silica-3um", "cellulose-5um", "bench-a", "bench-b", "bench-c",
    "yard-cylinder", "bench-a-bottles", "separations-room", "triazole-enantiomers",
    "methanol", "ethanol", "2-propanol", "acetonitrile", "water", "hexane", "isopropylamine",
    "ammonium formate", "ammonia", "formic acid", "trifluoroacetic acid", "modifier-1", "makeup",
    "polyimide", "stainless steel", "UV cell", "A1", "H12", "1", "vial rack", "nobody-knows-this",
    "blank", "00:00", "24:00", "08:30", "x" * 200, "é 🧪",
)  # fmt: skip
DATES = (
    "2026-11-24",
    "2026-11-24T09:00",
    "0001-01-01",
    "9999-12-31",
    "9999-12-31T23:59",
    "2999-12-31",
    "1900-01-01T00:00",
    "2026-11-24T09:00+02:00",
    "2026-11-24T09:00Z",
    "24.11.2026",
)
FIGURES = ("0", "1", "0.5", "3", "5", "10", "25", "40", "100", "150", "250", "2000")
_DEEPEST = 6


@functools.cache
def schema_of(kind: str) -> dict[str, Any]:
    """JSON Schema of one kind of document."""
    return model_class(kind).model_json_schema()


def alternatives(part: dict[str, Any], root: dict[str, Any]) -> list[dict[str, Any]]:
    """Flatten references and unions into the plain schemas that a value may follow."""
    if "$ref" in part:
        return alternatives(root["$defs"][part["$ref"].rpartition("/")[2]], root)
    if "anyOf" in part:
        return [plain for option in part["anyOf"] for plain in alternatives(option, root)]
    return [part]


def is_quantity(part: dict[str, Any]) -> bool:
    """Whether a plain schema is the text of a quantity."""
    return part.get("type") == "string" and "examples" in part and "pattern" in part


def units_like(text: str) -> list[str]:
    """Symbols of every dimension that the unit of a sample text belongs to."""
    _, _, symbol = text.partition(" ")
    return [s for units in UNITS.values() if symbol in units for s in units]


def grown(part: dict[str, Any], root: dict[str, Any], rng: random.Random, depth: int = 0) -> Any:
    """Grow a value that a schema allows, sound figures and odd ones mixed."""
    options = alternatives(part, root)
    if depth >= _DEEPEST:
        options = [o for o in options if o.get("type") not in ("object", "array")] or options
    plain = rng.choice(options)
    if "const" in plain:
        return plain["const"]
    if "enum" in plain:
        return rng.choice(plain["enum"])
    kind = plain.get("type")
    if is_quantity(plain):
        sample = rng.choice(plain["examples"])
        if rng.random() < 0.5:
            return sample
        return f"{rng.choice(FIGURES)} {rng.choice(units_like(sample))}"
    if kind == "object":
        return _mapping(plain, root, rng, depth)
    if kind == "array":
        return _list(plain, root, rng, depth)
    if kind == "string":
        return rng.choice(DATES) if "format" in plain else rng.choice(NAMES)
    if kind == "integer":
        return rng.choice((0, 1, 2, 3, 5, 8, 100))
    if kind == "number":
        return rng.choice((0.3, 0.5, 1, 2.5, 7, 100.0, 251.1))
    return rng.choice((True, False)) if kind == "boolean" else None


def _mapping(plain: dict[str, Any], root: dict[str, Any], rng: random.Random, depth: int) -> Any:
    properties = plain.get("properties", {})
    if not properties:
        of = plain.get("additionalProperties")
        of = of if isinstance(of, dict) else {"type": "string"}
        return {
            rng.choice(NAMES): grown(of, root, rng, depth + 1) for _ in range(rng.randint(0, 3))
        }
    share = rng.choice((0.2, 0.5, 0.9))
    if set(properties) == {"value", "tolerance"}:
        value = grown(properties["value"], root, rng, depth + 1)
        unit = value.partition(" ")[2]
        return {"value": value, "tolerance": f"{rng.choice(FIGURES)} {unit}"}
    wanted = set(plain.get("required", ()))
    return {
        key: grown(below, root, rng, depth + 1)
        for key, below in properties.items()
        if key in wanted or rng.random() < share
    }


def _list(plain: dict[str, Any], root: dict[str, Any], rng: random.Random, depth: int) -> Any:
    if "prefixItems" in plain:
        return [grown(item, root, rng, depth + 1) for item in plain["prefixItems"]]
    of = plain.get("items", {"type": "string"})
    return [grown(of, root, rng, depth + 1) for _ in range(rng.randint(0, 4))]


def document(kind: str, rng: random.Random) -> dict[str, Any]:
    """Grow a whole document of one kind."""
    schema = schema_of(kind)
    found = grown(schema, schema, rng)
    found.pop("deviations", None)
    return {**found, "kind": kind}


def documents(kind: str | None = None) -> st.SearchStrategy[dict[str, Any]]:
    """Strategy of documents that follow our own schema."""
    kinds = st.sampled_from(KINDS) if kind is None else st.just(kind)
    return st.builds(document, kinds, st.randoms(use_true_random=False))


@dataclass(frozen=True, slots=True)
class Spot:
    """A value of a document with the schemas that it may follow.

    `parent` is the mapping or list that holds it under `step`; `root` holds the definitions.
    """

    parent: Any
    step: Any
    options: tuple[dict[str, Any], ...]
    root: dict[str, Any]
    path: tuple[Any, ...]

    @property
    def value(self) -> Any:
        """The value that stands there now."""
        return self.parent[self.step]

    @property
    def holds(self) -> str:
        """What the field is for: quantity, number, word, name, flag, list or mapping."""
        if any(is_quantity(option) for option in self.options):
            return "quantity"
        kinds = {option.get("type") for option in self.options}
        if isinstance(self.value, dict):
            return "mapping"
        if isinstance(self.value, list):
            return "list"
        if any("enum" in option or "const" in option for option in self.options):
            return "word"
        if kinds & {"number", "integer"}:
            return "number"
        return "flag" if "boolean" in kinds else "name"


def spots(data: dict[str, Any]) -> list[Spot]:
    """List every value of a document, outermost first, with the schema of its place."""
    root = schema_of(data["kind"])
    return list(_spots(data, [root], root, ()))


def _spots(
    data: Any, options: list[dict[str, Any]], root: dict[str, Any], path: tuple[Any, ...]
) -> Iterator[Spot]:
    if isinstance(data, dict):
        below = {}
        for option in options:
            below.update(option.get("properties", {}))
        rest = next((o["additionalProperties"] for o in options
                     if isinstance(o.get("additionalProperties"), dict)), {})  # fmt: skip
        steps = [(key, below.get(key, rest)) for key in data]
    elif isinstance(data, list):
        of = next((o.get("items") or {} for o in options if o.get("type") == "array"), {})
        steps = [(index, of) for index in range(len(data))]
    else:
        return
    for step, part in steps:
        under = alternatives(part, root)
        if path or step != "kind":
            yield Spot(data, step, tuple(under), root, (*path, step))
        yield from _spots(data[step], under, root, (*path, step))
