"""Do two liquids mix at a temperature and, where a gap is known, at a composition."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from methodlint.fluids.liquids.known import LIQUIDS, LiquidRecord, find_liquid
from methodlint.fluids.miscibility.miscibility_data import PAIRS, Gap, Pair, Sureness
from methodlint.fluids.miscibility.miscibility_groups import GODFREY_NUMBERS, MISCIBLE_GROUPS

__all__ = ["GapShares", "Miscibility", "Verdict", "gap_shares", "miscible"]

Verdict = Literal["miscible", "immiscible", "partly", "unknown"]

#: Exponent of the width of a gap against distance from its critical temperature (Ising universality class).
WIDTH_EXPONENT = 0.326

#: A gap known at one temperature is used down to this far below it, and without critical point also above [K].
GAP_REACH = 10.0


@dataclass(frozen=True)
class Miscibility:
    """Answer about two liquids.

    Parameters
    ----------
    verdict : {"miscible", "immiscible", "partly", "unknown"}
        "partly": the temperature or the composition lies within the uncertainty of the limit.
    critical_temperature : float or None
        Upper critical solution temperature [K], above which the two mix; None if there is none in reach or
        it is not known.  A pair that splits on warming says so in `why`.
    why : str
        One sentence with the source.
    how_sure : {"measured", "unverified", "estimated", "unknown"}
        Mark of the weakest datum used.
    band_K : float
        Uncertainty of `critical_temperature` [K].
    source : str
        Source alone where `why` is nothing but the critical temperature with it; else empty.
    """

    verdict: Verdict
    critical_temperature: float | None
    why: str
    how_sure: Sureness
    band_K: float
    source: str = ""


def miscible(a: str, b: str, T: float, share_of_a: float | None = None) -> Miscibility:
    """Do two liquids mix?

    Measured critical solution temperatures come first, then known pairs, then miscibility numbers.

    Parameters
    ----------
    a, b : str
        Names or synonyms of the liquids.
    T : float
        Temperature at the coldest place where they meet [K].
    share_of_a : float, optional
        Volume share of `a` before mixing, 0 to 1.  Without it every composition counts, and one that
        splits is enough for "immiscible".

    Returns
    -------
    Miscibility
        The same for (a, b, share) and (b, a, 1 - share).

    Raises
    ------
    ValueError
        If `share_of_a` is not within 0 to 1 or `T` is not above 0 K.
    """
    if not T > 0.0:
        raise ValueError(f"temperature {T} K is not above 0 K")
    if share_of_a is not None and not 0.0 <= share_of_a <= 1.0:
        raise ValueError(f"volume share {share_of_a} is not within 0 to 1")
    liquid_a, liquid_b = find_liquid(a), find_liquid(b)
    if liquid_a is None or liquid_b is None:
        unknown = a if liquid_a is None else b
        return Miscibility(
            "unknown", None, f"{unknown} is not among the known liquids", "unknown", 0.0
        )
    if liquid_a.name == liquid_b.name:
        return Miscibility("miscible", None, "one and the same liquid", "measured", 0.0)
    pair = PAIRS.get(frozenset((liquid_a.name, liquid_b.name)))
    if pair is None:
        return _by_group(liquid_a.name, liquid_b.name) or _by_number(liquid_a.name, liquid_b.name)
    share = share_of_a
    if share is not None and pair.first != liquid_a.name:
        share = 1.0 - share
    return _by_pair(pair, T, share)


def _by_pair(pair: Pair, T: float, share: float | None) -> Miscibility:
    names = f"{pair.first} and {pair.second}"
    source = pair.source if pair.loop is None and pair.upper is not None else ""

    def answer(verdict: Verdict, why: str) -> Miscibility:
        return Miscibility(verdict, pair.upper, why, pair.how_sure, pair.band_K, source)

    if pair.loop is not None:
        low, high = pair.loop
        text = f"{names} split between {_celsius(low)} and {_celsius(high)} ({pair.source})"
        if T < low - pair.band_K or T > high + pair.band_K:
            return answer("miscible", text)
        return answer("immiscible" if low <= T <= high else "partly", text)
    if pair.upper is not None:
        text = f"{names} mix in all proportions above {_celsius(pair.upper)} only ({pair.source})"
        if T > pair.upper + pair.band_K:
            return answer("miscible", text)
        if T >= pair.upper:
            return answer("partly", text)
    elif pair.mixes:
        return answer("miscible", f"{names} mix in all proportions ({pair.source})")
    else:
        text = f"{names} form two liquid phases ({pair.source})"
    shares = gap_shares(pair, T)
    if share is None or shares is None:
        return answer("immiscible", text)
    how_sure: Sureness = (
        "measured" if pair.how_sure == shares.gap.how_sure == "measured" else "unverified"
    )
    why = (
        f"{text}; at {_celsius(T)} the layers hold about {100 * shares.lean:.2g} and "
        f"{100 * shares.rich:.3g} % {pair.first} by volume ({shares.gap.source}), "
        f"here {100 * share:.3g} %"
    )
    return Miscibility(shares.verdict(share), pair.upper, why, how_sure, pair.band_K)


@dataclass(frozen=True)
class GapShares:
    """Volume shares of a pair's first liquid in its two layers at one temperature.

    Parameters
    ----------
    lean, rich : float
        Shares in the layer poor in it and in the layer rich in it.
    gap : Gap
        The datum behind them, with its band.
    """

    lean: float
    rich: float
    gap: Gap

    def verdict(self, share: float) -> Verdict:
        """Verdict for the volume share `share` of the first liquid."""
        band = self.gap.band
        if share < self.lean * (1.0 - band) or 1.0 - share < (1.0 - self.rich) * (1.0 - band):
            return "miscible"
        if share <= self.lean * (1.0 + band) or 1.0 - share <= (1.0 - self.rich) * (1.0 + band):
            return "partly"
        return "immiscible"


def gap_shares(pair: Pair, T: float) -> GapShares | None:
    """Composition of the two layers of a pair at `T` [K]; None where not known.

    The width of a gap goes to zero at the critical temperature with the exponent of every liquid pair; the
    known compositions are carried along that curve, at most 10 K down.
    """
    gap = pair.gap
    if gap is None or T < gap.temperature - GAP_REACH:
        return None
    if pair.upper is None or gap.critical is None:
        if T > gap.temperature + GAP_REACH:
            return None
        lean, rich = gap.lean, gap.rich
    else:
        if T > pair.upper:
            return None
        width = ((pair.upper - T) / (pair.upper - gap.temperature)) ** WIDTH_EXPONENT
        lean = max(gap.critical + (gap.lean - gap.critical) * width, 0.0)
        rich = min(gap.critical + (gap.rich - gap.critical) * width, 1.0)
    first, second = LIQUIDS[pair.first], LIQUIDS[pair.second]
    volume_first, volume_second = _specific_volume(first, T), _specific_volume(second, T)
    if volume_first is None or volume_second is None:
        return None
    if gap.basis == "mole":
        volume_first *= first.molar_mass
        volume_second *= second.molar_mass
    return GapShares(
        _volume_share(lean, volume_first, volume_second),
        _volume_share(rich, volume_first, volume_second),
        gap,
    )


def _volume_share(fraction: float, volume_first: float, volume_second: float) -> float:
    first, second = fraction * volume_first, (1.0 - fraction) * volume_second
    return first / (first + second)


def _specific_volume(liquid: LiquidRecord, T: float) -> float | None:
    """[m3/kg]; the nearest temperature of the density's range where T lies outside."""
    if liquid.density is None:
        return None
    return 1.0 / float(liquid.density(min(max(T, liquid.density.lower), liquid.density.upper)))


def _by_group(a: str, b: str) -> Miscibility | None:
    for one, other, source in MISCIBLE_GROUPS:
        if (a in one and b in other) or (b in one and a in other):
            names = " and ".join(sorted((a, b)))
            why = f"{names} mix in all proportions ({source})"
            return Miscibility("miscible", None, why, "unverified", 0.0)
    return None


def _by_number(a: str, b: str) -> Miscibility:
    """Godfrey's rule: a difference up to 15 mixes, 16 has its critical temperature at 25 to 75 C."""
    names = " and ".join(sorted((a, b)))
    if a not in GODFREY_NUMBERS or b not in GODFREY_NUMBERS:
        return Miscibility("unknown", None, f"nothing known about {names}", "unknown", 0.0)
    one, other = sorted((GODFREY_NUMBERS[a][0], GODFREY_NUMBERS[b][0]))
    # a liquid with two numbers meets a higher one with its first and a lower one with its second
    difference = abs(other[-1] - one[0]) if one[0] != other[0] else 0
    verdict: Verdict = (
        "miscible" if difference <= 15 else "partly" if difference == 16 else "immiscible"
    )
    why = f"{names} differ by {difference} in miscibility number (Godfrey 1972, CHEMTECH 2, 359)"
    return Miscibility(verdict, None, why, "estimated", 0.0)


def _celsius(T: float) -> str:
    return f"{T - 273.15:.0f} degC"
