"""Rehearse changes of the sound lab without judging them."""

from __future__ import annotations

from methodlint.judging.examples import lab_with
from methodlint.rehearsal.rehearsal import Rehearsal
from methodlint.rehearsal.rehearse import rehearse
from methodlint.rehearsal.run_plan import RunPlan, plan_run


def planned(changes: str) -> RunPlan:
    documents = lab_with(changes)
    return plan_run(documents["method"], (documents["column"],), documents["instrument"])


def rehearsed(changes: str) -> Rehearsal:
    run = rehearse(planned(changes))
    assert run.done, run.missing
    return run
