"""Do two liquids, or two blends, mix at a temperature, and which third liquid bridges them."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations

from methodlint.fluids.liquids.known import find_liquid
from methodlint.fluids.miscibility.miscibility_data import PAIRS, Sureness
from methodlint.fluids.miscibility.pair_miscibility import (
    Miscibility,
    Verdict,
    gap_shares,
    miscible,
)

__all__ = ["BRIDGES", "Miscibility", "Verdict", "bridge_for", "miscible", "miscible_blend"]

#: Liquids offered as a bridge, the usual ones first.
BRIDGES = ("2-propanol", "ethanol", "acetone", "tetrahydrofuran", "1-propanol")

#: Volume share from which these alcohols bridge methanol and an alkane (common practice, no source).
BRIDGING_ALCOHOLS = ("ethanol", "1-propanol", "2-propanol", "1-butanol", "tert-butanol")
BRIDGING_SHARE = 0.10

#: The same for any other third liquid that mixes with both, and for wider gaps (estimate).
WIDE_BRIDGING_SHARE = 0.30

#: Gaps that close above this [K] are too wide for a tenth of an alcohol.
NARROW_GAP_LIMIT = 330.0

#: Up to this volume share water in an alcohol does not throw an alkane out (common practice, no source).
HARMLESS_WATER = 0.02


def bridge_for(a: str, b: str, T: float = 293.15) -> str | None:
    """Liquid that mixes with both of two that do not.

    Parameters
    ----------
    a, b : str
        Names or synonyms.
    T : float, optional
        Temperature [K].

    Returns
    -------
    str or None
        Name of the bridge, or None if none of the usual ones is known to mix with both.
    """
    liquids = find_liquid(a), find_liquid(b)
    own = {liquid.name for liquid in liquids if liquid is not None}
    for bridge in BRIDGES:
        if bridge in own:
            continue
        answers = miscible(bridge, a, T), miscible(bridge, b, T)
        if all(answer.verdict == "miscible" for answer in answers):
            return bridge
    return None


def miscible_blend(
    components_a: Sequence[tuple[str, float]], components_b: Sequence[tuple[str, float]], T: float
) -> Miscibility:
    """Do two blends mix in every proportion in which they may meet?

    Every pair of components is looked at with the compositions it runs through from one blend to the other.
    A pair with a gap is forgiven where a third liquid that mixes with both makes up enough: 10 % of a
    bridging alcohol for methanol and an alkane (common practice, no source), 30 % otherwise (estimate).

    Parameters
    ----------
    components_a, components_b : sequence of (str, float)
        Names and volume shares; the shares are scaled to a sum of 1.
    T : float
        Temperature [K].

    Returns
    -------
    Miscibility
        The worst pair decides.

    Raises
    ------
    ValueError
        If a blend is empty, a share negative, or `T` is not above 0 K.
    """
    blend_a, blend_b = _shares(components_a), _shares(components_b)
    worst = Miscibility("miscible", None, "every pair of components mixes", "measured", 0.0)
    for first, second in combinations(sorted(blend_a.keys() | blend_b.keys()), 2):
        answer = _pair_in_blends(first, second, blend_a, blend_b, T)
        worst = max(worst, answer, key=_badness)
    return worst


_RANK: dict[Verdict, int] = {"miscible": 0, "unknown": 1, "partly": 2, "immiscible": 3}
_DOUBT: dict[Sureness, int] = {"measured": 0, "unverified": 1, "estimated": 2, "unknown": 3}


def _badness(answer: Miscibility) -> tuple[int, int]:
    return _RANK[answer.verdict], _DOUBT[answer.how_sure]


def _shares(components: Sequence[tuple[str, float]]) -> dict[str, float]:
    shares: dict[str, float] = {}
    for text, share in components:
        if share < 0.0:
            raise ValueError(f"volume share of {text} is negative")
        liquid = find_liquid(text)
        name = liquid.name if liquid else text
        shares[name] = shares.get(name, 0.0) + share
    total = sum(shares.values())
    if not total > 0.0:
        raise ValueError("a blend needs at least one component with a share above 0")
    return {name: share / total for name, share in shares.items() if share > 0.0}


def _pair_in_blends(
    first: str, second: str, blend_a: dict[str, float], blend_b: dict[str, float], T: float
) -> Miscibility:
    answer = miscible(first, second, T)
    if answer.verdict in ("miscible", "unknown"):
        return answer
    pair = PAIRS.get(frozenset((first, second)))
    shares = gap_shares(pair, T) if pair is not None else None
    ends = _binary_shares(first, second, blend_a, blend_b)
    if pair is not None and shares is not None and ends is not None:
        if pair.first != first:
            ends = 1.0 - ends[1], 1.0 - ends[0]
        # the pair's composition runs monotonically between its ends: beside the gap, or through it
        middle = 0.5 * (shares.lean + shares.rich)
        if ends[1] < middle or ends[0] > middle or ends[0] == ends[1]:
            sides = [miscible(pair.first, pair.second, T, share) for share in ends]
            answer = max(sides, key=_badness)
        if answer.verdict == "miscible":
            return answer
    return _bridged(answer, first, second, blend_a, blend_b, T)


def _binary_shares(
    first: str, second: str, blend_a: dict[str, float], blend_b: dict[str, float]
) -> tuple[float, float] | None:
    """Least and greatest share of `first` among the two alone, over all mixing ratios of the blends."""
    ends = []
    for blend in (blend_a, blend_b):
        total = blend.get(first, 0.0) + blend.get(second, 0.0)
        if total > 0.0:
            ends.append(blend.get(first, 0.0) / total)
    return (min(ends), max(ends)) if ends else None


def _bridged(
    answer: Miscibility,
    first: str,
    second: str,
    blend_a: dict[str, float],
    blend_b: dict[str, float],
    T: float,
) -> Miscibility:
    """The answer for a pair with a gap, softened by a third liquid that mixes with both."""
    alcohol = other = 0.0
    bridge = ""
    for name in sorted((blend_a.keys() | blend_b.keys()) - {first, second}):
        if any(miscible(name, end, T).verdict != "miscible" for end in (first, second)):
            continue
        share = max(blend_a.get(name, 0.0), blend_b.get(name, 0.0))
        bridge = bridge or name
        if name in BRIDGING_ALCOHOLS:
            alcohol += share
            bridge = name
        other += share
    narrow = answer.critical_temperature is not None and (
        answer.critical_temperature < NARROW_GAP_LIMIT
    )
    if "water" in (first, second):
        water = max(blend_a.get("water", 0.0), blend_b.get("water", 0.0))
        if water <= HARMLESS_WATER and alcohol >= BRIDGING_SHARE:
            why = f"{100 * water:.2g} % water stays dissolved with {bridge} (common practice)"
            return Miscibility("miscible", answer.critical_temperature, why, "estimated", 0.0)
        if alcohol >= BRIDGING_SHARE or other >= WIDE_BRIDGING_SHARE:
            why = f"{bridge} holds water and {_other(first, second)} together only in part"
            return Miscibility("partly", answer.critical_temperature, why, "estimated", 0.0)
        return answer
    if (narrow and alcohol >= BRIDGING_SHARE) or other >= WIDE_BRIDGING_SHARE:
        why = f"{answer.why}; {bridge} in the blend bridges them (common practice, no source)"
        return Miscibility("miscible", answer.critical_temperature, why, "estimated", answer.band_K)
    if alcohol >= BRIDGING_SHARE:
        why = f"{answer.why}; {100 * alcohol:.2g} % alcohol narrows that gap, perhaps not enough"
        return Miscibility("partly", answer.critical_temperature, why, "estimated", answer.band_K)
    return answer


def _other(first: str, second: str) -> str:
    return second if first == "water" else first
