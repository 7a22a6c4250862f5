"""The state of the bench between two bookings: as found, as the sequence leaves it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from methodlint.documents.kinds.base import AdditiveLevel, Liquid
from methodlint.documents.kinds.method import Method
from methodlint.documents.kinds.sequence import EndState
from methodlint.documents.quantities.format import show
from methodlint.rehearsal.batch.lines import Batch
from methodlint.rehearsal.plan.line_settings import co2_flows
from methodlint.rehearsal.plan.run_plan import components_of

__all__ = ["BenchState", "differences", "liquid_words", "said_state", "state_left", "state_wanted"]

Switch = Literal["on", "off"]
_SAME_TEMPERATURE = 0.5


@dataclass(frozen=True, slots=True)
class BenchState:
    """What stands and flows at the bench at one moment; None where it is not known.

    Attributes
    ----------
    modifier
        Liquid in the modifier lines, in words.
    column
        Name of the column card.
    co2, makeup
        Whether they flow.
    oven_temperature
        [K].
    """

    modifier: str | None = None
    column: str | None = None
    co2: Switch | None = None
    makeup: Switch | None = None
    oven_temperature: float | None = None

    @property
    def known(self) -> bool:
        """Whether anything at all is known."""
        return self != BenchState()


def liquid_words(liquid: Liquid | None) -> str | None:
    """Write a liquid with its parts and additives; None if it names none."""
    if liquid is None:
        return None
    parts = components_of(liquid)
    if not parts:
        return None
    blend = len(parts) > 1
    text = " + ".join(f"{name} {100.0 * part:.3g} %" if blend else name for name, part in parts)
    additives = ", ".join(_additive(each) for each in liquid.additives)
    return f"{text} with {additives}" if additives else text


def _additive(additive: AdditiveLevel) -> str:
    level = additive.level
    return f"{level.text} {additive.additive}" if level is not None else additive.additive


def said_state(state: EndState | None) -> BenchState:
    """Read a state that a sequence writes down."""
    if state is None:
        return BenchState()
    return BenchState(
        liquid_words(state.modifier),
        state.column,
        state.co2,
        state.makeup,
        state.oven_temperature.si if state.oven_temperature is not None else None,
    )


def state_wanted(batch: Batch) -> BenchState:
    """State in which the first line of a sequence starts."""
    if not batch.lines:
        return BenchState()
    return _at_method(batch, batch.lines[0].method, start=True)


def state_left(batch: Batch) -> BenchState:
    """State in which the lines of a sequence leave the bench, whatever follows it."""
    if not batch.lines:
        return BenchState()
    names = [line.method for line in batch.lines if line.method in batch.methods]
    state = _at_method(batch, names[-1] if names else "", start=False)
    modifier, makeup = state.modifier, state.makeup
    co2: Switch = "on"
    for line in batch.lines:
        written = line.line
        if written.liquid is not None:
            modifier = liquid_words(written.liquid)
        elif line.injects:
            method = batch.methods.get(line.method)
            modifier = _modifier(method.model) if method else modifier
        co2 = "off" if co2_flows(written) is False else "on"
        if written.makeup is not None:
            makeup = written.makeup
    return BenchState(modifier, state.column, co2, makeup, state.oven_temperature)


def _at_method(batch: Batch, name: str, *, start: bool) -> BenchState:
    loaded = batch.methods.get(name)
    if loaded is None:
        return BenchState()
    method = loaded.model
    names = method.column if isinstance(method.column, tuple) else (method.column,)
    column = names[-1] if names else None
    run = batch.runs.get(name)
    oven = method.oven_temperature.si if method.oven_temperature is not None else None
    if not start and run is not None and run.metered:
        oven = float(run.programme.oven_temperature_at(run.time[-1:])[0])
    return BenchState(
        _modifier(method),
        column,
        "on",
        "on" if method.makeup is not None else None,
        oven,
    )


def _modifier(method: Method) -> str | None:
    return liquid_words(method.mobile_phase.modifier if method.mobile_phase else None)


def differences(found: BenchState, wanted: BenchState) -> Iterator[tuple[str, str, str]]:
    """Compare two states where both are known.

    Yields
    ------
    tuple of str
        What differs, how it is in the first state, how in the second one.
    """
    for what, first, second in (
        ("modifier lines", found.modifier, wanted.modifier),
        ("column", found.column, wanted.column),
        ("CO2", found.co2, wanted.co2),
        ("makeup", found.makeup, wanted.makeup),
    ):
        if first is not None and second is not None and first != second:
            yield what, first, second
    one, other = found.oven_temperature, wanted.oven_temperature
    if one is not None and other is not None and abs(one - other) > _SAME_TEMPERATURE:
        yield "oven", show(one, "temperature"), show(other, "temperature")
