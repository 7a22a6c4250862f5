"""The commands about rules: `why`, `rules`, `try-rules`."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from typing import TYPE_CHECKING

import click

from methodlint.commands.output import Refused, as_date, columns, show_lines

if TYPE_CHECKING:
    from methodlint.judging.loader import Rule

ALLOW_RULES = click.option(
    "--allow-rules",
    multiple=True,
    metavar="FOLDER",
    type=click.Path(),
    help="Run the lab's own rules in FOLDER, which lab.yaml names too; may be given again.",
)


@click.command(short_help="Show the page of a rule, and where it fires.")
@click.argument("words", nargs=-1, required=True, metavar="RULE [PATH] | WORDS...")
@click.option(
    "--as-of", metavar="DATE", help="Date that dates are judged against, YYYY-MM-DD, or today."
)
@ALLOW_RULES
def why(words: Sequence[str], as_of: str | None, allow_rules: Sequence[str]) -> int:
    """Show the page of a RULE; with a PATH, where it fires there and with which figures.

    Words of the trade list the rules that speak of them.

    \b
    Examples:
      methodlint why phase.two-phase-at-outlet
      methodlint why phase.two-phase-at-outlet sequences/tonight.yaml
      methodlint why ghost peak
    """
    from methodlint.reports.rule_page import page_lines

    date = as_date(as_of)
    everything = _everything(allow_rules)
    found = next((rule for rule in everything if rule.id == words[0]), None)
    of_an_id = any(rule.id.endswith(f".{words[0]}") for rule in everything)
    if found is None and not of_an_id and "." not in words[0]:
        return _matching(words, everything)
    if len(words) > 2:
        raise Refused(f"one rule and one path are looked at, not {len(words)} words")
    found = found or _rule(words[0], everything)
    path = words[1] if len(words) > 1 else None
    show_lines(page_lines(found, columns()), sys.stdout)
    if path is None:
        return 0
    from methodlint.checking.check import check as run_check
    from methodlint.checking.targets import NothingToCheck
    from methodlint.judging.lab_rules import RulesNotNamed
    from methodlint.reports.rule_in_documents import firing_lines

    try:
        report = run_check(path, as_of=date, allow_rules=allow_rules)
    except (FileNotFoundError, NothingToCheck, RulesNotNamed) as error:
        raise Refused(str(error)) from error
    click.echo()
    show_lines(firing_lines(report, found.id, columns()), sys.stdout)
    return 0


@click.command(short_help="List the rules by family.")
@click.argument("words", nargs=-1)
@click.option("--family", metavar="FAMILY", help="Only this family, with the source of each rule.")
@ALLOW_RULES
def rules(words: Sequence[str], family: str | None, allow_rules: Sequence[str]) -> int:
    """List the rules by family, or those that speak of some WORDS, the best match first.

    \b
    Examples:
      methodlint rules
      methodlint rules --family supply
      methodlint rules runs out
    """
    from methodlint.reports.rule_page import rule_list_lines

    everything = _everything(allow_rules)
    families = list(dict.fromkeys(rule.id.partition(".")[0] for rule in everything))
    if family is not None and family not in families:
        raise Refused(f"there is no family '{family}'; families are {', '.join(families)}")
    if words:
        return _matching(words, [r for r in everything if family in (None, r.id.partition(".")[0])])
    shown = [rule for rule in everything if family in (None, rule.id.partition(".")[0])]
    show_lines(rule_list_lines(shown, columns(), whole=family is not None), sys.stdout)
    return 0


@click.command("try-rules", short_help="Run the examples of a lab's own rules.")
@click.argument("path", type=click.Path(), metavar="FOLDER|FILE")
def try_rules(path: str) -> int:
    """Run the examples of every rule in a folder, or of one, and say what is wrong.

    This runs the code in it.

    \b
    Exit status:
      0  every rule has its parts, and its examples do what its page says
      1  something is wrong
      2  there are no rules there

    \b
    Example:
      methodlint try-rules our-rules
      methodlint try-rules our-rules/house/settles_too_short.py
    """
    from methodlint.reports.trial_lines import trial_lines
    from methodlint.rulebook.try_rules import NoRules
    from methodlint.rulebook.try_rules import try_rules as run_trials

    try:
        trials = run_trials(path)
    except NoRules as error:
        raise Refused(str(error)) from error
    show_lines(trial_lines(trials, columns()), sys.stdout)
    return int(any(trial.wrong for trial in trials))


def _matching(words: Sequence[str], everything: Sequence[Rule]) -> int:
    """List the rules that speak of some words, with the first sentence of each."""
    from methodlint.reports.rule_page import match_lines
    from methodlint.rulebook.search import matches

    found = matches(words, everything)
    if not found:
        _rule(" ".join(words), everything)
    show_lines(match_lines(words, found, columns()), sys.stdout)
    return 0


def _everything(folders: Sequence[str]) -> list[Rule]:
    from methodlint.judging.loader import built_in_rules
    from methodlint.rulebook.try_rules import rules_in

    found = list(built_in_rules())
    for folder in folders:
        try:
            found += rules_in(folder)
        except (Exception, SystemExit) as error:  # whatever a file does when it is run
            raise Refused(f"--allow-rules {folder}: {error}") from error
    return sorted(found, key=lambda rule: rule.id)


def _rule(name: str, everything: Sequence[Rule]) -> Rule:
    from methodlint.documents.text.names import nearest

    for rule in everything:
        if rule.id == name:
            return rule
    known = [rule.id for rule in everything]
    family, _, word = name.rpartition(".")
    close = [rule for rule in known if word and rule.endswith(f".{word}")]
    close += [rule for rule, _ in nearest(name, known, limit=6)]
    # Only the beginning of an id was typed.
    close = close[:1] or [rule for rule in known if rule.startswith(name)][:6]
    if close:
        hint = f"; did you mean {' or '.join(close)}?"
    elif family and family not in {rule.partition(".")[0] for rule in known}:
        hint = (
            "; a rule of your own needs --allow-rules FOLDER; `methodlint rules` lists the others"
        )
    else:
        hint = "; `methodlint rules` lists them"
    raise Refused(f"there is no rule '{name}'{hint}")
