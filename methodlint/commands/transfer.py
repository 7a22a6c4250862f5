"""The command `transfer`: a method for another instrument or column."""

from __future__ import annotations

import sys
from typing import Any

import click

from methodlint.commands.output import Refused, columns, show_lines, show_text

_STATUSES = """
\b
Exit status, the highest that applies:
  0  computed, and its check finds no fault or stop that the source does not have
  1  computed and written; faults remain, they are shown
  2  could not be computed: usage, or a document or figure that cannot be used
  3  an error of this tool
  4  no feasible transfer: nothing is written, the binding constraint is named
"""


@click.command(epilog=_STATUSES)
@click.argument("method", type=click.Path())
@click.option("--to", required=True, metavar="INSTRUMENT", help="Card of the target instrument.")
@click.option("--column", metavar="COLUMN", help="Card of the target column; default the same.")
@click.option("--from", "source", metavar="INSTRUMENT", help="Source; default first of runs_on.")
@click.option(
    "--keep",
    type=click.Choice(["separation", "duration"]),
    default="separation",
    show_default=True,
    help="Scale the flow by geometry, or keep the run length.",
)
@click.option("--shorten", is_flag=True, help="Run as fast as limits and allowances permit.")
@click.option(
    "--allowances",
    type=click.Choice(["none", "pharmacopoeial", "earlier-sfc", "lab"]),
    default="none",
    show_default=True,
    help="Set of allowances that the changes are held against.",
)
@click.option(
    "-o",
    "output",
    metavar="FILE",
    type=click.Path(),
    help="Write the method here; - shows it alone.",
)
@click.option(
    "--show",
    "show_format",
    type=click.Choice(["words", "json", "html"]),
    default="words",
    show_default=True,
    help="Format on standard output.",
)
def transfer(
    method: str,
    to: str,
    column: str | None,
    source: str | None,
    keep: Any,
    shorten: bool,
    allowances: Any,
    output: str | None,
    show_format: str,
) -> int:
    """Move a METHOD to another instrument or column. Predicted; verify.

    Beside the method, -o writes a transfer record (JSON, and a page of HTML that needs no network)
    and a verification sequence for each system.

    \b
    Examples:
      methodlint transfer methods/assay.yaml --to bench-b
      methodlint transfer methods/assay.yaml --to bench-b --column diol-3um -o assay-b.yaml
    """
    from methodlint.documents.text.writing import NotWritten
    from methodlint.transfer.open_transfer import transfer as run_transfer

    try:
        moved = run_transfer(
            method,
            to,
            column,
            source_instrument=source,
            keep=keep,
            shorten=shorten,
            allowances=allowances,
            output=None if output == "-" else output,
        )
        if output == "-" and moved.feasible:
            show_text(moved.text)
            return moved.exit_status()
        if show_format == "json":
            from methodlint.reports.transfer_json import transfer_json

            show_text(transfer_json(moved))
        elif show_format == "html":
            from methodlint.reports.html.transfer_page import transfer_page

            show_text(transfer_page(moved))
        else:
            from methodlint.reports.transfer_text import transfer_lines

            show_lines(transfer_lines(moved, width=columns()), sys.stdout)
        if output is not None and output != "-" and moved.feasible:
            from methodlint.reports.html.transfer_page import transfer_page

            page = {"-transfer.html": transfer_page(moved)}
            for file in moved.write(output, page):
                click.echo(f"written: {file}", err=True)
    except NotWritten as error:
        raise Refused(f"-o: {error}") from error
    except (ValueError, OSError) as error:
        why = error.strerror if isinstance(error, OSError) else None
        raise Refused(f"-o: cannot write {output}: {why}" if why else str(error)) from error
    return moved.exit_status()
