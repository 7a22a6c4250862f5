"""What a planted fault is, and how the seeded generator draws them."""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import dataclass, replace

from tests.text_labs import REMOVED, TextLab, base_lab, example

Edit = tuple[str, object]
Draw = Callable[[random.Random], list[Edit]]

SEED = 20261124


@dataclass(frozen=True)
class Kind:
    """One way of breaking one thing that a rule guards.

    Attributes
    ----------
    rule
        Id of the rule that guards it.
    labs
        Names of the sound documents that it is planted in, divided by blanks.
    draw
        Draws the changes: paths with values, or a document's kind with a pair of texts (a
        pattern and what takes its place, once).
    times
        How often it is drawn for each document.
    """

    rule: str
    labs: str
    draw: Draw
    times: int = 1


@dataclass(frozen=True)
class Fault:
    """One sound document with one thing broken."""

    rule: str
    lab_name: str
    edits: tuple[Edit, ...]
    lab: TextLab

    @property
    def words(self) -> str:
        """What was done, for a list."""
        said = ", ".join(f"{path} = {_said(value)}" for path, value in self.edits)
        return f"{self.rule} in {self.lab_name}: {said}"


def _said(value: object) -> str:
    return "taken out" if value is REMOVED else f"{value}"[:90]


def labs() -> dict[str, TextLab]:
    """Sound documents by name, each with everything that it refers to."""
    base = base_lab()
    found = {"lab": base, "ms-lab": _with_mass_spectrometer(base)}
    for name in ("dye-intermediates", "flame-retardant-isomers", "flavonoid-aglycones"):
        found[name.partition("-")[0]] = example(f"method/{name}")
    found["waxes"] = example("method/leaf-waxes")
    found["sulfonamides"] = example("method/sulfonamides-in-honey")
    found["triazole"] = example("method/triazole-enantiomers")
    found["transferred"] = example("method/triazole-enantiomers-c")
    found["batch"] = example("sequence/triazole-day-batch")
    return found


def _with_mass_spectrometer(base: TextLab) -> TextLab:
    """The base lab's sequence with the example lab's method on a mass spectrometer."""
    method = example("method/sulfonamides-in-honey")
    texts = dict(base.texts)
    texts["method/method"] = method.texts["method/sulfonamides-in-honey"]
    texts["column/silica-3um"] = method.texts["column/silica-3um"]
    lab = replace(base, texts=texts, meant={**base.meant, "column": "column/silica-3um"})
    bottle = {
        "liquid": "methanol",
        "additives": [{"additive": "ammonium formate", "level": "20 mM"}],
    }
    for path, value in (
        ("method.runs_on", ["instrument"]),
        ("method.purpose", "research"),
        ("instrument.fitted_columns", {"1": "silica-3um"}),
        ("sequence.lines[2].count", 6),
        *((f"solvents.bottles[0].{key}", value) for key, value in bottle.items()),
    ):
        lab = lab.changed(path, value)
    return lab


def planted(kinds: tuple[Kind, ...], seed: int = SEED) -> list[Fault]:
    """Draw every fault; the same seed gives the same faults."""
    sound = labs()
    faults: list[Fault] = []
    seen = set()
    for kind in kinds:
        for name in kind.labs.split():
            chance = random.Random(f"{seed} {kind.rule} {name}")
            for _ in range(kind.times):
                edits = tuple(kind.draw(chance))
                lab = sound[name]
                for path, value in edits:
                    lab = _applied(lab, path, value)
                key = (kind.rule, name, str(edits))
                if key not in seen:
                    seen.add(key)
                    faults.append(Fault(kind.rule, name, edits, lab))
    return faults


def _applied(lab: TextLab, path: str, value: object) -> TextLab:
    if not isinstance(value, Rewritten):
        return lab.changed(path, value)
    document = lab.meant[path]
    text = lab.texts[document]
    assert value.old in text, f"{value.old!r} is not in {document}"
    return lab.with_text(document, text.replace(value.old, value.new, 1))


@dataclass(frozen=True)
class Rewritten:
    """A piece of a text with what takes its place."""

    old: str
    new: str


def figure(chance: random.Random, low: float, high: float, unit: str, digits: int = 0) -> str:
    """Draw a value with its unit."""
    return f"{round(chance.uniform(low, high), digits):g} {unit}"
