"""The example notebook runs from top to bottom."""

from __future__ import annotations

from pathlib import Path

import pytest

NOTEBOOK = Path(__file__).resolve().parent.parent / "example_methods" / "a_run_in_a_notebook.ipynb"


@pytest.mark.second_reader
def test_the_notebook_runs() -> None:
    nbformat = pytest.importorskip("nbformat")
    client = pytest.importorskip("nbclient")
    notebook = nbformat.read(NOTEBOOK, as_version=4)
    nbformat.validate(notebook)
    assert not any(cell.get("outputs") for cell in notebook.cells), "outputs are not kept"
    client.NotebookClient(
        notebook, timeout=120, resources={"metadata": {"path": str(NOTEBOOK.parent)}}
    ).execute()
    shown = [
        output["data"]["text/html"]
        for cell in notebook.cells
        for output in cell.get("outputs", ())
        if "text/html" in output.get("data", {})
    ]
    assert len(shown) == 4
    assert "<strong>do not run</strong>" in shown[0]
    assert "clear to run" in shown[-1]
