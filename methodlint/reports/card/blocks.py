"""Pieces that a bench card is made of, before anybody lays them out."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

__all__ = ["Alert", "Block", "CardRows", "Steps", "Table"]

Tone = Literal["plain", "caution"]


class Alert(str):
    """A cell or label that somebody has to act upon: formats that can set it apart."""

    __slots__ = ()


@dataclass(frozen=True, slots=True)
class CardRows:
    """Labels with a text each.

    Attributes
    ----------
    key
        What the block is about, the same on every card.
    """

    key: str
    title: str
    rows: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Table:
    """Figures in columns.

    Attributes
    ----------
    subject
        What the figures belong to, for example a method; empty if the title says it.
    headers
        Of the columns; the first column names its row.
    words
        Numbers of the columns that hold words and may be wrapped; figures are aligned right.
    foot
        Rows of label and text beneath.
    """

    key: str
    title: str
    subject: str
    headers: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    words: frozenset[int] = frozenset()
    foot: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Steps:
    """Steps in their order, to be ticked off."""

    key: str
    title: str
    steps: tuple[str, ...]
    tone: Tone = "plain"


Block = CardRows | Table | Steps
