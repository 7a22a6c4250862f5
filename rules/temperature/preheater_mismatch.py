"""Fast flow into a narrow column is brought to the oven's temperature before it enters.

Reason
    Above 2 mL/min the mobile phase enters a column of 3 mm or less before it is warm. Then the
    inlet runs colder than the oven says, and peaks split or broaden.

Unsound
    kind: method
    flow: 2.5 mL/min  # <- here
    outlet_pressure: 120 bar
    programme: [{time: 0 min, modifier_share: 5 % v/v}]
    ---
    kind: instrument
    oven: {preheater: false, built_in_exchanger: false}

Unsound, because the preheater is set to another temperature
    kind: method
    flow: 2.5 mL/min
    preheater_temperature: 30 degC  # <- here
    outlet_pressure: 120 bar
    programme: [{time: 0 min, modifier_share: 5 % v/v}]
    ---
    kind: instrument
    oven: {preheater: true, built_in_exchanger: false}

Sound
    kind: method
    flow: 2.5 mL/min
    preheater_temperature: 40 degC
    outlet_pressure: 120 bar
    programme: [{time: 0 min, modifier_share: 5 % v/v}]
    ---
    kind: instrument
    oven: {preheater: true, built_in_exchanger: false}

Sound, because the oven has an exchanger of its own
    kind: method
    flow: 2.5 mL/min
    outlet_pressure: 120 bar
    programme: [{time: 0 min, modifier_share: 5 % v/v}]
    ---
    kind: instrument
    oven: {preheater: false, built_in_exchanger: true}

Remedy
    Set the preheater to the oven's temperature, fit one, or lower the flow.

Source
    3 K, beside an exchanger or at low flows 10 K, 2 mL/min and 3.0 mm: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.flow import filled_rows
from methodlint.judging.ask.rule import (
    Candidate,
    Finding,
    NotChecked,
    Quantity,
    RunCase,
    celsius,
    ml_per_min,
    show,
)

SUBJECT = "run"
CLASSES = ("caution",)
NEEDS = ("method.oven_temperature", "instrument.oven", "column.inner_diameter")

_FAST = 2.0 / 6e7
_NARROW = 3.0e-3
_APART = 3.0
_FAR = 10.0
_SLACK = 1.0001


def applies(case: RunCase) -> bool:
    """A built-in exchanger brings the stream to temperature, unless a preheater is set as well."""
    oven = case.instrument.oven if case.instrument else None
    preheated = case.get("method.preheater_temperature") is not None
    return oven is None or not oven.built_in_exchanger or preheated


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Look for a preheater, and compare its temperature with the oven's."""
    assert case.method is not None
    flows = [row.flow for row in filled_rows(case.method) if row.flow is not None]
    bore = case.get("column.inner_diameter").si
    exchanger = case.get("instrument.oven.built_in_exchanger")
    if not flows or max(flows) <= _FAST * _SLACK or bore > _NARROW * _SLACK or exchanger:
        setting = case.get("method.preheater_temperature")
        yield from _apart(case, setting, _FAR, "the stream enters the column from a preheater")
        return
    said = f"{show(max(flows), 'volume flow', 'mL/min')} enter a column of {show(bore, 'length')}"
    fitted = case.get("instrument.oven.preheater")
    train = case.instrument.train if case.instrument else ()
    in_train = [part for part in train if part.part == "preheater" and not part.bypassed]
    if fitted is None and not in_train:
        where = "instrument.oven.preheater"
        yield case.not_checked("instrument.oven", where, f"{said}: is there a preheater?")
        return
    if not fitted and not in_train:
        yield case.finding(
            "method.flow",
            "caution",
            f"{said} without a preheater (limit 2 mL/min)",
            found=ml_per_min(max(flows)),
            limit=ml_per_min(_FAST),
            remedy="fit a preheater",
            candidates=_slower(case),
            also=(case.at("instrument.oven.preheater"),),
        )
        return
    own = next((part.temperature for part in in_train if part.temperature), None)
    setting = case.get("method.preheater_temperature") or own
    yield from _apart(case, setting, _APART, said)


def _apart(case: RunCase, setting: Quantity | None, limit: float, said: str) -> Iterator[Finding]:
    oven = case.get("method.oven_temperature")
    if setting is None or abs(setting.si - oven.si) <= limit:
        return
    where = (
        "method.preheater_temperature"
        if case.get("method.preheater_temperature")
        else "method.oven_temperature"
    )
    text = f"{oven.si - 273.15:g} degC"
    yield case.finding(
        where,
        "caution",
        f"{said}; the preheater is set to {show(setting.si, 'temperature')}, the oven to "
        f"{show(oven.si, 'temperature')} "
        f"({show(abs(setting.si - oven.si), 'temperature difference')} apart, limit {limit:g} K)",
        found=celsius(setting.si),
        limit=celsius(oven.si),
        remedy=f"set the preheater to {text}",
        candidates=[
            case.candidate(
                f"set the preheater to {text}", case.change("method.preheater_temperature", text)
            )
        ],
        also=(case.at("method.oven_temperature"),),
    )


def _slower(case: RunCase) -> list[Candidate]:
    if case.method is None or any(row.flow is not None for row in case.method.programme):
        return []
    return [case.candidate("set the flow to 2 mL/min", case.change("method.flow", "2 mL/min"))]
