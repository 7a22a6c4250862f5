"""The command `schema`: JSON Schemas for editors and for readers of reports."""

from __future__ import annotations

import click

from methodlint.commands.new import KINDS
from methodlint.commands.output import show_text


@click.command(short_help="Print the JSON Schema of a kind of document.")
@click.argument("name", type=click.Choice([*KINDS, "report"]))
def schema(name: str) -> int:
    """Print the JSON Schema (draft 2020-12) of a kind of document, or of the report in JSON.

    \b
    Examples:
      methodlint schema method > method.schema.json
      methodlint schema report > report.schema.json
    """
    if name == "report":
        from methodlint.reports.report_schema import schema_text

        show_text(schema_text(name))
        return 0
    from methodlint.documents.json_schema import kind_schema_text

    show_text(kind_schema_text(name))
    return 0
