"""Diluents that CO2 does not take up (common practice, no source)."""

from __future__ import annotations

import pytest

from methodlint.judging.finding import Finding
from tests.rules.harness import findings, judged

RULE = "injection.diluent-splits"


def watery(percent: int) -> str:
    rest = 100 - percent
    return f"{{liquids: [{{liquid: water, share: {percent} %}}, {{liquid: methanol, share: {rest} %}}]}}"


def said(diluent: str, start: float, volume: str = "2 uL", modifier: str = "MeOH") -> list[Finding]:
    return findings(
        f"kind: method\ninjection: {{volume: {volume}}}\n"
        f"mobile_phase: {{modifier: {{liquid: {modifier}, line: null}}}}\n"
        f"programme: [{{time: 0 min, modifier_share: {start} % v/v}}]\n"
        f"---\nkind: sequence\ndiluent: {diluent}\n",
        RULE,
    )


def test_silent_for_much_alcohol_and_a_small_plug() -> None:
    assert said(watery(50), 15) == []
    assert said(watery(50), 15, "5 uL") == []
    assert len(said(watery(50), 14, "3 uL")) == 1


@pytest.mark.parametrize(
    ("diluent", "start", "volume"),
    [
        ("water", 15, "2 uL"),
        ("water", 20, "2 uL"),
        (watery(50), 20, "1 uL"),
        (watery(50), 20, "5 uL"),
        (watery(70), 20, "2 uL"),
        ("water", 50, "5 uL"),
    ],
)
def test_silent_where_alcohol_takes_the_water_up(diluent: str, start: int, volume: str) -> None:
    assert said(diluent, start, volume) == []


def test_silent_for_water_into_a_stream_of_methanol_alone() -> None:
    assert said("water", 20, "5 uL, stream: modifier") == []


def test_silent_for_little_water() -> None:
    assert said(watery(15), 2) == []
    assert said("methanol", 2, "10 uL") == []


def test_silent_for_2_microlitres_of_dmso() -> None:
    assert said("DMSO", 2, "2 uL") == []
    (finding,) = said("DMSO", 2, "3 uL")
    assert "3 uL of dimethyl sulfoxide" in finding.message


@pytest.mark.parametrize(
    ("percent", "start", "volume", "grade"),
    [
        (40, 3, "1 uL", "fault"),
        (25, 3, "1 uL", "caution"),
        (40, 8, "4 uL", "caution"),
        (40, 8, "2 uL", None),
        (25, 8, "4 uL", None),
    ],
)
def test_water_against_start_and_volume(
    percent: int, start: int, volume: str, grade: str | None
) -> None:
    assert [finding.grade for finding in said(watery(percent), start, volume)] == (
        [grade] if grade else []
    )


@pytest.mark.parametrize(("percent", "start"), [(100, 15), (100, 20), (100, 40), (70, 20)])
def test_more_than_2_microlitres_of_water_into_much_alcohol(percent: int, start: int) -> None:
    (finding,) = said("water" if percent == 100 else watery(percent), start, "5 uL")
    assert finding.grade == "caution"
    assert f"with {percent} % water is injected into CO2 with {start} % methanol" in finding.message
    assert "a plug up to 2 uL dissolves" in finding.message
    assert finding.found is not None and finding.found.value == pytest.approx(5.0)
    assert finding.limit is not None and finding.limit.value == pytest.approx(2.0)
    assert finding.at.path == ("diluent",)


def test_a_volume_that_decides_and_is_not_known_is_not_checked() -> None:
    text = (
        "kind: method\ninjection: {volume: null}\n"
        "programme: [{time: 0 min, modifier_share: 20 % v/v}]\n---\nkind: sequence\ndiluent: "
    )
    assert judged(text + "water\n", RULE).not_checked[0].missing == ("method.injection.volume",)
    assert judged(text + watery(50) + "\n", RULE).not_checked == []


def test_much_acetonitrile_takes_up_no_water() -> None:
    assert [f.grade for f in said(watery(50), 20, "5 uL", "acetonitrile")] == ["caution"]


def test_a_buffered_extract_splits_with_less_water() -> None:
    extract = watery(10)[:-1] + ", additives: [{additive: potassium phosphate, level: 20 mM}]}"
    (finding,) = said(extract, 3)
    assert finding.grade == "fault"
    assert "10 % water and potassium phosphate" in finding.message
    assert said(watery(10), 3) == []


def test_the_message_has_plug_and_start_and_a_remedy_that_was_tried() -> None:
    (finding,) = said(watery(40), 3)
    assert "2 uL of water + methanol with 40 % water" in finding.message
    assert "3 % methanol" in finding.message
    assert finding.remedy == "dissolve the samples in ethanol"
    assert said("ethanol", 3) == []


def test_an_unknown_diluent_is_not_checked() -> None:
    report = judged(
        "kind: sequence\ndiluent: null\n---\nkind: method\ninjection: {diluent: null}\n", RULE
    )
    assert report.not_checked[0].missing == ("method.injection.diluent",)
