"""An approved document still holds the values that were approved.

Reason
    The approval carries a hash of the parsed values. If they have changed since, nobody has
    approved what is run now. Comments, spelling of units, the title and the order of keys are not
    part of the hash.

Unsound
    kind: method
    approval: {by: QA office, on: 2026-09-01, hash: v1-00000000000000000000000000000000}  # <- here
    flow: 1.5 mL/min

Sound
    kind: method
    approval: {by: QA office, on: 2026-09-01, hash: v1-9662dd3dbddeb29c80a0de728eb8446c}
    flow: 1.5 mL/min  # as approved

Remedy
    Have the document approved again and write the new hash, or go back to the approved values.
    With `parts:` in the approval (a hash for each key) the message names what has changed.

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.document import HASH_EDITION, part_hashes, values_hash
from methodlint.judging.ask.rule import DocumentCase, Finding

SUBJECT = "document"
CLASSES = ("caution",)
NEEDS = ()


def applies(case: DocumentCase) -> bool:
    """Only an approval that names a hash can be compared."""
    approval = case.document.model.approval
    return approval is not None and approval.hash is not None


def judge(case: DocumentCase) -> Iterator[Finding]:
    """Compare the hash of the values with the one approved."""
    model = case.document.model
    approval = model.approval
    if approval is None or approval.hash is None or approval.hash == values_hash(model):
        return
    if not approval.hash.startswith(f"{HASH_EDITION}-"):
        message = f"the approval's hash is not one of this edition ('{HASH_EDITION}-...')"
    else:
        changed = _changed(approval.parts, part_hashes(model))
        what = f" in {', '.join(changed)}" if changed else ""
        message = f"the values differ{what} from those approved by {approval.by} on {approval.on}"
    yield case.finding(
        case.at(case.document, "approval.hash"),
        "caution",
        message,
        remedy=f"have it approved again; the hash of the present values is {values_hash(model)}",
    )


def _changed(approved: dict[str, str], now: dict[str, str]) -> list[str]:
    if not approved:
        return []
    return sorted(key for key in approved | now if approved.get(key) != now.get(key))
