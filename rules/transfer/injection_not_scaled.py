"""The injected volume of a transferred method goes with the volume of the column.

Reason
    The same share of the column volume loads the column and broadens its peaks alike. A volume
    kept on a smaller column spoils the first peaks; one scaled twice loses the lowest level.

Unsound
    kind: method
    transferred_from: assay-on-wide-column
    flow: 1.5 mL/min
    injection: {volume: 5 uL}  # <- here
    ---
    kind: method
    x-name: assay-on-wide-column
    column: wide-column
    flow: 3.53 mL/min
    injection: {volume: 5 uL}
    ---
    kind: column
    x-name: wide-column
    inner_diameter: 4.6 mm

Sound
    kind: method
    transferred_from: assay-on-wide-column
    flow: 1.5 mL/min
    injection: {volume: 2.1 uL}
    ---
    kind: method
    x-name: assay-on-wide-column
    column: wide-column
    flow: 3.53 mL/min
    injection: {volume: 5 uL}
    ---
    kind: column
    x-name: wide-column
    inner_diameter: 4.6 mm

Remedy
    Set the volume that the finding gives, as far as loop and autosampler allow; where the
    concentration was changed along with it, say `transfer: {concentration_rescaled: true}`.

Source
    V2 = V1 (L2 d2^2)/(L1 d1^2): USP <621> (unverified). Within 15 %: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import Finding, RunCase, microlitres, number, show
from methodlint.judging.ask.sequence import loop_span
from methodlint.judging.ask.transfer import significant, volume_ratio

SUBJECT = "run"
CLASSES = ("caution",)
NEEDS = ("run", "source.run", "method.injection.volume", "source.method.injection.volume")

_SPAN = 0.15


def applies(case: RunCase) -> bool:
    """A concentration changed along with the volume needs no scaling."""
    if not case.transferred or case.method is None:
        return False
    return not (case.method.transfer is not None and case.method.transfer.concentration_rescaled)


def judge(case: RunCase) -> Iterator[Finding]:
    """Compare with the scaled volume, then with what the autosampler can do."""
    assert case.source is not None
    found = case.get("method.injection.volume").si
    before = case.source.get("method.injection.volume").si
    beds = case.comparison.beds
    ways = (volume_ratio(*beds), volume_ratio(*beds, hold_up=True))
    low, high = before * min(ways) * (1.0 - _SPAN), before * max(ways) * (1.0 + _SPAN)
    if low <= found <= high:
        return
    wanted = before * ways[1]
    least, most = _span(case)
    settable = min(max(wanted, least), most)
    if abs(found - settable) <= 0.02 * settable:
        return
    text = show(significant(settable * 1e9) / 1e9, "volume", "uL")
    limited = "" if settable == wanted else f", held by the autosampler at {text}"
    yield case.finding(
        "method.injection.volume",
        "caution",
        f"{show(found, 'volume', 'uL')} injected, by column volume it is {show(before, 'volume', 'uL')} "
        f"of the source x {number(ways[1], 3)} = {show(wanted, 'volume', 'uL')}{limited}",
        found=microlitres(found),
        limit=microlitres(settable),
        remedy=f"inject {text}",
        candidates=[case.candidate(f"inject {text}", case.change("method.injection.volume", text))],
        also=(case.source.at("method.injection.volume"),),
    )


def _span(case: RunCase) -> tuple[float, float]:
    """Volumes that the autosampler injects [m3]; open ends where the card is silent."""
    autosampler = case.get("instrument.autosampler")
    if autosampler is None:
        return 0.0, float("inf")
    span = loop_span(autosampler, case.get("method.injection.mode"))
    return span.lowest or 0.0, span.highest or float("inf")
