"""Find the known name that a misspelt one probably means."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache

# A longer word is no misspelling of one of ours, and the distance costs the product of lengths.
_LONGEST = 80


def edit_distance(first: str, second: str, limit: int | None = None) -> int:
    """Count the edits that turn one word into another.

    An edit inserts, deletes or replaces one character or swaps two neighbours, and no stretch is
    edited twice (optimal string alignment).

    Parameters
    ----------
    first, second : str
        The words.
    limit : int, optional
        Stop counting above this distance and return ``limit + 1``.

    Returns
    -------
    int
        The number of edits.

    Source
    ------
    F. J. Damerau, Commun. ACM 7 (1964) 171, doi 10.1145/363958.363994 (the four kinds of slip).
    """
    if limit is not None and abs(len(first) - len(second)) > limit:
        return limit + 1
    before: list[int] = []
    last = list(range(len(second) + 1))
    # Fewer edits than the limit never lead further from the diagonal.
    far = len(first) + len(second) if limit is None else limit
    beyond = len(first) + len(second)
    for row, a in enumerate(first, 1):
        low, high = max(1, row - far), min(len(second), row + far)
        now = [row] * low if low == 1 else [beyond] * low
        for column, b in enumerate(second[low - 1 : high], low):
            cost = min(last[column] + 1, now[column - 1] + 1, last[column - 1] + (a != b))
            if row > 1 and column > 1 and a == second[column - 2] and first[row - 2] == b:
                cost = min(cost, before[column - 2] + 1)
            now.append(cost)
        now += [beyond] * (len(second) - high)
        if limit is not None and min(now) > limit and min(last) > limit:
            return limit + 1
        before, last = last, now
    return last[-1] if limit is None else min(last[-1], limit + 1)


def nearest(
    word: str, choices: Iterable[str], limit: int = 2, count: int | None = None
) -> list[tuple[str, int]]:
    """Return the choices that lie within `limit` edits of `word`.

    Parameters
    ----------
    word : str
        What was written.
    choices : iterable of str
        What may be written.
    limit : int
        Greatest number of edits.
    count : int, optional
        Return no more than this many.

    Returns
    -------
    list of (name, distance)
        Nearest first, equal distances in alphabetical order. A choice that differs in capitals or
        in ``-``, ``_`` and blanks alone counts one edit. Empty for a very long word.
    """
    if len(word) > _LONGEST:
        return []
    return list(_nearest(word, tuple(choices), limit)[:count])


# One slip is often made on every row of a table.
@lru_cache(maxsize=1024)
def _nearest(word: str, choices: tuple[str, ...], limit: int) -> tuple[tuple[str, int], ...]:
    found: list[tuple[str, int]] = []
    letters, folded = set(word), _folded(word)
    for choice in dict.fromkeys(choices):
        if choice == word:
            distance = 0
        elif _folded(choice) == folded:
            distance = 1
        # An edit changes two letters at most: most words are told apart without counting edits.
        elif abs(len(choice) - len(word)) > limit or len(letters ^ set(choice)) > 2 * limit:
            continue
        else:
            distance = edit_distance(word, choice, limit)
        # Replacing every character of a short word is no likeness.
        if distance <= limit and distance < max(len(word), len(choice)):
            found.append((choice, distance))
    return tuple(sorted(found, key=lambda item: (item[1], item[0])))


def _folded(word: str) -> str:
    return word.casefold().replace("_", "").replace("-", "").replace(" ", "")
