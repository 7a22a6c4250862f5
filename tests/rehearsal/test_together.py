"""Looking at many runs together gives each the figures that it would find alone."""

from __future__ import annotations

import numpy as np

from methodlint.rehearsal.plan.run_plan import RunPlan, plan_run
from methodlint.rehearsal.run.along_column import greatest_cooling
from methodlint.rehearsal.run.precomputed import precompute
from methodlint.rehearsal.run.rehearsal import Rehearsal
from methodlint.rehearsal.run.rehearse import rehearse_many
from methodlint.rulebook.examples import lab_with

_PROGRAMME = """
kind: method
oven_temperature: {oven} degC
outlet_pressure: {outlet} bar
programme:
  - {{time: 0 min, modifier_share: {low} % v/v}}
  - {{time: 4 min, modifier_share: {high} % v/v}}
run_length: 5 min
settling_time: 3 min
"""


def plans() -> list[RunPlan]:
    found = []
    for oven, outlet, low, high in ((35, 130, 4, 40), (39, 105, 2, 20), (20, 150, 5, 8)):
        text = _PROGRAMME.format(oven=oven, outlet=outlet, low=low, high=high)
        documents = lab_with(text)
        found.append(plan_run(documents["method"], (documents["column"],), documents["instrument"]))
    return found


def figures(run: Rehearsal) -> tuple[np.ndarray, np.ndarray, float, float, float]:
    cooling = greatest_cooling(run)
    return (
        run.outlet_compressibility,
        run.outlet_expansivity,
        cooling.value,
        cooling.band,
        cooling.time,
    )


def test_figures_found_together_are_those_found_alone() -> None:
    together = rehearse_many(plans())
    precompute(together)
    alone = [rehearse_many([plan])[0] for plan in plans()]
    assert all("outlet_compressibility" in vars(run) for run in together)
    for one, other in zip(together, alone, strict=True):
        assert "outlet_compressibility" not in vars(other)
        for first, second in zip(figures(one), figures(other), strict=True):
            np.testing.assert_allclose(first, second, rtol=1e-9, atol=0.0)


def test_what_cannot_be_rehearsed_is_passed_over() -> None:
    precompute([])
    plan = plan_run(lab_with("kind: method")["method"], (), None)
    runs = rehearse_many([plan, plan])
    precompute(runs)
    for run in runs:
        assert not run.done
        assert not {"outlet_compressibility", "heater_load"} & vars(run).keys()
