"""A line of a sequence with settings of its own, judged by the rules of runs.

A flush, an idle step or a sample at another flow is a run as well: the rules see its rehearsal,
and what they find stands at the line, with changes of the line as candidates for a remedy.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from typing import Any

from methodlint.documents.kinds.base import Liquid
from methodlint.documents.kinds.sequence import Line, Sequence
from methodlint.documents.loading import Loaded
from methodlint.documents.quantities.format import show
from methodlint.judging.case import RunCase
from methodlint.judging.finding import At, Candidate, Finding, Grade
from methodlint.rehearsal.batch.lines import INJECTING
from methodlint.rehearsal.plan.column_content import Content
from methodlint.rehearsal.plan.components import components_of
from methodlint.rehearsal.plan.line_settings import (
    LineSettings,
    co2_flows,
    flowing,
    line_plan,
    own_phase,
    settings_of,
)
from methodlint.rehearsal.plan.missing import Missing
from methodlint.rehearsal.plan.run_plan import RunPlan

__all__ = ["LineCase"]

_PARTS = (0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3, 0.2, 0.1, 0.05)
_BY_VOLUME = ("flush", "equilibration")
_REGULATOR = "pressure.bpr-out-of-range"
_OUTLETS = (100, 120, 150, 180, 200)
_NAMED = 6
_VOLUMES = 1.5
"""Dwell and hold-up volumes in which a content is pushed out; common practice, no source."""


@dataclass
class LineCase(RunCase):
    """Lines of a sequence that set the same, and the run that they make.

    Attributes
    ----------
    indices
        Numbers of the lines in the document, from 0.
    assumed
        Whether CO2 flows, where the lines do not say.
    pushes
        What the column holds when the lines begin, and they push out; None for the lines when
        that has gone.
    """

    indices: tuple[int, ...] = ()
    assumed: bool = True
    pushes: Content | None = None
    _own_phase: bool = field(default=True, init=False, repr=False, compare=False)

    @property
    def outlet_by_settings(self) -> None:
        """Nothing: a line flows as its own settings say, which the method's do not decide."""
        return None

    @property
    def sequence_document(self) -> Loaded[Sequence]:
        """The sequence."""
        return self.documents["sequence"]

    @property
    def line(self) -> Line:
        """The first of the lines."""
        return self.sequence_document.model.lines[self.indices[0]]

    @property
    def unsaid(self) -> bool:
        """Whether the lines leave open if CO2 flows."""
        return not self._injects and co2_flows(self.line) is None

    @property
    def makeup_off(self) -> bool:
        """Whether the lines switch the makeup pump off."""
        return self.line.makeup == "off"

    @property
    def _injects(self) -> bool:
        return self.line.kind in INJECTING

    @property
    def _co2(self) -> bool:
        said = True if self._injects else co2_flows(self.line)
        return self.assumed if said is None else said

    def settings(self, base: RunPlan) -> LineSettings | None:
        """What the lines set; None where they run as their method does."""
        if self.pushes is None:
            return settings_of(self.line, base, self._co2, injects=self._injects)
        found = flowing(self.line, base, self._co2, injects=self._injects)
        return replace(found, pushes=self.pushes) if found is not None else None

    def plan(self, base: RunPlan) -> RunPlan:
        """Plan the lines on the plan of their method."""
        settings = self.settings(base)
        if settings is None:
            return base
        self._own_phase = own_phase(settings, base)
        names = ", ".join(name for name, _ in settings.liquid)
        where = f"sequence.lines[{self.indices[0]}].liquid"
        why = f"no figures of {names} {'with' if settings.co2 else 'without'} CO2"
        return line_plan(settings, base, Missing(where, self.sequence_document, why))

    # What a rule says ----------------------------------------------------------------------

    @property
    def name(self) -> str:
        """What the case is about."""
        return f"{self.sequence_document.path} line {self.indices[0] + 1}"

    @property
    def place(self) -> At:
        """Where the lines say what they set."""
        key = next((key for key in ("flow", "flush_volume", "liquid") if self._given(key)), "")
        steps = ("lines", self.indices[0], key) if key else ("lines", self.indices[0])
        return At(self.sequence_document, steps)

    def _given(self, key: str) -> bool:
        return getattr(self.line, key) is not None

    @property
    def words(self) -> str:
        """The lines in words: `line 9 (flush with ethanol, CO2 off, 2 mL/min)`."""
        liquid = self.line.liquid
        parts = [self.line.kind + (f" with {_liquid_words(liquid)}" if liquid is not None else "")]
        if not self._injects:
            state = "on" if self._co2 else "off"
            parts.append(f"if CO2 is {state}" if self.unsaid else f"CO2 {state}")
        if self.rehearsal is not None and self.rehearsal.done:
            parts.append(show(float(self.rehearsal.set_flow.max()), "volume flow", "mL/min"))
        if self.line.column_bypassed:
            parts.append("column bypassed")
        if self.pushes is not None:
            parts.append(f"pushing {' + '.join(name for name, _ in self.pushes.liquid)} out")
        return f"{self._numbers} ({', '.join(parts)})"

    @property
    def _numbers(self) -> str:
        named = ", ".join(str(index + 1) for index in self.indices[:_NAMED])
        more = len(self.indices) - _NAMED
        return f"line{'s' * (len(self.indices) > 1)} {named}" + f" and {more} more" * (more > 0)

    def lacking(
        self, needs: tuple[str, ...], known: dict[str | tuple[str, ...], list[Missing] | None]
    ) -> list[Missing] | None:
        """Which of these figures are missing.

        Nothing is asked of a column that is bypassed, nor of the phases of the mobile phase that
        the method's own run is judged with.
        """
        if self.line.column_bypassed and any(need.startswith("column.") for need in needs):
            return None
        if self.rule_id.startswith("phase.") and not self._own_phase:
            return None
        pressure = self.rule_id.startswith("pressure.") and self.rule_id != _REGULATOR
        if self.pushes is not None and not pressure:
            return None
        return super().lacking(needs, known)

    def finding(self, at: str | At, grade: Grade, message: str, **more: Any) -> Finding:
        """Build a finding that stands at the line."""
        found = super().finding(at, grade, f"{self.words}: {message}", **more)
        if self.unsaid:
            key = 'the line does not say whether CO2 flows: add co2: "on" or co2: "off"'
            found = replace(found, message=f"{found.message}; {key}")
        beside = (found.at, *found.also)
        method = self.documents["method"].path
        phase = self.rule_id.startswith("phase.") or self.rule_id == _REGULATOR
        slower = "lower the flow of the line, and give a flush more time for the same volume"
        return replace(
            found,
            at=self.place,
            also=tuple(dict.fromkeys(a for a in beside if a.document.path != method)),
            when=None,
            remedy="set another outlet pressure in the line" if phase else slower,
            candidates=tuple(self._candidates(phase=phase)),
        )

    def _candidates(self, *, phase: bool) -> Iterator[Candidate]:
        if phase:
            return self._other_outlet()
        return self._pushed_before() if self.pushes is not None else self._slower()

    def _pushed_before(self) -> Iterator[Candidate]:
        """Candidates that push out slowly, in a line of its own, what the column holds."""
        run = self.rehearsal
        if run is None or not run.done:
            return
        volume = _VOLUMES * (run.dwell_volume + run.hold_up_volume)
        flow = float(run.set_flow.max())
        for part in _PARTS:
            minutes = math.ceil(volume / (flow * part) / 60.0 - 1e-6)
            text = show(flow * part, "volume flow", "mL/min", digits=2)
            line = {**self._like_this(), "flow": text, "duration": f"{minutes} min"}
            lines = [
                self.change(At(self.sequence_document, ("lines", index)), line, insert=True)
                for index in reversed(self.indices)
            ]
            said = f"put {'an ' if line['kind'] == 'equilibration' else 'a '}{line['kind']}"
            said += f" of {minutes} min at {text} before {self._numbers}"
            yield self.candidate(said, *lines, way="flow")

    def _like_this(self) -> dict[str, Any]:
        """A step that flows as the lines do."""
        method = self.documents["method"].name
        if self._injects or self.line.kind == "equilibration":
            return {"kind": "equilibration", "method": method}
        data = self.sequence_document.data["lines"][self.indices[0]]
        kept = ("liquid", "modifier_share", "outlet_pressure", "makeup", "source")
        own = {key: data[key] for key in kept if data.get(key) is not None}
        return {"kind": "flush", "method": method, "co2": "on" if self._co2 else "off", **own}

    def _other_outlet(self) -> Iterator[Candidate]:
        """Candidates with another setting of the regulator in the lines."""
        for value in _OUTLETS:
            text = f"{value} bar"
            changes = [self._change(index, "outlet_pressure", text) for index in self.indices]
            if self.line.regulator_released:
                changes += [self._change(one, "regulator_released", None) for one in self.indices]
            yield self.candidate(f"set outlet_pressure: {text} in {self._numbers}", *changes)

    def _slower(self) -> Iterator[Candidate]:
        """Candidates with a lower flow, all lines alike; of a flush with the same volume."""
        line = self.line
        run = self.rehearsal
        if run is None or not run.done:
            return
        flow = float(run.set_flow[0])
        for part in _PARTS:
            text = show(flow * part, "volume flow", "mL/min")
            changes = []
            said = f"set the flow of {self._numbers} to {text}"
            if line.flow is not None or line.flush_volume is None or line.duration is None:
                changes += [self._change(index, "flow", text) for index in self.indices]
            if line.kind in _BY_VOLUME and line.duration is not None and line.duration.si > 0.0:
                length = f"{math.ceil(line.duration.si / part / 60.0 - 1e-6)} min"
                changes += [self._change(index, "duration", length) for index in self.indices]
                said += f" for {length}, the same volume"
            yield self.candidate(said, *changes, way="flow")

    def _change(self, index: int, key: str, value: str | None) -> Any:
        return self.change(At(self.sequence_document, ("lines", index, key)), value)


def _liquid_words(liquid: Liquid) -> str:
    return " + ".join(name for name, _ in components_of(liquid)) or "its liquid"
