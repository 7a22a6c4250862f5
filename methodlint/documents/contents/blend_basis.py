"""Blends whose parts do not say whether they are shares by volume or by mass."""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import BaseModel

from methodlint.documents.contents.walk import parts
from methodlint.documents.kinds.base import Liquid
from methodlint.documents.text.places import Path

__all__ = ["blends_without_basis"]


def blends_without_basis(document: BaseModel) -> Iterator[Path]:
    """Yield the path of each list of two or more liquids of which one has a bare percentage."""
    for path, part in parts(document):
        blend = part.liquids if isinstance(part, Liquid) else ()
        if len(blend) > 1 and any(one.share.basis is None for one in blend):
            yield (*path, "liquids")
