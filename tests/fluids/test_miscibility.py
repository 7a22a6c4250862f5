"""Verdicts on pairs and blends: what a laboratory meets, and what must stay unsaid."""

from __future__ import annotations

from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from methodlint.fluids.liquids.known import LIQUIDS
from methodlint.fluids.miscibility.blends import bridge_for, miscible, miscible_blend
from methodlint.fluids.miscibility.miscibility_data import PAIRS
from methodlint.fluids.miscibility.pair_miscibility import gap_shares

ROOM = 293.15
NAMES = sorted(LIQUIDS)
ALKANES = ("n-pentane", "n-hexane", "n-heptane", "isooctane", "cyclohexane")


# upper critical solution temperatures: IUPAC-NIST Solubility Data Series and literature; see the data
@pytest.mark.parametrize(
    ("a", "b", "celsius", "verdict"),
    [
        ("methanol", "hexane", 20.0, "immiscible"),
        ("methanol", "hexane", 34.6, "partly"),
        ("methanol", "hexane", 40.0, "miscible"),
        ("methanol", "heptane", 20.0, "immiscible"),
        ("methanol", "heptane", 45.0, "immiscible"),
        ("methanol", "heptane", 60.0, "miscible"),
        ("methanol", "cyclohexane", 40.0, "immiscible"),
        ("methanol", "cyclohexane", 50.0, "miscible"),
        ("methanol", "pentane", 20.0, "miscible"),
        ("methanol", "isooctane", 20.0, "immiscible"),
        ("ethanol", "heptane", 5.0, "miscible"),
        ("2-propanol", "heptane", 5.0, "miscible"),
        ("acetonitrile", "heptane", 40.0, "immiscible"),
        ("acetonitrile", "hexane", 60.0, "immiscible"),
        ("acetonitrile", "cyclohexane", 40.0, "immiscible"),
        ("acetonitrile", "water", 20.0, "miscible"),
        ("acetonitrile", "water", -5.0, "immiscible"),
        ("tetrahydrofuran", "water", 25.0, "miscible"),
        ("tetrahydrofuran", "water", 90.0, "immiscible"),
        ("DMSO", "heptane", 25.0, "immiscible"),
        ("DMSO", "methanol", 25.0, "miscible"),
        ("DMSO", "diethyl ether", 25.0, "immiscible"),
        ("water", "MTBE", 20.0, "immiscible"),
        ("water", "ethyl acetate", 20.0, "immiscible"),
        ("water", "dichloromethane", 20.0, "immiscible"),
        ("water", "toluene", 20.0, "immiscible"),
        ("water", "1-butanol", 20.0, "immiscible"),
        ("water", "2-propanol", 20.0, "miscible"),
        ("methanol", "dichloromethane", 20.0, "miscible"),
        ("methanol", "MTBE", 20.0, "miscible"),
        ("acetonitrile", "toluene", 20.0, "miscible"),
    ],
)
def test_pairs_of_the_laboratory(a: str, b: str, celsius: float, verdict: str) -> None:
    answer = miscible(a, b, celsius + 273.15)
    assert answer.verdict == verdict, answer.why
    assert answer.why


# [K] and tolerance; measured: read in the series or a transcription of it, else from memory
@pytest.mark.parametrize(
    ("a", "b", "critical", "tolerance", "how_sure"),
    [
        ("methanol", "hexane", 307.5, 1.0, "measured"),
        ("methanol", "heptane", 324.0, 2.0, "unverified"),
        ("methanol", "cyclohexane", 318.5, 1.0, "unverified"),
        ("methanol", "isooctane", 315.5, 2.0, "unverified"),
        ("methanol", "pentane", 287.5, 2.0, "unverified"),
        ("acetonitrile", "pentane", 341.3, 0.1, "measured"),
        ("acetonitrile", "hexane", 350.2, 0.5, "measured"),
        ("acetonitrile", "heptane", 358.0, 3.0, "unverified"),
        ("acetonitrile", "water", 271.0, 1.0, "measured"),
    ],
)
def test_critical_temperatures_and_their_marks(
    a: str, b: str, critical: float, tolerance: float, how_sure: str
) -> None:
    answer = miscible(a, b, ROOM)
    assert answer.critical_temperature == pytest.approx(critical, abs=tolerance)
    assert answer.how_sure == how_sure
    assert answer.band_K >= 0.5


def test_a_pair_that_splits_on_warming_has_no_upper_temperature_in_reach() -> None:
    """Water and tetrahydrofuran: one phase below 71.8 C and above 137.1 C (Matous et al. 1972, Collect. Czech.
    Chem. Commun. 37, 2653, transcribed).  A rule that compares with an upper critical temperature must not
    be handed the lower one."""
    answer = miscible("water", "THF", ROOM)
    assert answer.critical_temperature is None
    assert "72 degC" in answer.why
    verdicts = [miscible("THF", "water", t + 273.15).verdict for t in (60.0, 80.0, 130.0, 150.0)]
    assert verdicts == ["miscible", "immiscible", "immiscible", "miscible"]


@pytest.mark.parametrize("temperature", [273.15, 293.15, 313.15, 353.15])
def test_the_order_of_the_two_does_not_matter(temperature: float) -> None:
    for a, b in combinations(NAMES, 2):
        assert miscible(a, b, temperature) == miscible(b, a, temperature)


@settings(max_examples=200, deadline=None)
@given(
    pair=st.sampled_from(sorted(tuple(sorted(key)) for key in PAIRS)),
    share=st.floats(0.0, 1.0),
    temperature=st.floats(263.15, 363.15),
)
def test_share_is_counted_from_either_side(
    pair: tuple[str, str], share: float, temperature: float
) -> None:
    one = miscible(pair[0], pair[1], temperature, share)
    other = miscible(pair[1], pair[0], temperature, 1.0 - share)
    # at the very edge of a band the two roundings may differ
    assert one.critical_temperature == other.critical_temperature
    edges = []
    known = gap_shares(PAIRS[frozenset(pair)], temperature)
    if known is not None:
        own = share if PAIRS[frozenset(pair)].first == pair[0] else 1.0 - share
        band = known.gap.band
        edges = [known.lean * (1 - band), known.lean * (1 + band)]
        edges += [1 - (1 - known.rich) * (1 - band), 1 - (1 - known.rich) * (1 + band)]
        edges = [edge for edge in edges if abs(edge - own) < 1e-9]
    assert one.verdict == other.verdict or edges


def test_synonyms_give_the_same_answer() -> None:
    assert miscible("MeOH", "Hexane", ROOM) == miscible("methanol", "n-hexane", ROOM)


@pytest.mark.parametrize("name", NAMES)
def test_a_liquid_mixes_with_itself(name: str) -> None:
    assert miscible(name, name, ROOM).verdict == "miscible"


def test_unknown_liquids_and_pairs_are_said_to_be_unknown() -> None:
    answer = miscible("methanol", "squalane", ROOM)
    assert (answer.verdict, answer.how_sure) == ("unknown", "unknown")
    assert "squalane" in answer.why
    nothing = miscible("2-methyltetrahydrofuran", "dimethyl sulfoxide", ROOM)
    assert (nothing.verdict, nothing.critical_temperature) == ("unknown", None)


def test_miscibility_numbers_only_where_nothing_better() -> None:
    """Godfrey 1972: up to 15 apart mixes.  Methanol and hexane are 17 apart, which the rule calls immiscible
    at any lab temperature; the measurement, 34 C, wins."""
    estimated = miscible("acetic acid", "n-heptane", ROOM)
    assert (estimated.verdict, estimated.how_sure) == ("miscible", "estimated")
    assert "Godfrey" in estimated.why
    assert miscible("methanol", "n-hexane", 313.15).verdict == "miscible"
    apart = miscible("dimethyl sulfoxide", "diisopropyl ether", ROOM)
    assert (apart.verdict, apart.how_sure) == ("immiscible", "estimated")


def test_every_alkane_parts_from_acetonitrile_and_sulfoxide_at_lab_temperature() -> None:
    for alkane in ALKANES:
        for polar in ("acetonitrile", "dimethyl sulfoxide", "water"):
            assert miscible(polar, alkane, 303.15).verdict == "immiscible"


# 20 C: hexane-rich 0.210 and methanol-rich 0.822 mole fraction methanol (IUPAC-NIST Solubility Data
# Series, transcribed): 7.6 and 58.8 % by volume with molar volumes 40.5 and 130.7 cm3/mol
@pytest.mark.parametrize(
    ("share", "verdict"),
    [
        (0.03, "miscible"),
        (0.076, "partly"),
        (0.20, "immiscible"),
        (0.45, "immiscible"),
        (0.7, "miscible"),
    ],
)
def test_composition_counts_where_the_gap_is_known(share: float, verdict: str) -> None:
    answer = miscible("methanol", "n-hexane", ROOM, share)
    assert answer.verdict == verdict
    assert answer.how_sure == "measured"


def test_gap_in_volume_shares_by_hand() -> None:
    shares = gap_shares(PAIRS[frozenset(("methanol", "n-hexane"))], ROOM)
    assert shares is not None
    assert shares.lean == pytest.approx(0.210 * 40.5 / (0.210 * 40.5 + 0.790 * 130.7), rel=0.01)
    assert shares.rich == pytest.approx(0.822 * 40.5 / (0.822 * 40.5 + 0.178 * 130.7), rel=0.01)


def test_small_methanol_in_heptane() -> None:
    """About 4 % by volume dissolves at 20 C (0.13 mole fraction, from memory): 2 % is safe, 5 % is at the
    edge, 30 % splits."""
    answers = [miscible("methanol", "heptane", ROOM, share) for share in (0.02, 0.05, 0.30)]
    assert [answer.verdict for answer in answers] == ["miscible", "partly", "immiscible"]
    assert answers[1].how_sure == "unverified"
    assert "%" in answers[1].why


def test_the_gap_widens_in_the_cold_and_closes_at_the_critical_temperature() -> None:
    pair = PAIRS[frozenset(("methanol", "n-hexane"))]
    widths = []
    for temperature in (284.0, 293.15, 300.0, 306.0, 307.4):
        shares = gap_shares(pair, temperature)
        assert shares is not None
        widths.append(shares.rich - shares.lean)
    assert widths == sorted(widths, reverse=True)
    assert widths[-1] < 0.25
    assert gap_shares(pair, 308.0) is None
    # too far from the one temperature at which the layers are known: every composition counts again
    assert gap_shares(pair, 280.0) is None
    assert miscible("methanol", "n-hexane", 280.0, 0.01).verdict == "immiscible"


# Illustrated Pocket Dictionary of Chromatography, 20 C: 8.7 % by mass of ethyl acetate in water, 3.3 % back
@pytest.mark.parametrize(
    ("share_of_water", "verdict"), [(0.01, "miscible"), (0.5, "immiscible"), (0.97, "miscible")]
)
def test_solubility_in_water(share_of_water: float, verdict: str) -> None:
    answer = miscible("water", "ethyl acetate", ROOM, share_of_water)
    assert (answer.verdict, answer.how_sure) == (verdict, "measured")


def test_butanol_and_water_transcribed_mole_fractions() -> None:
    """Mole fractions 0.0191 and 0.488 of 1-butanol at 25 C (IUPAC-NIST series, transcribed)."""
    gap = PAIRS[frozenset(("water", "1-butanol"))].gap
    assert gap is not None
    butanol, water = 74.12, 18.015

    def mass(x: float) -> float:
        return x * butanol / (x * butanol + (1.0 - x) * water)

    assert 1.0 - gap.rich == pytest.approx(mass(0.0191), rel=0.01)
    assert gap.lean == pytest.approx(1.0 - mass(0.488), rel=0.01)


@pytest.mark.parametrize(
    ("share", "temperature"), [(-0.1, ROOM), (1.1, ROOM), (0.5, 0.0), (0.5, -5.0)]
)
def test_impossible_arguments(share: float, temperature: float) -> None:
    with pytest.raises(ValueError, match=r"share|temperature"):
        miscible("methanol", "n-hexane", temperature, share)


@pytest.mark.parametrize(
    ("a", "b", "bridge"),
    [
        ("methanol", "n-heptane", "2-propanol"),
        ("acetonitrile", "n-hexane", "2-propanol"),
        ("water", "dichloromethane", "2-propanol"),
        ("dimethyl sulfoxide", "n-heptane", "2-propanol"),
        ("methanol", "squalane", None),
    ],
)
def test_bridges(a: str, b: str, bridge: str | None) -> None:
    """2-propanol as intermediate between non-mixing liquids: common practice, no source."""
    assert bridge_for(a, b) == bridge
    assert bridge_for(b, a) == bridge


def test_a_bridge_is_never_one_of_the_two() -> None:
    for a, b in combinations(NAMES, 2):
        bridge = bridge_for(a, b)
        assert bridge not in (a, b)
        if bridge is not None:
            assert (
                miscible(bridge, a, ROOM).verdict == miscible(bridge, b, ROOM).verdict == "miscible"
            )


HEPTANE = (("n-heptane", 1.0),)
METHANOL = (("methanol", 1.0),)


# 10 % of ethanol or 2-propanol as cosolvent makes methanol and an alkane mix: common practice, no source
@pytest.mark.parametrize(
    ("a", "b", "verdict", "how_sure"),
    [
        (HEPTANE, METHANOL, "immiscible", "unverified"),
        ((("n-heptane", 0.9), ("2-propanol", 0.1)), METHANOL, "miscible", "estimated"),
        ((("n-heptane", 0.9), ("ethanol", 0.1)), METHANOL, "miscible", "estimated"),
        ((("n-heptane", 0.95), ("ethanol", 0.05)), METHANOL, "immiscible", "unverified"),
        (HEPTANE, (("MeOH", 50.0), ("IPA", 50.0)), "miscible", "estimated"),
        ((("n-heptane", 0.98), ("methanol", 0.02)), HEPTANE, "miscible", "unverified"),
        ((("n-heptane", 0.95), ("methanol", 0.05)), HEPTANE, "partly", "unverified"),
        ((("n-heptane", 0.70), ("methanol", 0.30)), HEPTANE, "immiscible", "unverified"),
        (
            (("n-heptane", 0.9), ("2-propanol", 0.1)),
            (("acetonitrile", 1.0),),
            "partly",
            "estimated",
        ),
        (HEPTANE, (("acetonitrile", 0.6), ("2-propanol", 0.4)), "miscible", "estimated"),
        (HEPTANE, (("water", 0.5), ("2-propanol", 0.5)), "partly", "estimated"),
        (HEPTANE, (("water", 0.9), ("acetonitrile", 0.1)), "immiscible", "unverified"),
        ((("methanol", 0.95), ("water", 0.05)), (("2-propanol", 1.0),), "miscible", "unverified"),
        ((("methanol", 0.98), ("water", 0.02)), (("methanol", 1.0),), "miscible", "unverified"),
        (HEPTANE, (("squalane", 1.0),), "unknown", "unknown"),
    ],
)
def test_blends(
    a: tuple[tuple[str, float], ...],
    b: tuple[tuple[str, float], ...],
    verdict: str,
    how_sure: str,
) -> None:
    answer = miscible_blend(a, b, ROOM)
    assert (answer.verdict, answer.how_sure) == (verdict, how_sure), answer.why
    mirrored = miscible_blend(b, a, ROOM)
    assert (mirrored.verdict, mirrored.how_sure) == (verdict, how_sure)


def test_single_component_blends_are_pairs() -> None:
    for a, b in combinations(("methanol", "n-hexane", "water", "acetonitrile", "toluene"), 2):
        assert miscible_blend([(a, 1.0)], [(b, 1.0)], ROOM).verdict == miscible(a, b, ROOM).verdict


@pytest.mark.parametrize("blend", [(), (("methanol", 0.0),), (("methanol", 1.5), ("water", -0.5))])
def test_an_empty_or_negative_blend_is_refused(blend: tuple[tuple[str, float], ...]) -> None:
    with pytest.raises(ValueError, match="share"):
        miscible_blend(blend, HEPTANE, ROOM)
