"""No remedy of a planted fault leaves it, or brings anything as bad."""

from __future__ import annotations

import pytest

from tests.fault_injection.remedied import applied, trials
from tests.text_labs import base_lab


def test_a_remedy_is_applied_and_judged() -> None:
    lab = base_lab().changed("method.oven_temperature", "95 degC")
    tried = list(applied(lab))
    assert {one.finding.rule for one in tried} >= {"column.temperature-exceeded"}
    assert [one for one in tried if one.left or one.brought] == []


@pytest.mark.long
def test_no_remedy_does_harm() -> None:
    tried = list(trials())
    assert len(tried) > 250
    wrong = [
        f"{fault.words}: {one.remedy.text}: {'leaves it' if one.left else one.brought}"
        for fault, one in tried
        if one.left or one.brought
    ]
    assert wrong == []
