"""How the lines of a sequence use one method, for rules on the time between two injections."""

from __future__ import annotations

from itertools import pairwise

from methodlint.judging.case import RunCase
from methodlint.rehearsal.batch.lines import INJECTING


def follows_itself(case: RunCase) -> bool:
    """Whether an injection of a method comes straight after another one of it.

    A method without a sequence is taken to be repeated. Where another line stands between two
    injections (an equilibration, a flush, another method), that line prepares the next one.
    """
    if case.sequence is None:
        return True
    name, default = case.documents["method"].name, case.sequence.method
    lines = [
        (line.kind in INJECTING and (line.method or default) == name, line.count)
        for line in case.sequence.lines
    ]
    if any(mine and count > 1 for mine, count in lines):
        return True
    return any(first[0] and second[0] for first, second in pairwise(lines))
