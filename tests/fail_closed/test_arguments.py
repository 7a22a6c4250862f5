"""From Python: an argument of another type is refused at the border, not passed over in silence."""

from __future__ import annotations

import datetime
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

import methodlint
from methodlint.checking.given import Given
from tests.fail_closed.lab import BATCH, METHOD, day_batch

check, check_many = methodlint.check, methodlint.check_many
OPTIONS: dict[str, Any] = {
    "date as text": {"as_of": "2026-01-01"},
    "moment": {"as_of": datetime.datetime(2026, 1, 1)},
    "year": {"as_of": 2026},
    "earliest date as text": {"not_before": "2026-01-01"},
    "folder that is none": {"shown_from": 3},
    "figure as text": {"given": ["supply.net_mass=12.5 kg"]},
    "figures as one text": {"given": "supply.net_mass=12.5 kg"},
    "figures as a mapping": {"given": {"supply.net_mass": "12.5 kg"}},
    "flag as text": {"changed": "no"},
    "one rule folder": {"allow_rules": "our-rules"},
    "one path of a rule folder": {"allow_rules": Path("our-rules")},
    "numbers for folders": {"allow_rules": [1]},
}


@pytest.mark.parametrize("options", OPTIONS.values(), ids=OPTIONS)
@pytest.mark.parametrize("many", [False, True])
def test_options_of_a_check(tmp_path: Path, options: dict[str, Any], many: bool) -> None:
    file = day_batch(tmp_path) / BATCH
    (name,) = options
    with pytest.raises(TypeError, match=f"^{name}: "):
        _ = check_many([file], **options) if many else check(file, **options)


WRONG: dict[str, Callable[[Path], object]] = {
    "paths: list": lambda lab: check([lab / BATCH]),  # type: ignore[arg-type]
    "paths: bytes": lambda lab: check(bytes(lab / BATCH)),  # type: ignore[arg-type]
    "paths: none": lambda lab: check(None),  # type: ignore[arg-type]
    "paths: text": lambda lab: check_many(str(lab)),
    "paths: one path": lambda lab: check_many(lab),  # type: ignore[arg-type]
    "paths: numbers": lambda lab: check_many([1]),  # type: ignore[list-item]
    "executor": lambda lab: check_many([lab / BATCH], 2),  # type: ignore[arg-type]
    "rules": lambda lab: check(lab / BATCH, rules=["pressure.pump-limit"]),  # type: ignore[list-item]
    "method: rehearse": lambda lab: methodlint.rehearse(3),  # type: ignore[arg-type]
    "instrument": lambda lab: methodlint.rehearse(lab / METHOD, Path("bench-a")),  # type: ignore[arg-type]
    "method: transfer": lambda lab: methodlint.transfer(None, to="bench-b"),  # type: ignore[arg-type]
    "to": lambda lab: methodlint.transfer(lab / METHOD, to=None),  # type: ignore[arg-type]
    "column": lambda lab: methodlint.transfer(lab / METHOD, "bench-b", 3),  # type: ignore[arg-type]
    "keep": lambda lab: methodlint.transfer(lab / METHOD, "bench-b", keep=True),  # type: ignore[arg-type]
    "shorten": lambda lab: methodlint.transfer(lab / METHOD, "bench-b", shorten="no"),  # type: ignore[arg-type]
    "allowances": lambda lab: methodlint.transfer(lab / METHOD, "bench-b", allowances=None),  # type: ignore[arg-type]
    "output": lambda lab: methodlint.transfer(lab / METHOD, "bench-b", output=1),  # type: ignore[arg-type]
}


@pytest.mark.parametrize("name", WRONG)
def test_arguments(tmp_path: Path, name: str) -> None:
    with pytest.raises(TypeError, match=f"^{name.partition(':')[0]}: "):
        WRONG[name](day_batch(tmp_path))


def test_a_word_that_is_not_known(tmp_path: Path) -> None:
    method = day_batch(tmp_path) / METHOD
    with pytest.raises(ValueError, match="separation, duration"):
        methodlint.transfer(method, "bench-b", keep="both")  # type: ignore[arg-type]
    with pytest.raises(ValueError, match="pharmacopoeial"):
        methodlint.transfer(method, "bench-b", allowances="usual")  # type: ignore[arg-type]


def test_silent_for_what_is_meant(tmp_path: Path) -> None:
    lab = day_batch(tmp_path)
    options: dict[str, Any] = {
        "as_of": datetime.date(2026, 11, 24),
        "given": (Given.read("supply.net_mass=30 kg"),),
        "changed": True,
        "allow_rules": (),
    }
    assert check(lab / BATCH, str(lab / METHOD), **options).verdict == "clear to run"
    named = (file for file in (lab / BATCH, str(lab / METHOD)))
    assert check_many(named, None, **options).verdict == "clear to run"
    assert methodlint.rehearse(str(lab / METHOD), "bench-a").done
    assert methodlint.transfer(lab / METHOD, "bench-b", keep="duration", output="x.yaml").entries
