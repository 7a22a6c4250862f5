"""Find the rules that speak of what somebody asks about in words of the trade."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Sequence

from methodlint.judging.loader import Rule
from methodlint.rulebook.pages import parts_of

_IN_ID, _IN_TITLE, _IN_PROSE, _MEANT = 8.0, 5.0, 1.0, 10.0
_MOST_PROSE = 3
_LONG = 6
"""A word as long as this is looked for inside others: `equilibration` in `reequilibration`."""

#: What people say, and words of ids and pages that mean it.
_MEANS: dict[str, tuple[str, ...]] = {
    "asphyxiation": ("room-co2-release",),
    "suffocation": ("room-co2-release",),
    "oxygen": ("room-co2-release",),
    "backpressure": ("two-phase-at-outlet", "bpr-out-of-range"),
    "bpr": ("bpr-out-of-range",),
    "regulator": ("bpr-out-of-range",),
    "leak": ("no-co2-monitor", "room-co2-release"),
    "alarm": ("monitor-wrong-kind",),
    "blocked": ("cutoff-unsound", "locked-in-liquid"),
    "plugged": ("cutoff-unsound",),
    "clogged": ("cutoff-unsound",),
    "burst": ("locked-in-liquid",),
    "ghost": ("no-carryover-blank", "no-opening-blank"),
    "memory": ("no-carryover-blank",),
    "blank": ("no-opening-blank",),
    "empty": ("cylinder-runs-out", "vial-runs-dry"),
    "out": ("cylinder-runs-out",),
    "ice": ("bpr-freezes",),
    "frost": ("bpr-freezes",),
    "immiscible": ("pair-not-miscible",),
    "hexane": ("pair-not-miscible",),
    "heptane": ("pair-not-miscible",),
    "supercritical": ("two-phase-at-outlet",),
    "boiling": ("pump-inlet-flashes",),
    "cavitation": ("pump-inlet-flashes",),
    "fire": ("exhaust-not-ducted",),
    "dead": ("cell-volume-too-large",),
    "tfa": ("polarity-mismatch",),
    "drift": ("split-not-as-stated",),
    "noise": ("cell-volume-too-large",),
    "overpressure": ("column-rating-exceeded",),
}


def matches(words: Iterable[str], rules: Sequence[Rule], most: int = 6) -> list[Rule]:
    """Rules that speak of some words, the best match first.

    Parameters
    ----------
    words
        As they were typed.
    rules
        Where to look.
    most
        How many at most.
    """
    asked = [stem for word in words for stem in _stems(word)]
    if not asked:
        return []
    # A word that many rules use says less than one that few use.
    scores = [[_score(stem, rule) for rule in rules] for stem in dict.fromkeys(asked)]
    rarity = [1.0 / math.sqrt(max(sum(one > 0.0 for one in each), 1)) for each in scores]
    found = [
        (sum(each[n] * rare for each, rare in zip(scores, rarity, strict=True)), rule)
        for n, rule in enumerate(rules)
    ]
    best = sorted((one for one in found if one[0] > 0.0), key=lambda one: (-one[0], one[1].id))
    return [rule for _, rule in best[:most]]


def _score(stem: str, rule: Rule) -> float:
    prose = " ".join(
        text for part in parts_of(rule) if not part.example and part.heading != "Source"
        for text in part.paragraphs
    )  # fmt: skip
    name = rule.id.partition(".")[2]
    meant = [n for n, what in enumerate(_means(stem)) if what == name]
    said = min(sum(one == stem for one in _stems(prose)), _MOST_PROSE)
    return (
        _IN_ID * any(_holds(one, stem) for one in _stems(rule.id))
        + _IN_TITLE * (stem in _stems(rule.title))
        + _IN_PROSE * said
        + sum(_MEANT - n for n in meant)
    )


def _holds(word: str, stem: str) -> bool:
    return word == stem or (len(stem) >= _LONG and stem in word)


def _means(stem: str) -> tuple[str, ...]:
    return next((what for word, what in _MEANS.items() if _stems(word) == [stem]), ())


def _stems(text: str) -> list[str]:
    """Words without plural and endings; one with a hyphen is one word, as is its parts' sum."""
    found = []
    for word in re.findall(r"[a-z0-9]+(?:-[a-z0-9]+)*", text.lower()):
        parts = word.split("-")
        for one in dict.fromkeys(["".join(parts), *parts] if len(parts) < 4 else parts):
            found.append(re.sub(r"(?<=[a-z]{3})(?:ing|ed|es|s)$", "", one))
    return found
