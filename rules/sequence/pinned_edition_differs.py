"""Methods and cards have the edition, or the values, that the sequence names.

Reason
    A sequence that names the edition or the hash of a method was written and approved for that
    one. A method that somebody changed since then is another method.

Unsound
    kind: method
    edition: 4
    ---
    kind: sequence
    pins: [{document: method, edition: 3}]  # <- here

Unsound, because it names a document that it does not use
    kind: sequence
    pins: [{document: methd, edition: 3}]  # <- here

Sound
    kind: method
    edition: 3
    ---
    kind: sequence
    pins: [{document: method, edition: 3}]

Remedy
    Read the edition that is there, and name it in the sequence once somebody has.

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.document import values_hash
from methodlint.judging.ask.rule import BatchCase, Finding, Loaded, RunCase, nearest

SUBJECT = "batch"
CLASSES = ("fault",)
NEEDS = ()


def applies(case: BatchCase) -> bool:
    """A draft is still being written."""
    return case.sequence is not None and case.sequence.status != "draft"


def judge(case: BatchCase) -> Iterator[Finding]:
    """Compare every pin with the document of that name, wherever the sequence uses it."""
    runs = [loaded for run in case.runs.values() for loaded in _documents(run)]
    used = {loaded.name: loaded for loaded in (*case.documents.values(), *runs)}
    for index, pin in enumerate(case.sequence.pins if case.sequence else ()):
        loaded = used.get(pin.document)
        if loaded is None:
            meant = [name for name, _ in nearest(pin.document, used, limit=1)]
            said = f"the sequence names '{pin.document}', which it does not use"
            said += f"; it may mean '{meant[0]}'" if meant else ""
        else:
            said = f"{loaded.kind} '{loaded.name}' {_differences(pin.edition, pin.hash, loaded)}"
            if said.endswith(" "):
                continue
        yield case.finding(
            f"sequence.pins[{index}]",
            "fault",
            said,
            remedy="read what has changed, and name the edition that is meant",
            also=(case.at(loaded),) if loaded is not None else (),
        )


def _documents(run: RunCase) -> tuple[Loaded, ...]:
    return (*run.documents.values(), *run.columns)


def _differences(edition: str | int | None, hashed: str | None, loaded: Loaded) -> str:
    wrong = []
    if edition is not None and str(edition) != str(loaded.model.edition):
        own = loaded.model.edition
        has = f"edition {own}" if own is not None else "no edition"
        wrong.append(f"has {has}, the sequence names edition {edition}")
    if hashed is not None and hashed != (value := values_hash(loaded.model)):
        wrong.append(f"has values of the hash {value}, the sequence names {hashed}")
    return " and ".join(wrong)
