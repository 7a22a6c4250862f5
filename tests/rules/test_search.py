"""Words of a chemist lead to the rule that is meant."""

from __future__ import annotations

import pytest

from methodlint.judging.loader import built_in_rules
from methodlint.rulebook import search
from tests.command import run


@pytest.mark.parametrize(
    ("words", "rule"),
    [
        ("carryover", "sequence.no-carryover-blank"),
        ("asphyxiation", "safety.room-co2-release"),
        ("backpressure", "pressure.bpr-out-of-range"),
        ("leak", "safety.no-co2-monitor"),
        ("blank", "sequence.no-opening-blank"),
        ("hexane", "solvent.pair-not-miscible"),
        ("two-phase", "phase.two-phase-at-outlet"),
        ("blocked", "pressure.cutoff-unsound"),
        ("ghost peak", "sequence.no-carryover-blank"),
        ("runs out", "supply.cylinder-runs-out"),
    ],
)
def test_the_rule_that_is_meant_comes_first_or_second(words: str, rule: str) -> None:
    found = [one.id for one in search.matches(words.split(), built_in_rules())]
    assert rule in found[:2]
    for command in ("why", "rules"):
        told = run(command, *words.split())
        assert told.status == 0
        assert told.stdout.index(rule) < 400


def test_every_word_that_means_a_rule_means_one_that_is_there() -> None:
    names = {rule.id.partition(".")[2] for rule in built_in_rules()}
    meant = {name for what in search._MEANS.values() for name in what}
    assert meant - names == set()


def test_words_that_no_rule_knows_are_refused() -> None:
    told = run("why", "quasar")
    assert told.status == 2
    assert "there is no rule 'quasar'" in told.stderr


def test_a_rule_is_still_shown_by_its_id_and_a_slip_in_it_suggests() -> None:
    assert "leaves the column as one phase" in run("why", "phase.two-phase-at-outlet").stdout
    told = run("why", "phase.two-phase-at-outlett")
    assert (told.status, "did you mean phase.two-phase-at-outlet" in told.stderr) == (2, True)
    assert run("why", "phase.two-phase-at-outlet", "a.yaml", "b.yaml").status == 2
