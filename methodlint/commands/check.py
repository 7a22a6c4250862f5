"""The command `check`: documents, folders, or what a change touches, judged."""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any

import click

from methodlint.commands.output import (
    Refused,
    answer_of,
    as_date,
    columns,
    formats_and_files,
    show_answer,
    write_reports,
)
from methodlint.commands.paths_from import paths_from as listed
from methodlint.commands.rules import ALLOW_RULES
from methodlint.documents.text.visible import visible
from methodlint.reports.formats import FORMATS

if TYPE_CHECKING:
    from methodlint.changes.judge import StatesJudged
    from methodlint.checking.report import Report

_STATUSES = """
\b
Exit status, the highest that applies:
  0  nothing at or above --hold-at
  1  findings at or above it, or a sequence, or a method without its bench, whose stops were not looked for
  2  could not be judged: usage, or a document or reference that cannot be used
  3  an error of this tool
"""


@click.command(epilog=_STATUSES)
@click.argument("paths", nargs=-1, type=click.Path())
@click.option(
    "--hold-at",
    type=click.Choice(["stop", "fault", "caution", "note", "not-checked"]),
    default="fault",
    show_default=True,
    help="Class of finding from which on the exit status is 1.",
)
@click.option(
    "--given",
    multiple=True,
    metavar="PATH=VALUE",
    help="A figure for this run, for example supply.net_mass='12.5 kg'.",
)
@click.option(
    "--as-of",
    metavar="DATE",
    help="Date that dates are judged against, YYYY-MM-DD, or today. Default: the sequence's start.",
)
@click.option("--notes", is_flag=True, help="Show notes, and every rule that was not checked.")
@click.option(
    "--tolerances",
    is_flag=True,
    help="Rehearse every run at all corners of what regulator, oven, flow, composition, dwell volume "
    "and column may be off by, and say what fails where: in words, JSON and HTML.",
)
@click.option(
    "--cards", is_flag=True, help="Bench cards of all sequences, and the calendar of a folder."
)
@click.option(
    "--show",
    "show_format",
    type=click.Choice(list(FORMATS)),
    default="words",
    show_default=True,
    help="Format on standard output.",
)
@click.option(
    "--write",
    multiple=True,
    metavar="FORMAT=FILE",
    help="Write the same report to a file as well; may be given again for other formats. "
    "html=FOLDER/ writes a page for each method and sequence, and index.html.",
)
@click.option(
    "--dependents",
    is_flag=True,
    help="PATHS are what has changed: judge every method and sequence that depends on them too.",
)
@click.option(
    "--changed-from",
    metavar="REVISION",
    help="Ask git what differs from the last common commit with REVISION, judge it with all that "
    "depends on it, and tell what is new from what was there. No PATHS are given.",
)
@click.option(
    "--paths-from",
    metavar="FILE",
    help="Further PATHS from a list, '-' for standard input: divided by NUL bytes, or one on a "
    "line. They are never taken for options.",
)
@click.option(
    "--against",
    metavar="REPORT",
    type=click.Path(),
    help="Report in JSON of another state, to tell what is new from what was there.",
)
@click.option(
    "--hold-new",
    is_flag=True,
    help="With --against or --changed-from: only what is new counts for the exit status. A stop counts always.",
)
@click.option(
    "--workers",
    type=click.IntRange(1, 256),
    help="Processes to judge folders of many documents with; pages are made by one. The report "
    "stays the same. Default: one for every 128 documents, no more than there are cores, and one "
    "alone below 256.",
)
@click.option(
    "--remedies",
    type=click.Choice(["on", "off"]),
    default="on",
    show_default=True,
    help="Whether changes are tried for each finding; off is quicker where much is wrong.",
)
@click.option(
    "--cache",
    metavar="FOLDER",
    help="Where the reports of unchanged folders are remembered, or 'off'. Default: the user's "
    "cache folder; off where CI is set.",
)
@ALLOW_RULES
def check(
    paths: Sequence[str],
    hold_at: str,
    given: Sequence[str],
    as_of: str | None,
    notes: bool,
    tolerances: bool,
    cards: bool,
    show_format: str,
    write: Sequence[str],
    dependents: bool,
    changed_from: str | None,
    paths_from: str | None,
    against: str | None,
    hold_new: bool,
    workers: int | None,
    remedies: str,
    cache: str | None,
    allow_rules: Sequence[str],
) -> int:
    """Judge documents, or folders of documents.

    One document is told in full, a sequence with its bench card; several begin with a table.

    \b
    Examples:
      methodlint check sequences/tonight.yaml
      methodlint check methods/ --show json
      methodlint check tonight.yaml --given supply.net_mass="12.5 kg"
      methodlint check columns/diol-3um.yaml --dependents --write sarif=out.sarif
      methodlint check . --against main.json --hold-new --show markdown
      methodlint check --changed-from origin/main --hold-new --write junit=out.xml
    """
    if hold_new and against is None and changed_from is None:
        raise Refused("--hold-new needs --against REPORT or --changed-from REVISION")
    if changed_from is not None and (paths or paths_from is not None or against is not None):
        raise Refused("--changed-from asks git for the paths and the base: give neither with it")
    if dependents and (odd := [p for p in paths if p.startswith("-") and not os.path.lexists(p)]):
        raise Refused(f"there is no file {odd[0]}; options go before the two dashes")
    if paths_from is not None:
        paths = [*paths, *listed(paths_from)]
    elif not paths and changed_from is None:
        raise Refused("no PATHS: name documents or folders, or give --changed-from REVISION")
    wanted = formats_and_files(write)
    day = as_date(as_of)
    memory = None
    if not (wanted or against or dependents or changed_from or tolerances):
        from methodlint.commands.remembered import Remembered, cache_folder

        asked = {"as_of": str(day), "given": list(given), "hold_at": hold_at, "notes": notes}
        asked |= {"remedies": remedies, "show": show_format, "cards": cards, "columns": columns()}
        memory = Remembered.of(cache_folder(cache, os.environ), paths, asked, allow_rules)
        answer = memory.answer() if memory is not None else None
        if answer is not None:
            return show_answer(answer)
    from methodlint.checking.check import check as check_whole
    from methodlint.checking.given import Given, GivenWrong
    from methodlint.checking.targets import NothingToCheck
    from methodlint.judging.lab_rules import RulesNotNamed
    from methodlint.many.check_many import check_with_workers
    from methodlint.reports.base_report import BaseUnusable, read_base
    from methodlint.reports.formats import WITH_ARRAYS
    from methodlint.reports.prepared import Prepared

    whole = tolerances or bool(WITH_ARRAYS & {show_format, *(name for name, _ in wanted)})

    def judge(paths: Sequence[Any], **options: Any) -> Report:
        return (
            check_whole(*paths, **options)
            if whole
            else check_with_workers(paths, workers, **options)
        )

    root, compared = "", ""
    try:
        base = read_base(against) if against is not None else None
        figures = [Given.read(item) for item in given]
        options: dict[str, Any] = {"as_of": day, "given": figures, "allow_rules": allow_rules}
        options["remedies"] = remedies == "on"
        if changed_from is None:
            report = judge(paths, changed=dependents, **options)
        else:
            change = _change(changed_from, judge, workers=workers, **options)
            report, base, compared = change.report, change.base, change.words
            root = os.fspath(change.root)
    except (FileNotFoundError, NothingToCheck, GivenWrong, BaseUnusable, RulesNotNamed) as error:
        raise Refused(str(error)) from error
    if not report.documents and not report.findings:
        click.echo("methodlint: none of these files concerns a document of this tool", err=True)
    alone = len(paths) == 1 and os.path.isfile(paths[0]) and not dependents
    prepared = Prepared(
        report, notes, hold_at, base, hold_new, compared, overview=not alone, cards=alone or cards
    )
    if tolerances:
        from methodlint.window.corners import corners_of_report

        prepared.corners = corners_of_report(report)
    write_reports(prepared, wanted, paths, () if against is None else (against,), root)
    answer = answer_of(prepared, show_format)
    if memory is not None and answer.status != 3:
        memory.keep(answer)
    return show_answer(answer)


def _change(revision: str, judge: Callable[..., Report], **options: Any) -> StatesJudged:
    # Most checks start no process and ask nothing of git.
    from methodlint.changes.git import NoAnswer
    from methodlint.changes.judge import judge_change

    try:
        change = judge_change(revision, judge, **options)
    except NoAnswer as error:
        raise Refused(str(error)) from error
    for path in change.absent:
        said = f"the submodule {path} changes and is not checked out: nothing in it is judged"
        click.echo(f"methodlint: {visible(said)}", err=True)
    return change
