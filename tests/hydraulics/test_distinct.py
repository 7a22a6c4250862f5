"""Each value once, rising: the same as numpy's own, which imports more than it is worth."""

from __future__ import annotations

import numpy as np
import pytest

from methodlint.hydraulics.distinct import distinct


@pytest.mark.parametrize(
    "values", [[], [3.0], [2.0, 1.0, 2.0], [[1.0, 3.0], [3.0, 0.0]], [0.1 + 0.2, 0.3]]
)
def test_as_the_library_does(values: list[float]) -> None:
    np.testing.assert_array_equal(distinct(np.array(values)), np.unique(np.array(values)))
