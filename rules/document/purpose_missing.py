"""A method or sequence says what its results are for where that decides what is asked of it.

Reason
    Blanks, suitability, controls and brackets are a duty in regulated work and in bioanalysis and
    a matter of taste in a screening. Without a purpose tag the rules about them keep silent, and
    the silence looks like a pass.

Unsound
    kind: sequence  # <- here
    lines:
      - {kind: blank, plate: 1, well: A1}
      - {kind: sample, sample: S1, plate: 1, well: A2}

Sound
    kind: sequence
    purpose: screening
    lines:
      - {kind: blank, plate: 1, well: A1}
      - {kind: sample, sample: S1, plate: 1, well: A2}

Remedy
    Write `purpose: regulated`, `bioanalysis`, `research`, `screening` or `preparative` in the
    sequence or the method, or one for the whole lab in the policy of lab.yaml.

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import DocumentCase, Finding

SUBJECT = "document"
CLASSES = ("note",)
NEEDS = ()

_SHOWN = 2


def judge(case: DocumentCase) -> Iterator[Finding]:
    """Say what each tag would bring up."""
    if not case.waiting:
        return
    said = []
    for tag, rules in case.waiting.items():
        shown = ", ".join(f"{rule} ({grade})" for rule, grade in sorted(rules.items())[:_SHOWN])
        more = f" and {len(rules) - _SHOWN} more" if len(rules) > _SHOWN else ""
        said.append(f"{tag}: {shown}{more}")
    yield case.finding(
        case.at(case.document),
        "note",
        "no purpose tag says what the results are for, so some rules keep silent; they would "
        f"speak for {'; for '.join(said)}",
        remedy="write purpose: in the sequence or the method",
    )
