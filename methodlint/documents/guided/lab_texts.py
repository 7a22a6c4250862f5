"""Documents of a lab folder made of values, and what is wrong with them."""

from __future__ import annotations

from collections.abc import Mapping

from methodlint.documents.guided.template import fill, keys_of, template_text
from methodlint.documents.loading import load
from methodlint.documents.text.problems import Problem
from methodlint.documents.text.reader import read_text

__all__ = ["lab_texts", "left_out", "problems_with"]

_KINDS = (
    "lab", "instrument", "column", "supply", "solvents", "room", "method", "sequence"
)  # fmt: skip
_FILES = {
    "lab": "lab.yaml",
    "instrument": "instruments/{instrument_name}.yaml",
    "column": "columns/{column_name}.yaml",
    "supply": "supplies/supply.yaml",
    "solvents": "solvents/bottles.yaml",
    "room": "rooms/room.yaml",
    "method": "methods/{method_name}.yaml",
    "sequence": "sequences/first-sequence.yaml",
}
_NAMES = {
    "lab_name": "Our laboratory",
    "instrument_name": "bench-1",
    "column_name": "column-1",
    "method_name": "first-method",
}
_ROWS, _COLUMNS, _FIRST_SAMPLE = 6, 9, 3


def lab_texts(values: Mapping[str, str], template: str) -> dict[str, str]:
    """Texts of a lab folder by path under its root.

    Parameters
    ----------
    values
        YAML text by key of the templates; a key that is not known is absent.
    template
        Name of the template.
    """
    known = {**_NAMES, **values}
    known["lines"] = _lines(known, template)
    if "monitor_place" in known:
        known["monitors"] = _monitors(known)
    return {
        _FILES[kind].format(**{key: known[key].strip('"') for key in _NAMES}): _text(
            kind, known, template
        )
        for kind in _KINDS
    }


def _text(kind: str, values: Mapping[str, str], template: str) -> str:
    text = fill(template_text(kind), values, template)
    lacking = left_out(kind, values, template)
    if not lacking:
        return text
    said = ", ".join(key.replace("_", " ") for key in lacking)
    return f"{text}# not known when this was set up: {said}\n"


def left_out(kind: str, values: Mapping[str, str], template: str) -> list[str]:
    """Keys of a document that nobody answered, in the order of its template."""
    rows = template_text(kind).splitlines()
    kept = [row for row in rows if "#@" not in row or template in row.partition("#@")[2].split()]
    text = "\n".join(kept)
    # Whoever names a liquid and no additive has said that there is none; so with one of two ways.
    settled = {key for other, keys in _SETTLED.items() if other in values for key in keys}
    keys = keys_of(text) - set(values) - settled
    return sorted(keys, key=lambda key: text.find(f"{key}>"))


_SETTLED = {
    "modifier": ("additive", "additive_level"),
    "makeup_liquid": ("makeup_additive", "makeup_additive_level"),
    "share": ("programme",),
    "programme": ("share",),
}


def _monitors(values: Mapping[str, str]) -> str:
    if values["monitor_place"].strip('"').lower() == "none":
        return "[]"
    row = "{gas: CO2, place: <!monitor_place>, low: <monitor_low>, tested: <monitor_tested>}"
    return "\n  - " + fill(row, values, "").strip()


def _lines(values: Mapping[str, str], template: str) -> str:
    """A blank, conditioning, the samples and a shutdown, in the order of the rack."""
    columns = int(float(values.get("rack_columns", _COLUMNS)))
    rows = int(float(values.get("rack_rows", _ROWS)))
    places = [
        f"{chr(65 + row)}{column + 1}" for row in range(min(rows, 26)) for column in range(columns)
    ]
    count = min(int(float(values.get("samples", "6"))), max(len(places) - _FIRST_SAMPLE + 1, 0))
    wells = iter(places)
    fill_of = f", fill: {values['vial_fill']}" if "vial_fill" in values else ""
    lines = [
        f"{{kind: {kind}, sample: {name}, plate: 1, well: {well}{fill_of}{', count: 2' if kind == 'conditioning' else ''}}}"
        for (kind, name), well in zip(
            [
                ("blank", "diluent"),
                ("conditioning", "pool"),
                *(("sample", f"sample {number}") for number in range(1, count + 1)),
            ],
            wells,
            strict=False,
        )
    ]
    source = ', makeup: "off", source: "off"' if template == "uv-ms" else ""
    lines.append(
        f'{{kind: shutdown, duration: 5 min, co2: "off"{source}, regulator_released: true}}'
    )
    return "".join(f"\n  - {line}" for line in lines)


def problems_with(values: Mapping[str, str], template: str, known: Mapping[str, str]) -> list[str]:
    """What is wrong with new values beside known ones: each in words, with what to write.

    Parameters
    ----------
    values
        The new values.
    known
        Values that were found good before.
    """
    before = {(p.rule, p.message) for p in _problems(known, template)}
    after = _problems({**known, **values}, template)
    return [
        f"{problem.message}; {problem.remedy}" if problem.remedy else problem.message
        for problem in after
        if problem.grade in ("stop", "fault") and (problem.rule, problem.message) not in before
    ]


def _problems(values: Mapping[str, str], template: str) -> list[Problem]:
    found: list[Problem] = []
    for path, text in lab_texts(values, template).items():
        document = load(read_text(text.encode("utf-8"), path), path, path)
        found += document.problems if document is not None else ()
    return found
