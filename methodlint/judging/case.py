"""What a rule is given to judge: a document, a run, or a batch, with everything around it."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property, lru_cache
from typing import TYPE_CHECKING, Any, cast

from methodlint.documents.kinds.base import Liquid
from methodlint.documents.kinds.column import Column
from methodlint.documents.kinds.instrument import Instrument
from methodlint.documents.kinds.lab import Lab, Policy
from methodlint.documents.kinds.method import Method
from methodlint.documents.kinds.room import Room
from methodlint.documents.kinds.sequence import Sequence
from methodlint.documents.kinds.solvents import Solvents
from methodlint.documents.kinds.supply import Supply
from methodlint.documents.loading import Loaded
from methodlint.documents.text.places import Path, path_text
from methodlint.judging.finding import (
    At,
    Candidate,
    Change,
    Finding,
    Grade,
    Measure,
    NotChecked,
    When,
    ask_for,
)
from methodlint.rehearsal.batch.lines import Batch, LineRun
from methodlint.rehearsal.contacts.in_a_run import Contact
from methodlint.rehearsal.history.history import History
from methodlint.rehearsal.plan.missing import Missing
from methodlint.rehearsal.plan.scouting_lines import ScoutedLines
from methodlint.rehearsal.run.phase_at_settings import OutletBySettings, outlet_by_settings
from methodlint.rehearsal.run.rehearsal import Rehearsal
from methodlint.scaling.comparison import Comparison

if TYPE_CHECKING:
    from methodlint.judging.lab_rules import RuleFolder

_STEP = re.compile(r"([^.\[\]]+)|\[(\d+)\]")
BENCH = ("supply", "solvents", "room", "sequence")


@lru_cache(maxsize=4096)
def split_path(text: str) -> Path:
    """Read `programme[2].flow` as a path."""
    return tuple(int(index) if index else name for name, index in _STEP.findall(text))


@lru_cache(maxsize=4096)
def _split_where(where: str) -> tuple[str, Path]:
    """Read `method.programme[2].flow` as a kind and a path."""
    kind, _, rest = where.partition(".")
    return kind, split_path(rest)


def _purpose(own: str | None, of_sequence: str | None, tags: frozenset[str | None]) -> str | None:
    """Purpose of a method in a sequence whose methods have these tags.

    Where they differ each method goes by its own and the sequence's serves those without; where
    all say the same, a sequence that says otherwise has the word.
    """
    return of_sequence or own if len(tags) < 2 else own or of_sequence


@dataclass
class Case:
    """Everything that one judgement may look at.

    Attributes
    ----------
    documents
        Documents by kind; a kind that nobody refers to is absent.
    unresolved
        References that lead nowhere, by kind, with the document and path that makes them.
    as_of
        Date that dates are judged against; None if neither the command line nor the sequence
        names one.
    assumed_purpose
        A purpose tag to judge by in place of the documents' own.
    """

    documents: dict[str, Loaded]
    lab: Loaded[Lab] | None = None
    unresolved: dict[str, Missing] = field(default_factory=dict)
    as_of: datetime.date | None = None
    rule_id: str = ""
    assumed_purpose: str | None = None

    # Documents -----------------------------------------------------------------------------

    def _model(self, kind: str) -> Any:
        loaded = self.documents.get(kind)
        return loaded.model if loaded else None

    @cached_property
    def method(self) -> Method | None:
        """The typed method."""
        found: Method | None = self._model("method")
        return found

    @cached_property
    def column(self) -> Column | None:
        """The typed column card; the analytical one where several stand in series."""
        found: Column | None = self._model("column")
        return found

    @cached_property
    def instrument(self) -> Instrument | None:
        """The typed instrument card."""
        found: Instrument | None = self._model("instrument")
        return found

    @cached_property
    def supply(self) -> Supply | None:
        """The typed supply card."""
        found: Supply | None = self._model("supply")
        return found

    @cached_property
    def solvents(self) -> Solvents | None:
        """The typed list of bottles."""
        found: Solvents | None = self._model("solvents")
        return found

    @cached_property
    def room(self) -> Room | None:
        """The typed room card."""
        found: Room | None = self._model("room")
        return found

    @cached_property
    def sequence(self) -> Sequence | None:
        """The typed sequence."""
        found: Sequence | None = self._model("sequence")
        return found

    @cached_property
    def policy(self) -> Policy:
        """The lab's policy; an empty one if the lab has none."""
        return (self.lab.model.policy if self.lab else None) or Policy()

    @property
    def purpose(self) -> str | None:
        """Purpose tag of the sequence or of the method, else the one that the lab takes for all."""
        if self.assumed_purpose is not None:
            return self.assumed_purpose
        if self.sequence is not None and self.sequence.purpose is not None:
            return self.sequence.purpose
        if self.method is not None and self.method.purpose is not None:
            return self.method.purpose
        return self.policy.purpose

    @property
    def last_day(self) -> datetime.date | None:
        """The later of the day that is judged by and that on which the sequence begins."""
        begins = self.get("sequence.begins")
        days = [self.as_of, begins.date() if begins is not None else None]
        return max((day for day in days if day is not None), default=None)

    @property
    def quantitative(self) -> bool:
        """Whether the purpose tag makes the results quantitative ones."""
        return self.purpose in ("regulated", "bioanalysis")

    # Places --------------------------------------------------------------------------------

    def at(self, where: str | Loaded, path: str | Path = "") -> At:
        """Point at a value: `at("method.programme[2].flow")` or `at(document, path)`."""
        if isinstance(where, Loaded):
            return At(where, split_path(path) if isinstance(path, str) else path)
        kind, _, rest = where.partition(".")
        return At(self.documents[kind], split_path(rest))

    def get(self, where: str) -> Any:
        """Look a value up by kind and path; None if anything on the way is not there."""
        kind, steps = _split_where(where)
        value: Any = self._model(kind)
        for step in steps:
            if value is None:
                return None
            if isinstance(step, int):
                value = value[step] if step < len(value) else None
            elif isinstance(value, dict):
                value = value.get(step)
            else:
                value = getattr(value, step)
        return value

    def lacking(
        self, needs: tuple[str, ...], known: dict[str | tuple[str, ...], list[Missing] | None]
    ) -> list[Missing] | None:
        """Which of these figures are missing.

        Parameters
        ----------
        needs
            Figures by kind and path.
        known
            What was found for single figures and for several, added to: many rules need the same.

        Returns
        -------
        list of Missing or None
            None if the question does not arise here: a bench is not part of this case.
        """
        if needs in known:
            return known[needs]
        known[needs] = missing = self._lacking_of(needs, known)
        return missing

    def _lacking_of(
        self, needs: tuple[str, ...], known: dict[str | tuple[str, ...], list[Missing] | None]
    ) -> list[Missing] | None:
        missing: list[Missing] = []
        for need in needs:
            if need not in known:
                known[need] = self._lacks(need) if self._is_applicable(need) else None
            lacks = known[need]
            if lacks is None:
                return None
            missing.extend(item for item in lacks if item not in missing)
        return missing

    def _is_applicable(self, need: str) -> bool:
        kind = need.partition(".")[0]
        return kind not in BENCH or kind in self.documents or "sequence" in self.documents

    def _lacks(self, need: str) -> list[Missing]:
        if "[]" in need:
            return self._broken_items(need)
        kind, _, rest = need.partition(".")
        if kind not in self.documents:
            if kind in self.unresolved:
                return [self.unresolved[kind]]
            referrer = self.documents.get("sequence") or self.documents.get("method")
            return [Missing(need, referrer)]
        value = self.get(need) if rest else self.documents[kind]
        if value is None or value == ():
            document = self.documents[kind]
            return [Missing(need, document, self.why_broken(document, split_path(rest)))]
        return []

    def _broken_items(self, need: str) -> list[Missing]:
        """Look for items of a list whose value at a key is written down but broken."""
        kind, _, rest = need.partition(".")
        if kind not in self.documents:
            return []
        document = self.documents[kind]
        name, _, key = rest.partition("[].")
        for path, problem in document.broken.items():
            if len(path) > 2 and path[0] == name and path[2] == key:
                why = f"it is written down but cannot be used: {problem.message}"
                return [Missing(f"{kind}.{path_text(path)}", document, why)]
        return []

    @staticmethod
    def why_broken(document: Loaded, path: Path) -> str:
        """Why a value that is written down is missing; empty if it is not written down."""
        for broken, problem in document.broken.items():
            if broken[: len(path)] == path or path[: len(broken)] == broken:
                return f"it is written down but cannot be used: {problem.message}"
        return ""

    # What a rule says ----------------------------------------------------------------------

    def finding(
        self,
        at: str | At,
        grade: Grade,
        message: str,
        *,
        found: Measure | None = None,
        limit: Measure | None = None,
        band: Measure | None = None,
        when: When | None = None,
        remedy: str = "",
        candidates: tuple[Candidate, ...] | list[Candidate] = (),
        also: tuple[At, ...] = (),
        cautions: tuple[str, ...] = (),
        possible: bool = False,
        first: str = "",
        band_below: Measure | None = None,
    ) -> Finding:
        """Build a finding; the engine adds the rule's id."""
        return Finding(
            rule=self.rule_id,
            grade=grade,
            at=self.at(at) if isinstance(at, str) else at,
            message=message,
            found=found,
            limit=limit,
            band=band,
            when=when,
            remedy=remedy,
            candidates=tuple(candidates),
            also=also,
            cautions=cautions,
            possible=possible,
            first=first,
            band_below=band_below,
        )

    def not_checked(self, at: str | At, missing: str, reason: str = "") -> NotChecked:
        """Say that a part of a rule could not be applied, and which figure it lacks."""
        place = self.at(at) if isinstance(at, str) else at
        asks = (ask_for(missing, self._card_of(missing, place.document)),)
        return NotChecked(self.rule_id, place, (missing,), reason, asks=asks)

    def _card_of(self, missing: str, document: Loaded) -> Loaded:
        """The document that should give a figure, where another one is pointed at."""
        kind = missing.partition(".")[0]
        if kind == document.kind:
            return document
        if kind == "lab" and self.lab is not None:
            return self.lab
        return self.documents.get(kind, document)

    def change(self, where: str | At, value: Any, *, insert: bool = False) -> Change:
        """Build one change of a candidate."""
        return Change(self.at(where) if isinstance(where, str) else where, value, insert)

    def candidate(self, text: str, *changes: Change, way: str = "") -> Candidate:
        """Build a candidate of one or more changes; `way` names what is turned."""
        return Candidate(tuple(changes), text, way)


@dataclass
class DocumentCase(Case):
    """One document by itself.

    Attributes
    ----------
    idle
        Numbers of its deviations that set nothing aside although their rules were applied.
    rule_grades
        Classes by id, of the rules that took part and of those that come with the package.
    rule_folders
        What became of the rule folders that a lab's document names.
    waiting
        Rules that are silent here because neither sequence nor method carries a purpose tag: the
        worst class each would use by tag and id.
    """

    document: Loaded = None  # type: ignore[assignment]
    idle: frozenset[int] = frozenset()
    rule_grades: Mapping[str, tuple[Grade, ...]] = field(default_factory=dict)
    rule_folders: tuple[RuleFolder, ...] = ()
    waiting: Mapping[str, Mapping[str, Grade]] = field(default_factory=dict)

    @property
    def name(self) -> str:
        """What the case is about."""
        return self.document.path

    def reported(self) -> Iterator[Finding]:
        """Yield what the reader and the schema have found under the id of the present rule."""
        for problem in self.document.problems:
            if problem.rule == self.rule_id:
                yield Finding(
                    rule=problem.rule,
                    grade=cast(Grade, problem.grade),
                    at=At(self.document, problem.path, problem.place),
                    message=problem.message,
                    remedy=problem.remedy,
                    meant=problem.meant,
                )


@dataclass
class RunCase(Case):
    """One method on one instrument, alone or within a sequence.

    `source` is the run that a transferred method comes from, rehearsed too; `verifications` are
    the sequences that it names as its verification. `earlier` is the run that this one is a trial
    change of: what it computed may still hold. `histories` are the logbooks that its column cards
    name, by the names of the columns.
    """

    columns: tuple[Loaded[Column], ...] = ()
    rehearsal: Rehearsal | None = None
    contacts: tuple[Contact, ...] = ()
    neighbours: dict[str, Loaded[Method]] = field(default_factory=dict)
    source: RunCase | None = None
    verifications: tuple[Loaded, ...] = ()
    earlier: RunCase | None = None
    histories: Mapping[str, History] = field(default_factory=dict)
    _comparison: Comparison | None = field(default=None, init=False, repr=False, compare=False)

    @property
    def comparison(self) -> Comparison:
        """The run beside its source; rules that use it name `run` and `source.run` as needs."""
        assert self.source is not None
        if self._comparison is None:
            self._comparison = Comparison(self.source.run, self.run)
        return self._comparison

    @property
    def makeup_off(self) -> bool:
        """Whether the makeup pump stands still although the method has a makeup."""
        return False

    @property
    def transferred(self) -> bool:
        """Whether the method says that it was transferred from another one."""
        return self.method is not None and self.method.transferred_from is not None

    @property
    def name(self) -> str:
        """What the case is about."""
        instrument = self.documents.get("instrument")
        on = f" on {instrument.name}" if instrument else ""
        return f"{self.documents['method'].name}{on}"

    @property
    def run(self) -> Rehearsal:
        """The rehearsal; rules that use it name `run` among their needs."""
        assert self.rehearsal is not None
        return self.rehearsal

    @property
    def outlet_by_settings(self) -> OutletBySettings | None:
        """What the settings alone say of the phases, for a run that could not be rehearsed."""
        if self.rehearsal is None or self.rehearsal.done:
            return None
        return outlet_by_settings(self.rehearsal.plan)

    def _lacks(self, need: str) -> list[Missing]:
        if need == "flows" and self.rehearsal and self.rehearsal.metered:
            return []
        if need == "phase" and self.outlet_by_settings is not None:
            return []
        if need in ("run", "flows", "phase"):
            return list(self.rehearsal.missing) if self.rehearsal else []
        if need.partition(".")[0] == "source":
            return self._lacks_of_source(need.partition(".")[2])
        return super()._lacks(need)

    def _lacks_of_source(self, need: str) -> list[Missing]:
        """Which figure of the run that the method was transferred from is missing."""
        if self.source is None:
            lost = self.unresolved.get("source")
            return [lost or Missing("method.transferred_from", self.documents["method"])]
        found = self.source._lacks(need) if need else []
        return [Missing(f"source {item.where}", item.document, item.reason) for item in found]

    @property
    def purpose(self) -> str | None:
        """Purpose tag of the method in a mixed batch, else as in every case."""
        if self.assumed_purpose is not None or self.sequence is None or self.method is None:
            return super().purpose
        tags = frozenset(one.model.purpose for one in self.neighbours.values())
        return _purpose(self.method.purpose, self.sequence.purpose, tags) or self.policy.purpose

    def method_liquid(self) -> Liquid | None:
        """Modifier of the method."""
        phase = self.method.mobile_phase if self.method else None
        return phase.modifier if phase else None


@dataclass
class BatchCase(Case):
    """One sequence with its bench."""

    batch: Batch = None  # type: ignore[assignment]
    runs: dict[str, RunCase] = field(default_factory=dict)
    contacts: tuple[Contact, ...] = ()
    scouted: ScoutedLines | None = None
    whole: Batch | None = None
    part_purpose: str | None = None

    @property
    def purpose(self) -> str | None:
        """Purpose of a part, or of the whole: the sequence's, else that of all of its methods."""
        if self.whole is not None:
            return self.part_purpose or self.assumed_purpose
        own = self.assumed_purpose or (self.sequence.purpose if self.sequence else None)
        shared = next(iter(self._tags)) if len(self._tags) == 1 else None
        return own or shared or self.policy.purpose

    @property
    def whole_batch(self) -> Batch:
        """All lines of the sequence, also where the case is a part of it."""
        return self.whole or self.batch

    @cached_property
    def _tags(self) -> frozenset[str | None]:
        return frozenset(run.method.purpose for run in self.runs.values() if run.method is not None)

    def purpose_of(self, line: LineRun) -> str | None:
        """What a line is for: its own word, else its method's in a mixed batch, else the batch's."""
        run = self.runs.get(line.method)
        method = run.method if run is not None else None
        default = self.sequence.purpose if self.sequence is not None else None
        own = method.purpose if method is not None else None
        return line.line.purpose or _purpose(own, default, self._tags) or self.policy.purpose

    @property
    def name(self) -> str:
        """What the case is about."""
        return self.documents["sequence"].path

    def _lacks(self, need: str) -> list[Missing]:
        if need == "batch":
            return list(self.batch.missing)
        if need.startswith("method."):
            return [item for run in self.runs.values() for item in run._lacks(need)]
        return super()._lacks(need)

    def line_at(self, index: int, key: str = "") -> At:
        """Point at a line of the sequence, or at one of its keys."""
        path: Path = ("lines", index, key) if key else ("lines", index)
        return At(self.documents["sequence"], path)
