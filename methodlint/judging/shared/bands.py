"""How an uncertainty band decides the class of a finding."""

from __future__ import annotations

from dataclasses import dataclass

from methodlint.judging.finding import Grade


@dataclass(frozen=True, slots=True)
class Judgement:
    """Class that a figure earns against its limit.

    Attributes
    ----------
    grade
        Class of the finding.
    possible
        Only the unfavourable end of the band is beyond the limit.
    """

    grade: Grade
    possible: bool


def judge_limit(
    value: float,
    limit: float,
    band: float,
    grade: Grade,
    *,
    above: bool = True,
    protected: bool = False,
    favourable: float | None = None,
) -> Judgement | None:
    """Judge a figure with its band against a limit.

    A stop is judged at the unfavourable end of the band: the central value beyond the limit
    is a stop, only the end beyond it a possible stop, lowered to a caution where a declared
    trip or relief protects the very part. Any other class holds in full only when the whole
    band is beyond the limit; a limit inside the band is a caution.

    Parameters
    ----------
    value, limit, band
        Figure, limit and the unfavourable half of the band, in the same unit.
    grade
        Class when the limit is crossed for certain.
    above
        True if the figure has to stay at or below the limit.
    protected
        A declared trip or relief at or below the rating protects the part.
    favourable
        The other half of the band; as wide where it is None.

    Returns
    -------
    Judgement or None
        None if there is nothing to report.
    """
    excess = value - limit if above else limit - value
    if grade == "stop":
        if excess > 0:
            return Judgement("stop", possible=False)
        if excess + band > 0:
            return Judgement("caution" if protected else "stop", possible=True)
        return None
    if grade in ("caution", "note"):
        return Judgement(grade, possible=excess <= band) if excess > 0 else None
    if excess > (band if favourable is None else favourable):
        return Judgement(grade, possible=False)
    if excess + band > 0:
        return Judgement("caution", possible=True)
    return None
