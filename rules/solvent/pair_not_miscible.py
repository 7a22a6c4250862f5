"""Liquids that follow or touch each other outside CO2 mix at the coldest place where they meet.

Reason
    Liquids that do not mix form slugs in a pump head, a check valve or a needle: the pump loses
    its prime, the volume injected is wrong, salts drop out. CO2 under pressure dissolves both,
    so what meets only inside the mobile phase does no harm.

Unsound
    kind: solvents
    bottles:
      - {line: modifier-1, liquid: methanol, fill: 900 mL, dead_volume: 60 mL}
      - {line: needle-wash, liquid: n-heptane, fill: 500 mL, dead_volume: 50 mL}  # <- here
    ---
    kind: sequence
    diluent: acetonitrile

Sound, because the wash meets methanol only inside CO2
    kind: solvents
    bottles:
      - {line: modifier-1, liquid: methanol, fill: 900 mL, dead_volume: 60 mL}
      - {line: needle-wash, liquid: n-heptane, fill: 500 mL, dead_volume: 50 mL}
    ---
    kind: sequence
    diluent: 2-propanol

Remedy
    Put a liquid between the two that mixes with both, five times the swept volume of the place;
    2-propanol and ethanol bridge most pairs. A blend that parts in its own bottle needs another
    composition; no flush helps there.

Source
    Critical solution temperatures: the message names the source of the pair and whether it is
    measured or (unverified). The reserve of 5 K and the five volumes: common practice, no source.
"""

import math
from collections.abc import Iterator

from methodlint.judging.ask.liquids import Pairing, blend_advice, judge_contact
from methodlint.judging.ask.rule import (
    At,
    BatchCase,
    Candidate,
    Finding,
    Grade,
    Measure,
    NotChecked,
    When,
    celsius,
)
from methodlint.judging.ask.sequence import FLUSHES, residue_volume

SUBJECT = "batch"
CLASSES = ("stop", "fault")
NEEDS = ("solvents.bottles",)
CAUSES = ("sequence.method-switch-no-flush",)

_FLUSH, _FLOWS = 20, (1.0, 0.5, 0.25, 0.1)


def judge(case: BatchCase) -> Iterator[Finding | NotChecked]:
    """Judge every contact outside CO2; one finding for each pair, at its worst place."""
    found: dict[object, tuple[Grade, Pairing, list[str]]] = {}
    unknown: dict[object, Pairing] = {}
    for contact in case.contacts:
        if contact.in_co2 or contact.site in ("tee", "waste"):
            continue
        pairing = judge_contact(contact)
        if pairing is None or (contact.site == "bottle" and pairing.possible):
            continue
        pair = frozenset((contact.first.components, contact.second.components))
        if pairing.unknown or pairing.temperature_decides:
            unknown.setdefault(pair, pairing)
            continue
        grade: Grade = "stop" if contact.under_pressure else "fault"
        before = found.get(pair)
        places = [*(before[2] if before else []), contact.place]
        if before is None or (before[0] == "fault" and grade == "stop"):
            found[pair] = grade, pairing, places
        else:
            found[pair] = before[0], before[1], places
    for pairing in unknown.values():
        missing = "solvents.coldest_place" if pairing.temperature_decides else "fluids"
        yield case.not_checked(_at(case, pairing), missing, pairing.answer.why)
    for grade, pairing, places in found.values():
        yield _finding(case, grade, pairing, places)


def _at(case: BatchCase, pairing: Pairing) -> At:
    """The line of the sequence that brings them together, else the first of the two."""
    line = pairing.contact.line
    return pairing.places()[0] if line is None else case.line_at(line)


def _finding(case: BatchCase, grade: Grade, pairing: Pairing, places: list[str]) -> Finding:
    contact = pairing.contact
    at = _at(case, pairing)
    when = None
    if contact.site == "pump" and contact.line is not None:
        first = case.batch.lines[contact.line].first_injection
        when = When(injection=first) if first else None
    parting = "may form two liquid phases" if pairing.possible else "form two liquid phases"
    bridge, candidates = pairing.bridge, _candidates(case, pairing)
    if contact.site == "bottle":
        said = f"the blend in the {contact.place} forms two liquid phases: {pairing.why}"
        remedy = blend_advice(pairing)
    else:
        where = "; ".join(dict.fromkeys(places))
        said = f"{pairing.words} {parting} where they meet ({where}): {pairing.why}"
        said += f"; {bridge} mixes with both" if bridge else ""
        flush = f"flush with {bridge} in between, five times the swept volume"
        if contact.site == "needle":
            flush = f"wash the needle with {bridge} in between"
        tried = contact.site == "pump" and candidates
        remedy = flush if bridge and not tried else "keep the two apart"
    limit = pairing.limit
    return case.finding(
        at,
        grade,
        said,
        found=celsius(contact.temperature),
        limit=celsius(limit) if limit is not None else None,
        band=Measure(pairing.answer.band_K, "K") if limit is not None else None,
        when=when,
        possible=pairing.possible,
        remedy=remedy,
        candidates=candidates,
        also=tuple(place for place in pairing.places() if place != at),
        cautions=("pressure",) if grade == "stop" else (),
    )


def _flush_volume(case: BatchCase, line: int) -> int:
    """Five times what the lines and the column of a line hold, rounded up [mL]."""
    run = case.batch.runs.get(case.batch.lines[line].method)
    if run is None or not run.done:
        return _FLUSH
    return math.ceil(FLUSHES * residue_volume(run) * 1e6)


def _candidates(case: BatchCase, pairing: Pairing) -> list[Candidate]:
    contact, bridge = pairing.contact, pairing.bridge
    if bridge is None:
        return []
    if contact.site == "pump" and contact.line is not None:
        number, at, found = contact.line + 1, case.line_at(contact.line), []
        volume = _flush_volume(case, contact.line)
        for flow in _FLOWS:
            line = {"kind": "flush", "liquid": bridge, "co2": "off", "flow": f"{flow:g} mL/min",
                    "duration": f"{math.ceil(volume / flow - 1e-9)} min"}  # fmt: skip
            words = f"put a flush of {volume} mL of {bridge} before line {number}, CO2 off, "
            words += f"at {flow:g} mL/min"
            found.append(case.candidate(words, case.change(at, line, insert=True)))
        return found
    wash = contact.first
    if contact.site in ("needle", "seal") and wash.document.kind == "solvents":
        at = At(wash.document, (*wash.path, "liquid"))
        blend = At(wash.document, (*wash.path, "liquids"))
        text = f"use {bridge} as {wash.role}"
        return [case.candidate(text, case.change(blend, None), case.change(at, bridge))]
    return []
