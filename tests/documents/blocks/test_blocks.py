"""Compact blocks: what they lay out, and where what is wrong in them is shown."""

from __future__ import annotations

from pathlib import Path

import pytest

from methodlint.checking.check import check
from methodlint.documents.blocks.patterns import BlockPatternWrong, filled_in, wells_of
from tests.documents.sample_tables.bench import HEAD, lab, lines, load, loud, only, write

NAMED = """named_lines:
  blank: {kind: blank, sample: ethanol, plate: 1, well: A1}
  low: {kind: control, sample: low, plate: 1, well: C1}
  high: {kind: control, sample: high, plate: 1, well: C2}
"""


def names(folder: Path, blocks: str) -> list[str | None]:
    loaded = load(folder, NAMED + "blocks:\n" + blocks)
    assert loud(loaded) == []
    return [line.sample for line in lines(loaded)]


def test_a_bracket_every_n_samples_and_behind_the_last(tmp_path: Path) -> None:
    found = names(
        tmp_path,
        "  - samples: {sample: 's{n}', number: 5, plate: 2, wells: A1 to A5}\n"
        "    bracket: {every: 2, lines: [low, high]}\n",
    )
    assert found == ["low", "high", "s1", "s2", "low", "high", "s3", "s4", "low", "high", "s5",
                     "low", "high"]  # fmt: skip


def test_controls_in_turn_and_no_bracket_at_the_front(tmp_path: Path) -> None:
    found = names(
        tmp_path,
        "  - samples: {sample: 's{n}', plate: 2, wells: A1 to A4}\n"
        "    bracket: {every: 2, in_turn: [low, high], opens: false}\n",
    )
    assert found == ["s1", "s2", "low", "s3", "s4", "high"]


def test_replicates_stay_within_one_bracket_and_say_that_they_are_wanted(tmp_path: Path) -> None:
    loaded = load(
        tmp_path,
        NAMED + "blocks:\n  - samples: {sample: 's{n}', wells: A1 to A3, plate: 2, replicates: 2}\n"
        "    bracket: {every: 3, lines: low}\n",
    )
    assert [(x.sample, x.replicate) for x in lines(loaded)] == [
        ("low", False), ("s1", False), ("s1", True), ("low", False), ("s2", False), ("s2", True),
        ("low", False), ("s3", False), ("s3", True), ("low", False),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("order", "expected"),
    [
        ("ascending", [("C2", 1.0), ("C3", 5.0), ("C1", 10.0), ("ethanol", None)]),
        ("descending", [("C1", 10.0), ("ethanol", None), ("C3", 5.0), ("C2", 1.0)]),
        ("as written", [("C1", 10.0), ("ethanol", None), ("C2", 1.0), ("C3", 5.0)]),
    ],
)
def test_calibrators_in_order_with_a_blank_behind_the_top(
    tmp_path: Path, order: str, expected: list[tuple[str, float | None]]
) -> None:
    loaded = load(
        tmp_path,
        NAMED + "blocks:\n  - calibrators: {levels: [10, 1, 5], plate: 1, wells: B1 to B3, "
        f"order: {order}}}\n    blank_after_top: blank\n",
    )
    assert loud(loaded) == []
    assert [(x.sample, x.level) for x in lines(loaded)] == expected
    # The vial belongs to the level as written, whatever the order of injection.
    assert {x.sample: x.well for x in lines(loaded)}["C1"] == "B1"


def test_concentrations_of_other_units_are_put_in_order(tmp_path: Path) -> None:
    loaded = load(tmp_path, "blocks:\n  - calibrators: {concentrations: [1 g/L, 50 mg/mL, 2 g/L], "
                  "sample: '{level} standard', wells: B1 to B3}\n")  # fmt: skip
    assert [x.sample for x in lines(loaded)] == [
        "1 g/L standard", "2 g/L standard", "50 mg/mL standard"
    ]  # fmt: skip


def test_samples_from_a_table_between_brackets(tmp_path: Path) -> None:
    loaded = load(
        tmp_path,
        NAMED + "blocks:\n  - samples: {table: list.csv, plate: 2, wells: A1 to A9, "
        "every_line: {volume: 1 uL}}\n    bracket: {every: 2, lines: low}\n",
        list_csv=b"sample,volume\na,\nb,2 uL\nc,2 bar\n",
    )
    assert [(x.sample, x.well) for x in lines(loaded)] == [
        ("low", "C1"), ("a", "A1"), ("b", "A2"), ("low", "C1"), ("c", "A3"), ("low", "C1")
    ]  # fmt: skip
    assert [x.volume and x.volume.text for x in lines(loaded)][1:3] == ["1 uL", "2 uL"]
    problem = only(loaded)
    assert (problem.place.file, problem.place.cell) == ("list.csv", "cell B4")
    assert problem.path == ("lines", 4, "volume")


def test_a_line_by_name_with_keys_that_differ(tmp_path: Path) -> None:
    loaded = load(tmp_path, NAMED + "blocks:\n  - lines: [{use: low, count: 3}, high]\n")
    assert [(x.sample, x.count, x.well) for x in lines(loaded)] == [
        ("low", 3, "C1"), ("high", 1, "C2")
    ]  # fmt: skip


def test_data_files_are_named_line_by_line(tmp_path: Path) -> None:
    loaded = load(tmp_path, "data_file: '{line:03}_{sample}'\nblocks:\n"
                  "  - samples: {sample: 's{n:02}', first: 9, wells: A1 to A2}\n")  # fmt: skip
    assert [x.sample for x in lines(loaded)] == ["s09", "s10"]


WRONG = [
    ("- samples: {sample: wine, wells: A1 to A5}", "same name"),
    ("- samples: {sample: 'w{n}', wells: A5 to A1}", "runs backwards"),
    ("- samples: {sample: 'w{n}', wells: A1-A5}", "no range of wells"),
    ("- samples: {sample: 'w{n}', number: 6, wells: A1 to A5}", "6 samples do not fit into 5"),
    ("- samples: {sample: 'w{m}', wells: A1 to A5}", "'{m}' is not known"),
    ("- samples: {sample: 'w{n.__class__}', wells: A1 to A5}", "is not known"),
    ("- samples: {sample: 'w{n:>999}', wells: A1 to A5}", "no format"),
    ("- samples: {sample: 'w{n}', wells: A1 to ZZ9999}", "more than 10000 wells"),
    ("- samples: {sample: 'w{n}'}", "how many"),
    ("- samples: {wells: A1 to A5}", "neither a name nor a table"),
    ("- lines: [lwo]", "no line 'lwo'"),
    ("- {lines: [low], samples: {sample: 'w{n}', wells: A1}}", "one of lines"),
    ("- {lines: [low], bracket: {every: 2, lines: low}}", "belongs to samples"),
    ("- {samples: {sample: 'w{n}', wells: A1}, bracket: {every: 2}}", "holds no lines"),
    ("- calibrators: {sample: 'C{n}'}", "no levels"),
    ("- samples: {sample: 'w{n}', wels: A1 to A5, number: 2}", "'wels' is not a key"),
    ("- samples: {sample: 'w{n}', wells: A1, every_line: {fil: 1 mL}}", "'fil' is not a key"),
    ("- 7", ""),
]  # fmt: skip


@pytest.mark.parametrize(("block", "said"), WRONG, ids=[said or block for block, said in WRONG])
def test_what_cannot_be_laid_out_is_told_once_at_its_line(
    tmp_path: Path, block: str, said: str
) -> None:
    loaded = load(tmp_path, f"{NAMED}blocks:\n  {block}\n")
    problem = only(loaded)
    assert said in problem.message
    # The block stands in the line behind the head, the named lines and its own key.
    assert problem.place.line == (HEAD + NAMED).count("\n") + 2
    assert problem.place.file == ""


def test_a_wrong_value_that_many_lines_share_is_told_once_where_it_stands(tmp_path: Path) -> None:
    source = "blocks:\n  - samples: {sample: 'w{n}', wells: A1 to F9, every_line: {fill: 1 bar}}\n"
    problem = only(load(tmp_path, source))
    assert problem.rule == "document.unit-missing-or-wrong-kind"
    assert problem.place.line == HEAD.count("\n") + 2


def test_findings_of_rules_point_into_the_block(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = lab(tmp_path)
    source = "blocks:\n  - samples:\n      sample: 'w{n}'\n      plate: 2\n      wells: A8 to A10\n"
    write(folder, source)
    monkeypatch.chdir(folder)
    (found,) = [f for f in check("tonight.yaml").findings if f.rule == "injection.position-invalid"]
    assert "line 3: A10 is not on plate 2" in found.message
    assert found.at.place.line == HEAD.count("\n") + 5
    assert found.at.path == ("lines", 2, "well")


def test_a_hundred_lines_from_twenty(monkeypatch: pytest.MonkeyPatch) -> None:
    file = Path(__file__).resolve().parents[3] / "example_methods/sound/overnight-blocks.yaml"
    text = file.read_text(encoding="utf-8").splitlines()
    begins, ends = text.index("named_lines:"), text.index("after: shutdown")
    monkeypatch.chdir(file.parent)
    (batch,) = check(file.name).batches
    assert ends - begins <= 20
    assert len(batch.batch.lines) >= 100


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("A1 to B2", ["A1", "A2", "B1", "B2"]), ("1 to 3", ["1", "2", "3"]),
        ("a01 to a02, C7", ["A1", "A2", "C7"]), ("Z1 to AB1", ["Z1", "AA1", "AB1"]),
    ],
)  # fmt: skip
def test_ranges_of_wells(text: str, expected: list[str]) -> None:
    assert wells_of(text) == expected


def test_wells_down_the_columns() -> None:
    assert wells_of("A1 to B2", by_columns=True) == ["A1", "B1", "A2", "B2"]


def test_a_pattern_reaches_into_nothing() -> None:
    assert filled_in("{n:03} of {{x}}", 7) == "007 of {x}"
    for wrong in ("{n!r}", "{0}", "{}", "{n", "{n[0]}"):
        with pytest.raises(BlockPatternWrong):
            filled_in(wrong, 1)
