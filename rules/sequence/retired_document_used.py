"""No retired method or card is used, and none of another edition than the sequence names.

Reason
    A method is retired because another one replaced it, a column because it failed its test. What
    still refers to it refers to the wrong one. A sequence that names the edition or the hash of a
    method was written for that one.

Unsound
    kind: column
    status: retired  # <- here

Unsound, because the sequence was written for another edition
    kind: method
    edition: 4
    ---
    kind: sequence
    pins: [{document: method, edition: 3}]  # <- here

Sound
    kind: column
    status: approved

Sound, because the edition is the one that the sequence names
    kind: method
    edition: 3
    ---
    kind: sequence
    pins: [{document: method, edition: 3}]

Remedy
    Refer to the document that took its place, or set its status once it is in use again. Read the
    edition that is there, and name it in the sequence once somebody has.

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.document import values_hash
from methodlint.judging.ask.rule import Finding, Loaded, RunCase

SUBJECT = "run"
CLASSES = ("fault", "caution")
NEEDS = ()


def judge(case: RunCase) -> Iterator[Finding]:
    """Look at the status of every document of the run, and at what the sequence pins."""
    yield from _pinned(case)
    seen: list[Loaded] = []
    labs = (case.lab,) if case.lab is not None else ()
    for loaded in (*case.documents.values(), *case.columns, *labs):
        if loaded in seen or getattr(loaded.model, "status", None) != "retired":
            continue
        seen.append(loaded)
        # A method that is judged by itself may be looked at for its history.
        alone = loaded.kind == "method" and case.sequence is None
        yield case.finding(
            case.at(loaded, "status"),
            "caution" if alone else "fault",
            f"{loaded.kind} '{loaded.name}' is retired"
            + ("" if alone else ", and this run uses it"),
            remedy="refer to the document that took its place",
        )


def _pinned(case: RunCase) -> Iterator[Finding]:
    sequence = case.sequence
    if sequence is None or sequence.status == "draft":
        return
    used = {loaded.name: loaded for loaded in (*case.documents.values(), *case.columns)}
    for index, pin in enumerate(sequence.pins):
        loaded = used.get(pin.document)
        if loaded is None:
            continue
        edition, value = loaded.model.edition, values_hash(loaded.model)
        wrong = []
        if pin.edition is not None and str(pin.edition) != str(edition):
            has = f"edition {edition}" if edition is not None else "no edition"
            wrong.append(f"has {has}, the sequence names edition {pin.edition}")
        if pin.hash is not None and pin.hash != value:
            wrong.append(f"has values of the hash {value}, the sequence names {pin.hash}")
        if wrong:
            yield case.finding(
                f"sequence.pins[{index}]",
                "fault",
                f"{loaded.kind} '{loaded.name}' {' and '.join(wrong)}",
                remedy="read what has changed, and name the edition that is meant",
                also=(case.at(loaded),),
            )
