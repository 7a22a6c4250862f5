"""Harmless edits: what a careful hand changes without changing what the document says."""

from __future__ import annotations

import random
import re
from collections.abc import Callable

from tests.fault_injection.fault import SEED, labs
from tests.text_labs import TextLab, as_yaml

Twin = Callable[[TextLab, str, random.Random], str]

_BAR = re.compile(r"(?<=[ {])(\d+(?:\.\d+)?) bar\b(?!\")")
_MILLIMETRE = re.compile(r"(?<=[ {])(\d+(?:\.\d+)?) mm\b(?!\")")
_CELSIUS = re.compile(r"(?<=[ {])(\d+(?:\.\d+)?) degC\b(?!\")")
_MINUTE = re.compile(r"(?<=[ {])(\d+(?:\.\d+)?) min\b(?!\")")
_QUOTABLE = re.compile(r"(?<=: )(\d+(?:\.\d+)? (?:bar|degC|min|mL/min|uL|nm|Hz|% v/v))(?=[,}\n])")
_NO_TITLE = re.compile(r"^(title: .*)$", re.MULTILINE)


def _outside_titles(
    text: str, pattern: re.Pattern[str], new: Callable[[re.Match[str]], str]
) -> str:
    lines = text.splitlines(keepends=True)
    return "".join(one if one.startswith("title:") else pattern.sub(new, one) for one in lines)


def _figure(value: float) -> str:
    return f"{value:.12g}"


def megapascals(lab: TextLab, document: str, chance: random.Random) -> str:
    """150 bar -> 15 MPa."""
    return _outside_titles(lab.texts[document], _BAR, lambda m: f"{_figure(float(m[1]) / 10)} MPa")


def kilopascals(lab: TextLab, document: str, chance: random.Random) -> str:
    """150 bar -> 15000 kPa."""
    return _outside_titles(lab.texts[document], _BAR, lambda m: f"{_figure(float(m[1]) * 100)} kPa")


def centimetres(lab: TextLab, document: str, chance: random.Random) -> str:
    """150 mm -> 15 cm."""
    return _outside_titles(
        lab.texts[document], _MILLIMETRE, lambda m: f"{_figure(float(m[1]) / 10)} cm"
    )


def kelvins(lab: TextLab, document: str, chance: random.Random) -> str:
    """40 degC -> 313.15 K, except tolerances, which are differences."""
    text = lab.texts[document]
    lines = text.splitlines(keepends=True)
    return "".join(
        line
        if line.startswith("title:") or "tolerance" in line
        else _CELSIUS.sub(lambda m: f"{_figure(float(m[1]) + 273.15)} K", line)
        for line in lines
    )


def seconds(lab: TextLab, document: str, chance: random.Random) -> str:
    """2.5 min -> 150 s."""
    return _outside_titles(lab.texts[document], _MINUTE, lambda m: f"{_figure(float(m[1]) * 60)} s")


def spellings(lab: TextLab, document: str, chance: random.Random) -> str:
    """Other spellings of the same units."""
    text = lab.texts[document]
    for old, new in ((" degC", " °C"), (" mL/min", " ml/min"), (" um", " µm"), (" uL", " µL")):
        text = text.replace(old, new)
    return text


def synonyms(lab: TextLab, document: str, chance: random.Random) -> str:
    """Other names of the same liquids and additives."""
    text = lab.texts[document]
    for old, new in (
        (": methanol", ": MeOH"),
        (": 2-propanol", ": isopropanol"),
        (": ethanol", ": EtOH"),
        (": n-heptane", ": heptane"),
        (": acetonitrile", ": MeCN"),
    ):
        text = re.sub(
            rf"(liquid|diluent|storage_liquid|last_mobile_phase|modifier){old}\b", rf"\1{new}", text
        )
    return text


def comments(lab: TextLab, document: str, chance: random.Random) -> str:
    """Comments and empty lines."""
    lines = lab.texts[document].splitlines()
    for place in sorted(chance.sample(range(1, len(lines)), min(3, len(lines) - 1)), reverse=True):
        lines.insert(
            place, chance.choice(("# 200 bar? no: see the card", "", "  # TBD: ask the bench"))
        )
    return "# checked by hand\n" + "\n".join(lines) + "\n"


def quotes(lab: TextLab, document: str, chance: random.Random) -> str:
    """Quotation marks around values."""
    return _QUOTABLE.sub(r'"\1"', lab.texts[document])


def key_order(lab: TextLab, document: str, chance: random.Random) -> str:
    """The keys of every mapping in another order."""

    def shuffled(value: object) -> object:
        if isinstance(value, dict):
            keys = list(value)
            chance.shuffle(keys)
            return {key: shuffled(value[key]) for key in keys}
        return [shuffled(item) for item in value] if isinstance(value, list) else value

    return as_yaml(shuffled(lab.plain(document)))


def line_ends(lab: TextLab, document: str, chance: random.Random) -> str:
    """Line ends of another system."""
    return lab.texts[document].replace("\n", "\r\n")


def own_keys(lab: TextLab, document: str, chance: random.Random) -> str:
    """Keys of the lab's own, and a note."""
    if lab.texts[document].startswith("{"):
        return lab.texts[document]
    return lab.texts[document].rstrip("\n") + '\nx-cabinet: 4\nx-remark: "no 12:30 bus"\n'


def row_order(lab: TextLab, document: str, chance: random.Random) -> str:
    """Rows in another order where the order says nothing."""
    data = lab.plain(document)
    free = (
        "expected_peaks",
        "bottles",
        "outlets",
        "rated_parts",
        "envelope",
        "transitions",
        "vessels",
    )

    def turned(value: object, key: str = "") -> object:
        if isinstance(value, dict):
            return {name: turned(item, name) for name, item in value.items()}
        if isinstance(value, list):
            items = [turned(item) for item in value]
            return items[::-1] if key in free and key != "envelope" else items
        return value

    return as_yaml(turned(data))


TWINS: tuple[Twin, ...] = (
    megapascals,
    kilopascals,
    centimetres,
    kelvins,
    seconds,
    spellings,
    synonyms,
    comments,
    quotes,
    key_order,
    line_ends,
    own_keys,
    row_order,
)


def twins() -> list[tuple[str, TextLab]]:
    """Every sound lab with every document in it edited harmlessly, one way at a time."""
    found = []
    for name, lab in labs().items():
        for twin in TWINS:
            chance = random.Random(f"{SEED} {name} {twin.__name__}")
            changed = lab
            for document in sorted(set(lab.meant.values()) & set(lab.texts)):
                changed = changed.with_text(document, twin(changed, document, chance))
            if changed.texts != lab.texts:
                found.append((f"{name}, {twin.__name__.replace('_', ' ')}", changed))
    return found
