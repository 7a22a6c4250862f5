"""Liquids on coated polysaccharides.

Tetrahydrofuran and chloroform: reviews named in the rule's page; the other liquids of the list:
common practice, no source.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from methodlint.checking.check import judge_documents
from methodlint.documents.library import MemoryLibrary
from methodlint.judging.finding import Finding
from methodlint.judging.loader import built_in_rules
from methodlint.rulebook.examples import lab_with
from tests.rules.harness import findings, judged

RULE = "column.solvent-forbidden"
COATED = "kind: column\nphase: coated polysaccharide\n"
FORBIDDEN = [
    "dichloromethane",
    "chloroform",
    "tetrahydrofuran",
    "ethyl acetate",
    "acetone",
    "dimethyl sulfoxide",
    "N,N-dimethylformamide",
    "toluene",
]


def said(*parts: str, column: str = COATED) -> list[Finding]:
    return findings("---\n".join([column, *(part.rstrip() + "\n" for part in parts)]), RULE)


@pytest.mark.parametrize("liquid", FORBIDDEN)
def test_silent_for_an_immobilised_phase(liquid: str) -> None:
    diluent = f"kind: sequence\ndiluent: {liquid}\n"
    assert said(diluent, column="kind: column\nphase: immobilised polysaccharide\n") == []
    assert [finding.grade for finding in said(diluent)] == ["stop"]


@pytest.mark.parametrize("tee", ["before the regulator", "after the regulator"])
def test_silent_for_makeup_behind_the_column(tee: str) -> None:
    makeup = f"makeup: {{liquid: acetone, flow: 0.2 mL/min, tee: {tee}}}"
    bottle = "kind: solvents\nbottles: [{line: makeup, liquid: acetone}]\n"
    assert said(f"kind: method\n{makeup}\n", bottle) == []


def test_silent_for_traces_that_the_card_tolerates() -> None:
    traces = COATED + "trace_tolerated: 3 uL\n"
    two = "kind: method\ninjection: {volume: 2 uL}\n"
    diluent = "kind: sequence\ndiluent: THF\n"
    assert said(two, diluent, column=traces) == []
    (finding,) = said("kind: method\ninjection: {volume: 4 uL}\n", diluent, column=traces)
    assert "4 uL" in finding.message and "tolerates 3 uL" in finding.message
    half = "{liquids: [{liquid: THF, share: 50 %}, {liquid: heptane, share: 50 %}]}"
    four = "kind: method\ninjection: {volume: 4 uL}\n"
    assert said(four, f"kind: sequence\ndiluent: {half}\n", column=traces) == []


@pytest.mark.parametrize("liquid", ["heptane", "ethanol", "IPA", "MeCN", "1-butanol", "hexane"])
def test_silent_for_alkanes_alcohols_and_acetonitrile(liquid: str) -> None:
    assert said(f"kind: sequence\ndiluent: {liquid}\n") == []


def test_silent_for_a_wash_that_rinses_the_outside_only() -> None:
    wash = "kind: solvents\nbottles: [{{line: needle-wash, liquid: acetone, enters_flow: {}}}]\n"
    report = judged(f"{COATED}---\n{wash.format('false')}", RULE)
    assert (report.findings, report.not_checked) == ([], [])
    (finding,) = said(wash.format("true"))
    assert "as needle wash" in finding.message
    assert "stays in the loop" in finding.message


def test_the_card_s_own_lists_come_first() -> None:
    acetone = "kind: sequence\ndiluent: acetone\n"
    assert said(acetone, column=COATED + "allowed_liquids: [2-propanone]\n") == []
    forbids = "kind: column\nphase: bonded silica\nforbidden_liquids: [2-propanone]\n"
    (finding,) = said(acetone, column=forbids)
    assert "the column card forbids it" in finding.message
    ethanol = COATED + "forbidden_liquids: [EtOH]\n"
    (finding,) = said("kind: sequence\ndiluent: ethanol\n", column=ethanol)
    assert finding.remedy == "use 2-propanol instead"


def test_the_modifier() -> None:
    (finding,) = said("kind: method\nmobile_phase: {modifier: {liquid: THF, line: null}}\n")
    assert finding.at.path == ("mobile_phase", "modifier")
    assert "tetrahydrofuran reaches column (coated polysaccharide) as modifier" in finding.message


def test_a_small_part_of_a_blend_is_enough() -> None:
    blend = "{liquids: [{liquid: ethanol, share: 95 %}, {liquid: DCM, share: 5 %}]}"
    (finding,) = said(f"kind: sequence\ndiluent: {blend}\n")
    assert "dichloromethane reaches" in finding.message


def test_the_diluent_of_one_line_among_many() -> None:
    lines = (
        "kind: sequence\nlines:\n  - {kind: blank, sample: b, well: A1}\n"
        "  - {kind: sample, sample: x, well: A2, diluent: CHCl3}\n"
    )
    (finding,) = said(lines)
    assert finding.at.path == ("lines", 1, "diluent")
    assert "first in line 2" in finding.message


def test_a_flush_and_the_storage_liquid() -> None:
    flush = (
        "kind: sequence\nlines:\n  - {kind: sample, sample: x, well: A1}\n"
        "  - {kind: flush, liquid: toluene, duration: 5 min}\n"
    )
    (finding,) = said(flush)
    assert "as flush: line 2 flushes with it" in finding.message
    (finding,) = said(column=COATED + "storage_liquid: acetone\n")
    assert "as storage liquid" in finding.message


def test_what_the_booking_before_left() -> None:
    (finding,) = said("kind: sequence\nprevious: {modifier: {liquid: THF}}\n")
    assert "as residue" in finding.message
    assert "the booking before leaves it in the lines" in finding.message
    assert finding.remedy == "flush the lines with 2-propanol first, the column taken out"


def _with_another_method(lines: str, own_phase: str) -> list[Finding]:
    documents = lab_with(f"kind: sequence\nlines:\n{lines}---\nkind: column\nphase: {own_phase}\n")
    other = lab_with("kind: method\ncolumn: strong\nmobile_phase: {modifier: {liquid: THF}}\n")
    strong = lab_with("kind: column\nphase: immobilised polysaccharide\n")["column"]
    library = MemoryLibrary(
        {(kind, kind): loaded for kind, loaded in documents.items()}
        | {
            ("method", "other"): replace(other["method"], name="other", path="other.yaml"),
            ("column", "strong"): replace(strong, name="strong", path="strong.yaml"),
        },
        lab=documents["lab"],
    )
    rules = tuple(rule for rule in built_in_rules() if rule.id == RULE)
    report = judge_documents(library, [documents["sequence"]], rules)
    assert not report.failed, report.failed[0].trace
    return report.findings


def test_the_modifier_of_another_method_before_reaches_the_coated_column() -> None:
    other = "  - {kind: sample, sample: x, well: A1, method: other}\n"
    own = "  - {kind: sample, sample: y, well: A2}\n"
    flush = "  - {kind: flush, liquid: ethanol, duration: 5 min}\n"
    (finding,) = _with_another_method(other + own, "coated polysaccharide")
    assert finding.at.document.path == "other.yaml"
    assert "as residue (520 uL): method 'other' of line 1 leaves it" in finding.message
    assert _with_another_method(own + other, "coated polysaccharide") == []
    assert _with_another_method(other + flush + own, "coated polysaccharide") == []
    assert _with_another_method(other + own, "immobilised polysaccharide") == []


def test_the_printed_remedy_was_tried() -> None:
    (finding,) = said("kind: sequence\ndiluent: DCM\n")
    assert finding.remedy == "use 2-propanol instead"
    assert said("kind: sequence\ndiluent: 2-propanol\n") == []


def test_what_no_table_knows_is_not_checked() -> None:
    report = judged(f"{COATED}---\nkind: sequence\ndiluent: MTBE\n", RULE)
    assert report.findings == []
    assert report.not_checked[0].missing == ("column.allowed_liquids",)
    assert report.not_checked[0].can_stop


def test_a_wash_of_which_nothing_is_said_is_not_checked() -> None:
    report = judged(
        f"{COATED}---\nkind: solvents\nbottles: [{{line: needle-wash, liquid: acetone}}]\n"
        "---\nkind: instrument\nautosampler: {wash_enters_loop: null}\n",
        RULE,
    )
    assert report.findings == []
    assert report.not_checked[0].missing == ("instrument.autosampler.wash_enters_loop",)


def test_an_unknown_phase_is_not_checked() -> None:
    report = judged("kind: column\nphase: null\n", RULE)
    assert report.not_checked[0].missing == ("column.phase",)


def test_lines_with_one_diluent_are_one_finding_put_right_together() -> None:
    lines = "".join(
        f"  - {{kind: sample, sample: s{n}, well: A{n}, diluent: DCM, volume: {n} uL}}\n"
        for n in (1, 2, 2)
    )
    (finding,) = said(f"kind: sequence\nlines:\n{lines}")
    assert "2 uL" in finding.message
    assert finding.remedy == "use 2-propanol instead"


def test_lists_that_name_classes_of_liquids() -> None:
    """Methanol is the modifier of the sound lab, 2-propanol its diluent and wash."""
    forbids = "kind: column\nphase: bonded silica\nforbidden_liquids: [{}]\n"
    assert findings(forbids.format("ketones, esters"), RULE) == []
    assert "methanol" in findings(forbids.format("alcohols"), RULE)[0].message
    allows = "kind: column\nphase: bonded silica\nallowed_liquids: [{}]\n"
    assert judged(allows.format("alcohols"), RULE).not_checked == []
    report = judged(allows.format("n-heptane"), RULE)
    assert report.findings == []
    assert any("allows others only" in item.reason for item in report.not_checked)
    assert report.verdict == "run with care"
