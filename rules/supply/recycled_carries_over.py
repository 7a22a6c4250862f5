"""CO2 that is used again carries little modifier and water into the next run.

Reason
    CO2 from a separator is saturated with what it was parted from. Modifier that comes back with
    it adds to the share that is set, and retention drifts from hour to hour; water moves retention
    and the phase boundary.

Unsound
    kind: supply
    recycled: {modifier_share: 2 % v/v, water: 20 ppm}  # <- here

Sound
    kind: supply
    recycled: {modifier_share: 0.2 % v/v, water: 20 ppm}

Remedy
    Cool or scrub the recovered CO2 until it carries less, top it up with fresh CO2, and measure
    again.

Source
    0.5 % of modifier and 100 ppm of water: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import BatchCase, Finding, NotChecked, percent, ppm, show

SUBJECT = "batch"
CLASSES = ("caution",)
NEEDS = ("supply.recycled",)

_MODIFIER, _WATER = 0.005, 100e-6


def applies(case: BatchCase) -> bool:
    """CO2 is used again."""
    return case.get("supply.recycled") is not None


def judge(case: BatchCase) -> Iterator[Finding | NotChecked]:
    """Compare what was measured in the recovered CO2."""
    recycled = case.get("supply.recycled")
    for key, value in (("modifier_share", recycled.modifier_share), ("water", recycled.water)):
        if value is None:
            yield case.not_checked("supply.recycled", f"supply.recycled.{key}")
    share, water = recycled.modifier_share, recycled.water
    if share is not None and share.si > _MODIFIER:
        yield case.finding(
            "supply.recycled.modifier_share",
            "caution",
            f"recovered CO2 carries {show(share.si, 'share')} of modifier that no pump sets (limit "
            f"{show(_MODIFIER, 'share')}): retention drifts",
            found=percent(share.si),
            limit=percent(_MODIFIER),
            remedy="clean the recovered CO2 further, or top it up with fresh CO2",
        )
    if water is not None and water.si > _WATER:
        yield case.finding(
            "supply.recycled.water",
            "caution",
            f"recovered CO2 carries {show(water.si, 'ppm')} of water (limit {show(_WATER, 'ppm')})",
            found=ppm(water.si),
            limit=ppm(_WATER),
            remedy="dry the recovered CO2",
        )
