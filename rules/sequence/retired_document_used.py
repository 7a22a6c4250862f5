"""No retired method or card is used.

Reason
    A method is retired because another one replaced it, a column because it failed its test. What
    still refers to it refers to the wrong one.

Unsound
    kind: column
    status: retired  # <- here

Sound
    kind: column
    status: approved

Remedy
    Refer to the document that took its place, or set its status once it is in use again.

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import Finding, Loaded, RunCase

SUBJECT = "run"
CLASSES = ("fault", "caution")
NEEDS = ()


def judge(case: RunCase) -> Iterator[Finding]:
    """Look at the status of every document of the run."""
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
