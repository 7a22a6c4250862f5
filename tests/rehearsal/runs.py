"""Rehearse changes of the sound lab without judging them."""

from __future__ import annotations

from methodlint.rehearsal.plan.run_plan import RunPlan, plan_run
from methodlint.rehearsal.run.rehearsal import Rehearsal
from methodlint.rehearsal.run.rehearse import rehearse
from methodlint.rulebook.examples import lab_with


def planned(changes: str) -> RunPlan:
    documents = lab_with(changes)
    return plan_run(documents["method"], (documents["column"],), documents["instrument"])


def rehearsed(changes: str) -> Rehearsal:
    run = rehearse(planned(changes))
    assert run.done, run.missing
    return run
