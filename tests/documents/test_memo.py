"""What is kept for the latest object is found once for it, and anew for any other."""

from __future__ import annotations

from methodlint.documents.memo import memoize_last


def test_the_very_same_object_is_asked_about_once() -> None:
    asked: list[object] = []

    @memoize_last
    def seen(subject: list[int]) -> tuple[int, ...]:
        asked.append(subject)
        return tuple(subject)

    first, equal = [1, 2], [1, 2]
    assert seen(first) is seen(first)
    assert len(asked) == 1
    assert seen(equal) == (1, 2)
    assert [id(subject) for subject in asked] == [id(first), id(equal)]
    seen(first)
    assert len(asked) == 3
    assert seen.__name__ == "seen"
