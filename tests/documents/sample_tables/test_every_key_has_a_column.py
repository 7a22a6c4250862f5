"""Every key of a line can stand in a table."""

from __future__ import annotations

from methodlint.documents.kinds.sequence import Line
from methodlint.documents.tables.headers import COLUMNS


def test_columns_and_keys_are_the_same() -> None:
    assert set(COLUMNS) == set(Line.model_fields)
