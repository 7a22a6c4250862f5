"""Names of liquids as they were written, wherever a document has one."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from pydantic import BaseModel

from methodlint.documents.places import Path
from methodlint.documents.walk import parts

_FIELDS = ("liquid", "liquids", "forbidden_liquids", "allowed_liquids")


def liquid_names(model: BaseModel, data: Any) -> Iterator[tuple[Path, str]]:
    """Yield the path and the text of every name of a liquid.

    Parameters
    ----------
    model : BaseModel
        A typed document.
    data
        The same as it was written: of a short form such as `diluent: ethanol` the name stands at
        `diluent`.
    """
    for path, part in parts(model):
        for field in _FIELDS:
            if field not in part.model_fields_set:
                continue
            value = getattr(part, field)
            if isinstance(value, str):
                yield (path if isinstance(_written(data, path), str) else (*path, field)), value
            elif isinstance(value, tuple):
                for index, item in enumerate(value):
                    if isinstance(item, str):
                        yield (*path, field, index), item


def _written(data: Any, path: Path) -> Any:
    for step in path:
        if isinstance(data, dict):
            data = data.get(str(step))
        elif isinstance(data, list) and isinstance(step, int) and step < len(data):
            data = data[step]
        else:
            return None
    return data
