"""`python -m tests.hazards`: one table of what hostile and broken input does to us.

    python -m tests.hazards                a bounded part, beside the figures of the long one
    nice python -m tests.hazards --long    the long part; its figures are kept

Mutation testing has a command of its own, tests.hazards.rule_mutants; its record is shown here.
"""

from __future__ import annotations

import argparse
import datetime
import json
import sys
import tempfile
from pathlib import Path
from typing import Any

from tests.hazards.costs import costs_of, list_costs_of, workbook_costs_of, worst_inputs
from tests.hazards.long_lists import LISTS
from tests.hazards.places import places_right
from tests.hazards.reading import Seen
from tests.hazards.whole_check import Tally, every_field, mutant
from tests.hazards.workbooks import hostile_workbooks

_RECORDS = Path(__file__).resolve().parent / "records"
LONG_RECORD = _RECORDS / "long_run.json"
_MUTANTS_RECORD = _RECORDS / "rule_mutants.json"


def measured(
    reads: int, checks: int, field_step: int, payloads: int, sweep_step: int
) -> dict[str, Any]:
    """Run every part in a size and return its figures."""
    seen = Seen()
    seen.read(0, reads)
    tally = Tally()
    for seed in range(checks):
        tally.look_at(*mutant(seed))
    fields = Tally()
    for each in every_field(field_step):
        fields.look_at(*each)
    costs = {name: costs_of(name) for name in worst_inputs()}
    books = {name: workbook_costs_of(name) for name in hostile_workbooks()}
    lists = {name: list_costs_of(name) for name in LISTS}
    slow_list = max(lists, key=lists.__getitem__)
    right = places_right()
    outputs, escapes = payload_outputs(payloads)
    edits = edits_of_a_sound_lab(sweep_step)
    for trace in (*seen.faults.values(), *(c[0] for c in tally.faults.values()),
                  *(c[0] for c in fields.faults.values()), *escapes):  # fmt: skip
        print(trace, file=sys.stderr)
    slow, large = (max(costs, key=lambda name: costs[name][n]) for n in (0, 1))
    slow_book, large_book = (max(books, key=lambda name: books[name][n]) for n in (0, 1))
    return {
        "inputs read": seen.tried,
        "documents checked whole": tally.tried + fields.tried,
        "crashes": len(seen.faults) + len(tally.faults) + len(fields.faults),
        "worst time of a small input read": f"{seen.worst:.3f} s ({seen.worst_of})",
        "worst time of a whole check": f"{max(tally.worst, fields.worst):.2f} s",
        "worst time of an input up to 2 MiB": f"{costs[slow][0]:.2f} s ({slow})",
        "worst memory of an input up to 2 MiB": f"{costs[large][1]:.0f} MiB ({large})",
        "slowest refusal of a bomb": "{:.3f} s ({})".format(
            *max((cost[0], name) for name, cost in costs.items() if cost[2])
        ),
        "worst time of a workbook": f"{books[slow_book][0]:.2f} s ({slow_book})",
        "worst memory of a workbook": f"{books[large_book][1]:.0f} MiB ({large_book})",
        "worst time of a long list": f"{lists[slow_list]:.2f} s ({slow_list})",
        "places: lines right": f"{right[1]} of {right[0]}",
        "places: columns right": f"{right[2]} of {right[0]}",
        "outputs with payloads": outputs,
        "escapes": len(escapes),
        **edits,
    }


def edits_of_a_sound_lab(step: int) -> dict[str, Any]:
    """Plant edits in a sound lab: none may come out clear without a reason, none in an error."""
    from tests.sweep.planted import PLANTED, planted
    from tests.sweep.sound_lab import without_remedies
    from tests.sweep.sweep import sweep

    with without_remedies():
        reports = {name: planted(name).judged() for name in PLANTED}
    swept = sweep(step)
    clear = [name for name, report in reports.items() if report.verdict == "clear to run"]
    return {
        "edits planted": f"{len(reports)} by hand, {swept.tried} by the sweep",
        "clear to run, with a reviewed reason": len(swept.clear) - len(swept.unexcused),
        "clear to run, without one": len(clear) + len(swept.unexcused),
        "edits that end in status 3": len(swept.raised)
        + sum(report.exit_status() == 3 for report in reports.values()),
    }


def payload_outputs(count: int) -> tuple[int, list[str]]:
    """Put payloads into every text of a lab and parse every format back."""
    from tests.reports.payloads import PAYLOADS
    from tests.reports.test_injection import FORMATS, look_at_all, poisoned_lab, poisoned_report

    outputs, escapes = 0, []
    for payload in PAYLOADS[:: max(1, len(PAYLOADS) // count)]:
        for everything in (False, True):
            with tempfile.TemporaryDirectory() as folder:
                lab, _ = poisoned_lab(Path(folder), payload, everything)
                try:
                    look_at_all(poisoned_report(lab, payload))
                except AssertionError as error:
                    escapes.append(f"{payload!r}: {error}")
                outputs += len(FORMATS)
    return outputs, escapes


def _kept(file: Path) -> dict[str, Any]:
    kept: dict[str, Any] = json.loads(file.read_text(encoding="utf-8")) if file.exists() else {}
    return kept


def main(arguments: list[str]) -> int:
    """Print the table; the status is 1 if anything got through."""
    parser = argparse.ArgumentParser(prog="python -m tests.hazards", description=__doc__)
    parser.add_argument("--long", action="store_true", help="the long part; keeps its figures")
    asked = parser.parse_args(arguments)
    if asked.long:
        figures = measured(reads=120_000, checks=400, field_step=401, payloads=1_000, sweep_step=1)
        record = {"date": datetime.date.today().isoformat(),
                  "command": "python -m tests.hazards --long", **figures}  # fmt: skip
        LONG_RECORD.write_text(json.dumps(record, indent=1) + "\n", encoding="utf-8")
    else:
        figures = measured(reads=3_000, checks=40, field_step=4_001, payloads=4, sweep_step=10)
    kept = _kept(LONG_RECORD)
    print(f"{'':38}{'now':<44}{'long run of ' + kept.get('date', '-')}")
    for name, figure in figures.items():
        print(f"{name:38}{figure!s:<44}{kept.get(name, '-')}")
    for folder, record in _kept(_MUTANTS_RECORD).items():
        share = (
            f"{record['killed']} of {record['tried']} ({record['killed'] / record['tried']:.0%})"
        )
        print(f"{'mutants killed in ' + folder:38}{share:<44}{record['date']}: {record['command']}")
    wrong = ("crashes", "escapes", "clear to run, without one", "edits that end in status 3")
    return 1 if any(figures[name] for name in wrong) else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
