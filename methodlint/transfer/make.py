"""Puts a transfer together: flow, settings, times, everything around, text, check."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from methodlint.checking.check import judge_documents
from methodlint.documents.library import Library
from methodlint.documents.loading import Loaded, load
from methodlint.documents.not_found import NotFound
from methodlint.documents.text.reader import read_text
from methodlint.judging.finding import Finding, severity
from methodlint.judging.loader import Rule, built_in_rules
from methodlint.rehearsal.plan.run_plan import plan_run
from methodlint.rehearsal.run.rehearsal import Rehearsal
from methodlint.rehearsal.run.rehearse import rehearse
from methodlint.scaling.allowances import AllowanceSet
from methodlint.scaling.headroom import loads_of, within
from methodlint.scaling.settled import NotCovered, flow_resistance_of, with_flow_resistance
from methodlint.transfer.allowance_use import allowance_uses
from methodlint.transfer.bench_part import draft_bench
from methodlint.transfer.draft import Draft
from methodlint.transfer.entry import Obstacle
from methodlint.transfer.flow_choice import Ceiling, FlowChoice, Keep, choose_flow, load_words
from methodlint.transfer.identity_part import draft_identity
from methodlint.transfer.obstacles import before_anything, dwell_obstacle, ways_around
from methodlint.transfer.programme_part import draft_programme
from methodlint.transfer.result import Transfer
from methodlint.transfer.sides import CannotTransfer, Sides
from methodlint.transfer.text_edits import TextEdits, as_scalar
from methodlint.transfer.time_map import make_time_map
from methodlint.transfer.verification import verification_names, verification_texts

__all__ = ["make_transfer"]

_NEVER = 99
_MOST_REHEARSALS = 6


@dataclass
class _Overlay:
    """A library with a few documents that are not on disk yet."""

    library: Library
    extra: dict[tuple[str, str], Loaded]

    @property
    def lab(self) -> Loaded | None:
        return self.library.lab

    def find(self, kind: str, name: str, beside: Loaded) -> Loaded | NotFound:
        return self.extra.get((kind, name)) or self.library.find(kind, name, beside)


def make_transfer(
    sides: Sides,
    library: Library,
    name: str,
    path: str,
    *,
    keep: Keep = "separation",
    shorten: bool = False,
    allowances: AllowanceSet,
    rules: Sequence[Rule] | None = None,
) -> Transfer:
    """Compute the transferred method and check it.

    Parameters
    ----------
    sides
        Source and target.
    library
        Resolves what the proposal refers to.
    name, path
        Of the proposed document.
    keep, shorten
        What is kept; whether to run as fast as limits allow.
    allowances
        The set that changes are held against.
    rules
        Applied to the proposal; all that come with the package by default.

    Raises
    ------
    CannotTransfer
        If the proposal cannot be written into the source's text.
    """
    options = {"keep": keep, "shorten": "yes" if shorten else "no", "allowances": allowances.name}
    transfer = Transfer(sides, allowances=allowances, options=options, remarks=_remarks(sides))
    blocked = before_anything(sides)
    if blocked:
        return replace(transfer, obstacles=tuple(blocked))
    ceiling: Ceiling | None = None
    for _ in range(_MOST_REHEARSALS):
        try:
            choice = choose_flow(sides, keep, shorten, allowances, ceiling)
        except NotCovered as gap:
            return replace(transfer, obstacles=(Obstacle("property model", str(gap)),))
        if choice.attempt is None:
            return replace(
                transfer,
                obstacles=(Obstacle("flow", choice.binding),),
                ways=ways_around(sides, choice, None, allowances),
            )
        times = make_time_map(sides, choice.attempt)
        draft = Draft(TextEdits(sides.method.read))
        reason = _flow_reason(choice, keep, shorten)
        draft_identity(draft, sides, allowances.name, reason, verification_names(name))
        draft_programme(draft, sides, choice, times)
        run = _run(sides, _loaded(draft, name, path))
        dwell = dwell_obstacle(sides, times)
        beyond = within(loads_of(run), sides.loads) if run.done and dwell is None else []
        if not beyond:
            break
        # The settled states passed: what is too high is a mixture of programme and delay.
        load, allowed = beyond[0]
        room = (allowed - load.floor) / max(load.pressure - load.floor, 1.0)
        factor = choice.attempt.factor * min(max(room, 0.3), 0.99)
        ceiling = Ceiling(factor, load_words(load, allowed))
    transfer = replace(
        transfer,
        attempt=choice.attempt,
        ways=ways_around(sides, choice, times, allowances),
        uses=tuple(allowance_uses(sides, choice, allowances)),
    )
    peaks = draft_bench(draft, sides, times, run)
    if dwell is not None:
        return replace(
            transfer, obstacles=(dwell,), entries=tuple(draft.entries), peaks=tuple(peaks)
        )
    proposed = _loaded(draft, name, path)
    texts = verification_texts(sides, name, peaks)
    transfer = replace(
        transfer,
        entries=tuple(draft.entries),
        peaks=tuple(peaks),
        text=proposed.read.data.decode("utf-8"),
        proposed=proposed,
        verification=texts,
    )
    return _checked(transfer, library, built_in_rules() if rules is None else rules)


def _remarks(sides: Sides) -> tuple[str, ...]:
    found = list(sides.remarks)
    if sides.calibration is not None:
        serves = (
            "" if sides.calibration_serves_target else "; the target's column is not the same one"
        )
        found.append(
            f"flow resistance of the source's column from its measured pressure: "
            f"{sides.calibration:.0f} (superficial basis){serves}"
        )
    return tuple(found)


def _flow_reason(choice: FlowChoice, keep: Keep, shorten: bool) -> str:
    assert choice.attempt is not None
    if abs(choice.attempt.factor / choice.geometry - 1.0) < 1e-6:
        return ""
    if shorten and choice.attempt.factor > choice.geometry:
        return "shortened on purpose"
    if choice.limited_by:
        return f"limited by {choice.limited_by.partition(':')[0]}"
    return "duration kept" if keep == "duration" else ""


def _loaded(draft: Draft, name: str, path: str) -> Loaded:
    text = draft.edits.text()
    try:
        data = text.encode("utf-8")
    except UnicodeEncodeError as error:
        said = "the name of a file is not UTF-8"
        raise CannotTransfer(
            f"the proposal cannot be written into the source's text: {said}"
        ) from error
    read = read_text(data, path)
    loaded = load(read, path, name)
    if loaded is None or read.problems:
        said = read.problems[0].message if read.problems else "what comes out is no method"
        raise CannotTransfer(
            f"the proposal cannot be written into the source's text: {said}; write every key of "
            "the source in a line of its own, without anchors, and transfer it again"
        )
    for entry in draft.entries:
        path_now = draft.new_path(entry.path) if entry.path else None
        if path_now is None or not entry.proposed:
            continue
        node = read.node(path_now)
        written = getattr(node, "text", None)
        if written is not None and entry.proposed not in (written, as_scalar(written)):
            raise CannotTransfer(
                f"{entry.item} could not be written: the text says {written}, not {entry.proposed}"
            )
    return loaded


def _run(sides: Sides, proposed: Loaded) -> Rehearsal:
    plan = plan_run(proposed, sides.target.columns, sides.target.instrument)
    if sides.calibration_serves_target and plan.train is not None:
        plan = with_flow_resistance(plan, flow_resistance_of(sides.target.plan))
    return rehearse(plan)


def _checked(transfer: Transfer, library: Library, rules: Sequence[Rule]) -> Transfer:
    """Judge the proposal, and the source on its own instrument; keep what is new."""
    proposed, sides = transfer.proposed, transfer.sides
    assert proposed is not None
    extra = {("method", proposed.name): proposed, ("method", sides.method.name): sides.method}
    for name, text in transfer.verification.items():
        sequence = load(read_text(text.encode(), f"{name}.yaml"), f"{name}.yaml", name)
        if sequence is not None:
            extra["sequence", name] = sequence
    overlay = _Overlay(library, extra)
    report = judge_documents(overlay, [proposed], rules)
    known = _known(judge_documents(overlay, [_on_one(sides)], rules).findings)
    remaining = [
        finding
        for finding in report.findings
        if finding.grade != "note"
        and finding.at.document.path not in (sides.method.path,)
        and severity(finding.grade) < known.get(finding.rule, _NEVER)
    ]
    obstacles = [
        Obstacle(item.rule, f"the proposal could not be judged: {item.subject}: {item.reason}")
        for item in report.unjudged
    ]
    obstacles += [
        Obstacle(finding.rule, finding.message) for finding in remaining if finding.grade == "stop"
    ]
    if obstacles:
        return replace(
            transfer, obstacles=tuple(obstacles), remaining=tuple(remaining), report=report, text=""
        )
    return replace(transfer, remaining=tuple(remaining), report=report)


def _on_one(sides: Sides) -> Loaded:
    """The source as it runs on the instrument that it is transferred from."""
    typed = sides.method.model
    only = typed.model_copy(update={"runs_on": (sides.source.instrument.name,)})
    return replace(sides.method, model=only)


def _known(findings: Sequence[Finding]) -> dict[str, int]:
    """Rules that the source breaks itself, with the worst class."""
    known: dict[str, int] = {}
    for finding in findings:
        rank = severity(finding.grade)
        known[finding.rule] = min(rank, known.get(finding.rule, _NEVER))
    return known
