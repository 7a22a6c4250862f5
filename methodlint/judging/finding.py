"""What a rule says: findings, what was not checked, and candidates for a remedy."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any, Literal

from methodlint.documents.loading import Loaded
from methodlint.documents.text.places import Path, Place

Grade = Literal["stop", "fault", "caution", "note"]
GRADES: tuple[Grade, ...] = ("stop", "fault", "caution", "note")


def severity(grade: Grade) -> int:
    """Rank of a class of finding: 0 is the worst."""
    return GRADES.index(grade)


def worst(first: Grade, second: Grade) -> Grade:
    """Give the worse of two classes."""
    return min(first, second, key=severity)


@dataclass(frozen=True, slots=True)
class At:
    """A value in a document: the document and the path of the value.

    Attributes
    ----------
    where
        Its place, if that is not the place of the value: a key, or the second of two equal ones.
    """

    document: Loaded
    path: Path
    where: Place | None = None

    @property
    def place(self) -> Place:
        """Lines and columns in the document's text."""
        return self.where or self.document.place(self.path)

    @property
    def file(self) -> str:
        """Path, as shown, of the file that the place is in: the document's, or a table's."""
        return self.place.file or self.document.file


@dataclass(frozen=True, slots=True)
class Measure:
    """A figure in the unit it is shown in.

    Attributes
    ----------
    value
        The number, in `unit`.
    unit
        Unit as the documents spell it; empty for counts and ratios.
    """

    value: float
    unit: str = ""


@dataclass(frozen=True, slots=True)
class When:
    """When a finding holds: a span of the run [s], or injections (counted from 1)."""

    start: float | None = None
    end: float | None = None
    injection: int | None = None
    last_injection: int | None = None

    def overlaps(self, other: When) -> bool:
        """Whether two spans share a moment; a span that is not given overlaps everything."""
        return _overlap(self.start, self.end, other.start, other.end, _SOON) and _overlap(
            self.injection, self.last_injection, other.injection, other.last_injection
        )


_SOON = 1.0
"""What follows within a second is the same event: a rise, and the limit that it passes [s]."""


def _overlap(
    a: float | None, a_end: float | None, b: float | None, b_end: float | None, slack: float = 0.0
) -> bool:
    if a is None or b is None:
        return True
    ends = a if a_end is None else a_end, b if b_end is None else b_end
    return a <= ends[1] + slack and b <= ends[0] + slack


@dataclass(frozen=True, slots=True)
class Change:
    """One change to a document: `value` written at `path` (or a list item put in there)."""

    at: At
    value: Any
    insert: bool = False


@dataclass(frozen=True, slots=True)
class Candidate:
    """Something that may clear a finding; the engine makes the changes and judges again.

    Attributes
    ----------
    changes
        What to change, all of it together.
    text
        The remedy in words, printed if the changes clear the finding.
    way
        What is turned, as `oven`: of candidates that turn the same, the first that clears the
        finding is enough; another way is offered beside it.
    """

    changes: tuple[Change, ...]
    text: str
    way: str = ""

    @property
    def at_bench(self) -> bool:
        """Whether it is work at the bench, so that a card is true only after it is done."""
        return any(one.at.document.kind not in ("method", "sequence") for one in self.changes)


@dataclass(frozen=True, slots=True)
class Remedy:
    """Changes that were made to a copy, rehearsed and judged, as plain data.

    Attributes
    ----------
    text
        In words.
    changes
        File, place in it, value and whether a list item is put in there; all of them together.
    resolves
        Rules whose findings are gone with it, the finding's own first.
    leaves
        What it leaves of the finding's consequences or brings, rule and class.
    places
        Where the values of the changes are written today; None for one that is written nowhere.
    at_bench
        Whether it is work at the bench: no report offers to write a relief, a trip or a weight
        into a card before the work is done.
    """

    text: str
    changes: tuple[tuple[str, str, Any, bool], ...]
    resolves: tuple[str, ...]
    leaves: tuple[tuple[str, str], ...] = ()
    places: tuple[Place | None, ...] = field(default=(), compare=False)
    at_bench: bool = False


@dataclass(frozen=True, slots=True)
class Moved:
    """What the lab's policy has made of a finding's class.

    Attributes
    ----------
    grade
        The class before.
    reason
        Why, as the lab writes it.
    at
        The line of the policy.
    """

    grade: Grade
    reason: str
    at: At


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that is wrong, with its figures, its place and what to do about it.

    Attributes
    ----------
    moved
        What the lab's policy has made of its class; None if nothing.
    solutions
        The candidates that were seen to clear it, one of each way; `remedy` says them in words.
    remedies
        The same as plain data, with what each resolves and leaves.
    band, band_below
        How far the true figure may lie above the one found, and below it where that differs.
    first
        What to measure before anything is changed, where the band decides the class.
    meant
        Texts that may be meant in place of what is written there; for a key, keys.
    loosens
        Whether it says what a change loosens: such findings come first in every report.
    """

    rule: str
    grade: Grade
    at: At
    message: str
    found: Measure | None = None
    limit: Measure | None = None
    band: Measure | None = None
    when: When | None = None
    remedy: str = ""
    candidates: tuple[Candidate, ...] = field(default=(), compare=False)
    solutions: tuple[Candidate, ...] = field(default=(), compare=False)
    remedies: tuple[Remedy, ...] = field(default=(), compare=False)
    also: tuple[At, ...] = ()
    because: tuple[Finding, ...] = ()
    cautions: tuple[str, ...] = ()
    possible: bool = False
    subject: str = field(default="", compare=False)
    moved: Moved | None = None
    loosens: bool = False
    first: str = ""
    band_below: Measure | None = None
    meant: tuple[str, ...] = ()

    @property
    def lowered(self) -> bool:
        """Whether the lab's policy has made it milder."""
        return self.moved is not None and severity(self.moved.grade) < severity(self.grade)

    @property
    def key(self) -> tuple[str, str, Path]:
        """What makes it the same finding in another judgement of a changed document."""
        return self.rule, self.at.document.path, self.at.path


def guards_meaning(rule: str, grade: Grade) -> bool:
    """Whether a finding says that a document does not mean what it seems to mean.

    An unknown key, a missing unit or a key that stands twice is corrected in the document: neither
    the lab's policy nor a deviation makes the text mean something.
    """
    return grade == "fault" and rule.partition(".")[0] == "document"


def at_judged(finding: Finding, judged: Loaded | None) -> At:
    """Point into the document whose judgement raised a finding.

    Parameters
    ----------
    judged
        That document: the method of a run, the sequence of a batch.

    Returns
    -------
    At
        The finding's own place if that lies in the document or there is none; else the key that
        leads to the card: `column:` of a method whose column's rating is exceeded.
    """
    at = finding.at
    if judged is None or judged.path == at.document.path:
        return at
    kind = at.document.kind
    return At(judged, ("runs_on" if (judged.kind, kind) == ("method", "instrument") else kind,))


@dataclass(frozen=True, slots=True)
class Ask:
    """One thing to supply, as whoever supplies it sees it.

    Attributes
    ----------
    file
        Document that should give it.
    what
        Key in that document.
    refers
        Whether it is a card that the document does not name, with all that stands in it.
    """

    file: str
    what: str
    refers: bool = False


def ask_for(where: str, document: Loaded) -> Ask:
    """Say what a document should give: a key of its own, or the card that it does not name.

    Parameters
    ----------
    where
        Kind and path, as `column.particle_size`.
    document
        The document: the card itself, or the method or sequence that names no such card.
    """
    kind, _, rest = where.partition(".")
    if kind == document.kind:
        return Ask(document.file, rest or kind, kind == "method" and rest in ("column", "runs_on"))
    if kind not in _CARDS or document.kind not in ("method", "sequence"):
        return Ask(document.file, where)
    on_method = document.kind == "method" and kind == "instrument"
    return Ask(document.file, "runs_on" if on_method else kind, refers=True)


_CARDS = ("column", "instrument", "supply", "solvents", "room")


@dataclass(frozen=True, slots=True)
class NotChecked:
    """A rule that could not be applied, and the figures that it lacks.

    Attributes
    ----------
    asks
        The figures as what to supply, card by card.
    """

    rule: str
    at: At
    missing: tuple[str, ...]
    reason: str = ""
    can_stop: bool = False
    subject: str = field(default="", compare=False)
    asks: tuple[Ask, ...] = field(default=(), compare=False)
