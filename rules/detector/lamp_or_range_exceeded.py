"""A UV trace stays within the use of its lamp and the absorbance up to which it is linear.

Reason
    A lamp near its end is dim and drifts: noise grows and small peaks are lost. Beyond the linear
    range the top of a peak is cut off, and its area says too little.

Unsound
    kind: method
    detectors: [{type: UV, cell: UV cell, wavelength: 254 nm, highest_absorbance: 2.6}]  # <- here
    ---
    kind: instrument
    train:
      - {part: mixer, volume: 0.2 mL}
      - {part: column}
      - {part: cell, name: UV cell, volume: 11 uL, detector: UV, highest_absorbance: 2.0}
      - {part: regulator}

Sound, because the trace only triggers the collector
    kind: method
    detectors:
      - {type: UV, cell: UV cell, wavelength: 254 nm, highest_absorbance: 2.6, purpose: trigger}
    ---
    kind: instrument
    train:
      - {part: mixer, volume: 0.2 mL}
      - {part: column}
      - {part: cell, name: UV cell, volume: 11 uL, detector: UV, highest_absorbance: 2.0}
      - {part: regulator}

Remedy
    Change the lamp; inject less, or read at a wavelength where the sample absorbs less.

Source
    The instrument card. Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.detector import ULTRAVIOLET, cell_of, traces
from methodlint.judging.ask.rule import Finding, Measure, RunCase, number, show

SUBJECT = "run"
CLASSES = ("caution",)
NEEDS = ("method.detectors", "instrument.train")


def judge(case: RunCase) -> Iterator[Finding]:
    """Look at the card of each cell that a trace is read from."""
    for index, detector in traces(case, *ULTRAVIOLET):
        place = cell_of(case, detector)
        cell = case.instrument.train[place] if case.instrument and place is not None else None
        if cell is None:
            continue
        at = f"instrument.train[{place}]"
        if cell.lamp_used and cell.lamp_life and cell.lamp_used.si > cell.lamp_life.si:
            yield case.finding(
                f"{at}.lamp_used",
                "caution",
                f"the lamp has burnt for {show(cell.lamp_used.si, 'time', 'h')}, it is to be "
                f"changed after {show(cell.lamp_life.si, 'time', 'h')}",
                found=Measure(cell.lamp_used.si / 3600.0, "h"),
                limit=Measure(cell.lamp_life.si / 3600.0, "h"),
                remedy="change the lamp and write its hours on the card",
            )
        most, linear = detector.highest_absorbance, cell.highest_absorbance
        if most is not None and linear is not None and most > linear:
            yield case.finding(
                f"method.detectors[{index}].highest_absorbance",
                "caution",
                f"the highest peak absorbs {number(most, 3)}, the detector is linear up to "
                f"{number(linear, 3)}: its top is cut off",
                found=Measure(most, "AU"),
                limit=Measure(linear, "AU"),
                remedy="inject less, or read at a wavelength where it absorbs less",
                also=(case.at(f"{at}.highest_absorbance"),),
            )
