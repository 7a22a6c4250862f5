"""A method runs on a bench that it names.

Reason
    `runs_on` lists the benches that a method was set up and tried on. On another one its dwell
    volume, tubes and limits are others, and nobody has compared the results.

Unsound
    kind: method
    runs_on: [bench-zz]  # <- here

Sound
    kind: method
    runs_on: [instrument]

Remedy
    Transfer the method to this bench (`methodlint transfer`), or add the bench to `runs_on`.

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import Finding, RunCase, visible

SUBJECT = "run"
CLASSES = ("caution",)
NEEDS = ("sequence", "instrument")


def judge(case: RunCase) -> Iterator[Finding]:
    """Look for the sequence's bench among those of the method."""
    assert case.method is not None and case.sequence is not None
    bench = case.documents["instrument"].name
    named = case.method.runs_on
    if not named or bench in named or case.sequence.instrument in named:
        return
    names = ", ".join(visible(name) for name in named[:6])
    yield case.finding(
        "method.runs_on",
        "caution",
        f"the sequence runs this method on {bench}, the method names {names}",
        remedy=f"transfer the method to {bench}, or add {bench} to 'runs_on' once it is verified",
        also=(case.at("sequence.instrument"),),
    )
