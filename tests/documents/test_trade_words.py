"""Words that people write first, and what they are told: common practice, no source."""

from __future__ import annotations

from typing import get_args

import pytest

from methodlint.documents.kinds.column import Column
from methodlint.documents.kinds.room import Weekday
from methodlint.documents.loading import load
from methodlint.documents.synonyms import HINTS, SEVERAL, SEVERAL_WORDS, SYNONYMS, WORDS
from methodlint.documents.text.reader import read_text


def told(text: str) -> list[tuple[str, str]]:
    loaded = load(read_text(text.encode(), "x.yaml"), "x.yaml", "x")
    assert loaded is not None
    return [(problem.rule, problem.remedy) for problem in loaded.problems]


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("kind: method\ninstrument: a\n", "runs_on"),
        ("kind: method\nmobile_phase: {percent: 20 % v/v}\n", "modifier_share"),
        ("kind: method\nmobile_phase: {modifier: {blend: []}}\n", "liquids"),
        (
            (
                "kind: method\nmobile_phase: {modifier: {liquid: methanol, "
                "additives: [{additive: formic acid, concentration: 0.1 % v/v}]}}\n"
            ),
            "level",
        ),
        ("kind: method\ninjection: {solvent: methanol}\n", "diluent"),
        ("kind: method\nmakeup: {solvent: methanol}\n", "liquid"),
        ("kind: column\nstationary_phase: bare silica\n", "phase"),
        ("kind: column\nname: wide silica\n", "title"),
        ("kind: instrument\nautosampler: {overdraw: 5 uL}\n", "extra_drawn"),
        ("kind: instrument\ndwell_method: ramp\n", "dwell_measured_by"),
        ("kind: instrument\ndwell_measured_bye: ramp\n", "dwell_measured_by"),
        ("kind: sequence\nlines: [{kind: sample, position: A1}]\n", "well"),
    ],
)
def test_a_trade_word_leads_to_the_key_of_its_place(text: str, key: str) -> None:
    said = [remedy for rule, remedy in told(text) if rule == "document.unknown-key"]
    assert said == [f"did you mean '{key}'? Keys of your own start with 'x-'"]


@pytest.mark.parametrize(
    ("text", "word"),
    [
        ("kind: method\ndetectors: [{type: diode array}]\n", "DAD"),
        ("kind: method\ninjection: {mode: partial loop}\n", "part-filled loop"),
        ("kind: method\ninjection: {mode: full-loop}\n", "filled loop"),
        ("kind: method\nmakeup: {liquid: methanol, tee: pre-BPR}\n", "before the regulator"),
        ("kind: column\nphase: C18\n", "bonded silica"),
        ("kind: column\nparticle_type: core-shell\n", "superficially porous"),
        ("kind: sequence\nlines: [{kind: unknown, sample: a}]\n", "sample"),
        ("kind: sequence\nlines: [{kind: QC, sample: a}]\n", "control"),
    ],
)
def test_a_trade_word_leads_to_a_word_that_the_field_knows(text: str, word: str) -> None:
    said = [remedy for rule, remedy in told(text) if rule == "document.word-not-known"]
    assert len(said) == 1
    assert said[0].startswith(f"did you mean '{word}'?")


@pytest.mark.parametrize(
    "written",
    ["polysaccharide", "Polysaccharide", "polysacharide", "polysaccaride", "amylose", "Celulose"],
)
def test_a_polysaccharide_is_asked_whether_it_is_coated(written: str) -> None:
    """Tetrahydrofuran and chloroform swell or dissolve a coated selector, never an immobilised
    one (Polym. J. 38, 91, 2006): naming one of them alone would cost a column."""
    ((rule, remedy),) = told(f"kind: column\nphase: {written}\n")
    assert rule == "document.word-not-known"
    assert remedy.startswith(
        "did you mean 'coated polysaccharide' or 'immobilised polysaccharide'? the column's papers"
    )


def test_any_chiral_phase_is_offered_for_chiral() -> None:
    ((_, remedy),) = told("kind: column\nphase: chiral\n")
    offered = remedy.partition("?")[0]
    chiral = ("coated", "immobilised", "brush-type chiral", "macrocyclic chiral")
    assert all(word in offered for word in chiral)


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("coated polysacharide", "'coated polysaccharide'"),
        ("immobilized polysaccharide", "'immobilised polysaccharide'"),
        ("imobilized polysacharide", "'immobilised polysaccharide'"),
    ],
)
def test_a_slip_in_the_name_of_one_phase_names_that_one_alone(written: str, meant: str) -> None:
    ((_, remedy),) = told(f"kind: column\nphase: {written}\n")
    assert remedy.startswith(f"did you mean {meant}? write one of")


def test_words_that_mean_several_are_words_of_a_field() -> None:
    known = str(Column.model_fields["phase"].annotation) + str(get_args(Weekday))
    for words, _ in SEVERAL_WORDS.values():
        assert all(f"'{word}'" in known for word in words)


@pytest.mark.parametrize(
    ("text", "remedy"),
    [
        ("kind: method\nruns_on: bench-a\n", "write [bench-a]"),
        ("kind: method\ninjection: 10 uL\n", "write {volume: ..., mode: ..., diluent: ..."),
        ("kind: method\ndetectors: UV 220 nm\n", "write [{type: ..., cell: ..., wavelength: ..."),
        ("kind: method\nprogramme: {time: 0 min}\n", "write [{time: ..., modifier_share: ..."),
    ],
)
def test_another_shape_is_told_in_words_of_the_document(text: str, remedy: str) -> None:
    said = [remedy for rule, remedy in told(text) if rule == "document.shape-wrong"]
    assert len(said) == 1
    assert said[0].startswith(remedy)


def test_dimensions_in_one_word_are_told_the_two_keys() -> None:
    (found,) = told("kind: column\ndimensions: 3.0 x 150 mm\n")
    assert found == ("document.unknown-key", HINTS["dimensions"][0])


def test_the_words_are_written_as_they_are_looked_up() -> None:
    for word in (*SYNONYMS, *SEVERAL, *HINTS):
        assert word == word.lower().replace("-", "_").replace(" ", "_")
    for word in (*WORDS, *SEVERAL_WORDS):
        assert word == " ".join(word.casefold().replace("_", " ").split())
        assert "-" not in word[:-1]


def test_an_additive_without_a_basis_is_not_told_about_methanol() -> None:
    modifier = "{liquid: methanol, additives: [{additive: formic acid, level: 0.1 %}]}"
    loaded = load(
        read_text(f"kind: method\nmobile_phase: {{modifier: {modifier}}}\n".encode(), "x"), "x", "x"
    )
    assert loaded is not None
    (problem,) = loaded.problems
    assert problem.rule == "document.percent-basis-missing"
    assert "methanol" not in problem.message
    assert problem.remedy.startswith('write "0.1 % v/v"')


def test_a_slip_in_how_the_dwell_was_measured_names_the_words_that_are_known() -> None:
    ((rule, remedy),) = told("kind: instrument\ndwell_measured_by: step at half hight\n")
    assert rule == "document.word-not-known"
    assert "step at half height" in remedy


@pytest.mark.parametrize("written", ["254", '"254"', "254.0"])
def test_a_bare_wavelength_is_offered_nanometres(written: str) -> None:
    said = told(f"kind: method\ndetectors: [{{type: UV, wavelength: {written}}}]\n")
    ((_, remedy),) = said
    assert ' nm"' in remedy
    assert "mm" not in remedy


@pytest.mark.parametrize(
    ("written", "share"),
    [("4.5", 0.99995), ("N4.5", 0.99995), ('"5.0"', 0.99999), ("3.0", 0.999), ("99.5 %", 0.995)],
)
def test_a_grade_is_read_as_the_trade_writes_it(written: str, share: float) -> None:
    """The first figure counts the nines, the second is what follows them: common practice."""
    read = read_text(f"kind: supply\ngrade: {written}\n".encode(), "supply.yaml")
    loaded = load(read, "supply.yaml", "supply")
    assert loaded is not None
    assert not loaded.problems
    assert loaded.model.grade.si == pytest.approx(share, abs=1e-9)


@pytest.mark.parametrize("written", ["45", "9.5", "4"])
def test_what_is_no_grade_is_asked_for_its_unit(written: str) -> None:
    assert told(f"kind: supply\ngrade: {written}\n")
