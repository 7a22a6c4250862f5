"""The command `review`: a logbook, measured against predicted."""

from __future__ import annotations

import sys

import click

from methodlint.commands.output import Refused, as_date, columns, show_lines, show_text, write_files

_STATUSES = """
\b
Exit status, the highest that applies:
  0  nothing at or above --hold-at
  1  findings at or above it
  2  usage, or a document or reference that cannot be used
  3  an error of this tool
"""
FORMATS = ("words", "json", "html")


@click.command(epilog=_STATUSES, short_help="Set what was measured beside what was predicted.")
@click.argument("logbook", type=click.Path())
@click.option(
    "--show",
    "show_format",
    type=click.Choice(FORMATS),
    default="words",
    show_default=True,
    help="Format on standard output.",
)
@click.option(
    "-o", "output", metavar="FILE", type=click.Path(), help="Write the page in HTML here."
)
@click.option(
    "--hold-at",
    type=click.Choice(["stop", "fault", "caution", "note"]),
    default="caution",
    show_default=True,
    help="Class of finding from which on the exit status is 1.",
)
@click.option("--notes", is_flag=True, help="Show notes too.")
@click.option(
    "--as-of",
    metavar="DATE",
    help="Day of the review, YYYY-MM-DD, or today: nothing can have been read later.",
)
def review(
    logbook: str,
    show_format: str,
    output: str | None,
    hold_at: str,
    notes: bool,
    as_of: str | None,
) -> int:
    """Set the readings of a LOGBOOK beside what was predicted for them: run by run, the
    resistance of each column, retention and plates against the first good readings, CO2 by
    weight. Says what has changed, since when and by how much.

    \b
    Examples:
      methodlint review logbooks/bench-a-log.yaml
      methodlint review logbooks/bench-a-log.yaml --show json
      methodlint review logbooks/bench-a-log.yaml -o review.html
    """
    day = as_date(as_of)
    from methodlint.checking.review import NoLogbook
    from methodlint.checking.review import review as reviewed

    try:
        found = reviewed(logbook, as_of=day)
    except (FileNotFoundError, NoLogbook) as error:
        raise Refused(str(error)) from error
    if output is not None:
        from methodlint.reports.html.review_page import review_page

        write_files({output: review_page(found)}, "-o")
    if show_format == "words":
        from methodlint.reports.review_text import review_lines

        show_lines(review_lines(found, notes=notes, width=columns()), sys.stdout)
    elif show_format == "json":
        from methodlint.reports.review_json import review_json

        show_text(review_json(found))
    else:
        from methodlint.reports.html.review_page import review_page

        show_text(review_page(found))
    return found.report.exit_status(hold_at)
