"""Which property tables this installation computes with."""

from __future__ import annotations

import hashlib
import json
from dataclasses import dataclass
from functools import cache
from pathlib import Path

_DATA = Path(__file__).resolve().parent / "data"


@dataclass(frozen=True, slots=True)
class TableRecord:
    """Origin of the shipped tables.

    Attributes
    ----------
    library
        Property library and version that made the CO2 surfaces.
    version
        Version of that library alone.
    sha256
        Hash over the hashes of all tables.
    """

    library: str
    version: str
    sha256: str


@cache
def table_record() -> TableRecord:
    """Read the records that lie beside the tables."""
    digest = hashlib.sha256()
    library = version = ""
    for file in sorted(_DATA.glob("*.json")):
        record = json.loads(file.read_text(encoding="utf-8"))
        digest.update(f"{file.name} {record.get('sha256', '')}\n".encode())
        if "library_version" in record:
            library, version = record["library"], record["library_version"]
    return TableRecord(f"{library} {version}", version, digest.hexdigest())
