"""The outlet pressure that keeps the density of a transferred method is one that can be run.

Reason
    A column that loses more pressure asks for a lower regulator setting. That setting may lie
    too near the phase boundary, where the mobile phase is compressible, or outside what the regulator
    controls. Then the density cannot be kept, and what is left of the difference has to be known.

Unsound
    kind: method
    transferred_from: assay-on-coarse-column
    outlet_pressure: 85 bar  # <- here
    mobile_phase: {modifier_share: 5 % v/v}
    programme: []
    flow: 2.13 mL/min
    ---
    kind: method
    x-name: assay-on-coarse-column
    column: coarse-column
    outlet_pressure: 105 bar
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
    outlet_pressure: 128 bar
    mobile_phase: {modifier_share: 5 % v/v}
    programme: []
    flow: 2.13 mL/min
    ---
    kind: method
    x-name: assay-on-coarse-column
    column: coarse-column
    outlet_pressure: 150 bar
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
    Take the nearest setting that the finding gives and accept what is left, or lower the flow:
    the column then loses less and a higher setting keeps the density.

Source
    15 bar above the phase boundary, at most 1 %/bar at the outlet: common practice, no source. Silent
    where less than 1 % is left; a caution up to 5 %, and a fault above or where the setting
    itself is out of bounds: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import Finding, NotChecked, RunCase, bar, show

SUBJECT = "run"
CLASSES = ("fault", "caution")
NEEDS = ("run", "source.run")
CAUSES = ("transfer.density-mismatch",)

_NOTHING_LEFT, _FAULT = 0.01, 0.05
_NOISE = 1e5  # Pa: settings are typed in whole bar


def applies(case: RunCase) -> bool:
    """Only a transferred method has a density to keep."""
    return case.transferred


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Hold the solved setting of every corner against its limits."""
    both = case.comparison
    if both.without_matches:
        where = "method.outlet_pressure"
        yield case.not_checked(where, where, both.without_matches)
        return
    margin = case.policy.boundary_margin
    found = []
    limits = both.limits(margin.si if margin is not None else None)
    for corner, match, limit in zip(both.corners, both.matches, limits, strict=True):
        if corner.stiff:
            continue
        nearest = limit.clamp(match.setting)
        left = abs(match.stiffness * (nearest - match.setting))
        if left > _NOTHING_LEFT:
            found.append((left, corner, match, limit, nearest))
    if not found:
        return
    left, corner, match, limit, nearest = max(found, key=lambda item: item[0])
    setting = corner.target.row.outlet_pressure
    beyond = not limit.lowest - _NOISE <= setting <= limit.highest + _NOISE
    words = limit.lowest_because if match.setting < limit.lowest else limit.highest_because
    assert case.source is not None
    yield case.finding(
        "method.outlet_pressure",
        "fault" if beyond or left > _FAULT else "caution",
        f"at {show(corner.target.row.share, 'share')} modifier the density of the source would need "
        f"the regulator at {show(match.setting, 'pressure')}; the nearest that can be run is "
        f"{show(nearest, 'pressure')} ({words}), which leaves {left * 100:.1f} % of density; set is "
        f"{show(setting, 'pressure')}",
        found=bar(match.setting),
        limit=bar(nearest),
        remedy=f"accept {left * 100:.1f} %, or lower the flow"
        if abs(nearest - setting) < _NOISE
        else f"set {show(nearest, 'pressure')} and accept {left * 100:.1f} %, or lower the flow",
        also=(case.source.at("method.outlet_pressure"),),
    )
