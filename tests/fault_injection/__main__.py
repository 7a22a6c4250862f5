"""Print both figures: planted faults found, and false alarms on sound documents.

python -m tests.fault_injection
"""

from __future__ import annotations

import sys

from tests.fault_injection.fault import SEED
from tests.fault_injection.trial import WANTED, false_alarms, faults, outcome, sound_documents


def main() -> int:
    """Run both trials; the status is 1 if a figure is not reached."""
    planted = [outcome(fault) for fault in faults()]
    missed = [one for one in planted if not one.found]
    for one in missed:
        print(f"not found: {one.fault.words}")
        for said in one.said:
            print(f"    said: {said}")
    rules = {one.fault.rule for one in planted}
    share = 1 - len(missed) / len(planted)
    folded = sum(one.folded for one in planted)
    print(
        f"planted faults found: {len(planted) - len(missed)} of {len(planted)} ({share:.1%}), "
        f"{folded} of them beneath their cause; {len(rules)} rules; seed {SEED}"
    )
    judged = sound_documents()
    unmutated = {name: report for name, report in judged if "," not in name}
    alarms = [
        alarm
        for name, report in judged
        for alarm in false_alarms(name, report, unmutated[name.partition(",")[0]])
    ]
    for alarm in alarms:
        print(f"false alarm: {alarm}")
    print(
        f"false alarms: {len(alarms)} on {len(judged)} sound documents "
        f"({len(unmutated)} unmutated, {len(judged) - len(unmutated)} harmlessly edited)"
    )
    return int(share < WANTED or bool(alarms))


if __name__ == "__main__":
    sys.exit(main())
