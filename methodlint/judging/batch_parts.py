"""A batch of several methods or purposes, judged part by part."""

from __future__ import annotations

from dataclasses import replace

from methodlint.judging.case import BatchCase
from methodlint.judging.loader import Parts
from methodlint.rehearsal.batch.lines import LineRun

__all__ = ["parts_of"]


def parts_of(case: BatchCase, by: Parts | None) -> list[BatchCase]:
    """Divide a batch; the case itself where there is nothing to divide.

    Every part has the lines of one purpose, or of one method and purpose. Standards, controls and
    blanks of a method serve all of its samples, unless their line has a purpose of its own. What
    injects nothing belongs to every part.
    """
    keys: dict[tuple[str | None, str], list[LineRun]] = {}
    for line in case.batch.lines if by is not None else ():
        if line.injects:
            key = case.purpose_of(line), line.method if by == "method" else ""
            keys.setdefault(key, []).append(line)
    if len(keys) < 2 and all(purpose == case.purpose for purpose, _ in keys):
        return [case]
    parts = []
    for (purpose, _), own in keys.items():
        methods = {line.method for line in own}
        indices = {line.index for line in own}
        lines = tuple(
            line
            for line in case.batch.lines
            if line.index in indices or not line.injects or _serves(line, methods)
        )
        parts.append(
            replace(
                case,
                batch=replace(case.batch, lines=lines),
                runs={name: run for name, run in case.runs.items() if name in methods},
                whole=case.batch,
                part_purpose=purpose,
            )
        )
    return parts


def _serves(line: LineRun, methods: set[str]) -> bool:
    return line.method in methods and line.line.kind != "sample" and line.line.purpose is None
