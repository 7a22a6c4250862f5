"""Cells of a matrix that would harm a column. What coated polysaccharides are dissolved by: see
`column.solvent-forbidden`. The temperature on a card is its maker's.
"""

from __future__ import annotations

from tests.rules.harness import findings, judged

RULE = "column.scouting-cell-left-out"
COATED = "kind: column\nphase: coated polysaccharide\ntemperature_limit: 50 degC\n"
PLAIN = "---\nkind: column\nx-name: plain\nphase: bare silica\ntemperature_limit: 80 degC\n"


def _matrix(*modifiers: str, columns: str = "[column]", more: str = "") -> str:
    """A sequence that scouts modifiers, each from its own line."""
    rows = "".join(
        f"    - {{liquid: {name}, line: modifier-{n}}}\n" for n, name in enumerate(modifiers, 1)
    )
    return (
        f"---\nkind: sequence\nlines: null\nmethod: null\nscouting:\n  base: method\n"
        f"  columns: {columns}\n  modifiers:\n{rows}{more}  equilibration: 15 min\n"
        "  lines: {kind: sample, sample: extract 1, plate: 1, well: D1, fill: 1 mL}\n"
    )


def test_silent_for_liquids_that_the_column_withstands() -> None:
    assert findings(COATED + _matrix("methanol", "ethanol"), RULE) == []


def test_silent_for_a_pair_that_is_left_out_on_purpose() -> None:
    left_out = "  leave_out: [{column: column, modifier: acetone}]\n"
    assert findings(COATED + _matrix("methanol", "acetone", more=left_out), RULE) == []


def test_silent_for_temperatures_up_to_the_one_on_the_card() -> None:
    both = "  temperatures: [35 degC, 50 degC]\n"
    assert findings(COATED + _matrix("methanol", more=both), RULE) == []


def test_silent_for_a_sequence_without_a_matrix() -> None:
    assert judged(COATED, RULE).checked == 0


def test_a_liquid_that_harms_one_column_leaves_out_that_pair_alone() -> None:
    """Four cells of two columns and two modifiers; three are run."""
    text = COATED + PLAIN + _matrix("methanol", "acetone", columns="[column, plain]")
    report = judged(text, RULE)
    (found,) = report.findings
    assert found.grade == "caution"
    assert found.at.path == ("scouting", "modifiers", 1)
    assert [place.path for place in found.also] == [("scouting", "columns", 0)]
    assert "acetone" in found.message
    assert "leave_out" in found.remedy
    (batch,) = report.batches
    assert len({line.method for line in batch.batch.lines if line.line.kind == "sample"}) == 3


def test_one_pair_is_reported_once_for_all_its_temperatures() -> None:
    both = "  temperatures: [35 degC, 45 degC]\n"
    assert len(findings(COATED + _matrix("methanol", "acetone", more=both), RULE)) == 1


def test_an_oven_hotter_than_the_card_allows_leaves_out_that_temperature() -> None:
    hot = "  temperatures: [35 degC, 51 degC, 60 degC]\n"
    found = findings(COATED + _matrix("methanol", more=hot), RULE)
    assert [one.at.path for one in found] == [
        ("scouting", "temperatures", 1),
        ("scouting", "temperatures", 2),
    ]
    assert "temperature" in found[0].remedy


def test_a_cell_that_no_order_reaches_is_named() -> None:
    """The coated column is run with methanol alone, the other one with acetone alone."""
    left_out = (
        "  leave_out: [{column: plain, modifier: methanol}, {column: column, modifier: acetone}]\n"
    )
    text = _matrix("methanol", "acetone", columns="[column, plain]", more=left_out)
    (found,) = findings(COATED + PLAIN + text, RULE)
    assert (found.grade, found.at.path) == ("caution", ("scouting",))
    assert "'plain, acetone'" in found.message
    assert "flush" in found.remedy
