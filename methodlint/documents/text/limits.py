"""How large a document may be: bounds that keep reading quick whatever is fed to it."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Limits:
    """Bounds tested while a document is read, before a tree of it exists.

    Attributes
    ----------
    size : int
        Bytes of the file.
    depth : int
        Levels of mappings and lists inside each other, aliases followed.
    nodes : int
        Keys, values, mappings and lists together, aliases expanded.
    aliases : int
        Uses of an anchor (``*name``).
    anchors : int
        Anchors (``&name``), used or not.
    scalar : int
        Bytes of UTF-8 of one value.
    number : int
        Characters of one number.
    directives : int
        Lines that start with a percent sign.
    problems : int
        Problems reported one by one; behind them one says that there are more.
    """

    size: int = 2 * 1024 * 1024
    depth: int = 64
    nodes: int = 200_000
    aliases: int = 100
    anchors: int = 1_000
    scalar: int = 64 * 1024
    number: int = 64
    directives: int = 8
    problems: int = 100


DOCUMENT = Limits()
SEQUENCE = Limits(size=10 * 1024 * 1024, nodes=1_000_000)
