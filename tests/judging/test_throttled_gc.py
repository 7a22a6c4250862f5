"""How often a process collects garbage is its own again when a check is over."""

from __future__ import annotations

import gc
import threading
from collections.abc import Iterator

import pytest

import methodlint
from methodlint.checking import throttled_gc
from tests.text_labs import EXAMPLES

USUAL, RARELY = 700, 50_000


@pytest.fixture(autouse=True)
def thresholds() -> Iterator[None]:
    before = gc.get_threshold()
    gc.set_threshold(USUAL, 10, 10)
    yield
    gc.set_threshold(*before)


def first() -> int:
    return gc.get_threshold()[0]


def test_it_is_rare_inside_and_usual_again_outside() -> None:
    with throttled_gc.gc_throttled():
        assert first() == RARELY
        with throttled_gc.gc_throttled():
            assert first() == RARELY
        assert first() == RARELY
    assert first() == USUAL


def test_an_error_puts_it_back_too() -> None:
    with pytest.raises(ZeroDivisionError), throttled_gc.gc_throttled():
        raise ZeroDivisionError
    assert first() == USUAL


def test_the_last_of_overlapping_calls_puts_it_back() -> None:
    one, other = throttled_gc.gc_throttled(), threading.Event()
    inside = threading.Event()

    def overlap() -> None:
        with throttled_gc.gc_throttled():
            inside.set()
            other.wait(30)

    thread = threading.Thread(target=overlap)
    with one:
        thread.start()
        assert inside.wait(30)
    assert first() == RARELY
    other.set()
    thread.join()
    assert first() == USUAL


@pytest.mark.parametrize("own", [0, RARELY, 1_000_000])
def test_a_process_that_looks_as_rarely_or_never_is_left_alone(own: int) -> None:
    gc.set_threshold(own, 10, 10)
    with throttled_gc.gc_throttled():
        assert first() == own
    assert first() == own


def test_what_is_set_meanwhile_stays() -> None:
    with throttled_gc.gc_throttled():
        gc.set_threshold(RARELY, 3, 3)
    assert gc.get_threshold()[:2] == (RARELY, 3)


def test_a_check_and_a_transfer_leave_it_as_it_was(monkeypatch: pytest.MonkeyPatch) -> None:
    seen = []
    set_threshold = gc.set_threshold

    def noted(*thresholds: int) -> None:
        seen.append(thresholds[0])
        set_threshold(*thresholds)

    monkeypatch.setattr(gc, "set_threshold", noted)
    method = EXAMPLES / "methods" / "triazole-enantiomers.yaml"
    methodlint.check(method)
    methodlint.check_many([method])
    methodlint.transfer(method, to="bench-a")
    with pytest.raises(FileNotFoundError):
        methodlint.check(EXAMPLES / "not-there")
    assert seen == [RARELY, USUAL] * 4
