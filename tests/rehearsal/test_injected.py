"""What a method injects, and how strong a liquid or mobile phase elutes (common practice)."""

from __future__ import annotations

import pytest

from methodlint.rehearsal.batch.injected import injected, liquid_strength, mobile_phase_strength
from methodlint.rulebook.examples import lab_with
from tests.work_done import calls_of


def test_without_a_sequence_the_method_speaks() -> None:
    documents = lab_with("kind: method\ninjection: {volume: 3 uL, diluent: EtOH}")
    (only,) = injected({"method": documents["method"]})
    assert only.volume == pytest.approx(3e-9)
    assert (only.words, only.first_line) == ("ethanol", None)
    assert only.volume_at.path == ("injection", "volume")


def test_lines_are_grouped_by_volume_and_diluent() -> None:
    documents = lab_with(
        "kind: sequence\nlines:\n"
        "  - {kind: blank, sample: b, well: A1}\n"
        "  - {kind: sample, sample: x, well: A2, volume: 5 uL}\n"
        "  - {kind: sample, sample: y, well: A3, volume: 5 uL}\n"
        "  - {kind: sample, sample: z, well: A4, volume: 5 uL, diluent: heptane}\n"
        "  - {kind: flush, liquid: methanol, duration: 5 min}\n"
        "  - {kind: sample, sample: q, well: A5, volume: 9 uL, method: another}\n"
    )
    groups = injected(documents)
    assert [g.volume for g in groups] == pytest.approx([2e-9, 5e-9, 5e-9])
    assert [(g.words, g.first_line, g.lines) for g in groups] == [
        ("2-propanol", 0, (0,)),
        ("2-propanol", 1, (1, 2)),
        ("n-heptane", 3, (3,)),
    ]
    assert [at.path for at in groups[1].volume_places] == [
        ("lines", 1, "volume"),
        ("lines", 2, "volume"),
    ]
    assert [at.path for at in groups[1].diluent_places] == [("diluent",)]


def test_nothing_written_is_not_known() -> None:
    documents = lab_with("kind: method\ninjection: null")
    (only,) = injected({"method": documents["method"]})
    assert only.volume is None
    assert only.components == ()


def test_order_of_strengths() -> None:
    order = ["heptane", "MTBE", "acetonitrile", "ethanol", "methanol"]
    ranks = [liquid_strength(((name, 1.0),)) for name in order]
    assert all(rank is not None for rank in ranks)
    assert ranks == sorted(ranks, key=float)  # type: ignore[arg-type]
    assert liquid_strength((("2-propanol", 1.0),)) == liquid_strength((("acetonitrile", 1.0),))


def test_a_blend_lies_between_its_liquids_whatever_the_sum_of_shares() -> None:
    half = liquid_strength((("2-propanol", 0.5), ("heptane", 0.5)))
    assert half == pytest.approx(2.0)
    assert liquid_strength((("2-propanol", 5.0), ("heptane", 5.0))) == pytest.approx(half)


def test_what_is_not_known_has_no_strength() -> None:
    assert liquid_strength((("moonshine", 1.0),)) is None
    assert liquid_strength(()) is None
    assert mobile_phase_strength((), 0.2) is None


def test_more_modifier_is_stronger_and_none_is_like_an_alkane() -> None:
    methanol = (("methanol", 1.0),)
    assert mobile_phase_strength(methanol, 0.0) == liquid_strength((("heptane", 1.0),))
    lean, rich = mobile_phase_strength(methanol, 0.05), mobile_phase_strength(methanol, 0.4)
    assert lean is not None and rich is not None and lean < rich
    assert mobile_phase_strength(methanol, 1.0) == liquid_strength(methanol)


def test_ten_thousand_lines() -> None:
    lines = "".join(f"  - {{kind: sample, sample: s{n}, well: A1}}\n" for n in range(500))
    documents = lab_with("kind: sequence\nlines:\n" + lines)
    model = documents["sequence"].model
    written = model.lines  # type: ignore[attr-defined]
    work = []
    for times in (2, 20):
        object.__setattr__(model, "lines", written * times)
        (group,) = injected(dict(documents))
        assert len(group.lines) == 500 * times
        work.append(calls_of(lambda: injected(dict(documents))))
    assert work[1] <= 12 * work[0]
