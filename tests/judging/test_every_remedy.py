"""Every printed remedy with a figure clears its finding and adds nothing of equal or worse class.

The unsound examples of all rules and the flawed examples are judged by all rules; each remedy is
made in the YAML text and everything is judged again.
"""

from __future__ import annotations

import pytest

from methodlint.judging.loader import built_in_rules
from methodlint.rulebook.examples import Example, examples_of
from tests.judging.applied_remedies import Trial, lab_of, trials
from tests.text_labs import EXAMPLES, TextLab, example_texts

UNSOUND = [
    example
    for rule in built_in_rules()
    if not rule.id.startswith("document.")
    for example in examples_of(rule)
    if not example.sound
]
FLAWED = sorted((EXAMPLES / "flawed").glob("*.yaml"), key=lambda file: file.stem)


def flawed_lab(stem: str) -> TextLab:
    text = (EXAMPLES / "flawed" / f"{stem}.yaml").read_text("utf-8")
    kind = text.partition("kind: ")[2].split()[0]
    return TextLab({**example_texts(), f"{kind}/{stem}": text}, (f"{kind}/{stem}",), {})


def said(found: list[Trial]) -> str:
    return "\n".join(
        f"{one.finding.rule}: {one.finding.remedy}: still there {one.left}; adds {one.worse}"
        for one in found
        if not one.good
    )


# One rule in four, with the flawed examples; the long tests try the remedies of all.
SOME, REST = UNSOUND[::4], [one for number, one in enumerate(UNSOUND) if number % 4]


@pytest.mark.parametrize(
    "unsound",
    [*SOME, *(pytest.param(one, marks=pytest.mark.long) for one in REST)],
    ids=[one.rule for one in (*SOME, *REST)],
)
def test_remedies_of_an_unsound_example(unsound: Example) -> None:
    found = trials(lab_of(unsound))
    assert all(one.good for one in found), said(found)


@pytest.mark.parametrize("stem", [file.stem for file in FLAWED])
def test_remedies_of_a_flawed_example(stem: str) -> None:
    found = trials(flawed_lab(stem))
    assert all(one.good for one in found), said(found)
