"""Both systems are tested for suitability: common practice, no source."""

from __future__ import annotations

from tests.rules.harness import findings, judged
from tests.rules.transfer.pairs import FROM_GRADIENT, GRADIENT

RULE = "transfer.no-verification-run"
OTHER = "\n---\nkind: instrument\nx-name: other\n"


def test_silent_without_a_source():
    report = judged("kind: method\n---\nkind: instrument\nextra_column_sigma: 40 uL\n", RULE)
    assert report.findings == []
    assert report.not_checked == []


def test_both_sequences_are_enough():
    text = (
        GRADIENT + "transfer: {verification: [there, again]}" + FROM_GRADIENT + "runs_on: [other]\n"
    )
    sequences = (
        "\n---\nkind: sequence\nx-name: there\ninstrument: other\nmethod: source\n"
        "---\nkind: sequence\nx-name: again\n"
    )
    assert findings(text + OTHER + sequences, RULE) == []


def test_silent_where_retention_of_named_peaks_is_the_limit():
    text = (
        GRADIENT
        + "suitability: {replicates: 6}\nexpected_peaks: [{name: a, retention_time: 2 min}]\n"
    )
    assert findings(text + FROM_GRADIENT, RULE) == []


def test_the_own_sequence_counts_for_the_target():
    text = GRADIENT + FROM_GRADIENT + "runs_on: [other]\n" + OTHER
    (found,) = findings(text, RULE)
    assert found.grade == "caution"
    assert "source, other" in found.message
    assert "target" not in found.message


def test_limits_are_asked_for():
    for lacking in ("suitability: null", "suitability: {replicates: 6, resolution: null}"):
        text = GRADIENT + lacking + "\nexpected_peaks: []" + FROM_GRADIENT
        (found,) = findings(text, RULE)
        assert "limits of the suitability test" in found.message
