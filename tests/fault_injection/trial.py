"""Both figures: how many planted faults are found, how many sound documents stay silent."""

from __future__ import annotations

from dataclasses import dataclass

from methodlint.checking.report import Report
from methodlint.judging.finding import Finding
from tests.fault_injection.fault import Fault, labs, planted
from tests.fault_injection.of_batches import BATCHES
from tests.fault_injection.of_chemistry import CHEMISTRY
from tests.fault_injection.of_records import RECORDS
from tests.fault_injection.of_runs import RUNS
from tests.fault_injection.of_supplies import SUPPLIES
from tests.fault_injection.of_texts import TEXTS
from tests.fault_injection.twins import twins
from tests.text_labs import everything, reported
from tests.untried import untried_rules

KINDS = (*RUNS, *CHEMISTRY, *SUPPLIES, *BATCHES, *RECORDS, *TEXTS)
WANTED = 0.98


@dataclass(frozen=True)
class Outcome:
    """What became of one planted fault."""

    fault: Fault
    found: bool
    folded: bool
    said: tuple[str, ...]


def faults() -> list[Fault]:
    """Every planted fault, in order."""
    return planted(KINDS)


def outcome(fault: Fault) -> Outcome:
    """Judge one document with a fault by all rules; a cause that it is folded beneath counts."""
    report = fault.lab.judged(untried_rules())
    top = {finding.rule for finding in report.findings}
    below = {finding.rule for finding in everything(report.findings)}
    unsure = {item.rule for item in report.not_checked if _says_so_itself(item.rule)}
    found = fault.rule in below | unsure
    said = tuple(f"{f.grade} {f.rule}: {f.message}" for f in report.findings)
    return Outcome(fault, found, found and fault.rule not in top | unsure, said)


def _says_so_itself(rule: str) -> bool:
    """A stale weight is reported by saying that what rests on it was not checked."""
    return rule == "supply.weight-stale"


def sound_documents() -> list[tuple[str, Report]]:
    """Unmutated documents and their harmlessly edited twins, judged."""
    found = [(name, lab.judged(untried_rules())) for name, lab in labs().items()]
    return found + [(name, lab.judged(untried_rules())) for name, lab in twins()]


def false_alarms(name: str, report: Report, unmutated: Report) -> list[str]:
    """What a sound document raises above a note, or loses of what was judged before."""
    said = [f"{name}: {grade} {rule}: {message}" for grade, rule, message in reported(report)]
    before = {item.rule for item in unmutated.not_checked}
    lost = [item.rule for item in report.not_checked if item.rule not in before]
    return said + [f"{name}: {rule} is no longer checked" for rule in lost]


def notes(findings: list[Finding]) -> list[str]:
    """Rules of the notes, in order."""
    return sorted(f.rule for f in findings if f.grade == "note")
