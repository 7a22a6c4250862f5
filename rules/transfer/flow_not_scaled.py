"""The flow of a transferred method goes with the square of the bore over the particle size.

Reason
    The reduced velocity, and with it the plate height, stays the same when the flow is scaled
    by d^2/dp. In SFC the flow inside the column differs from the flow set, so both are looked
    at: the method is scaled if either agrees.

Unsound
    kind: method
    transferred_from: assay-on-wide-column
    flow: 1.5 mL/min  # <- here
    ---
    kind: method
    x-name: assay-on-wide-column
    column: wide-column
    flow: 1.5 mL/min
    ---
    kind: column
    x-name: wide-column
    inner_diameter: 4.6 mm

Sound
    kind: method
    transferred_from: assay-on-wide-column
    flow: 1.5 mL/min
    ---
    kind: method
    x-name: assay-on-wide-column
    column: wide-column
    flow: 3.53 mL/min
    ---
    kind: column
    x-name: wide-column
    inner_diameter: 4.6 mm

Remedy
    Set the flow that the finding gives and scale the times with it, or record under
    `transfer: {flow_reason: ...}` why another flow is needed.

Source
    F2 = F1 (d2^2 dp1)/(d1^2 dp2): USP <621> (unverified); +-50 % after scaling: the same
    (second-hand). Caution above 10 %: common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import Candidate, Finding, RunCase, ml_per_min, number, show
from methodlint.judging.ask.transfer import flow_ratio, significant

SUBJECT = "run"
CLASSES = ("fault", "caution")
NEEDS = ("run", "source.run")

_CAUTION, _FAULT = 0.10, 0.50
_ML_MIN = 1e-6 / 60.0


def applies(case: RunCase) -> bool:
    """A deliberate change of the flow that is on record is no mistake of scaling."""
    if not case.transferred or case.method is None:
        return False
    return not (case.method.transfer is not None and case.method.transfer.flow_reason)


def judge(case: RunCase) -> Iterator[Finding]:
    """Compare flows as set and flows inside the columns."""
    both = case.comparison
    if not both.source_rows or not both.target_rows:
        return
    wanted, found = both.flow_by_geometry, both.target_rows[0].flow
    one, two = both.column_flows
    geometry = flow_ratio(*both.beds)
    changes = (found / wanted - 1.0, two / (one * geometry) - 1.0)
    change = min(changes, key=abs)
    if abs(change) <= _CAUTION + 1e-9:
        return
    text = show(significant(wanted / _ML_MIN) * _ML_MIN, "volume flow", "mL/min", 4)
    where = "method.flow" if both.target_rows[0].index is None or case.get("method.flow") else ""
    assert case.source is not None
    yield case.finding(
        where or "method.programme[0].flow",
        "fault" if abs(change) > _FAULT else "caution",
        f"flow {show(found, 'volume flow')} is {changes[0] * 100:+.0f} % off {text}, which is "
        f"{show(both.source_rows[0].flow, 'volume flow')} of the source x {number(geometry, 3)} by bore and "
        f"particle size; inside the column it is {changes[1] * 100:+.0f} % off",
        found=ml_per_min(found),
        limit=ml_per_min(wanted),
        remedy=f"set {text} and scale the times with it, or record why under transfer.flow_reason",
        candidates=_candidates(case, text),
        also=(case.source.at("method.flow"),),
    )


def _candidates(case: RunCase, text: str) -> list[Candidate]:
    if case.method is None or any(row.flow is not None for row in case.method.programme):
        return []
    return [case.candidate(f"set the flow to {text}", case.change("method.flow", text))]
