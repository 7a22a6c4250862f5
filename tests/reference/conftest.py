"""Prints the accuracy table after `pytest tests/reference`."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

HERE = Path(__file__).resolve().parent


def pytest_terminal_summary(terminalreporter: Any, config: pytest.Config) -> None:
    """Print the table where this folder, and nothing else, was asked for."""
    asked = [Path(config.invocation_params.dir, str(a).partition("::")[0]) for a in config.args]
    if [path.resolve() for path in asked] != [HERE]:
        return
    from tests.reference.accuracy import rows, table

    terminalreporter.section("accuracy")
    for line in table(rows()):
        terminalreporter.write_line(line)
