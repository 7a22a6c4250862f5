"""Levels, spans and switches, counted by hand."""

from __future__ import annotations

from methodlint.rehearsal.batch.data_files import data_files, duplicates
from methodlint.rehearsal.batch.line_facts import (
    ends_of_highest,
    flush_volume,
    levels,
    lines_in_words,
    spans_between_standards,
    switches,
)
from methodlint.rehearsal.batch.lines import Batch, rehearse_batch
from methodlint.rulebook.examples import lab_with
from tests.rules.sequence.lines import BLANK, calibrators, controls, line, samples, sequence
from tests.work_done import calls_of


def batch(*lines: str | list[str]) -> Batch:
    documents = lab_with(sequence(*lines, equilibration=None))
    return rehearse_batch(documents["sequence"], {}, {}, None)


def test_levels_by_number_concentration_or_name() -> None:
    made = batch(
        calibrators(1, 2, 2),
        line("calibrator", "a", concentration="5 mg/mL"),
        line("calibrator", "b", concentration="5 g/L"),
        line("calibrator", "c"),
    )
    assert [key[0] for key in levels(made.lines)] == [
        "level",
        "level",
        "mass concentration",
        "name",
    ]


def test_the_end_of_each_row_of_highest_standards() -> None:
    made = batch(calibrators(1, 50, 50), BLANK, calibrators(50), samples(1))
    ends = [(a.index, b.index if b else None) for a, b in ends_of_highest(made)]
    assert ends == [(2, 3), (4, 5)]


def test_names_alone_have_no_order() -> None:
    assert ends_of_highest(batch(line("calibrator", "x"), samples(1))) == []


def test_spans_between_standards() -> None:
    made = batch(samples(2), controls("lower"), samples(3), line("flush"), BLANK, samples(1))
    spans = spans_between_standards(made)
    assert [(s.samples, s.opened, s.closed) for s in spans] == [(2, False, True), (4, True, False)]


def test_a_switch_passes_over_what_measures_nothing() -> None:
    made = batch(samples(1), line("conditioning", method="b"), line("sample", "x", method="b"))
    (switch,) = switches(made)
    assert (switch.before.index, switch.after.index, len(switch.between)) == (0, 2, 1)


def test_flush_volumes() -> None:
    made = batch(
        line("flush", flush_volume="5 mL", duration="2 min"),
        line("flush", flow="2 mL/min", duration="3 min"),
        line("flush", duration="3 min"),
    )
    volumes = [round(flush_volume(item, None) * 1e6, 9) for item in made.lines]
    assert volumes == [5.0, 6.0, 0.0]


def test_lines_in_words() -> None:
    made = batch(samples(9))
    assert lines_in_words(made.lines[:1]) == "line 1"
    assert lines_in_words(made.lines[:3]) == "lines 1, 2 and 3"
    assert lines_in_words(made.lines) == "lines 1, 2, 3, 4, 5, 6 and 3 more"


def test_ten_thousand_lines_take_ten_times_what_a_thousand_take() -> None:
    one = batch(samples(1))
    line_run = one.lines[0]
    from dataclasses import replace

    def asked(count: int):
        many = replace(one, lines=tuple(replace(line_run, index=n) for n in range(count)))

        def ask() -> None:
            ends_of_highest(many)
            spans_between_standards(many)
            switches(many)
            duplicates(data_files(many, None))

        return many, ask

    many, ask_all = asked(10_000)
    _, ask_some = asked(1_000)
    ask_some()
    assert calls_of(ask_all) <= 12 * calls_of(ask_some)
    assert sum(item.injections for item in many.lines) == 10_000
