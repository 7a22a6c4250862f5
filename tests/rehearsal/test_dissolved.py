"""Salts: ammonium acetate 20 mM at 90 %, 10 mM at 95 % and none in neat acetonitrile (a practice column
after a published figure, secondary); ethanol 10 to 20 mM, 2-propanol 5 to 10 mM (common practice, no
source). 0.1 % v/v formic acid: 1.22 g/mL over 46.03 g/mol are 26.5 mM."""

from __future__ import annotations

import math

import pytest

from methodlint.documents.kinds.base import Liquid
from methodlint.rehearsal.contacts.dissolved import (
    Dissolved,
    dissolved_in,
    level_of,
    salt_limit_in,
    water_share,
)


def _one(liquid: dict[str, object], additive: str, level: str | None) -> Dissolved:
    written: dict[str, object] = {"additive": additive}
    if level is not None:
        written["level"] = level
    (part,) = dissolved_in(Liquid.model_validate({**liquid, "additives": [written]}))
    return part


def _blend(**shares: float) -> dict[str, object]:
    return {"liquids": [{"liquid": name, "share": f"{part} %"} for name, part in shares.items()]}


@pytest.mark.parametrize(("water", "limit"), [(10, 20.0), (5, 10.0)])
def test_acetate_in_aqueous_acetonitrile(water: int, limit: float) -> None:
    part = _one(_blend(acetonitrile=100 - water, water=water), "NH4OAc", "5 mM")
    assert part.limit == pytest.approx(limit)
    assert part.limit_kind == "table"


def test_acetate_in_neat_acetonitrile() -> None:
    assert _one({"liquid": "ACN"}, "ammonium acetate", "5 mM").limit == 0.0


@pytest.mark.parametrize(("name", "low", "high"), [("EtOH", 10.0, 20.0), ("IPA", 5.0, 10.0)])
def test_spans_in_alcohols(name: str, low: float, high: float) -> None:
    part = _one({"liquid": name}, "ammonium formate", "5 mM")
    assert (part.limit, part.upper_limit) == pytest.approx((low, high))


def test_acids_mix() -> None:
    part = _one({"liquid": "methanol"}, "formic acid", "0.1 % v/v")
    assert part.limit == math.inf
    assert part.concentration == pytest.approx(26.5, rel=0.01)
    assert not part.salt


def test_a_blend_is_an_estimate_between_its_ends() -> None:
    part = _one(
        {"liquids": [{"liquid": "methanol", "share": "50 %"}, {"liquid": "ACN", "share": "50 %"}]},
        "ammonium formate",
        "5 mM",
    )
    assert part.limit_kind == "estimate"
    assert part.limit is not None
    # the log-linear model halves the logarithms: sqrt(50 x 1) mM
    assert part.limit == pytest.approx(math.sqrt(50.0), rel=1e-6)


def test_unknown_additive_level_and_limit() -> None:
    part = _one({"liquid": "methanol"}, "unobtainium chloride", "5 mM")
    assert part.additive is None
    assert _one({"liquid": "methanol"}, "ammonium formate", None).concentration is None
    assert _one({"liquid": "methanol"}, "ammonium fluoride", "1 mM").limit is None


def test_a_level_of_the_whole_mobile_phase_is_no_level_of_the_liquid() -> None:
    liquid = Liquid.model_validate(
        {"liquid": "methanol", "additives": [{"additive": "AmF", "level": "1 mM", "of": "total"}]}
    )
    assert level_of(liquid.additives[0]) is None


def test_water_counts_from_blend_and_additive() -> None:
    blend = Liquid.model_validate(_blend(methanol=95, water=5))
    added = Liquid.model_validate(
        {"liquid": "methanol", "additives": [{"additive": "water", "level": "5 % v/v"}]}
    )
    assert water_share(blend) == pytest.approx(0.05)
    assert water_share(added) == pytest.approx(0.05)


def test_two_liquids_together_hold_less() -> None:
    part = _one({"liquid": "methanol"}, "ammonium formate", "20 mM")
    assert part.additive is not None
    methanol = Liquid.model_validate({"liquid": "methanol"})
    half = salt_limit_in(part.additive, methanol, (("acetonitrile", 1.0),), 0.5)
    assert half is not None
    assert half == pytest.approx(math.sqrt(50.0), rel=1e-6)
    assert salt_limit_in(part.additive, methanol, (("toluene-like", 1.0),), 0.5) is None


def test_phosphate_in_dry_methanol_holds_none() -> None:
    """Not at 70 % organic and above (common practice, no source), so not in the dry liquid."""
    assert _one({"liquid": "methanol"}, "KH2PO4", "5 mM").limit == 0.0
