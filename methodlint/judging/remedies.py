"""Tries the candidates of a remedy: changes the document, rehearses, judges again."""

from __future__ import annotations

import copy
import itertools
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Any

from methodlint.documents.loading import Loaded, model_class, validated
from methodlint.documents.places import Path
from methodlint.judging.case import Case, RunCase
from methodlint.judging.engine import Judged, judge_case
from methodlint.judging.finding import Candidate, Finding, severity
from methodlint.judging.loader import Rule

Rebuild = Callable[[Case, dict[str, Loaded]], Case]
Rehearse = Callable[[Sequence[Case]], None]


@dataclass(frozen=True, slots=True)
class _Trial:
    finding: int
    candidate: Candidate
    case: Case


def add_remedies(
    judged: Judged, rules: Sequence[Rule], rebuild: Rebuild, rehearse: Rehearse
) -> None:
    """Give every finding with candidates the first remedy that was seen to work.

    Parameters
    ----------
    judged
        Findings of one case; replaced in place.
    rebuild
        Makes the case anew with some documents exchanged, not yet rehearsed.
    rehearse
        Rehearses many cases in one call.
    """
    trials: list[_Trial] = []
    for index, finding in enumerate(judged.findings):
        for candidate in finding.candidates:
            changed = changed_documents(candidate)
            if changed is not None:
                trials.append(_Trial(index, candidate, rebuild(judged.case, changed)))
    if not trials:
        return
    rehearse([trial.case for trial in trials])
    results: dict[int, list[tuple[Candidate, Judged]]] = {}
    for trial in trials:
        results.setdefault(trial.finding, []).append(
            (trial.candidate, judge_case(trial.case, rules))
        )
    for index, outcomes in results.items():
        judged.findings[index] = _with_remedy(judged, index, outcomes)


def _with_remedy(judged: Judged, index: int, outcomes: list[tuple[Candidate, Judged]]) -> Finding:
    finding = judged.findings[index]
    known = {f.key: f.grade for f in _flat(judged.findings)}
    # Beyond clearing the finding, a good remedy leaves nothing of its consequences either.
    for floor in (severity("caution"), severity(finding.grade)):
        for candidate, outcome in outcomes:
            if _clears(finding, outcome, known, floor):
                return replace(finding, remedy=candidate.text + _rest(finding, outcome, known))
    said = finding.remedy or "look at the figures above"
    return replace(finding, remedy=f"no single change that was tried clears it; {said}")


def _clears(finding: Finding, outcome: Judged, known: dict[Any, Any], floor: int) -> bool:
    if outcome.failed or (len(outcome.not_checked) > 0 and _lost(outcome, finding)):
        return False
    children = {child.key for child in _flat(finding.because)}
    for left in _flat(outcome.findings):
        if left.rule == finding.rule and left.at.path == finding.at.path:
            return False
        if severity(left.grade) > floor:
            continue
        if left.key in children:
            return False
        if left.key not in known or severity(left.grade) < severity(known[left.key]):
            return False
    return True


def _rest(finding: Finding, outcome: Judged, known: dict[Any, Any]) -> str:
    """What a remedy leaves of the consequences, or brings, in words; empty if nothing."""
    children = {child.key for child in _flat(finding.because)}
    left = [
        one
        for one in _flat(outcome.findings)
        if one.grade != "note"
        and (
            one.key in children
            or one.key not in known
            or severity(one.grade) < severity(known[one.key])
        )
    ]
    names = sorted({f"{one.rule} ({one.grade})" for one in left})
    return f"; that leaves {', '.join(names)}" if names else ""


def _lost(outcome: Judged, finding: Finding) -> bool:
    return any(item.rule == finding.rule for item in outcome.not_checked)


def _flat(findings: Sequence[Finding]) -> list[Finding]:
    return [f for finding in findings for f in (finding, *_flat(finding.because))]


def changed_documents(candidate: Candidate) -> dict[str, Loaded] | None:
    """Apply a candidate's changes.

    Returns
    -------
    dict or None
        Changed documents by path; None if a changed document does not validate.
    """
    data: dict[str, Any] = {}
    documents: dict[str, Loaded] = {}
    for change in candidate.changes:
        document = change.at.document
        documents[document.path] = document
        if document.path not in data:
            data[document.path] = copy.deepcopy(document.data)
        put(data[document.path], change.at.path, change.value, insert=change.insert)
    result: dict[str, Loaded] = {}
    for path, document in documents.items():
        model, problems, _ = validated(model_class(document.kind), data[path], document.read)
        if problems:
            return None
        result[path] = replace(document, model=model, data=data[path])
    return result


def put(data: Any, path: Path, value: Any, *, insert: bool = False) -> None:
    """Write a value into plain data, making the mappings on the way."""
    for step, following in itertools.pairwise(path):
        if isinstance(data, dict):
            if not isinstance(data.get(str(step)), (dict, list)):
                data[str(step)] = [] if isinstance(following, int) else {}
            data = data[str(step)]
        else:
            data = data[int(step)]
    last = path[-1]
    if isinstance(data, list):
        if insert:
            data.insert(int(last), value)
        else:
            data[int(last)] = value
    elif value is None:
        data.pop(str(last), None)
    else:
        data[str(last)] = value


def is_run(case: Case) -> bool:
    """Whether a case is a run, which has to be rehearsed before it is judged."""
    return isinstance(case, RunCase)
