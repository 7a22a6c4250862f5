"""What the columns of a sample table are called, in the words of labs, and their units."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache

from methodlint.documents.quantities.unit_table import UNITS
from methodlint.documents.text.names import nearest

#: How the cells of a column are read, by the key of a line. Quantities name their dimensions.
TEXT, INTEGER, NUMBER, FLAG, DATE, MOMENT, NAMES = (
    "text", "integer", "number", "flag", "date", "moment", "names"
)  # fmt: skip
Reading = str | tuple[str, ...]
_AMOUNT = ("amount concentration", "mass concentration", "share")
COLUMNS: Mapping[str, Reading] = {
    "kind": TEXT, "sample": TEXT, "plate": TEXT, "well": TEXT, "method": TEXT, "vessel": TEXT,
    "control_level": TEXT, "data_file": TEXT, "diluent": TEXT, "liquid": TEXT, "makeup": TEXT,
    "co2": TEXT, "source": TEXT, "purpose": TEXT,
    "count": INTEGER, "vials": INTEGER,
    "level": NUMBER, "weight": NUMBER, "dilution": NUMBER,
    "stock": TEXT, "stock_verified": FLAG, "replicate": FLAG, "regulator_released": FLAG, "column_bypassed": FLAG,
    "expires": DATE, "prepared": MOMENT, "refills": NAMES,
    "concentration": _AMOUNT, "expected": _AMOUNT,
    "volume": ("volume",), "fill": ("volume",), "dead_volume": ("volume",),
    "flush_volume": ("volume",),
    "stability": ("time",), "run_length": ("time",), "duration": ("time",),
    "flow": ("volume flow",), "modifier_share": ("share",), "outlet_pressure": ("pressure",),
}  # fmt: skip

_SYNONYMS: Mapping[str, str] = {
    # English
    "sample name": "sample", "sample id": "sample", "sample identity": "sample",
    "sample no": "sample", "sample number": "sample", "name": "sample", "id": "sample",
    "type": "kind", "sample type": "kind", "line type": "kind", "line kind": "kind",
    "sample kind": "kind", "tray": "plate", "rack": "plate", "plate no": "plate",
    "plate position": "plate", "plate number": "plate",
    "vial": "well", "position": "well", "pos": "well", "vial position": "well",
    "well position": "well", "vial no": "well", "vial number": "well", "place": "well",
    "location": "well", "method name": "method", "acquisition method": "method",
    "instrument method": "method",
    "injection volume": "volume", "inj volume": "volume", "inj vol": "volume",
    "injected volume": "volume", "vol": "volume",
    "injections": "count", "number of injections": "count", "no of injections": "count",
    "inj": "count", "injection count": "count",
    "calibration level": "level", "cal level": "level", "standard level": "level",
    "stock solution": "stock", "stock id": "stock",
    "conc": "concentration", "nominal concentration": "concentration",
    "expected concentration": "expected", "qc level": "control_level",
    "sample solvent": "diluent", "solvent": "diluent", "dissolved in": "diluent",
    "fill volume": "fill", "filled": "fill", "volume in vial": "fill", "vial fill": "fill", "vial volume": "fill",
    "volume in well": "fill", "well volume": "fill",
    "vial type": "vessel", "vessel type": "vessel", "container": "vessel",
    "file": "data_file", "file name": "data_file", "filename": "data_file",
    "data file name": "data_file", "datafile": "data_file", "data": "data_file",
    "run time": "run_length", "runtime": "run_length", "stop time": "run_length",
    "dilution factor": "dilution", "sample weight": "weight",
    "prepared on": "prepared", "preparation": "prepared", "expiry": "expires",
    "expiry date": "expires", "valid until": "expires", "number of vials": "vials",
    # German
    "probe": "sample", "probenname": "sample", "proben id": "sample", "probennummer": "sample",
    "bezeichnung": "sample", "art": "kind", "typ": "kind", "probenart": "kind",
    "probentyp": "kind", "platte": "plate", "stellplatz": "well", "platz": "well",
    "fläschchen": "well", "methode": "method", "injektionsvolumen": "volume",
    "inj volumen": "volume", "volumen": "volume", "injektionen": "count", "anzahl": "count",
    "stufe": "level", "konzentration": "concentration", "lösungsmittel": "diluent",
    "füllung": "fill", "füllvolumen": "fill", "gefäß": "vessel", "datei": "data_file",
    "dateiname": "data_file", "laufzeit": "run_length", "verdünnung": "dilution",
    "einwaage": "weight", "hergestellt": "prepared", "verfall": "expires",
    # French
    "échantillon": "sample", "nom": "sample", "plaque": "plate", "flacon": "well",
    "puits": "well", "méthode": "method", "volume injecté": "volume", "niveau": "level",
    "fichier": "data_file", "solvant": "diluent",
}  # fmt: skip

#: Columns that labs keep for themselves; they are passed over.
_OWN = frozenset(
    {"no", "nr", "#", "n", "line", "line no", "row", "lfd nr", "comment", "comments", "remark",
     "remarks", "note", "notes", "bemerkung", "bemerkungen", "kommentar", "commentaire",
     "operator", "date", "datum", "analyst", "customer", "project", "order", "barcode"}
)  # fmt: skip

#: Words of the column `kind`, and of `control_level`, that labs write instead of ours.
KIND_WORDS: Mapping[str, str] = {
    "unknown": "sample", "unk": "sample", "probe": "sample", "smp": "sample",
    "unbekannt": "sample", "unbekannte probe": "sample", "inconnu": "sample",
    "échantillon": "sample",
    "standard": "calibrator", "std": "calibrator", "cal": "calibrator",
    "calibration": "calibrator", "calibration standard": "calibrator",
    "kalibrierung": "calibrator", "kalibrator": "calibrator",
    "étalon": "calibrator", "systemeignung": "suitability", "qc": "control", "quality control": "control",
    "kontrolle": "control", "kontrollprobe": "control", "sst": "suitability",
    "system suitability": "suitability", "suitability test": "suitability",
    "blk": "blank", "double blank": "matrix blank", "zero blank": "zero",
    "zero standard": "zero", "solvent blank": "blank", "blindwert": "blank", "leerwert": "blank",
    "blanc": "blank", "wash": "flush", "condition": "conditioning",
    "equilibrate": "equilibration",
}  # fmt: skip
LEVEL_WORDS: Mapping[str, str] = {
    "low": "lower", "lqc": "lower", "mid": "middle", "medium": "middle", "mqc": "middle",
    "high": "upper", "hqc": "upper",
}  # fmt: skip


@dataclass(frozen=True, eq=False)
class TableWords:
    """What the columns of one kind of table may be called.

    Attributes
    ----------
    of : str
        What a row is, in words.
    columns : mapping of str to Reading
        How the cells of each key are read.
    synonyms : mapping of str to str
        Keys by other words for them.
    passed_over : frozenset of str
        Columns that labs keep for themselves.
    """

    of: str
    columns: Mapping[str, Reading]
    synonyms: Mapping[str, str]
    passed_over: frozenset[str]


LINES = TableWords("line", COLUMNS, _SYNONYMS, _OWN)
"""Words of a table that holds the lines of a sequence."""

_UNIT_BEHIND = re.compile(
    r"(?P<name>[^\[(]*?)\s*(?:\[(?P<square>[^\]]*)\]|\((?P<round>[^)]*)\))\s*"
    r"|(?P<other>.*?)(?:\s*/\s*|\s*,\s*|\s+in\s+|\s+)(?P<plain>\S+(?:\s[vw]/[vw])?)\s*"
)
_SYMBOLS = frozenset(symbol for units in UNITS.values() for symbol in units)
_MICRO = str.maketrans({"µ": "u", "μ": "u"})


@lru_cache(maxsize=4096)
def plain_word(header: str) -> str:
    """Write a header in one spelling: no capitals, one blank for every divider."""
    return re.sub(r"[\s_.\-:]+", " ", header.casefold()).strip()


@lru_cache(maxsize=4096)
def split_unit(header: str, words: TableWords = LINES) -> tuple[str, str]:
    """Divide a header into its words and its unit: ``volume [uL]``, ``volume/uL``, ``volume in uL``.

    Returns
    -------
    tuple of str
        Words and unit; the unit is empty if there is none.
    """
    if _key(header, words) is not None:
        return header, ""
    match = _UNIT_BEHIND.fullmatch(header.strip())
    if match is None:
        return header, ""
    in_brackets = match["square"] if match["square"] is not None else match["round"]
    if in_brackets is not None:
        return match["name"], in_brackets.strip()
    unit = match["plain"]
    known = unit in _SYMBOLS or unit.translate(_MICRO) in _SYMBOLS
    return (match["other"], unit) if known else (header, "")


def recognised(header: str, table: TableWords = LINES) -> str | None:
    """Key of a row that a header means, ``""`` for a column of the lab's own, None if unknown."""
    words = plain_word(split_unit(header.strip(), table)[0])
    if words.startswith("x ") or words in table.passed_over:
        return ""
    return _key(words, table)


def _key(header: str, table: TableWords) -> str | None:
    words = plain_word(header)
    key = words.replace(" ", "_")
    return key if key in table.columns else table.synonyms.get(words)


def meant(header: str, table: TableWords = LINES) -> list[str]:
    """Keys of a row that an unknown header comes near to."""
    words = plain_word(split_unit(header, table)[0])
    near = nearest(words.replace(" ", "_"), table.columns, limit=2)
    near += [(table.synonyms[word], far) for word, far in nearest(words, table.synonyms, limit=2)]
    return list(dict.fromkeys(key for key, _ in sorted(near, key=lambda item: item[1])))


def header_row(rows: Iterable[list[str]], table: TableWords = LINES) -> int | None:
    """Number of the row that names the columns: the first with the most words that are known.

    Parameters
    ----------
    rows : iterable of list of str
        Texts of the rows at the top.

    Returns
    -------
    int or None
        None if no row has a word that is known.
    """
    best, found = 0, None
    for number, texts in enumerate(rows):
        keys = {recognised(text, table) for text in texts if text} - {None, ""}
        if len(keys) > best:
            best, found = len(keys), number
    return found
