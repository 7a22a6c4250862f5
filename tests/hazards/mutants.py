"""Mutants of whole documents: each change is one that the schema knows the place of.

`hostile_values` lists what every physical field is tried with; `mutated` applies a few random
changes to a copy of a document.
"""

from __future__ import annotations

import copy
import json
import random
from typing import Any

from tests.hazards.our_schema import NAMES, Spot, grown, is_quantity, spots, units_like

# The four ends of what a float can hold, one figure with all its digits, and what lies near.
NUMBERS = (
    "0", "-1", "1e308", "5e-324", "0.12345678901234567", "-0", "-1e308", "1e-300", "1e15", "1e-9",
    "1e-3", "1e5", "123456789.01234567", "0.3", "3", "77", "1000", "1.7976931348623157e308",
    "2.2250738585072014e-308", "99.99999999999999",
)  # fmt: skip
WRONG_KINDS = (
    None, True, False, 0, -1, 1e308, 5e-324, 10**30, 0.1, "", " ", "bar", "5", "1,5 bar", "1 500 bar",
    "35-40 degC", "RT", "ca. 40 degC", "0x1F bar", "1_000 bar", "12:30", "017 bar", "1e999 bar",
    [], [1, 2], ["40 degC"], {}, {"value": "5"}, {"tolerance": "1 K"}, {"a": {"b": []}},
    "40 degC", "150 bar", "1 mL/min", "20 % v/v", "5 min", "3 mm", "2 kg", "9" * 70, "x" * 300,
    {"value": "40 degC", "tolerance": "5e-324 K"}, {"value": "150 bar", "tolerance": "1e300 %"},
)  # fmt: skip
RAW_NUMBERS = (0, -1, 1, 2, 0.5, 1e308, -1e308, 5e-324, 0.12345678901234567, 1e-9, 3, 999, 10**18)
_COUNTED = 40


def hostile_values(spot: Spot) -> list[Any]:
    """What a field of a physical value or a number is tried with, one after the other."""
    if spot.holds == "number":
        return [*RAW_NUMBERS, "5", None, [], {}]
    sample = next(o["examples"][0] for o in spot.options if is_quantity(o))
    unit = _unit(spot.value) or sample.partition(" ")[2]
    return [*(f"{number} {unit}" for number in NUMBERS), *WRONG_KINDS]


def _unit(value: Any) -> str:
    text = value.get("value") if isinstance(value, dict) else value
    return text.partition(" ")[2] if isinstance(text, str) else ""


def mutated(data: dict[str, Any], own_name: str, rng: random.Random) -> dict[str, Any]:
    """Change a copy of a document in one to four places."""
    data = copy.deepcopy(data)
    for _ in range(rng.choice((1, 1, 1, 2, 2, 3, 4))):
        found = spots(data)
        if not found:
            break
        # Half of the changes are figures: that is where the physics is.
        figures = [spot for spot in found if spot.holds in ("quantity", "number")]
        spot = rng.choice(figures if figures and rng.random() < 0.5 else found)
        _change(spot, data, own_name, rng)
    return data


def _change(spot: Spot, data: dict[str, Any], own_name: str, rng: random.Random) -> None:
    kind = spot.holds
    if rng.random() < 0.08:
        _take_away(spot)
    elif kind == "quantity":
        spot.parent[spot.step] = _figure(spot, rng)
    elif kind == "number":
        spot.parent[spot.step] = rng.choice((*RAW_NUMBERS, *WRONG_KINDS[:12]))
    elif kind == "word":
        words = [w for option in spot.options for w in option.get("enum", ())]
        spot.parent[spot.step] = rng.choice([*words, *words, *words, "no such word", 5, None])
    elif kind == "name":
        spot.parent[spot.step] = rng.choice((own_name, *NAMES, "", 5, None, [own_name]))
    elif kind == "flag":
        spot.parent[spot.step] = rng.choice((True, False, True, False, "yes", 1, None))
    elif kind == "list":
        _shake(spot, rng)
    else:
        _widen(spot, data, rng)


def _figure(spot: Spot, rng: random.Random) -> Any:
    how = rng.random()
    values = hostile_values(spot)
    if how < 0.6:
        return rng.choice(values[: len(NUMBERS)])
    sample = next(o["examples"][0] for o in spot.options if is_quantity(o))
    if how < 0.75:
        return f"{rng.choice(NUMBERS)} {rng.choice(units_like(sample))}"
    if how < 0.85:
        value = f"{rng.choice(NUMBERS)} {rng.choice(units_like(sample))}"
        return {"value": value, "tolerance": f"{rng.choice(NUMBERS)} {_unit(value)}"}
    return rng.choice(WRONG_KINDS)


def _shake(spot: Spot, rng: random.Random) -> None:
    """Empty a list, shuffle it, double it, lose or repeat an item, or grow one."""
    items = list(spot.value)
    how = rng.randrange(8)
    if how == 0:
        items = []
    elif how == 1:
        rng.shuffle(items)
    elif how == 2:
        items = (items + copy.deepcopy(items))[:_COUNTED]
    elif how == 3:
        items.reverse()
    elif how == 4 and items:
        del items[rng.randrange(len(items))]
    elif how == 5 and items:
        items.insert(rng.randrange(len(items)), copy.deepcopy(rng.choice(items)))
    elif how == 6 and items:
        items[rng.randrange(len(items))] = rng.choice((None, [], {}, 5, "x", [[]]))
    else:
        of = next((o["items"] for o in spot.options if isinstance(o.get("items"), dict)), None)
        if of is not None:
            items.insert(rng.randint(0, len(items)), grown(of, spot.root, rng))
    spot.parent[spot.step] = items


def _widen(spot: Spot, data: dict[str, Any], rng: random.Random) -> None:
    """Add a key of the schema that is not written yet, or put something else for a mapping."""
    if rng.random() < 0.15:
        spot.parent[spot.step] = rng.choice(
            (None, [], {}, 5, "methanol", [copy.deepcopy(spot.value)])
        )
        return
    held, options = spot.value, spot.options
    if rng.random() < 0.4:
        held, options = data, (spot.root,)
    absent = [
        (key, part)
        for option in options
        for key, part in option.get("properties", {}).items()
        if key not in held
    ]
    if absent:
        key, part = rng.choice(absent)
        held[key] = grown(part, spot.root, rng)


def _take_away(spot: Spot) -> None:
    if isinstance(spot.parent, dict):
        del spot.parent[spot.step]
    else:
        spot.parent[spot.step] = None


def as_yaml(data: Any) -> bytes:
    """Write plain data as YAML: JSON is a part of it."""
    return json.dumps(data, ensure_ascii=False, indent=1).encode("utf-8", "surrogatepass")
