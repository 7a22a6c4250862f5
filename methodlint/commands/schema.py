"""The command `schema`: JSON Schemas for editors and for readers of reports."""

from __future__ import annotations

import click

from methodlint.commands.output import show_text


@click.command()
@click.argument("name", type=click.Choice(["report"]))
def schema(name: str) -> int:
    """Print the JSON Schema (draft 2020-12) of what NAME says.

    \b
    Example:
      methodlint schema report > report.schema.json
    """
    from methodlint.reports.report_schema import schema_text

    show_text(schema_text(name))
    return 0
