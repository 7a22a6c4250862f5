"""A set share of modifier means the same composition on both systems of a transfer.

Reason
    A pump that meters volume delivers the mass that its head holds: at 10 and at 20 degC, 150 bar,
    a millilitre of CO2 weighs 0.954 and 0.904 g. The same "20 %" is then another mobile phase, and
    a pump that meters mass gives a third one.

Unsound
    kind: method
    transferred_from: assay-on-warm-head
    mobile_phase: {modifier_share: 20 % v/v}  # <- here
    programme: []
    ---
    kind: method
    x-name: assay-on-warm-head
    runs_on: [warm-head]
    mobile_phase: {modifier_share: 20 % v/v}
    programme: []
    ---
    kind: instrument
    x-name: warm-head
    co2_pump: {head_temperature: 20 degC}

Sound
    kind: method
    transferred_from: assay-on-warm-head
    mobile_phase: {modifier_share: 21.1 % v/v}
    programme: []
    ---
    kind: method
    x-name: assay-on-warm-head
    runs_on: [warm-head]
    mobile_phase: {modifier_share: 20 % v/v}
    programme: []
    ---
    kind: instrument
    x-name: warm-head
    co2_pump: {head_temperature: 20 degC}

Remedy
    Set the share that the finding gives. Silent on pumps with the same head temperature and the same
    kind of metering.

Source
    Densities of CO2 at 10 and 20 degC, 150 bar: Span and Wagner 1996 (reference equation). A mass
    fraction within 2 % of itself counts as equal: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import Finding, RunCase, percent, show
from methodlint.judging.ask.transfer import modifier_density_of as density_of
from methodlint.judging.ask.transfer import share_for_mass_fraction

SUBJECT = "run"
CLASSES = ("caution",)
NEEDS = ("run", "source.run")

_SAME = 0.02


def applies(case: RunCase) -> bool:
    """Only a transferred method has another metering to compare with."""
    return case.transferred


def judge(case: RunCase) -> Iterator[Finding]:
    """Compare mass fractions at every composition that both methods share."""
    both = case.comparison
    if not both.metering_differs:
        return
    off = [
        (corner.target.w_modifier / corner.source.w_modifier - 1.0, corner)
        for corner in both.corners
        if corner.source.w_modifier > 0.0
        and abs(corner.target.w_modifier / corner.source.w_modifier - 1.0) > _SAME
    ]
    if not off:
        return
    change, corner = max(off, key=lambda item: abs(item[0]))
    source, target = corner.source, corner.target
    liquid = density_of(case.run)
    share = float(share_for_mass_fraction(source.w_modifier, liquid, target.head_density))
    index = target.row.index
    path = (
        "method.mobile_phase.modifier_share"
        if index is None
        else f"method.programme[{index}].modifier_share"
    )
    assert case.source is not None
    yield case.finding(
        path,
        "caution",
        f"{show(target.row.share, 'share')} modifier is {target.w_modifier * 100:.1f} % by mass here, "
        f"{source.w_modifier * 100:.1f} % on the source ({change * 100:+.1f} % of itself): a set "
        f"millilitre of CO2 weighs {show(target.head_density, 'density')} here, "
        f"{show(source.head_density, 'density')} there",
        found=percent(target.w_modifier),
        limit=percent(source.w_modifier),
        remedy=f"set {round(share * 100, 1):g} % v/v there, and the others alike",
        candidates=[
            case.candidate(
                f"set the modifier share to {round(share * 100, 1):g} % v/v",
                case.change(path, f"{round(share * 100, 1):g} % v/v"),
            )
        ],
        also=(case.source.at("instrument.co2_pump"), case.at("instrument.co2_pump")),
    )
