"""The column outlet is close to the pressure that the regulator is set to.

Reason
    What the tubes downstream of the column cost adds to the set pressure. Then density and retention
    depend on plumbing, and the method does not repeat on another instrument. Turbulence by
    itself is normal here and keeps peaks narrow; only its cost in pressure counts.

Unsound
    kind: instrument
    train:
      - {part: injector, name: injection valve, volume: 10 uL, pressure_rating: 550 bar}
      - {part: column}
      - {part: cell, name: UV cell, volume: 11 uL, pressure_rating: 350 bar}
      - {part: tube, name: cell to regulator, length: 0.9 m, bore: 0.15 mm}  # <- here
      - {part: regulator, name: regulator, pressure_rating: 380 bar}
    ---
    kind: column
    inner_diameter: 4.6 mm
    ---
    kind: method
    flow: 4.0 mL/min

Sound
    kind: instrument
    train:
      - {part: injector, name: injection valve, volume: 10 uL, pressure_rating: 550 bar}
      - {part: column}
      - {part: cell, name: UV cell, volume: 11 uL, pressure_rating: 350 bar}
      - {part: tube, name: cell to regulator, length: 0.9 m, bore: 0.25 mm}
      - {part: regulator, name: regulator, pressure_rating: 380 bar}
    ---
    kind: column
    inner_diameter: 4.6 mm
    ---
    kind: method
    flow: 4.0 mL/min

Remedy
    Take the next wider bore for the tube that costs most, as long as its volume stays small
    against that of the column.

Source
    Laminar below Re 2100, turbulent above 4000: Tarafder, J. Chromatogr. A 2018. Limit of 10 bar:
    common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.phase import settings_at
from methodlint.judging.ask.pressure import (
    losses_behind_column,
    pressure_band_words,
    slower,
    wider_tube,
)
from methodlint.judging.ask.rule import Finding, RunCase, When, bar, show

SUBJECT = "run"
CLASSES = ("caution",)
NEEDS = ("run",)

_LIMIT = 10e5


def judge(case: RunCase) -> Iterator[Finding]:
    """Compare the losses downstream of the column with 10 bar and name the tubes."""
    run = case.run
    lost = run.column_outlet_pressure - run.outlet_pressure
    row = int(lost.argmax())
    if float(lost[row]) <= _LIMIT:
        return
    tubes = sorted(losses_behind_column(run, row), key=lambda tube: -tube.loss)
    said = ", ".join(
        f"{tube.name} {show(tube.loss, 'pressure')} (Re {tube.reynolds:.0f}"
        f"{', between both laws, the higher taken' if tube.transition else ''})"
        for tube in tubes
    )
    spans = run.windows(lost - _LIMIT)
    when = When(spans[0][0], spans[-1][1])
    worst = tubes[0] if tubes else None
    at = f"instrument.train[{worst.part}]" if worst and worst.part is not None else None
    pressure = float(run.column_outlet_pressure[row])
    below, above = (float(side[row]) for side in run.pressure_band(run.column_outlet_pressure))
    yield case.finding(
        at or settings_at(case),
        "caution",
        f"the column outlet is at {show(pressure, 'pressure')}, {show(float(lost[row]), 'pressure')} "
        f"above the regulator's {show(float(run.outlet_pressure[row]), 'pressure')} (limit 10 bar, "
        f"{pressure_band_words(below, above)}) at "
        f"{show(float(run.time[row]), 'time', 'min')}: {said}; retention then depends on this "
        f"plumbing",
        found=bar(float(lost[row])),
        limit=bar(_LIMIT),
        band=bar(float(run.drop_band(lost).above[row])),
        band_below=bar(float(run.drop_band(lost).below[row])),
        when=when,
        remedy="take a wider bore for the tube that costs most",
        candidates=wider_tube(case, row) + slower(case, when),
        also=(settings_at(case),),
    )
