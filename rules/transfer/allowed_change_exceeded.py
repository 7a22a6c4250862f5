"""A regulated method changes in a transfer only by what its allowance set permits.

Reason
    Inside the allowances of a pharmacopoeia, or of the lab's own policy, a change needs a
    suitability test; outside them it is another method and is validated anew.

Unsound
    kind: method
    purpose: regulated
    transferred_from: assay
    oven_temperature: 48 degC  # <- here
    ---
    kind: method
    x-name: assay
    ---
    kind: sequence
    purpose: regulated

Sound
    kind: method
    purpose: regulated
    transferred_from: assay
    oven_temperature: 44 degC
    ---
    kind: method
    x-name: assay
    ---
    kind: sequence
    purpose: regulated

Remedy
    Stay inside the span that the finding gives, or validate the change and name the set that
    applies: `transfer: {allowances: none}`. For the outlet pressure no allowance was found: every
    change of it is a change of the method. A method registered under the earlier table for
    supercritical fluids names it: `transfer: {allowances: earlier-sfc}`.

Source
    USP <621> harmonised with Ph. Eur. 2.2.46 (second-hand); temperature in gradients and wavelength
    (unverified): the LC table by analogy. The earlier SFC table, minor component 30 % relative or
    2 % absolute, flow 50 %, temperature 5 K, length 70 %, inner diameter 25 %, particles down to
    half: Ph. Eur. 2.2.46 before 1 January 2023 (unverified).
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import Finding, Measure, RunCase, show
from methodlint.judging.ask.transfer import (
    Allowance,
    SetName,
    allowance_set,
    flow_ratio,
    lab_allowances,
)

SUBJECT = "run"
CLASSES = ("fault", "note")
NEEDS = ("run", "source.run")
TAGS = ("regulated",)


def applies(case: RunCase) -> bool:
    """Regulated work under an allowance set; the set `none` asks nothing."""
    if not case.transferred or case.purpose != "regulated":
        return False
    return _set_name(case) != "none"


def _set_name(case: RunCase) -> SetName:
    notes = case.method.transfer if case.method is not None else None
    stated = notes.allowances if notes is not None else None
    return stated or case.policy.allowance_set or "pharmacopoeial"


def judge(case: RunCase) -> Iterator[Finding]:
    """Hold every item of the set against both methods."""
    name = _set_name(case)
    own = lab_allowances(case.policy)
    if name == "lab" and not own:
        return
    table = allowance_set(name, own)
    both = case.comparison
    if not both.source_rows or not both.target_rows:
        return
    isocratic = not both.gradient
    kept = set()
    changes = list(_changes(case))
    if table.either_minor:
        minor = [item for item in changes if item[0].startswith("minor")]
        spans = [(table.of(key, isocratic=isocratic), change) for key, _, change, _ in minor]
        within = any(span is not None and span.allows(change) for span, change in spans)
        kept = {key for key, _, _, _ in minor} if within else {"minor_absolute"}
    for key, path, change, words in changes:
        allowance = table.of(key, isocratic=isocratic)
        if allowance is None or abs(change) < 1e-9 or key in kept:
            continue
        if allowance.lowest is None:
            yield _say(case, path, allowance, words, change, "note")
        elif not allowance.allows(change):
            yield _say(case, path, allowance, words, change, "fault")


def _changes(case: RunCase) -> Iterator[tuple[str, str, float, str]]:
    """Key of the set, place, change (relative, or absolute where the set says so), in words."""
    both = case.comparison
    one, two = both.source_rows[0], both.target_rows[0]
    heat = two.oven_temperature - one.oven_temperature
    yield "temperature", "method.oven_temperature", heat, f"{heat:+.3g} K"
    flow = two.flow / (one.flow * flow_ratio(*both.beds)) - 1.0
    yield "flow", "method.flow", flow, f"{flow * 100:+.0f} % after scaling"
    as_set = two.flow / one.flow - 1.0
    yield "set_flow", "method.flow", as_set, f"{as_set * 100:+.0f} %"
    for key in ("length", "inner_diameter", "particle_size"):
        size = getattr(both.beds[1], key) / getattr(both.beds[0], key) - 1.0
        yield key, "method.column", size, f"{size * 100:+.0f} %"
    # Pumps that meter differently mean the same composition by another share.
    moved = 0.0 if both.metering_differs else two.share - one.share
    where = "method.mobile_phase.modifier_share"
    if one.share > 0.0 and one.share <= 0.5:
        relative = moved / one.share
        yield "minor_relative", where, relative, f"{relative * 100:+.0f} %"
    yield "minor_absolute", where, moved, f"{moved * 100:+.3g} % absolute"
    pressure = two.outlet_pressure / one.outlet_pressure - 1.0
    words = f"{show(one.outlet_pressure, 'pressure')} -> {show(two.outlet_pressure, 'pressure')}"
    yield "outlet_pressure", "method.outlet_pressure", pressure, words
    yield from _wavelengths(case)


def _wavelengths(case: RunCase) -> Iterator[tuple[str, str, float, str]]:
    assert case.source is not None
    if case.method is None or case.source.method is None:
        return
    old, new = case.source.method_liquid(), case.method_liquid()
    if old is not None and new is not None and old.ph is not None and new.ph is not None:
        acid = float(new.ph) - float(old.ph)
        yield "ph", "method.mobile_phase.modifier.ph", acid, f"{acid:+.2g}"
    before, now = case.source.method.detectors, case.method.detectors
    for index, (a, b) in enumerate(zip(before, now, strict=False)):
        if a.wavelength is not None and b.wavelength is not None and a.wavelength.si > 0.0:
            shift = b.wavelength.si / a.wavelength.si - 1.0
            path = f"method.detectors[{index}].wavelength"
            yield "wavelength", path, shift, f"{a.wavelength.text} -> {b.wavelength.text}"


def _say(
    case: RunCase, path: str, allowance: Allowance, words: str, change: float, grade: str
) -> Finding:
    assert case.source is not None
    span = f"allowed is {allowance.words}" if grade == "fault" else allowance.words
    plain = allowance.item.endswith("temperature") or allowance.item.startswith("pH")
    measured = Measure(change * (1.0 if plain else 100.0))
    analogy = "" if "SFC" in allowance.source else "; LC table by analogy"
    return case.finding(
        path,
        "fault" if grade == "fault" else "note",
        f"{allowance.item} changed by {words}; {span} ({allowance.source}{analogy})",
        found=measured if grade == "fault" else None,
        remedy="stay inside the span, or validate the change" if grade == "fault" else "",
        also=(case.source.at(path),),
    )
