"""The mobile phase in the column of a transferred method has the density that it had in the source.

Reason
    At a given composition, retention and selectivity follow the density of the mobile phase.
    The same regulator setting gives another mean density as soon as the column, the flow or the
    tubes lose another pressure. The mean along the column counts, not the setting.

Unsound
    kind: method
    transferred_from: assay-on-coarse-column
    outlet_pressure: 120 bar  # <- here
    mobile_phase: {modifier_share: 5 % v/v}
    programme: []
    flow: 2.13 mL/min
    ---
    kind: method
    x-name: assay-on-coarse-column
    column: coarse-column
    outlet_pressure: 120 bar
    mobile_phase: {modifier_share: 5 % v/v}
    programme: []
    flow: 3.0 mL/min
    ---
    kind: column
    x-name: coarse-column
    length: 250 mm
    inner_diameter: 4.6 mm
    particle_size: 5 um

Sound
    kind: method
    transferred_from: assay-on-coarse-column
    outlet_pressure: 98 bar
    mobile_phase: {modifier_share: 5 % v/v}
    programme: []
    flow: 2.13 mL/min
    ---
    kind: method
    x-name: assay-on-coarse-column
    column: coarse-column
    outlet_pressure: 120 bar
    mobile_phase: {modifier_share: 5 % v/v}
    programme: []
    flow: 3.0 mL/min
    ---
    kind: column
    x-name: coarse-column
    length: 250 mm
    inner_diameter: 4.6 mm
    particle_size: 5 um

Remedy
    Set the outlet pressure that the finding gives; where several compositions ask for different
    ones, programme the outlet pressure. From 40 % modifier on, and at 30 degC and below, the mobile
    phase is a liquid of low compressibility: the difference is a note there.

Source
    Equal mean density: Tarafder, Hudalla, Iraneta and Fountain, J. Chromatogr. A 1362 (2014) 278
    (abstract only). Caution above 2 %, fault above 5 %: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import (
    Candidate,
    Finding,
    Grade,
    NotChecked,
    RunCase,
    number,
    percent,
    show,
)
from methodlint.judging.ask.transfer import Comparison, common_setting

SUBJECT = "run"
CLASSES = ("fault", "caution", "note")
NEEDS = ("run", "source.run")

_CAUTION, _FAULT = 0.02, 0.05
_SETTING = "method.outlet_pressure"


def applies(case: RunCase) -> bool:
    """Only a transferred method has a density to keep."""
    return case.transferred


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Compare column-mean densities at every corner of the programme."""
    both = case.comparison
    if both.without_corners:
        yield case.not_checked(_SETTING, _SETTING, both.without_corners)
    off = [corner for corner in both.corners if abs(corner.residual) > _CAUTION]
    if not off:
        return
    soft = [corner for corner in off if not corner.stiff]
    worst = max(soft or off, key=lambda corner: abs(corner.residual))
    grade: Grade = "note"
    if soft:
        grade = "fault" if abs(worst.residual) > _FAULT else "caution"
    setting, said = _setting(both)
    state = worst.target
    boundary = state.run.outlet_margin[0]
    above = f"{show(float(boundary), 'pressure')} above the phase boundary"
    margin = f", {above}" if boundary < 1e9 else ", with no phase boundary"
    assert case.source is not None
    yield case.finding(
        _SETTING,
        grade,
        f"at {show(state.row.share, 'share')} modifier the mean density in the column is "
        f"{show(state.mean_density, 'density')}, on the source "
        f"{show(worst.source.mean_density, 'density')}: {worst.residual * 100:+.1f} % (at the outlet "
        f"{show(state.outlet_density, 'density')} and "
        f"{show(worst.source.outlet_density, 'density')}); the outlet is at "
        f"{show(state.outlet_pressure, 'pressure')}{margin}, "
        f"{number(state.outlet_compressibility * 1e7, 2)} %/bar there",
        found=percent(worst.residual),
        limit=percent(_FAULT if abs(worst.residual) > _FAULT else _CAUTION),
        remedy=said if grade != "note" else "",
        candidates=_candidates(case, setting) if grade != "note" else (),
        also=(case.source.at(_SETTING),),
    )


def _setting(both: Comparison) -> tuple[float | None, str]:
    if both.without_matches:
        return None, f"a setting for equal densities was not found: {both.without_matches}"
    pairs = zip(both.corners, both.matches, strict=True)
    matches = [match for corner, match in pairs if match.found and not corner.stiff]
    if not matches:
        return None, "no outlet pressure makes the densities equal"
    setting, leaves = common_setting(matches)
    if leaves > _CAUTION:
        each = ", ".join(
            f"{show(m.setting, 'pressure')} at {show(m.target.row.share, 'share')}" for m in matches
        )
        return None, f"programme the outlet pressure: {each}"
    text = f"set the outlet pressure to {show(setting, 'pressure')}"
    return setting, f"{text}: the densities are then equal within {leaves * 100:.1f} %"


def _candidates(case: RunCase, setting: float | None) -> list[Candidate]:
    programmed = case.method is None or any(row.outlet_pressure for row in case.method.programme)
    if setting is None or programmed:
        return []
    text = f"{round(setting / 1e5)} bar"
    change = case.change("method.outlet_pressure", text)
    return [case.candidate(f"set the outlet pressure to {text}", change)]
