"""Lines outside a programme: flushes, switches, equilibration, idle, start and stop.

The shows of `lines/` are judged by `test_shows`. Pressures of neat liquids follow from Darcy's law
with a superficial flow resistance of 1000; that of one of them is worked out beneath.
"""

from __future__ import annotations

import pytest

from methodlint.reports.bench_card import card_lines
from tests.scenarios.show import HERE, Show, sound_lab
from tests.text_labs import as_yaml, everything

LINES = HERE / "lines"
SEQUENCE = "sequence/morning"


def test_drop_of_neat_ethanol_by_hand() -> None:
    """Darcy: dP = phi eta L u / dp^2, with phi 1000, a bed of 4.6 x 150 mm of 5 um.

    Ethanol at 30 degC: 0.983 mPa s (CRC Handbook, unverified); about 8 % more at 200 bar (Lucas
    1981, as of Poling et al. 2001). At 4 mL/min u = 4e-6/60/(pi/4 x 4.6e-3^2) = 4.01e-3 m/s:
    dP = 1000 x 0.983e-3 x 0.15 x 4.01e-3/25e-12 = 236 bar, 255 bar at pressure.
    """
    drop = next(
        finding
        for finding in everything(Show(LINES / "flush-neat-too-fast.yaml").report("lines").findings)
        if finding.rule == "pressure.column-drop-exceeded"
    )
    assert drop.found is not None
    assert drop.found.value == pytest.approx(255.0, rel=0.03)


def test_a_flush_that_is_offered_was_rehearsed_as_a_line() -> None:
    """2-propanol at the method's 2.5 mL/min would press the column beyond its 300 bar."""
    lab = sound_lab(LINES)
    for method, liquid in (("method/purity", "acetonitrile"), ("method/fine", "heptane")):
        data = lab.plain(method)
        data["mobile_phase"]["modifier"] = {"liquid": liquid}
        lab = lab.with_text(method, as_yaml(data))
    lines = lab.plain(SEQUENCE)["lines"]
    sample = {"kind": "sample", "sample": "batch 4", "plate": "1", "well": "B4", "fill": "1 mL"}
    lines[-1:-1] = [{**sample, "method": "fine"}]
    lab = lab.changed("sequence.lines", lines)
    rule = "solvent.pair-not-miscible"
    [found] = [one for one in everything(lab.judged().findings) if one.rule == rule]
    assert found.solutions, found.remedy
    [change] = found.solutions[0].changes
    lines.insert(int(change.at.path[1]), change.value)
    after = everything(lab.changed("sequence.lines", lines).judged().findings)
    assert not [one for one in after if one.rule in (rule, "pressure.column-rating-exceeded")]
    too_fast = {**change.value, "flow": "2.5 mL/min"}
    lines[int(change.at.path[1])] = too_fast
    before = everything(lab.changed("sequence.lines", lines).judged().findings)
    assert [one for one in before if one.rule == "pressure.column-rating-exceeded"]


def test_a_regulator_holds_no_less_than_the_air() -> None:
    """A line at 0 bar is judged at 1 bar, where CO2 and modifier part, and its card is printed."""
    lab = sound_lab(LINES)
    lines = lab.plain(SEQUENCE)["lines"]
    lines[-1:-1] = [{"kind": "equilibration", "outlet_pressure": "0 bar", "duration": "5 min"}]
    report = lab.changed("sequence.lines", lines).judged()
    assert "phase.two-phase-at-outlet" in {one.rule for one in everything(report.findings)}
    assert any("STOP" in row for batch in report.batches for row in map(str, card_lines(batch, 80)))
