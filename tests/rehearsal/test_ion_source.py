"""What reaches a source: products of flow, share and split by hand."""

from __future__ import annotations

import numpy as np
import pytest

from methodlint.documents.kinds.method import Makeup
from methodlint.rehearsal.bench.ion_source import SourceLoad, source_load, split_drift, splitter_of
from methodlint.rehearsal.plan.makeup_flow import makeup_flow_at, mean_makeup_flow
from methodlint.rulebook.examples import lab_with
from tests.rehearsal.runs import rehearsed

ML_PER_MIN = 1e-6 / 60.0
MAKEUP = "kind: method\nmakeup: {liquid: methanol, flow: 0.2 mL/min, tee: after the regulator}\n"
TRAIN = """---
kind: instrument
train:
  - {part: mixer, name: mixer, volume: 0.2 mL}
  - {part: column}
  - {part: splitter, name: splitter, split_ratio: 10 %}
  - {part: regulator, name: regulator}
"""


def _load(text: str) -> SourceLoad:
    documents = lab_with(text)
    load = source_load(rehearsed(text), documents["method"], documents["instrument"])
    assert load is not None
    return load


def test_whole_stream() -> None:
    load = _load(MAKEUP)
    assert load.splitter is None
    assert load.modifier.min() == pytest.approx(0.075 * ML_PER_MIN, rel=1e-3)
    assert load.modifier.max() == pytest.approx(0.6 * ML_PER_MIN, rel=1e-2)
    assert load.liquid.min() == pytest.approx(0.275 * ML_PER_MIN, rel=1e-3)


def test_a_splitter_divides_modifier_and_gas_and_leaves_makeup_alone() -> None:
    whole, part = _load(MAKEUP), _load(MAKEUP + TRAIN)
    assert part.split == pytest.approx(0.1)
    assert part.modifier.max() == pytest.approx(0.1 * whole.modifier.max(), rel=0.02)
    assert part.gas.max() == pytest.approx(0.1 * whole.gas.max(), rel=0.02)
    assert part.makeup.max() == pytest.approx(whole.makeup.max())


def test_gas_by_the_mass_and_the_density() -> None:
    """1.839 kg/m3 at 20 degC and 1 atm (Span and Wagner 1996)."""
    text = "kind: method\nprogramme: []\nmobile_phase: {modifier_share: 20 % v/v}\n"
    mass = rehearsed(text).co2_mass_flow.max()
    assert _load(text).gas.max() == pytest.approx(mass / 1.839, rel=1e-3)


def test_heat_that_evaporates_methanol() -> None:
    """37.4 kJ/mol, 32.04 g/mol (CRC Handbook of Chemistry and Physics), 792 kg/m3 at 20 degC."""
    load = _load("")
    assert load.evaporation is not None
    expected = load.modifier.max() * 792.0 * 37.4e3 / 0.03204
    assert load.evaporation.max() == pytest.approx(expected, rel=0.01)


def test_a_splitter_without_ratio_gives_nothing() -> None:
    text = MAKEUP + TRAIN.replace(", split_ratio: 10 %", "")
    documents = lab_with(text)
    assert splitter_of(documents["instrument"].model) == 2  # type: ignore[arg-type]
    assert source_load(rehearsed(text), documents["method"], documents["instrument"]) is None


def test_split_of_an_isocratic_run_stays() -> None:
    text = "kind: method\nprogramme: []\nmobile_phase: {modifier_share: 20 % v/v}\n"
    assert split_drift(rehearsed(text)).change == pytest.approx(0.0, abs=1e-9)


def test_split_follows_viscosity() -> None:
    drift = split_drift(rehearsed(""))
    assert drift.highest / drift.lowest == pytest.approx(drift.thickest / drift.thinnest, rel=1e-3)


def test_makeup_programme_is_linear_between_its_rows() -> None:
    rows = [{"time": "0 min", "flow": "0.3 mL/min"}, {"time": "4 min", "flow": "0.1 mL/min"}]
    makeup = Makeup.model_validate({"programme": rows})
    flow = makeup_flow_at(makeup, np.array([0.0, 120.0, 240.0, 600.0])) / ML_PER_MIN
    assert flow == pytest.approx([0.3, 0.2, 0.1, 0.1])
    # 4 min at 0.2 and 6 min at 0.1 mL/min
    assert mean_makeup_flow(makeup, 600.0) / ML_PER_MIN == pytest.approx(0.14)


def test_no_makeup_is_no_flow() -> None:
    assert makeup_flow_at(None, [0.0, 1.0]) == pytest.approx([0.0, 0.0])
    assert mean_makeup_flow(None, 60.0) == 0.0
