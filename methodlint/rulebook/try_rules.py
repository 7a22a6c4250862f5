"""Runs the examples of a folder of rules and says what is wrong, for labs with rules of their own.

A lab's test file needs no more than::

    import pytest
    from methodlint.rulebook.try_rules import findings, rules_in, wrong_with

    RULES = rules_in("our-rules")

    @pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
    def test_the_rule_does_what_its_page_says(rule):
        assert wrong_with(rule) == []

    def test_a_short_settling_time_is_found(rule=RULES[0]):
        (finding,) = findings("kind: method\\nsettling_time: 0.5 min", rule)
        assert "0.5 min" in finding.message
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from pathlib import Path

from methodlint.checking.check import judge_documents
from methodlint.checking.report import Report
from methodlint.judging.finding import Finding
from methodlint.judging.loader import (
    Rule,
    built_in_ids,
    load_rule,
    rule_files,
    rule_id,
    rules_folder,
)
from methodlint.rulebook.examples import (
    ExampleWrong,
    _library,
    examples_of,
    lab_with,
    run_example,
    targets_among,
)
from methodlint.rulebook.rule_shape import shape_problems


class NoRules(ValueError):
    """A folder holds no rules."""


@dataclass(frozen=True, slots=True)
class Trial:
    """How one rule file did.

    Attributes
    ----------
    id
        Id that follows from the file's path.
    file
        Path of the file.
    examples
        Number of examples that were run.
    wrong
        What is wrong; empty if nothing is.
    """

    id: str
    file: Path
    examples: int
    wrong: tuple[str, ...]


def rules_in(folder: str | Path) -> tuple[Rule, ...]:
    """Load every rule of a folder of families, which runs the code in it.

    Raises
    ------
    NoRules
        If there is none.
    """
    return tuple(load_rule(file, of_lab=True) for file in _files(folder))


def _files(folder: str | Path) -> list[Path]:
    files = rule_files(Path(folder))
    if not files:
        raise NoRules(f"no rules in {folder}: they lie there as family/what_is_wrong.py")
    return files


def try_rules(folder: str | Path) -> list[Trial]:
    """Try every rule of a folder, or the one of a file, which runs the code in it.

    Raises
    ------
    NoRules
        If there is none.
    """
    one = Path(folder) if Path(folder).is_file() else None
    if one is not None:
        if one.suffix != ".py" or one.resolve().parent.parent == one.resolve().parent:
            raise NoRules(f"{folder} is no rule: it lies as family/what_is_wrong.py")
        folder = one.resolve().parent.parent
    files = _files(folder)
    own = {rule_id(file) for file in files}
    shipped = Path(folder).resolve() == _shipped()
    files = files if one is None else [one.resolve()]
    trials = []
    for file in files:
        name = rule_id(file)
        try:
            rule = load_rule(file, of_lab=True)
        except (Exception, SystemExit) as error:  # whatever the file does when it is run
            said = f"it cannot be loaded: {type(error).__name__}: {error}"
            trials.append(Trial(name, file, 0, (said,)))
            continue
        wrong = wrong_with(rule, own)
        if name in built_in_ids() and not shipped:
            wrong.insert(0, f"there is a rule {name} already that comes with this tool")
        trials.append(Trial(name, file, len(examples_of(rule)), tuple(wrong)))
    return trials


def _shipped() -> Path:
    return rules_folder().resolve()


def wrong_with(rule: Rule, others: Collection[str] = ()) -> list[str]:
    """Say what is wrong with a rule: its shape, then its examples.

    Parameters
    ----------
    rule
        The rule.
    others
        Ids of the lab's other rules, which `CAUSES` may name beside those of this tool.
    """
    wrong = shape_problems(rule, {*built_in_ids(), *others, rule.id})
    for number, example in enumerate(examples_of(rule), 1):
        head = f"example {number} ({'sound' if example.sound else 'unsound'}): "
        try:
            run_example(example, rule)
        except ExampleWrong as error:
            wrong.append(head + (str(error).strip().splitlines() or ["?"])[-1])
        except Exception as error:  # an example may be anything
            wrong.append(f"{head}{type(error).__name__}: {error}")
    return wrong


def judged(changes: str, *rules: Rule) -> Report:
    """Judge the sound lab with changes laid over it.

    Parameters
    ----------
    changes
        YAML documents divided by `---`, each with its `kind:` and what differs; lists are
        replaced whole, `null` removes a key.
    rules
        The rules to judge it by.

    Raises
    ------
    ExampleWrong
        If the changes cannot be read, or a rule raises.
    """
    documents = lab_with(changes)
    report = judge_documents(_library(documents), targets_among(documents, rules), rules)
    if report.failed:
        raise ExampleWrong(report.failed[0].trace)
    return report


def findings(changes: str, *rules: Rule) -> list[Finding]:
    """Findings of some rules on the sound lab with changes; see `judged`."""
    return judged(changes, *rules).findings
