"""Print how many musts of all shows are found and how many must-nots are violated.

python -m tests.scenarios
"""

from __future__ import annotations

import sys

from tests.scenarios.show import shows


def main() -> int:
    """Judge every show and its twin; the status is 1 if anything is missed or violated."""
    musts = sum(len(show.said["musts"]) for show in shows())
    nots = sum(len(show.said["must_nots"]) for show in shows())
    missed, violated = 0, 0
    for show in shows():
        lost, wrong = show.missed(), show.violated()
        missed += sum(said.startswith("not found") for said in lost)
        violated += len(wrong)
        for said in (*lost, *(f"must not be: {said}" for said in wrong)):
            print(f"{show.name}: {said}")
        for finding in show.report("lines").findings if lost else ():
            print(f"    {finding.grade} {finding.rule}: {finding.message}")
    twins = [show for show in shows() if show.report("twin").verdict != "clear to run"]
    print(
        f"{len(shows())} labs, each with a silent twin: {musts - missed} of {musts} musts found, "
        f"{violated} violations of {nots} must-nots, {len(twins)} twins not clear to run"
    )
    return int(missed + violated > 0)


if __name__ == "__main__":
    sys.exit(main())
