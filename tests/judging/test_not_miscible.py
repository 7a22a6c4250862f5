"""Two liquids that meet. Critical solution temperatures: methanol + n-pentane about 14.4 degC, methanol +
n-heptane about 51 degC (from memory); methanol + n-hexane 306.8 to 308.3 K (IUPAC-NIST Solubility
Data Series; Trejo et al. 2006)."""

from __future__ import annotations

import pytest

from methodlint.judging.shared.not_miscible import Pairing, bridge_between, judge_contact
from methodlint.rehearsal.contacts.contact import Contact, ContactLiquid
from methodlint.rulebook.examples import lab_with

METHOD = lab_with("")["method"]


def _contact(
    one: tuple[tuple[str, float], ...], other: str, celsius: float, *, given: bool = True
) -> Contact:
    first, second = (
        ContactLiquid(role, parts, METHOD, ())
        for role, parts in (("modifier", one), ("makeup", ((other, 1.0),)))
    )
    return Contact(first, second, "tee", celsius + 273.15, temperature_given=given)


def _judged(one: str, other: str, celsius: float, *, given: bool = True) -> Pairing | None:
    return judge_contact(_contact(((one, 1.0),), other, celsius, given=given))


def test_liquids_that_mix() -> None:
    assert _judged("methanol", "water", 4.0) is None


@pytest.mark.parametrize("celsius", [18.0, 30.0, 33.0])
def test_below_the_critical_temperature(celsius: float) -> None:
    found = _judged("methanol", "n-hexane", celsius)
    assert found is not None
    assert not found.possible
    assert found.bridge == "2-propanol"


@pytest.mark.parametrize("celsius", [34.6, 37.0, 39.0])
def test_inside_the_band_and_the_reserve(celsius: float) -> None:
    found = _judged("methanol", "n-hexane", celsius)
    assert found is not None
    assert found.possible


def test_above_the_reserve() -> None:
    assert _judged("methanol", "n-hexane", 40.0) is None


def test_an_unknown_cold_place_may_decide() -> None:
    found = _judged("methanol", "n-pentane", 20.0, given=False)
    assert found is not None
    assert found.temperature_decides
    assert _judged("methanol", "n-pentane", 20.0) is None


def test_words() -> None:
    found = _judged("methanol", "n-heptane", 18.0, given=False)
    assert found is not None
    assert found.words == "methanol (modifier) and n-heptane (makeup)"
    assert "assumed 18 degC there (none given)" in found.why
    assert "33.2 K below" in found.why
    assert "(band 1.5 K; unverified" in found.why


def test_pairs_without_critical_temperature_say_so() -> None:
    found = _judged("water", "toluene", 20.0)
    assert found is not None
    assert found.limit is None
    assert "two liquid phases" in found.why


def test_a_liquid_that_nobody_knows() -> None:
    found = _judged("methanol", "unobtainium", 20.0)
    assert found is not None
    assert found.unknown


def test_a_bridge_is_none_of_the_liquids_that_part() -> None:
    parts = ("methanol", 0.98), ("2-propanol", 0.02)
    assert bridge_between(_contact(parts, "n-heptane", 18.0)) == "ethanol"


def test_a_bridge_mixes_with_every_liquid() -> None:
    """Nobody can say so of a liquid that is not known."""
    assert bridge_between(_contact((("methanol", 1.0),), "unobtainium", 20.0)) is None
