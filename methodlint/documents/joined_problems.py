"""Problems of a document that are told together: bare numbers of a programme, very many alike."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from methodlint.documents.quantities.format import number
from methodlint.documents.text.problems import Problem
from methodlint.documents.text.reader import Read

__all__ = ["MAX_REPORTED", "first_of_each_rule", "joined_rows"]

_KEY = "programme"
_BARE, _SHAPE = "document.unit-missing-or-wrong-kind", "document.shape-wrong"
_UNITS = {
    "time": "min",
    "modifier_share": "% v/v",
    "flow": "mL/min",
    "outlet_pressure": "bar",
    "temperature": "degC",
}
# A few are told one by one, with what to write at each.
_FEW = 2
_MOST_ROWS = 20

# Problems of one rule that are told of one document; the last of them tells the number of others.
MAX_REPORTED = 100


def joined_rows(problems: Sequence[Problem], plain: Any, read: Read) -> list[Problem]:
    """Join what is wrong with the bare numbers of a programme.

    Parameters
    ----------
    problems
        What is wrong with a document, in order.
    plain
        Its data as written.

    Returns
    -------
    list of Problem
        The same where few numbers are bare.
    """
    rows = plain.get(_KEY) if isinstance(plain, dict) else None
    if not isinstance(rows, list):
        return list(problems)
    bare = [problem for problem in problems if _is_bare(problem, rows)]
    if len(bare) <= _FEW:
        return list(problems)
    written = [_row(row) for row in rows[:_MOST_ROWS]]
    more = "; and so on" if rows[_MOST_ROWS:] else ""
    path = (_KEY,)
    whole = Problem(
        rule=_BARE,
        grade="fault",
        path=path,
        place=read.place(path),
        message=f"the rows of '{_KEY}' are numbers without units",
        remedy=f"if the usual units are meant, write: {'; '.join(f'- {row}' for row in written)}{more}",
    )
    first = problems.index(bare[0])
    rest = [problem for problem in problems if problem not in bare]
    return [*rest[:first], whole, *rest[first:]]


def _is_bare(problem: Problem, rows: list[Any]) -> bool:
    path = problem.path
    if path[:1] != (_KEY,) or len(path) < 2 or not isinstance(path[1], int):
        return False
    row = rows[path[1]] if path[1] < len(rows) else None
    if problem.rule == _SHAPE and len(path) == 2:
        return isinstance(row, list) and len(row) == 2 and all(map(_is_number, row))
    if problem.rule != _BARE or len(path) != 3 or not isinstance(row, dict):
        return False
    return path[2] in _UNITS and _is_number(row.get(path[2]))


def _is_number(value: Any) -> bool:
    return isinstance(value, (int, float)) and not isinstance(value, bool)


def _row(row: Any) -> str:
    pairs = dict(zip(("time", "modifier_share"), row, strict=True)) if _is_pair(row) else row
    if not isinstance(pairs, dict):
        return str(row)
    told = [
        f"{key}: {number(value)} {_UNITS[key]}"
        if key in _UNITS and _is_number(value)
        else f"{key}: {value}"
        for key, value in pairs.items()
    ]
    return f"{{{', '.join(told)}}}"


def _is_pair(row: Any) -> bool:
    return isinstance(row, list) and len(row) == 2


def first_of_each_rule(problems: Sequence[Problem]) -> list[Problem]:
    """Keep the first problems of every rule; the last of them says how many there are more."""
    number = Counter(problem.rule for problem in problems)
    kept, seen = [], Counter[str]()
    for problem in problems:
        seen[problem.rule] += 1
        further = number[problem.rule] - MAX_REPORTED
        if seen[problem.rule] == MAX_REPORTED and further > 0:
            problem = replace(
                problem,
                message=f"{problem.message}; {further} further places of this document have the "
                "same kind of trouble",
            )
        if seen[problem.rule] <= MAX_REPORTED:
            kept.append(problem)
    return kept
