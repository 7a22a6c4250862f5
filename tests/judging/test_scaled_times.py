"""A lower flow keeps the volumes at which everything happens: flow times time does not change."""

from __future__ import annotations

import pytest

import methodlint
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
