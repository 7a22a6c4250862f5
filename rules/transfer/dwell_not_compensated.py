"""The gradient reaches the column after as many column volumes as on the source system.

Reason
    What lies between the mixing point and the column delays the gradient. With another dwell
    volume, or another column on the same system, early peaks move against late ones unless an
    initial hold or the moment of the injection makes up for it.

Unsound
    kind: method
    transferred_from: assay-on-slow-bench
    programme:  # <- here
      - {time: 0 min, modifier_share: 5 % v/v}
      - {time: 5 min, modifier_share: 40 % v/v}
      - {time: 6 min, modifier_share: 40 % v/v}
      - {time: 6.5 min, modifier_share: 5 % v/v}
    ---
    kind: method
    x-name: assay-on-slow-bench
    runs_on: [slow-bench]
    ---
    kind: instrument
    x-name: slow-bench
    dwell_volume: 1.08 mL

Sound
    kind: method
    transferred_from: assay-on-slow-bench
    programme:
      - {time: 0 min, modifier_share: 5 % v/v}
      - {time: 0.37 min, modifier_share: 5 % v/v}
      - {time: 5.37 min, modifier_share: 40 % v/v}
      - {time: 6.37 min, modifier_share: 40 % v/v}
      - {time: 6.87 min, modifier_share: 5 % v/v}
    ---
    kind: method
    x-name: assay-on-slow-bench
    runs_on: [slow-bench]
    ---
    kind: instrument
    x-name: slow-bench
    dwell_volume: 1.08 mL

Remedy
    Set the initial hold that the finding gives. Where it would be negative: inject that much
    after the programme has begun, or fit a smaller mixer.

Source
    (hold F + V_D)/V_column kept: common practice in liquid chromatography, no source. Silent
    below a tenth of the hold-up time: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import Finding, RunCase, minutes, show

SUBJECT = "run"
CLASSES = ("fault",)
NEEDS = ("run", "source.run")


def applies(case: RunCase) -> bool:
    """Only gradients wait for their dwell."""
    return case.transferred


def judge(case: RunCase) -> Iterator[Finding]:
    """Compare the initial hold with the one that both dwells ask for."""
    both = case.comparison
    if not both.gradient or not both.source_rows or not both.target_rows:
        return
    plan = both.dwell(both.time_factors[1])
    if plan.is_met_by(both.hold_found):
        return
    hold_up = float(both.target.hold_up_time[0])
    off = both.hold_found - plan.wanted
    if plan.wanted >= 0.0:
        remedy = f"hold the starting composition for {show(plan.wanted, 'time', 'min')}"
    elif plan.way == "delayed injection":
        remedy = f"inject {show(plan.delay, 'time', 'min')} after the programme has begun"
    elif plan.way == "negligible":
        remedy = "begin the gradient at once"
    else:
        remedy = (
            f"a hold cannot be negative: bring the dwell volume from "
            f"{show(both.target.dwell_volume, 'volume')} to {show(plan.largest_volume, 'volume')} "
            "with a smaller mixer"
        )
    assert case.source is not None
    yield case.finding(
        "method.programme",
        "fault",
        f"the gradient reaches the column {show(abs(off), 'time', 'min')} too "
        f"{'late' if off > 0.0 else 'early'}: dwell {show(both.source.dwell_volume, 'volume')} on the "
        f"source, {show(both.target.dwell_volume, 'volume')} here, hold-up time "
        f"{show(hold_up, 'time', 'min')}",
        found=minutes(both.hold_found),
        limit=minutes(plan.wanted),
        remedy=remedy,
        also=(case.source.at("method.programme"), case.at("instrument.dwell_volume")),
    )
