"""CSV as labs keep it: each hazard of a spreadsheet's export has a test of its name."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.documents.sample_tables.bench import lines, load, loud, notes, only, where

PLAIN = "sample,plate,well,volume [uL],fill [mL]\n001,2,A1,2.0,0.5\n002,2,A2,1.5,0.5\n"
COMMA = "sample;plate;well;volume [uL];fill [mL]\n001;2;A1;2,0;0,5\n002;2;A2;1,5;0,5\n"
TABLE = "table: samples.csv\n"


def said(folder: Path, text: str) -> list[tuple[object, ...]]:
    loaded = load(folder, TABLE, samples_csv=text.encode())
    assert loud(loaded) == []
    return [
        (x.kind, x.sample, x.plate, x.well, x.volume and x.volume.si, x.fill and x.fill.si)
        for x in lines(loaded)
    ]


def test_a_comma_decimal_locale_reads_the_same_as_the_dotted_one(tmp_path: Path) -> None:
    dotted, comma = tmp_path / "a", tmp_path / "b"
    dotted.mkdir()
    comma.mkdir()
    assert said(dotted, PLAIN) == said(comma, COMMA)
    # 2.0 uL and 0.5 mL in SI, by the definition of the litre
    assert said(dotted, PLAIN)[0] == ("sample", "001", "2", "A1", 2e-9, 0.5e-6)


@pytest.mark.parametrize(
    "change",
    [
        lambda t: t.encode("utf-8-sig"),
        lambda t: t.encode("utf-16"),
        lambda t: t.replace("\n", "\r\n").encode(),
        lambda t: t.replace("\n", "\r").encode(),
        lambda t: t.replace(";", "\t").encode(),
        lambda t: ("sep=;\r\n" + t.replace("\n", "\r\n")).encode(),
        lambda t: t.replace("2,0", "2,0 uL").replace("0,5", "0,5 mL").encode(),
        lambda t: t.replace("2,0", '"2,0"').replace("001", '="001"').encode(),
        lambda t: ("Liste;;;;\n;;;;\nvon Dienstag\n" + t + ";;;;\n;;;;\n").encode(),
    ],
    ids=["bom", "utf-16", "crlf", "cr", "tabs", "sep", "unit-in-cell", "quoted", "title-rows"],
)  # fmt: skip
def test_the_same_lines_however_it_was_exported(tmp_path: Path, change: object) -> None:
    loaded = load(tmp_path, TABLE, samples_csv=change(COMMA))  # type: ignore[operator]
    assert loud(loaded) == []
    assert [(x.sample, x.well) for x in lines(loaded)] == [("001", "A1"), ("002", "A2")]
    volumes = [x.volume.si for x in lines(loaded) if x.volume is not None]
    assert volumes == pytest.approx([2e-9, 1.5e-9], rel=1e-12)


def test_windows_1252_is_read_and_told(tmp_path: Path) -> None:
    text = "Probe;Vial;Inj. Volumen (µL)\nMöhre 1;A1;2,0\n"
    loaded = load(tmp_path, TABLE, samples_csv=text.encode("cp1252"))
    assert lines(loaded)[0].sample == "Möhre 1"
    assert "Windows-1252" in notes(loaded)
    assert "'Probe' as 'sample', 'Vial' as 'well', 'Inj. Volumen (µL)' as 'volume'" in notes(loaded)


def test_a_byte_that_no_encoding_knows_is_told_with_its_line(tmp_path: Path) -> None:
    loaded = load(tmp_path, TABLE, samples_csv=b"sample,well\nok,A1\nb\x81d,A2\n")
    problem = only(loaded)
    assert problem.rule == "document.unreadable"
    assert where(problem)[:2] == ("samples.csv", 3)
    assert lines(loaded) == ()


def test_a_plain_header_needs_no_note(tmp_path: Path) -> None:
    assert notes(load(tmp_path, TABLE, samples_csv=PLAIN.encode())) == ""


def test_words_of_other_programs_for_kinds_are_told(tmp_path: Path) -> None:
    text = "Sample Type,sample,well,level\nUnknown,s1,A1,\nStandard,c1,A2,5\nQC,q,A3,\n"
    loaded = load(tmp_path, TABLE, samples_csv=text.encode())
    assert [x.kind for x in lines(loaded)] == ["sample", "calibrator", "control"]
    assert "'Unknown' as sample" in notes(loaded)


def test_mixed_decimal_marks_are_refused_at_the_cell(tmp_path: Path) -> None:
    text = "sample;well;fill [mL]\na;A1;0,5\nb;A2;0,75\nc;A3;1.250\n"
    problem = only(load(tmp_path, TABLE, samples_csv=text.encode()))
    assert problem.rule == "document.type-trap"
    assert where(problem) == ("samples.csv", 4, 6, "cell C4")
    assert "a thousand times" in problem.message


def test_a_decimal_comma_where_commas_divide_is_not_guessed(tmp_path: Path) -> None:
    text = 'sample,well,fill\na,A1,"0,5 mL"\n'
    problem = only(load(tmp_path, TABLE, samples_csv=text.encode()))
    assert where(problem) == ("samples.csv", 2, 6, "cell C2")


@pytest.mark.parametrize("text", ["1.00E+02", "1,2E+11"])
def test_what_a_spreadsheet_made_of_1e2_is_no_name(tmp_path: Path, text: str) -> None:
    problem = only(load(tmp_path, TABLE, samples_csv=f"sample;well\n{text};A1\n".encode()))
    assert problem.rule == "document.type-trap"
    assert where(problem) == ("samples.csv", 2, 1, "cell A2")


def test_each_unknown_column_has_its_own_problem(tmp_path: Path) -> None:
    found = loud(load(tmp_path, TABLE, samples_csv=b"sample,voluem,Colour code\na,2 uL,red\n"))
    assert [(p.rule, where(p)) for p in found] == [
        ("document.unknown-key", ("samples.csv", 1, 8, "cell B1")),
        ("document.unknown-key", ("samples.csv", 1, 15, "cell C1")),
    ]
    assert "did you mean 'volume'?" in found[0].remedy
    assert "columns: {voluem: volume}" in found[0].remedy
    assert not any(p.breaks for p in found)


def test_what_an_unmapped_column_may_hold_is_withheld(tmp_path: Path) -> None:
    loaded = load(tmp_path, TABLE, samples_csv=b"sample,voluem,Colour\na,2 uL,red\nb,,red\n")
    assert {path for path in loaded.broken if path[:1] == ("lines",)} == {("lines", 0, "volume")}


def test_kinds_under_an_unknown_header_are_no_samples(tmp_path: Path) -> None:
    table = b"What,sample,well\nblank,ethanol,A1\nQC,q,A2\nsample,s,A3\n"
    loaded = load(tmp_path, TABLE, samples_csv=table)
    problem = only(loaded)
    assert problem.rule == "document.unknown-key"
    assert "columns: {What: kind}" in problem.remedy
    assert lines(loaded) == ()
    assert loaded.broken[("lines",)] is not None


def test_an_unknown_header_over_other_words_leaves_the_lines(tmp_path: Path) -> None:
    loaded = load(tmp_path, TABLE, samples_csv=b"What,sample,well\nred,ethanol,A1\nblue,q,A2\n")
    assert "null" in only(loaded).remedy
    assert [line.kind for line in lines(loaded)] == ["sample", "sample"]


def test_a_mapped_column_of_kinds_is_read(tmp_path: Path) -> None:
    source = "table: {file: samples.csv, columns: {What: kind}}\n"
    loaded = load(tmp_path, source, samples_csv=b"What,sample,well\nblank,ethanol,A1\n")
    assert loud(loaded) == []
    assert lines(loaded)[0].kind == "blank"


@pytest.mark.parametrize(
    ("header", "cell", "asked"),
    [
        ("Vial fill", "1,5", ("'Vial fill [mL]'", "'Vial fill [uL]'")),
        ("outlet_pressure", "150", ("'outlet_pressure [bar]'", "'outlet_pressure [MPa]'")),
        ("modifier_share", "5", ("'modifier_share [% v/v]'",)),
    ],
)
def test_a_number_without_a_unit_is_asked_about(
    tmp_path: Path, header: str, cell: str, asked: tuple[str, ...]
) -> None:
    table = f"sample;well;{header}\na;A1;{cell}\n"
    remedy = only(load(tmp_path, TABLE, samples_csv=table.encode())).remedy
    assert all(text in remedy for text in asked)


def test_own_words_for_columns(tmp_path: Path) -> None:
    source = (
        "table: {file: samples.csv, columns: {Colour: null, Where: well}, every_line: {plate: 2}}\n"
    )
    loaded = load(tmp_path, source, samples_csv=b"sample,Where,Colour\na,A1,red\n")
    assert loud(loaded) == []
    assert (lines(loaded)[0].well, lines(loaded)[0].plate) == ("A1", "2")


def test_two_columns_of_one_meaning(tmp_path: Path) -> None:
    problem = only(load(tmp_path, TABLE, samples_csv=b"sample,vial,position\na,A1,B1\n"))
    assert problem.rule == "document.duplicate-key-or-id"
    assert where(problem) == ("samples.csv", 1, 13, "cell C1")
    assert problem.also[0].cell == "cell B1"


def test_a_number_without_a_unit_is_told_once_at_the_header(tmp_path: Path) -> None:
    rows = "".join(f"s{n},A{n},2\n" for n in range(1, 9))
    loaded = load(tmp_path, TABLE, samples_csv=f"sample,well,volume\n{rows}".encode())
    problem = only(loaded)
    assert problem.rule == "document.unit-missing-or-wrong-kind"
    assert where(problem) == ("samples.csv", 1, 13, "cell C1")
    assert all(x.volume is None for x in lines(loaded))
    assert loaded.broken[("lines", 3, "volume")] is not None


def test_a_wrong_unit_in_the_header_is_told_once(tmp_path: Path) -> None:
    text = b"sample,well,volume [bar]\na,A1,2\nb,A2,2\n"
    problem = only(load(tmp_path, TABLE, samples_csv=text))
    assert where(problem) == ("samples.csv", 1, 13, "cell C1")


def test_a_wrong_unit_in_a_cell_is_told_there(tmp_path: Path) -> None:
    text = b"sample,well,volume\na,A1,2 uL\nb,A2,2 bar\n"
    problem = only(load(tmp_path, TABLE, samples_csv=text))
    assert problem.rule == "document.unit-missing-or-wrong-kind"
    assert where(problem) == ("samples.csv", 3, 6, "cell C3")


def test_a_row_with_a_divider_too_many_is_told(tmp_path: Path) -> None:
    text = b"sample,well\nwine, red,A1\n"
    assert where(only(load(tmp_path, TABLE, samples_csv=text))) == ("samples.csv", 2, 11, "cell C2")


def test_a_quotation_mark_that_stays_open(tmp_path: Path) -> None:
    problem = loud(load(tmp_path, TABLE, samples_csv=b'sample,well\n"wine,A1\nbeer,A2\n'))[0]
    assert where(problem)[:2] == ("samples.csv", 2)
    assert "never closed" in problem.message


def test_a_quoted_cell_may_hold_dividers_and_line_ends(tmp_path: Path) -> None:
    text = b'sample,well\n"wine, ""red""",A1\n"two\nlines",A2\nlast,Z99\n'
    loaded = load(tmp_path, TABLE, samples_csv=text)
    assert [x.sample for x in lines(loaded)][:1] == ['wine, "red"']
    assert loaded.place(("lines", 2, "well")).line == 5  # the text's line, not the row's number


def test_a_formula_in_text_is_not_worked_out(tmp_path: Path) -> None:
    problem = only(load(tmp_path, TABLE, samples_csv=b"sample,well\n=A2&B2,A1\n"))
    assert where(problem) == ("samples.csv", 2, 1, "cell A2")
    assert "formula" in problem.message


def test_dates_with_points_are_read_and_slashed_ones_are_not_guessed(tmp_path: Path) -> None:
    text = "sample;well;expires\na;A1;24.11.2026\nb;A2;03/04/2026\n"
    loaded = load(tmp_path, TABLE, samples_csv=text.encode())
    assert str(lines(loaded)[0].expires) == "2026-11-24"
    assert where(only(loaded)) == ("samples.csv", 3, 6, "cell C3")


def test_hidden_characters_are_told(tmp_path: Path) -> None:
    found = loud(load(tmp_path, TABLE, samples_csv="sample,well\na\u202eb,A1\n".encode()))
    assert [(p.rule, p.place.file, p.place.line) for p in found] == [
        ("document.hidden-character", "samples.csv", 2)
    ]


@pytest.mark.parametrize(
    "text", [b"", b"\n\n", b"1,2,3\n4,5,6\n", b"sample\x00,well\n", b"\xff\xfea"]
)
def test_no_table_at_all_gives_one_problem_and_no_lines(tmp_path: Path, text: bytes) -> None:
    loaded = load(tmp_path, TABLE, samples_csv=text)
    assert only(loaded).place.file == "samples.csv"
    assert lines(loaded) == ()
    assert ("lines",) in loaded.broken


def test_a_kind_that_nobody_knows_is_told_at_its_cell(tmp_path: Path) -> None:
    problem = only(load(tmp_path, TABLE, samples_csv=b"kind,sample,well\nsampel,a,A1\n"))
    assert problem.rule == "document.word-not-known"
    assert where(problem) == ("samples.csv", 2, 1, "cell A2")


def test_a_cell_in_a_column_without_a_header_is_told(tmp_path: Path) -> None:
    problem = only(load(tmp_path, TABLE, samples_csv=b"sample,well\na,A1,,2 uL\n"))
    assert problem.rule == "document.shape-wrong"
    assert where(problem) == ("samples.csv", 2, 7, "cell D2")


def test_empty_cells_in_columns_without_a_header_are_silent(tmp_path: Path) -> None:
    assert loud(load(tmp_path, TABLE, samples_csv=b"sample,well,,\na,A1,,\n")) == []


def test_thousands_of_bad_cells_are_told_in_hundreds(tmp_path: Path) -> None:
    rows = "".join(f"s{n},A1,2 bar\n" for n in range(3_000))
    found = loud(load(tmp_path, TABLE, samples_csv=f"sample,well,volume\n{rows}".encode()))
    assert len(found) == 100
    assert "2900 further lines" in found[-1].message


@pytest.mark.long
def test_too_many_rows_and_columns_are_a_finding(tmp_path: Path) -> None:
    rows = "x,A1\n" * 50_001
    found = only(load(tmp_path, TABLE, samples_csv=f"sample,well\n{rows}".encode()))
    assert found.rule == "document.too-large"
    wide = ",".join(["sample", *[f"x-{n}" for n in range(201)]])
    found = only(load(tmp_path, TABLE, samples_csv=f"{wide}\na\n".encode()))
    assert found.rule == "document.too-large"


@pytest.mark.parametrize(
    ("word", "kind"),
    [
        ("Unbekannt", "sample"), ("inconnu", "sample"), ("Étalon", "calibrator"),
        ("double blank", "matrix blank"), ("STD", "calibrator"), ("QC", "control"),
    ],
)  # fmt: skip
def test_kinds_in_the_words_of_labs(tmp_path: Path, word: str, kind: str) -> None:
    text = f"Type;Sample name;Position;Vial volume [uL];Conc [ng/mL]\n{word};a;A1;500;1,5\n"
    loaded = load(tmp_path, TABLE, samples_csv=text.encode())
    assert loud(loaded) == []
    (made,) = lines(loaded)
    assert made.kind == kind
    assert made.fill is not None and made.fill.si == pytest.approx(500e-9)
    assert made.concentration is not None and made.concentration.si == pytest.approx(1.5e-6)
