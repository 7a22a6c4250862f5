"""The example that plots a run; only where matplotlib is there."""

from __future__ import annotations

import runpy
from pathlib import Path

import numpy as np
import pytest

import methodlint

EXAMPLE = Path(__file__).resolve().parent.parent / "example_methods" / "plot_a_run.py"


def test_the_picture_is_written_and_the_table_printed(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    pytest.importorskip("matplotlib").use("Agg")
    names = runpy.run_path(str(EXAMPLE))
    picture = tmp_path / "run.png"
    assert names["main"]([str(names["METHOD"]), str(picture)]) == 0
    assert picture.read_bytes().startswith(b"\x89PNG")
    assert "silica-3um" in capsys.readouterr().out


def test_the_figure_shows_the_arrays_of_the_rehearsal() -> None:
    pytest.importorskip("matplotlib").use("Agg")
    names = runpy.run_path(str(EXAMPLE))
    run = methodlint.rehearse(names["METHOD"])
    top, middle = names["plot"](run).axes[:2]
    np.testing.assert_allclose(top.lines[1].get_ydata(), 100.0 * run.column_outlet_share)
    np.testing.assert_allclose(middle.lines[0].get_ydata(), run.pump_pressure / 1e5)


def test_what_is_missing_is_said_and_nothing_is_plotted(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    names = runpy.run_path(str(EXAMPLE))
    method = tmp_path / "half.yaml"
    method.write_text("kind: method\nflow: 1 mL/min\n", encoding="utf-8")
    (tmp_path / "lab.yaml").write_text("kind: lab\n", encoding="utf-8")
    assert names["main"]([str(method), str(tmp_path / "run.png")]) == 2
    assert "missing: method.column" in capsys.readouterr().err
