"""Names of liquids as they were written, wherever a document has one."""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import BaseModel

from methodlint.documents.contents.walk import parts
from methodlint.documents.text.nodes import Scalar
from methodlint.documents.text.places import Path
from methodlint.documents.text.reader import Read

_FIELDS = ("liquid", "liquids", "forbidden_liquids", "allowed_liquids")


def liquid_names(model: BaseModel, read: Read) -> Iterator[tuple[Path, str]]:
    """Yield the path and the text of every name of a liquid.

    Parameters
    ----------
    model : BaseModel
        A typed document.
    read : Read
        What it was read from: of a short form such as `diluent: ethanol` the name stands at
        `diluent`.
    """
    for path, part in parts(model):
        for field in _FIELDS:
            if field not in part.model_fields_set:
                continue
            value = getattr(part, field)
            if isinstance(value, str):
                yield (path if isinstance(read.node(path), Scalar) else (*path, field)), value
            elif isinstance(value, tuple):
                for index, item in enumerate(value):
                    if isinstance(item, str):
                        yield (*path, field, index), item
