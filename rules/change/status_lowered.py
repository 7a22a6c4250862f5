"""A document in use keeps its status.

Reason
    A draft is excused for what is left to be filled in, and nobody expects a retired document to be
    used. A change that gives one of these to a document in use, or takes its approval away, has to
    be seen by whoever reviews it.

Unsound
    kind: method
    status: draft  # <- here

Sound
    kind: method
    status: approved

Remedy
    Write `status: approved`, or take `status` out; keep draft or retired if that is what the change
    is made for.

Source
    Control of documents: common practice under good manufacturing practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import ChangeCase, Finding

SUBJECT = "change"
CLASSES = ("caution",)
NEEDS = ()

_RANKS = {"approved": 0, None: 1, "draft": 2, "retired": 3}


def judge(case: ChangeCase) -> Iterator[Finding]:
    """Compare the two."""
    if case.before is None or case.after is None:
        return
    was, now = case.before.model.status, case.after.model.status
    if _RANKS[now] > _RANKS[was]:
        yield case.finding(
            case.at(case.after, ("status",)),
            "caution",
            f"the status goes from {was or 'none'} to {now or 'none'}",
            remedy=f"write status: {was}" if was else "take status out if the document is in use",
        )
