"""The command `window`: how far the settings of a method may move before a check fails."""

from __future__ import annotations

import sys
from collections.abc import Sequence

import click

from methodlint.commands.output import Refused, as_date, columns, show_lines, show_text

_STATUSES = """
\b
Exit status, the highest that applies:
  0  every check holds at the method's own settings
  1  one does not, or a limit lies within its band
  2  could not be judged: usage, a document that cannot be used, a check that was not made
  3  an error of this tool
"""


@click.command(epilog=_STATUSES, short_help="Show how far a method's settings may move.")
@click.argument("method", type=click.Path())
@click.option("--on", metavar="INSTRUMENT", help="One of runs_on; default all.")
@click.option(
    "--of",
    multiple=True,
    metavar="SETTING",
    help="Twice: the two settings of the map, of outlet_pressure, oven_temperature, flow, "
    "modifier_share, modifier_share_start, modifier_share_end. Default: the first two.",
)
@click.option(
    "--show",
    "show_format",
    type=click.Choice(["words", "json", "html"]),
    default="words",
    show_default=True,
    help="Format on standard output.",
)
@click.option(
    "--as-of", metavar="DATE", help="Date that dates are judged against, YYYY-MM-DD, or today."
)
def window(
    method: str, on: str | None, of: Sequence[str], show_format: str, as_of: str | None
) -> int:
    """Show how far the settings of a METHOD may move, down and up, before a check no longer
    holds, and which check that is: outlet pressure, oven temperature, flow, modifier share.

    Cautions do not end a window; it is said where they begin. A map of two settings shows the
    region in which every check holds: words draw it with letters, --show html as a page.

    \b
    Examples:
      methodlint window methods/assay.yaml
      methodlint window methods/assay.yaml --on bench-a --show json
      methodlint window methods/assay.yaml --of flow --of outlet_pressure --show html > map.html
    """
    from methodlint.checking.targets import NothingToCheck
    from methodlint.window.entry import USUAL, NoWindow
    from methodlint.window.entry import window as find

    date = as_date(as_of)
    try:
        found = find(method, of or USUAL, on=on, as_of=date)
    except (FileNotFoundError, NothingToCheck, NoWindow) as error:
        raise Refused(str(error)) from error
    if show_format == "html":
        if len(found) > 1:
            names = ", ".join(each.run.documents["instrument"].name for each in found)
            raise Refused(f"a page shows one instrument: choose with --on one of {names}")
        from methodlint.reports.html.window_page import window_page

        show_text(window_page(found[0]))
    elif show_format == "json":
        from methodlint.reports.window_json import window_json

        show_text(window_json(found))
    else:
        from methodlint.reports.window_text import window_lines

        show_lines(window_lines(found, columns()), sys.stdout)
    if any(each.own.state == "not judged" for each in found):
        return 2
    return int(not all(each.holds for each in found))
