"""Rehearses only what a test looks at, and the same documents once for all tests of a folder.

A `conftest.py` imports the fixture. Nobody changes a rehearsal, and none depends on what else is
rehearsed with it or when, so no finding depends on this; it saves most of the time where hundreds
of tests change one document of a lab and ask one rule, which may not need the run at all.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import cache, lru_cache, partial
from typing import Any

import pytest

from methodlint.checking import assemble
from methodlint.rehearsal.batch.lines import Batch, rehearse_batch
from methodlint.rehearsal.plan.run_plan import RunPlan, plan_run
from methodlint.rehearsal.run.rehearsal import Rehearsal
from methodlint.rehearsal.run.rehearse import rehearse_many

# Each has arrays of about a megabyte; the latest are kept.
_MOST_KEPT = 64
_kept: dict[tuple[Any, ...], Rehearsal] = {}


def _when_asked(kind: type[Any], make: Callable[[], Any]) -> Any:
    """Give an object that is made when any of its attributes is looked at."""

    class Later(kind):  # type: ignore[misc]
        def __getattribute__(self, name: str) -> Any:
            made = vars(make())
            object.__setattr__(self, "__class__", kind)
            vars(self).update(made)
            return getattr(self, name)

    return object.__new__(Later)


def _key(plan: RunPlan) -> tuple[Any, ...]:
    """The same for plans of the same documents and settings: a line of a sequence has its own."""
    known = plan.programme
    arrays = (known.flow, known.share, known.outlet_pressure) if known is not None else ()
    settings = tuple(values.tobytes() for values in arrays)
    return plan.method, plan.instrument, plan.columns, plan.train, id(plan.fluid), settings


def _rehearse_once(plans: Sequence[RunPlan]) -> list[Rehearsal]:
    keys = [_key(plan) for plan in plans]
    found = {key: _kept.pop(key) for key in dict.fromkeys(keys) if key in _kept}
    new = {key: plan for key, plan in zip(keys, plans, strict=True) if key not in found}
    # What is asked for together is marched together.
    together = cache(partial(rehearse_many, list(new.values())))
    for number, key in enumerate(new):
        found[key] = _when_asked(Rehearsal, lambda number=number: together()[number])
    _kept.update(found)
    for key in list(_kept)[:-_MOST_KEPT]:
        del _kept[key]
    return [found[key] for key in keys]


def _rehearse_batch_when_asked(*given: Any) -> Batch:
    made: Batch = _when_asked(Batch, partial(rehearse_batch, *given))
    return made


@pytest.fixture(scope="package", autouse=True)
def rehearsed_once() -> Iterator[None]:
    """Rehearse late and once for as long as tests of the folder run."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(assemble, "plan_run", lru_cache(_MOST_KEPT)(plan_run))
        patch.setattr(assemble, "rehearse_many", _rehearse_once)
        patch.setattr(assemble, "rehearse_batch", _rehearse_batch_when_asked)
        patch.setattr(assemble, "precompute", lambda runs: None)
        yield
    _kept.clear()
