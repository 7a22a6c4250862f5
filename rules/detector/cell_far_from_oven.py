"""The mobile phase reaches the detector cell at about the temperature of the oven.

Reason
    The refractive index of CO2 depends strongly on temperature and pressure. Where the stream
    enters a cell of another temperature without a heat exchanger, schlieren cross the light and
    the baseline is noisy, the more the nearer to the critical point.

Unsound
    kind: instrument
    train:
      - {part: mixer, volume: 0.2 mL}
      - {part: column}
      - {part: cell, name: UV cell, volume: 11 uL, detector: UV, temperature: 20 degC}  # <- here
      - {part: regulator}

Sound, because an exchanger brings the stream to the temperature of the cell
    kind: instrument
    train:
      - {part: mixer, volume: 0.2 mL}
      - {part: column}
      - part: cell
        name: UV cell
        volume: 11 uL
        detector: UV
        temperature: 20 degC
        heat_exchanger: true
      - {part: regulator}

Remedy
    Set the cell near the temperature of the oven, or fit an exchanger ahead of it.

Source
    10 K: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.detector import ULTRAVIOLET, cell_of, traces
from methodlint.judging.ask.rule import Finding, RunCase, celsius, show

SUBJECT = "run"
CLASSES = ("note",)
NEEDS = ("method.detectors", "instrument.train", "method.oven_temperature")

_APART = 10.0


def judge(case: RunCase) -> Iterator[Finding]:
    """Compare the temperature on the card of a cell with the oven's."""
    oven = case.get("method.oven_temperature").si
    for _, detector in traces(case, *ULTRAVIOLET):
        place = cell_of(case, detector)
        cell = case.instrument.train[place] if case.instrument and place is not None else None
        if cell is None or cell.temperature is None or cell.heat_exchanger:
            continue
        apart = abs(cell.temperature.si - oven)
        if apart > _APART:
            yield case.finding(
                f"instrument.train[{place}].temperature",
                "note",
                f"the cell is at {show(cell.temperature.si, 'temperature')}, the oven at "
                f"{show(oven, 'temperature')}: {show(apart, 'temperature difference')} apart "
                f"(usual limit {show(_APART, 'temperature difference')}), the baseline may be noisy",
                found=celsius(cell.temperature.si),
                limit=celsius(oven),
                remedy="set the cell near the oven's temperature, or fit an exchanger ahead of it",
                also=(case.at("method.oven_temperature"),),
            )
