"""Dimensions that a column can have.

Source: common practice, no source.
"""

from __future__ import annotations

from methodlint.documents.kinds.column import Column
from methodlint.documents.quantities.plausibility import UsualSpan

__all__ = ["COLUMN_SPANS", "implausible_dimension"]

COLUMN_SPANS: dict[str, UsualSpan] = {
    "length": UsualSpan("column length", "length", 10e-3, 500e-3, "mm"),
    "inner_diameter": UsualSpan("inner diameter", "length", 0.3e-3, 50e-3, "mm"),
    "particle_size": UsualSpan("particle size", "length", 1e-6, 50e-6, "um"),
}


def implausible_dimension(column: Column, name: str) -> bool:
    """Tell whether a dimension is written down and no column has it.

    Parameters
    ----------
    column : Column
        The card.
    name : str
        `length`, `inner_diameter` or `particle_size`.
    """
    value = getattr(column, name)
    return value is not None and not COLUMN_SPANS[name].holds(value.si)
