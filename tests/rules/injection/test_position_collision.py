"""Two samples in one place (common practice, no source)."""

from __future__ import annotations

from tests.rules.harness import findings

RULE = "injection.position-collision"


def seq(*items: str, extra: str = "") -> str:
    listed = "".join(f"  - {{kind: sample, {item}}}\n" for item in items)
    return f"kind: sequence\n{extra}lines:\n{listed}"


def test_silent_where_the_same_sample_is_repeated() -> None:
    same = "sample: QC 1, plate: 2, well: C4"
    assert findings(seq(same, same, "sample: qc  1, plate: 2, well: c04"), RULE) == []


def test_silent_where_the_alias_is_declared() -> None:
    items = ("sample: pool, plate: 2, well: C4", "sample: QC 1, plate: 2, well: C4")
    assert findings(seq(*items, extra="aliases: {pool: QC 1}\n"), RULE) == []
    assert len(findings(seq(*items), RULE)) == 1


def test_silent_for_the_same_well_of_two_plates() -> None:
    items = ("sample: a, plate: 1, well: C4", "sample: b, plate: 2, well: C4")
    assert findings(seq(*items), RULE) == []


def test_silent_where_a_line_names_no_sample() -> None:
    items = ("plate: 1, well: C4", "sample: b, plate: 1, well: C4")
    assert findings(seq(*items), RULE) == []


def test_control_and_sample_in_one_well() -> None:
    items = ("sample: QC 1, plate: 2, well: C4", 'sample: sample 14, plate: "02", well: C04')
    (finding,) = findings(seq(*items), RULE)
    assert finding.grade == "fault"
    assert finding.message == (
        "plate 2, well C4 holds 2 samples: 'QC 1' (line 1), 'sample 14' (line 2)"
    )
    assert finding.at.path == ("lines", 1, "well")
    assert finding.also[0].path == ("lines", 0, "well")


def test_one_place_with_many_samples_is_one_finding() -> None:
    found = findings(seq(*[f"sample: s{n}, plate: 1, well: A1" for n in range(9)]), RULE)
    assert len(found) == 1
    assert "holds 9 samples" in found[0].message
    assert "and 5 more" in found[0].message


def test_a_list_without_its_second_plate_is_gathered() -> None:
    wells = [f"{'ABCDEF'[n % 6]}{n // 6 + 1}" for n in range(40)]
    items = [f"sample: a{w}, plate: 1, well: {w}" for w in wells]
    items += [f"sample: b{w}, plate: 1, well: {w}" for w in wells]
    found = findings(seq(*items), RULE)
    assert len(found) == 21
    assert "20 further places" in " ".join(finding.message for finding in found)
