"""The command `editor`: a server for editors, by way of an extra."""

from __future__ import annotations

import importlib.util
import sys
from collections.abc import Sequence

import click

from methodlint.commands.output import Refused
from methodlint.commands.rules import ALLOW_RULES

_EXTRA = ("pygls", "lsprotocol")


@click.command(short_help="Start a server that judges while you write.")
@ALLOW_RULES
def editor(allow_rules: Sequence[str]) -> int:
    """Judge documents while they are written: a server that an editor starts.

    It speaks the Language Server Protocol over standard input and output, and needs the extra
    methodlint[editor].

    \b
    Example, as an editor's settings name it:
      methodlint editor
    """
    if any(importlib.util.find_spec(name) is None for name in _EXTRA):
        raise Refused("the server for editors needs an extra: pip install 'methodlint[editor]'")
    from pathlib import Path

    from methodlint.editor.server import editor_server

    editor_server([Path(folder) for folder in allow_rules]).serve(sys.stdin.buffer)
    return 0
