"""What holds for every test."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest
from hypothesis import settings

# No test is timed, and the same examples come in every run: a failure is never a matter of luck.
settings.register_profile("steady", deadline=None, derandomize=True)
settings.load_profile("steady")

_CHOSEN_BY_TEXT = ("long", "second_reader")


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Refuse a marker that `.ci/run` would not find: it reads the files that name it alone."""
    text = cache(Path.read_text)
    for item in items:
        for name in _CHOSEN_BY_TEXT:
            if item.get_closest_marker(name) and f"mark.{name}" not in text(item.path):
                raise pytest.UsageError(f"{item.path}: write pytest.mark.{name} in this file")
