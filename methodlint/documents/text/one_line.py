"""A value written in one line of YAML, so that it reads back as that value."""

from __future__ import annotations

import json
import re
from typing import Any

from methodlint.documents.text.nodes import Scalar
from methodlint.documents.text.reader import read_text

__all__ = ["one_line"]

_PLAIN = re.compile(r"[A-Za-z0-9][A-Za-z0-9 ._+/()%^-]*\Z")


def one_line(value: Any) -> str:
    """Write a value in one line, without quotation marks where it reads as itself."""
    if isinstance(value, dict):
        inside = ", ".join(f"{one_line(key)}: {one_line(item)}" for key, item in value.items())
        return f"{{{inside}}}"
    if isinstance(value, (list, tuple)):
        return f"[{', '.join(one_line(item) for item in value)}]"
    if isinstance(value, str) and _PLAIN.match(value) and not value.endswith(" "):
        node = read_text(f"x: {value}\n".encode(), "").node(("x",))
        if isinstance(node, Scalar) and node.value == value:
            return value
    return json.dumps(value, ensure_ascii=False)
