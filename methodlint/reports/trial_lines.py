"""How the rules of a folder did when their examples were run."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from methodlint.reports.lines import Line, Words, wrapped
from methodlint.reports.wording import counted
from methodlint.rulebook.try_rules import Trial


def trial_lines(trials: Sequence[Trial], width: int) -> Iterator[Line]:
    """Lay trials out: one line for each rule, what is wrong beneath it, a sum at the end."""
    for trial in trials:
        word = Words("wrong", "fault") if trial.wrong else Words("good", "good")
        text = f"{trial.id}: {counted(trial.examples, 'example')}"
        yield from wrapped(word, text, 7, width)
        for said in trial.wrong:
            yield from wrapped("       -", said, 9, width)
    wrong = sum(bool(trial.wrong) for trial in trials)
    yield [Words(f"{counted(len(trials), 'rule')} tried, {wrong} with something wrong", "head")]
