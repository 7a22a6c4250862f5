"""A document that was judged before a change is judged after it.

Reason
    A method that is removed, loses its kind or is moved where no check of the lab looks is not
    judged any more, and nothing else says so. A new lab.yaml in a folder of the lab takes all
    documents below it away: its policy and its cards count for them from then on.

Unsound
    kind: column
    x-gone: true  # <- here

Sound, because the document is still there
    kind: column
    title: The same column, described in other words

Remedy
    Put the document back, or say in the review of the change that it is meant to go. One that is
    only renamed or moved inside its lab is not meant here.

Source
    Control of changes: common practice under good manufacturing practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import ChangeCase, Finding, counted

SUBJECT = "change"
CLASSES = ("caution",)
NEEDS = ()


def judge(case: ChangeCase) -> Iterator[Finding]:
    """Look for a document that has become none, or another one; then for those taken over."""
    before, after = case.before, case.after
    if before is not None and after is None:
        yield case.finding(
            case.at(before, ()),
            "caution",
            f"the {before.kind} is no longer there, or can no longer be read as one: it is not "
            "judged any more",
            remedy=f"put the {before.kind} back if it is still in use",
        )
    elif before is not None and after is not None and before.kind != after.kind:
        yield case.finding(
            case.at(after, ("kind",)),
            "caution",
            f"the {before.kind} has become a {after.kind}: it is not judged as a {before.kind} "
            "any more",
            remedy=f"write kind: {before.kind} if it is still one",
        )
    if after is not None and case.taken_over:
        first, others = case.taken_over[0], len(case.taken_over) - 1
        rest = f" and {counted(others, 'other')}" if others else ""
        yield case.finding(
            case.at(after, ()),
            "caution",
            f"{first}{rest} belonged to the lab above: from now on the policy and the cards of this "
            "lab.yaml count for them",
            remedy="take this lab.yaml away if the folder is no lab of its own",
        )
