"""The command `new`: a commented document or a rule to start from."""

from __future__ import annotations

import os
import pathlib
from collections.abc import Callable

import click

from methodlint.commands.output import Refused, show_text, write_files

KINDS = (
    "method",
    "column",
    "instrument",
    "supply",
    "solvents",
    "room",
    "sequence",
    "logbook",
    "lab",
)


@click.group(short_help="Write a document or rule to start from.")
def new() -> None:
    """Write a document or a rule to start from; what is left to be filled in stands in <...>.

    \b
    Examples:
      methodlint new column -o columns/diol-3um.yaml
      methodlint new rule house.settling-too-short --into our-rules
    """


def _write(text: str, target: str, option: str) -> None:
    """Write a file and the folders that it lies in: whoever starts a lab folder has none yet."""
    try:
        pathlib.Path(target).parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise Refused(f"{option}: cannot write {target}: {error.strerror}") from error
    write_files({target: text}, option)


def _document(kind: str) -> Callable[[str | None], int]:
    def write(output: str | None) -> int:
        from methodlint.documents.starters import starter

        if output is None or output == "-":
            show_text(starter(kind))
            return 0
        if os.path.lexists(output):
            raise Refused(f"there is a file {output} already")
        _write(starter(kind), output, "-o")
        click.echo(f"written: {output}; fill in what is written <...>, then check it")
        return 0

    return write


for _kind in KINDS:
    new.command(_kind, help=f"A commented {_kind} document.")(
        click.option(
            "-o", "output", metavar="FILE", type=click.Path(), help="Write it here; else show it."
        )(_document(_kind))
    )


@new.command("rule")
@click.argument("name", metavar="FAMILY.NAME")
@click.option(
    "--into",
    "folder",
    metavar="FOLDER",
    type=click.Path(),
    default="our-rules",
    show_default=True,
    help="Folder of the lab's own rules.",
)
def rule(name: str, folder: str) -> int:
    """Write the file of a rule; its examples fail until it is filled in.

    \b
    Example:
      methodlint new rule house.settling-too-short
    """
    from methodlint.rulebook.new_rule import RuleNotWritten, new_rule_file, rule_text, test_of

    try:
        file = new_rule_file(name, folder)
    except RuleNotWritten as error:
        raise Refused(str(error)) from error
    _write(rule_text(), str(file), "--into")
    test = test_of(name, file)
    if test is not None:
        _write(test[1], str(test[0]), "--into")
        click.echo(
            f"written: {file}\nwritten: {test[0]}\n"
            f"next: fill both in and run methodlint try-rules {file} and pytest {test[0]};\n"
            f"then python -m tests.refresh_catalogue"
        )
        return 0
    click.echo(
        f"written: {file}\n"
        f"next: fill it in and run methodlint try-rules {folder}; then name the folder in lab.yaml\n"
        f"(rule_folders) and check with --allow-rules {folder}"
    )
    return 0
