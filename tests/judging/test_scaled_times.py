"""A lower flow keeps the volumes at which everything happens: flow times time does not change."""

from __future__ import annotations

import copy
from itertools import accumulate
from typing import Any

import pytest

import methodlint
from methodlint.checking.changed import put
from methodlint.rulebook.examples import lab_with
from tests.rules.harness import findings
from tests.text_labs import EXAMPLES


def test_every_volume_of_the_programme_is_kept() -> None:
    report = methodlint.check(EXAMPLES / "flawed" / "dye-rich-end-too-fast.yaml")
    (found,) = [f for f in report.findings if f.rule == "pressure.column-rating-exceeded"]
    (change,) = {one.changes for one in found.solutions}
    method = change[0].at.document.model
    values = {"/".join(map(str, one.at.path)): str(one.value) for one in change}
    flow = float(values.pop("flow").split()[0]) / 6e7
    part = flow / method.flow.si
    assert part < 1.0
    before = {"run_length": method.run_length.si} | {
        f"programme/{n}/time": row.time.si for n, row in enumerate(method.programme)
    }
    for where, time in before.items():
        assert float(values[where].split()[0]) * 60.0 * part == pytest.approx(time, rel=1e-3)


def test_a_finding_without_too_much_pressure_changes_no_time() -> None:
    report = methodlint.check(EXAMPLES / "flawed" / "terpenoids-hot-and-low.yaml")
    paths = [c.at.path for f in report.findings for s in f.solutions for c in s.changes]
    assert paths
    assert not any(path[-1] in ("time", "run_length") for path in paths)


WASH = """
kind: method
programme:
  - {time: 0 min, modifier_share: 5 % v/v, flow: 1.5 mL/min}
  - {time: 5 min, modifier_share: 40 % v/v}
  - {time: 6 min, modifier_share: 40 % v/v, flow: FLOW}
  - {time: 8 min, modifier_share: 40 % v/v}
  - {time: 8.5 min, modifier_share: 5 % v/v, flow: 1.5 mL/min}
run_length: 10 min
"""


def test_a_row_that_is_lowered_lasts_longer_for_the_same_volume() -> None:
    """The wash from 6 to 8 min and both ramps of flow beside it; what comes behind is later."""
    texts = lab_with(WASH.replace("FLOW", "3 mL/min"))
    (method,) = [one for one in texts.values() if one.kind == "method"]
    found = [
        one
        for one in findings(WASH.replace("FLOW", "3 mL/min"), "pressure.column-rating-exceeded")
        if one.solutions
    ]
    (solution,) = found[0].solutions
    assert "for the same volume" in solution.text
    data = copy.deepcopy(method.data)
    for change in solution.changes:
        put(data, change.at.path, change.value)
    assert _volumes(data["programme"]) == pytest.approx(
        _volumes(method.data["programme"]), rel=5e-3
    )
    last = data["programme"][-1]["time"]
    late = float(last.split()[0]) - 8.5
    assert late > 0.0
    assert float(data["run_length"].split()[0]) == pytest.approx(10.0 + late, rel=1e-3)


def _volumes(rows: list[dict[str, Any]]) -> list[float]:
    """Volume between each two rows [mL]; flows run straight."""
    times = [float(row["time"].split()[0]) for row in rows]
    flows = list(accumulate((row.get("flow") for row in rows), lambda old, new: new or old))
    flow = [float(str(value).split()[0]) for value in flows]
    return [(times[n + 1] - times[n]) * (flow[n] + flow[n + 1]) / 2.0 for n in range(len(rows) - 1)]
