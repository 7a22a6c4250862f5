"""The injected volume is small compared with the first peak and the column.

Reason
    The injected plug adds its own width to every peak that does not refocus. Half of a strong
    diluent's harm, too, is its volume.

Unsound
    kind: method
    injection: {volume: 60 uL, mode: metered}  # <- here
    programme:
      - {time: 0 min, modifier_share: 20 % v/v}

Sound
    kind: method
    injection: {volume: 2 uL}

Remedy
    Inject no more than the smaller of the two volumes in the message.

Source
    Variance of a plug V^2/12: arithmetic. One tenth of the first peak's variance, 1 % of the
    hold-up volume with a strong diluent: common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from methodlint.judging.ask.column import Injected, injected_by, is_strong
from methodlint.judging.ask.detector import first_peak, peak_widths, plug_of_variance, volume_sigma
from methodlint.judging.ask.rule import Finding, NotChecked, RunCase, microlitres, show

SUBJECT = "run"
CLASSES = ("caution",)
NEEDS = ("run", "method.injection")

_SHARE_OF_VARIANCE = 0.10
_SHARE_OF_HOLD_UP = 0.01
_EVERYDAY = 2e-9


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Compare the greatest injected volumes with the first peak and the column."""
    assert case.method is not None
    first = first_peak(peak_widths(case.method, case.column))
    sigma = volume_sigma(case.run, first) if first is not None else None
    groups = [group for group in injected_by(case.documents) if group.volume is not None]
    if not groups:
        yield case.not_checked("method.injection", "method.injection.volume")
        return
    if sigma is None:
        figure = "method.expected_peaks[].retention_time"
        yield case.not_checked("method", figure, "no peak says how much volume it tolerates")
    by_column = _SHARE_OF_HOLD_UP * case.run.hold_up_volume
    by_peak = plug_of_variance(_SHARE_OF_VARIANCE * sigma**2) if sigma is not None else math.inf
    worst: dict[object, tuple[float, float, Injected]] = {}
    for group in groups:
        volume = group.volume or 0.0
        # What everybody injects is no overload by a rule of thumb about diluents alone.
        strong = volume > _EVERYDAY and is_strong(case.run, group, case.method)
        limit = min(by_peak, by_column if strong else math.inf)
        place = (group.volume_at.document.path, group.volume_at.path)
        if volume > limit and (place not in worst or limit < worst[place][1]):
            worst[place] = (volume, limit, group)
    for volume, limit, group in worst.values():
        said = [f"{_ul(by_peak)} by the width of '{first.name}'"] if first and sigma else []
        if is_strong(case.run, group, case.method):
            said.append(f"{_ul(by_column)} by 1 % of the hold-up volume with {group.words}")
        text = f"{math.floor(limit * 1e10) / 10.0:g} uL"
        at = case.at(group.volume_at.document, group.volume_at.path)
        yield case.finding(
            at,
            "caution",
            f"{_ul(volume)} are injected, {_ul(volume - limit)} more than is sound: "
            f"{' and '.join(said)}",
            found=microlitres(volume),
            limit=microlitres(limit),
            remedy=f"inject at most {text}",
            candidates=[
                case.candidate(
                    f"inject {text}",
                    *(case.change(case.at(w.document, w.path), text) for w in group.volume_places),
                )
            ],
            also=(case.at("column.inner_diameter"),) if "column" in case.documents else (),
        )


def _ul(volume: float) -> str:
    return show(volume, "volume", "uL")
