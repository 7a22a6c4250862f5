"""A start with a trace of modifier is meant for analytes that want it.

Reason
    Below two or three per cent the modifier's adsorption on the column changes steeply with its
    share, so retention is least robust there, and metering is at its worst. For lipids, waxes
    and hydrocarbons nearly pure CO2 is ordinary practice.

Unsound
    kind: method
    analytes: polar
    programme:
      - {time: 0 min, modifier_share: 1 % v/v}  # <- here
      - {time: 5 min, modifier_share: 40 % v/v}

Sound
    kind: method
    analytes: polar
    programme:
      - {time: 0 min, modifier_share: 4 % v/v}
      - {time: 5 min, modifier_share: 40 % v/v}

Sound, because waxes are run like that
    kind: method
    analytes: waxes
    programme:
      - {time: 0 min, modifier_share: 1 % v/v}
      - {time: 5 min, modifier_share: 40 % v/v}

Remedy
    Start at 2 % (3 % with an additive) or more.

Source
    Robustness worst at low modifier: Glenne et al., Anal. Chem. 2020 (abstract only). 2 and 3 %:
    common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.column import column_volumes_wanted, holds_additive
from methodlint.judging.ask.flow import FilledRow, filled_rows
from methodlint.judging.ask.rule import Candidate, Finding, NotChecked, RunCase, When, percent, show

SUBJECT = "run"
CLASSES = ("note",)
NEEDS = ("method",)
CAUSES = ("flow.minor-pump-too-slow",)

_LEAN = 0.02
_LEAN_WITH_ADDITIVE = 0.03
_AT_HOME_IN_CO2 = ("lipids", "waxes", "hydrocarbons", "lipid", "wax", "hydrocarbon")


def judge(case: RunCase) -> Iterator[Finding | NotChecked]:
    """Look at the starting share, the analytes and the additives."""
    assert case.method is not None
    rows = filled_rows(case.method)
    first = rows[0]
    share = first.share
    if share is None:
        yield case.not_checked("method", "method.mobile_phase.modifier_share")
    additive = holds_additive(case.method_liquid())
    limit = _LEAN_WITH_ADDITIVE if additive else _LEAN
    if not share or share >= limit - 1e-9:
        return
    kinds = _kinds(case)
    if kinds and all(kind in _AT_HOME_IN_CO2 for kind in kinds):
        return
    if not kinds and not additive:
        yield case.not_checked(first.places["modifier_share"], "method.analytes")
        return
    text = f"{100.0 * limit:g} % v/v"
    volumes = column_volumes_wanted(additive=additive, start_share=share)
    yield case.finding(
        first.places["modifier_share"],
        "note",
        f"the run starts with {show(share, 'share')} of modifier, from {show(limit, 'share')} on "
        f"retention holds better ({show(limit - share, 'share')} short)"
        f"{_metered(case, first.flow)}; settling takes {volumes:.0f} hold-up volumes",
        found=percent(share),
        limit=percent(limit),
        when=When(first.time, first.time),
        remedy=f"start at {text}",
        candidates=_candidates(case, rows, limit),
    )


def _candidates(case: RunCase, rows: tuple[FilledRow, ...], limit: float) -> list[Candidate]:
    """Lift every row that stands at the starting share, the return to the start among them."""
    places = {row.places["modifier_share"] for row in rows if row.share == rows[0].share}
    found = []
    for share in sorted({100.0 * limit, 4.0, 5.0}):
        text = f"{share:g} % v/v"
        changes = [case.change(place, text) for place in sorted(places)]
        back = ", and return to it" if len(places) > 1 else ""
        found.append(case.candidate(f"start at {text}{back}", *changes))
    return found


def _kinds(case: RunCase) -> list[str]:
    assert case.method is not None
    own = [peak.kind for peak in case.method.expected_peaks if peak.kind is not None]
    analytes = case.method.analytes
    return [str(kind) for kind in own] or ([str(analytes)] if analytes else [])


def _metered(case: RunCase, flow: float | None) -> str:
    least = case.get("instrument.modifier_pump.lowest_accurate_flow")
    if least is None or not flow:
        return ""
    return (
        f"; the modifier pump meters from {show(least.si / flow, 'share', digits=2)} at this flow"
    )
