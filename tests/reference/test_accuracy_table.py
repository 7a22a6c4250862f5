"""The accuracy table: how it rounds, what it tolerates, what it must contain."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.reference import accuracy
from tests.reference.accuracy import PAGE, differences, main, table
from tests.reference.accuracy_row import Row, apart, per_cent, rounded, spread


@pytest.mark.parametrize(
    ("value", "shown"),
    [
        (0.0, "< 0.001"),
        (0.00099, "< 0.001"),
        (0.00123, "0.0012"),
        (0.037, "0.037"),
        (1.449, "1.4"),
        (9.41, "9.4"),
        (22.4, "22"),
        (216.0, "216"),
    ],
)
def test_errors_have_two_figures(value: float, shown: str) -> None:
    assert rounded(value) == shown


def test_an_error_that_is_no_number_is_refused() -> None:
    with pytest.raises(ValueError, match="has to be a number"):
        rounded(float("nan"))


def test_errors_are_relative_or_differences() -> None:
    assert per_cent([1.01, 1.98], [1.0, 2.0]) == pytest.approx((1.0, -1.0))
    assert apart([310.0], [300.0]) == pytest.approx((10.0,))
    row = Row("q", "r", "s", "measured", (1.0, -3.0), "K")
    assert row.cells() == ["q", "r", "s", "measured", "2", "2.0 K", "3.0 K"]


def test_what_was_not_compared_says_so() -> None:
    assert Row("q", "-", "s", "not compared").cells()[4:] == ["0", "-", "-"]


LINE = "| density | 1 bar | a book | handbook | 4 | {} % | {} % |"


@pytest.mark.parametrize(
    ("shown", "now", "stale"),
    [
        (("1.4", "2.4"), ("1.4", "2.4"), False),
        (("1.4", "2.4"), ("1.5", "2.4"), False),
        (("1.4", "2.4"), ("1.6", "2.4"), True),
        (("1.4", "22"), ("1.4", "23"), False),
        (("1.4", "22"), ("1.4", "25"), True),
        (("0.0010", "1.0"), ("< 0.001", "1.0"), False),
        (("0.010", "1.0"), ("< 0.001", "1.0"), True),
    ],
)
def test_one_unit_of_the_last_digit_is_no_reason(
    shown: tuple[str, str], now: tuple[str, str], stale: bool
) -> None:
    assert bool(differences(LINE.format(*shown), LINE.format(*now))) is stale


def test_other_words_another_count_and_another_line_are_stale() -> None:
    line = LINE.format("1.4", "2.4")
    assert differences(line, line.replace("a book", "another book"))
    assert differences(line, line.replace("| 4 |", "| 5 |"))
    assert differences(line, line + "\n" + line)


def test_points_fill_the_box_evenly_and_are_always_the_same() -> None:
    first, second = spread(400, (0.0, 1.0), (2.0, 4.0))
    again, _ = spread(400, (0.0, 1.0), (2.0, 4.0))
    assert (first == again).all()
    for low in (0.0, 0.25, 0.5, 0.75):
        inside = (first >= low) & (first < low + 0.25)
        assert inside.sum() == pytest.approx(100, abs=3)
        assert second[inside].min() < 2.1
        assert second[inside].max() > 3.9


def test_the_page_has_the_table_and_its_columns() -> None:
    shown = PAGE.read_text(encoding="utf-8")
    assert table([])[0] in shown
    for trust in ("measured", "reference equation", "handbook", "unverified", "not compared"):
        assert f"| {trust} |" in shown


def test_the_check_fails_where_a_figure_was_changed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    row = Row("density", "1 bar", "a book", "handbook", (1.0, 2.0))
    monkeypatch.setattr(accuracy, "rows", lambda: [row])
    page = tmp_path / "ACCURACY.md"
    monkeypatch.setattr(accuracy, "PAGE", page)
    assert main(["--check"]) == 1
    assert main([]) == 0
    assert main(["--check"]) == 0
    text = page.read_text(encoding="utf-8")
    page.write_text(text.replace("2.0 %", "3.0 %"), encoding="utf-8")
    assert main(["--check"]) == 1
    assert "stale" in capsys.readouterr().out
