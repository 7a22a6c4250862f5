"""Very many small cases as one test that names every case that fails.

For cases that share nothing and take well under a millisecond each, where an item of pytest costs
more than the case. A test whose cases each deserve a line of their own is parametrized as usual.
"""

from __future__ import annotations

import functools
import inspect
import traceback
from collections.abc import Callable, Iterable
from typing import Any

__all__ = ["all_at_once"]

_SHOWN = 20


def all_at_once(
    names: str, cases: Iterable[Any]
) -> Callable[[Callable[..., None]], Callable[..., None]]:
    """Run a test for every case, then fail with all cases that failed.

    Parameters
    ----------
    names
        Arguments of the test that a case gives, with commas between them.
    cases
        A value per case, or a tuple of values where there are several names. At least one.

    Raises
    ------
    AssertionError
        From the test: what failed, with the case and the line.
    """
    wanted = [name.strip() for name in names.split(",")]
    held = [dict(zip(wanted, case if wanted[1:] else (case,), strict=True)) for case in cases]
    assert held, "no case"

    def decorate(test: Callable[..., None]) -> Callable[..., None]:
        @functools.wraps(test)
        def whole(**fixtures: Any) -> None:
            failed = []
            for case in held:
                try:
                    test(**fixtures, **case)
                except Exception as error:
                    line = traceback.extract_tb(error.__traceback__)[-1].lineno
                    failed.append(f"{case} at line {line}: {type(error).__name__}: {error}")
            if failed:
                more = [f"and {len(failed) - _SHOWN} more"] if failed[_SHOWN:] else []
                head = f"{len(failed)} of {len(held)} cases failed"
                raise AssertionError("\n".join([head, *failed[:_SHOWN], *more]))

        signature = inspect.signature(test)
        kept = [one for name, one in signature.parameters.items() if name not in wanted]
        whole.__signature__ = signature.replace(parameters=kept)  # type: ignore[attr-defined]
        return whole

    return decorate
