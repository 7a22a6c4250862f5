"""A flow path that was opened is tested for leaks before it runs.

Reason
    A fitting that was undone and done up again is where CO2 and flammable liquid leave at 300 bar.
    A leak test takes minutes, with somebody there; the sequence takes the night.

Unsound
    kind: instrument
    opened: 2026-11-23
    leak_test: {on: 2026-11-02, passed: true}  # <- here

Unsound, because the test failed
    kind: instrument
    opened: 2026-11-23
    leak_test: {on: 2026-11-24, passed: false}  # <- here

Sound
    kind: instrument
    opened: 2026-11-23
    leak_test: {on: 2026-11-23, passed: true}

Remedy
    Pressurise with the outlet closed and watch the pressure, or search the fittings for leaks,
    with somebody there; write the day as `leak_test:`. Never tighten a fitting under pressure.

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import BatchCase, Finding

SUBJECT = "batch"
CLASSES = ("stop", "caution")
NEEDS = ()


def judge(case: BatchCase) -> Iterator[Finding]:
    """Compare the last test with the last opening."""
    opened, test = case.get("instrument.opened"), case.get("instrument.leak_test")
    if test is not None and test.passed is False:
        yield case.finding(
            "instrument.leak_test.passed",
            "stop",
            f"the leak test of {test.on} failed",
            remedy="vent it, wait for zero on every gauge, find the leak and test again",
            cautions=("pressure", "flammable"),
        )
    elif opened is not None and (test is None or test.on < opened):
        last = f"the last leak test was on {test.on}" if test is not None else "no test is noted"
        yield case.finding(
            "instrument.leak_test.on" if test is not None else "instrument.opened",
            "caution",
            f"the flow path was opened on {opened}, and {last}",
            remedy="test for leaks with somebody there before the start",
            cautions=("pressure",),
        )
