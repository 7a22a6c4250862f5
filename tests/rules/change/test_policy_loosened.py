"""A lab's thresholds and classes are not made laxer unseen; `test_looser.py` has every threshold."""

from __future__ import annotations

import pytest

from tests.rules.change.changed import found_in

RULE = "change.policy-loosened"


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ("kind: lab\n", "kind: lab\nname: ours\n"),
        ("kind: lab\n", "kind: lab\npolicy: {samples_per_control: 5}\n"),
        (None, "kind: lab\npolicy: {samples_per_control: 10}\n"),
        ("kind: room\n", "kind: room\ntitle: no lab\n"),
        ("kind: lab\n", None),
    ],
)
def test_silent_about_a_policy_that_stays_or_asks_for_more(before: str, after: str) -> None:
    assert found_in(before, after, RULE) == []


@pytest.mark.parametrize(
    ("before", "after", "path", "words"),
    [
        ("", "policy: {samples_per_control: 40}", ("policy", "samples_per_control"),
         "policy.samples_per_control goes from what counts without it to 40"),
        ("", "classes: [{rule: sequence.overruns-slot, to: note, reason: unseen}]", ("classes", 0),
         "sequence.overruns-slot goes from caution to note"),
        ("rule_folders: [our-rules]", "", ("rule_folders",),
         "the rules in our-rules are no longer named"),
    ],
)  # fmt: skip
def test_what_lets_more_pass(before: str, after: str, path: tuple[str, ...], words: str) -> None:
    (found,) = found_in(f"kind: lab\n{before}\n", f"kind: lab\n{after}\n", RULE)
    assert found.grade == "caution"
    assert found.at.path == path
    assert found.message == f"the lab lets more pass: {words}"
