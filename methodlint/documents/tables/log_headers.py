"""What the columns of a table beside a logbook are called: the boxes of the bench card."""

from __future__ import annotations

from collections.abc import Mapping

from methodlint.documents.tables.headers import (
    FLAG,
    INTEGER,
    MOMENT,
    NAMES,
    NUMBER,
    TEXT,
    Reading,
    TableWords,
)

_COLUMNS: Mapping[str, Reading] = {
    "date": MOMENT, "instrument": TEXT, "method": TEXT, "sequence": TEXT, "column": TEXT,
    "supply": TEXT, "injections": INTEGER,
    "start_pressure": ("pressure",), "start_share": ("share",),
    "highest_pressure": ("pressure",), "highest_share": ("share",),
    "outlet_pressure": ("pressure",), "oven_temperature": ("temperature",),
    "peak": TEXT, "retention_time": ("time",), "plates": NUMBER, "tailing": NUMBER,
    "weight_before": ("mass",), "weight_after": ("mass",), "cylinder_changed": FLAG,
    "column_test": TEXT, "bottles_changed": NAMES, "remarks": TEXT, "by": TEXT,
}  # fmt: skip

_SYNONYMS: Mapping[str, str] = {
    "day": "date", "date and time": "date", "run date": "date", "datum": "date",
    "started": "date", "start time": "date",
    "bench": "instrument", "system": "instrument", "gerät": "instrument",
    "method name": "method", "methode": "method", "méthode": "method",
    "sequence name": "sequence", "sequenz": "sequence", "batch": "sequence",
    "column name": "column", "säule": "column", "colonne": "column",
    "cylinder": "supply", "gas supply": "supply",
    "count": "injections", "number of injections": "injections", "runs": "injections",
    "injektionen": "injections",
    "pressure at start": "start_pressure", "pump pressure": "start_pressure",
    "pump pressure at start": "start_pressure", "pressure": "start_pressure",
    "pressure start": "start_pressure", "druck": "start_pressure",
    "composition at start": "start_share", "modifier at start": "start_share",
    "highest": "highest_pressure", "highest pump pressure": "highest_pressure",
    "pressure highest": "highest_pressure", "maximum pressure": "highest_pressure",
    "composition at highest": "highest_share", "modifier at highest": "highest_share",
    "outlet": "outlet_pressure", "outlet pressure as read": "outlet_pressure",
    "regulator pressure": "outlet_pressure", "regulator": "outlet_pressure",
    "temperature": "oven_temperature", "oven": "oven_temperature",
    "column temperature": "oven_temperature",
    "peak name": "peak", "compound": "peak",
    "retention": "retention_time", "rt": "retention_time", "retentionszeit": "retention_time",
    "plate number": "plates", "plate count": "plates", "n": "plates", "bodenzahl": "plates",
    "tailing factor": "tailing", "symmetry": "tailing",
    "cylinder weight before": "weight_before", "weight at start": "weight_before",
    "cylinder weight": "weight_after", "cylinder weight after": "weight_after",
    "weight": "weight_after", "weight at end": "weight_after",
    "new cylinder": "cylinder_changed", "cylinder change": "cylinder_changed",
    "test": "column_test", "bottle changes": "bottles_changed", "bottles": "bottles_changed",
    "comment": "remarks", "comments": "remarks", "remark": "remarks", "note": "remarks",
    "notes": "remarks", "bemerkung": "remarks", "bemerkungen": "remarks",
    "initials": "by", "operator": "by", "analyst": "by", "role": "by", "who": "by",
}  # fmt: skip

_PASSED_OVER = frozenset({"no", "nr", "#", "line", "row", "lfd nr", "customer", "project", "order"})

ENTRIES = TableWords("entry", _COLUMNS, _SYNONYMS, _PASSED_OVER)
"""Words of a table that holds the entries of a logbook."""
