"""The questions of the guided set-up, in the words of the trade."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

__all__ = ["QUESTIONS", "TEMPLATES", "Question", "Value", "questions_for"]

Form = Literal["quantity", "word", "text", "name", "yes", "number", "shares", "clock"]

TEMPLATES = {
    "uv": "UV detection",
    "uv-ms": "UV and mass spectrometer, with splitter and makeup",
    "preparative": "preparative, with a fraction collector",
}


@dataclass(frozen=True, slots=True)
class Value:
    """One value of an answer.

    Attributes
    ----------
    key
        Its place in the templates.
    words
        What it is called at the prompt.
    form
        How it is written.
    unit
        Unit that a bare number gets, as the prompt says.
    choices
        Words allowed; empty if the document itself says.
    """

    key: str
    words: str
    form: Form = "quantity"
    unit: str = ""
    choices: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Question:
    """One prompt.

    Attributes
    ----------
    key
        Its name in a file of answers.
    heading
        What it is about.
    values
        What is asked for, in this order, divided by commas.
    example
        An answer.
    default
        What Enter means; empty: not known.
    more
        What `?` tells.
    only
        Templates that ask it; empty for all.
    """

    key: str
    heading: str
    values: tuple[Value, ...]
    example: str
    default: str = ""
    more: str = ""
    only: tuple[str, ...] = ()


def questions_for(template: str) -> tuple[Question, ...]:
    """Questions of one template, in their order."""
    return tuple(q for q in QUESTIONS if not q.only or template in q.only)


def _q(key: str, words: str, unit: str) -> Value:
    return Value(key, words, "quantity", unit)


_MS = ("uv-ms",)
_PHASES = (
    "bare silica", "bonded silica", "hybrid silica", "coated polysaccharide",
    "immobilised polysaccharide", "brush-type chiral", "macrocyclic chiral", "polymer",
    "porous graphitic carbon",
)  # fmt: skip
_PURPOSES = ("regulated", "bioanalysis", "research", "screening", "preparative")

QUESTIONS: tuple[Question, ...] = (
    Question(
        "names",
        "Names of the instrument, the column and the first method",
        (
            Value("instrument_name", "instrument", "name"),
            Value("column_name", "column", "name"),
            Value("method_name", "method", "name"),
        ),
        "bench-1, diol-3um, first-method",
        default="bench-1, column-1, first-method",
        more="They become the names of files: instruments/bench-1.yaml and so on.",
    ),
    Question(
        "purpose",
        "What the results are for",
        (Value("purpose", "purpose", "word", choices=_PURPOSES),),
        "research",
        more="Decides how strict checks of blanks, controls and calibration are.",
    ),
    Question(
        "pumps",
        "Pumps",
        (
            _q("pump_rating", "highest pressure", "bar"),
            _q("pump_flow", "highest flow", "mL/min"),
            _q("pressure_at_flow", "pressure still reached at that flow", "bar"),
        ),
        "550 bar, 5 mL/min, 380 bar",
    ),
    Question(
        "mixing",
        "CO2 pump head and mixer",
        (
            _q("head_temperature", "temperature of the pump head", "degC"),
            _q("mixer_volume", "volume of the mixer", "mL"),
            _q("dwell_volume", "dwell volume up to the column", "mL"),
        ),
        "8 degC, 0.2 mL, 0.52 mL",
        more="Without the temperature of the pump head no pressure is computed.",
    ),
    Question(
        "tubing",
        "Tubing, each length x bore",
        (
            _q("length_before", "injector to column", "m"),
            _q("bore_before", "bore", "mm"),
            _q("length_to_cell", "column to detector cell", "m"),
            _q("bore_to_cell", "bore", "mm"),
            _q("length_after", "cell to regulator", "m"),
            _q("bore_after", "bore", "mm"),
        ),
        "0.3 m x 0.15 mm, 0.3 m x 0.15 mm, 0.3 m x 0.25 mm",
        more="The bores decide the pressure: measure them or take them from the part numbers.",
    ),
    Question(
        "cell",
        "UV detector cell",
        (_q("cell_volume", "volume", "uL"), _q("cell_rating", "rated pressure", "bar")),
        "11 uL, 350 bar",
    ),
    Question(
        "regulator",
        "Back-pressure regulator",
        (
            _q("regulator_lowest", "lowest set pressure", "bar"),
            _q("regulator_highest", "highest set pressure", "bar"),
            _q("regulator_rating", "rated pressure", "bar"),
            Value("regulator_heated", "heated", "yes"),
        ),
        "80 bar, 380 bar, 380 bar, yes",
    ),
    Question(
        "after-regulator",
        "What the regulator empties into",
        (
            Value(
                "gas_separation",
                "vessel",
                "word",
                choices=("vented separator", "vented vessel", "closed bottle"),
            ),
        ),
        "vented separator",
    ),
    Question(
        "oven",
        "Column oven",
        (_q("oven_lowest", "coldest", "degC"), _q("oven_highest", "hottest", "degC")),
        "5 degC, 90 degC",
    ),
    Question(
        "sampler",
        "Autosampler",
        (
            _q("loop", "loop", "uL"),
            _q("extra_drawn", "drawn beside the injection", "uL"),
            Value("rack_rows", "rows of the vial rack", "number"),
            Value("rack_columns", "columns of the rack", "number"),
            _q("vial_capacity", "capacity of a vial", "mL"),
            _q("vial_dead", "what the needle cannot draw", "uL"),
        ),
        "10 uL, 5 uL, 6, 9, 2 mL, 80 uL",
    ),
    Question(
        "trips",
        "What stops the pumps by itself",
        (
            _q("trip_pressure", "high pressure", "bar"),
            Value("trip_low", "low pressure", "yes"),
            Value("trip_leak", "leak sensor", "yes"),
        ),
        "550 bar, yes, yes",
    ),
    Question(
        "source",
        "Mass spectrometer source",
        (
            Value("ms_source", "source", "word", choices=("ESI", "APCI", "APPI")),
            _q("ms_liquid", "highest liquid flow", "mL/min"),
            Value("ms_gas", "gas", "word", choices=("nitrogen", "air", "argon", "other")),
            Value("ms_ducted", "exhaust led outdoors", "yes"),
        ),
        "ESI, 1 mL/min, nitrogen, yes",
        only=_MS,
    ),
    Question(
        "splitter",
        "Splitter before the source",
        (
            _q("split_share", "share sent to the source", "%"),
            _q("restrictor_length", "length of its restrictor", "m"),
            _q("restrictor_bore", "bore", "mm"),
            _q("splitter_rating", "rated pressure of splitter and tee", "bar"),
            Value("tee_place", "makeup tee on", "word", choices=("main line", "branch")),
        ),
        "20 %, 0.5 m, 0.05 mm, 380 bar, branch",
        only=_MS,
    ),
    Question(
        "makeup",
        "Makeup",
        (
            Value("makeup_liquid", "liquid", "text"),
            _q("makeup_flow", "flow", "mL/min"),
            Value(
                "makeup_tee",
                "joins",
                "word",
                choices=("before the regulator", "after the regulator"),
            ),
            _q("makeup_pump_flow", "highest flow of its pump", "mL/min"),
            _q("makeup_pump_rating", "pressure it delivers against", "bar"),
            Value("makeup_additive", "additive", "text"),
            _q("makeup_additive_level", "level", "mM"),
        ),
        "methanol, 0.2 mL/min, before the regulator, 2 mL/min, 380 bar, ammonium formate, 5 mM",
        only=_MS,
    ),
    Question(
        "collector",
        "Fraction collector",
        (
            Value("collector_kind", "kind", "word", choices=("cyclone", "open bed", "separator")),
            Value("collector_vessels", "vessels", "number"),
            _q("collector_capacity", "capacity of a vessel", "mL"),
            _q("collector_rating", "rated pressure", "bar"),
        ),
        "cyclone, 6, 500 mL, 40 bar",
        only=("preparative",),
    ),
    Question(
        "phase",
        "Stationary phase of the column",
        (Value("phase", "class", "word", choices=_PHASES),),
        "bonded silica",
        more="Decides which liquids, temperatures and additives it withstands.",
    ),
    Question(
        "column",
        "Column",
        (
            _q("column_length", "length", "mm"),
            _q("inner_diameter", "inner diameter", "mm"),
            _q("particle_size", "particle size", "um"),
        ),
        "150 mm x 3.0 mm, 3 um",
    ),
    Question(
        "column-limits",
        "Limits from the leaflet of the column",
        (
            _q("column_rating", "highest inlet pressure", "bar"),
            _q("column_drop", "highest pressure drop", "bar"),
            _q("column_temperature", "hottest", "degC"),
        ),
        "400 bar, 350 bar, 60 degC",
    ),
    Question(
        "co2",
        "CO2",
        (
            Value("withdrawal", "drawn as", "word", choices=("liquid", "vapour", "bulk")),
            _q("water_capacity", "water capacity of the cylinder", "L"),
            _q("net_mass", "CO2 in it now", "kg"),
            Value("weighed", "weighed on", "clock"),
        ),
        "liquid, 50 L, 31 kg, 2026-11-23",
        more="Liquid: with a dip tube. The mass is that on the scale without the cylinder.",
    ),
    Question(
        "co2-store",
        "Where the cylinder stands",
        (
            Value(
                "store_place", "place", "word", choices=("outside", "inside", "exhausted cabinet")
            ),
            _q("store_temperature", "temperature there", "degC"),
            Value(
                "flow_stop",
                "what stops a release",
                "word",
                choices=("excess-flow valve", "monitor-operated shut-off", "none"),
            ),
            Value(
                "flow_stop_place",
                "where it is",
                "word",
                choices=("upstream of the wall", "inside"),
            ),
        ),
        "outside, 15 degC, excess-flow valve, upstream of the wall",
    ),
    Question(
        "modifier",
        "Modifier, and an additive in it if there is one",
        (
            Value("modifier", "liquid", "text"),
            Value("additive", "additive", "text"),
            _q("additive_level", "level", "mM"),
        ),
        "methanol, ammonium formate, 20 mM",
    ),
    Question(
        "bottles",
        "Modifier bottle and needle wash",
        (
            _q("bottle_fill", "modifier in the bottle", "mL"),
            _q("bottle_dead", "what its line cannot draw", "mL"),
            Value("wash", "wash liquid", "text"),
        ),
        "900 mL, 60 mL, 2-propanol",
    ),
    Question(
        "room",
        "Room",
        (
            _q("room_volume", "volume", "m3"),
            _q("air_changes", "air changes by day", "1/h"),
            _q("air_changes_at_night", "by night", "1/h"),
            Value("staffed_from", "somebody is there from", "clock"),
            Value("staffed_to", "to", "clock"),
        ),
        "45 m3, 6 1/h, 4 1/h, 08:00, 18:00",
    ),
    Question(
        "vents",
        "Vents and CO2 monitor",
        (
            Value("vents_ducted", "separator and waste led outdoors", "yes"),
            Value("monitor_place", "place of the CO2 monitor, or none", "text"),
            Value("monitor_low", "near the floor", "yes"),
            Value("monitor_tested", "tested on", "clock"),
        ),
        "yes, wall beside the bench, yes, 2026-10-12",
    ),
    Question(
        "settings",
        "Settings of the method",
        (
            _q("oven", "oven", "degC"),
            _q("outlet_pressure", "outlet pressure", "bar"),
            _q("flow", "total flow", "mL/min"),
        ),
        "40 degC, 150 bar, 1.5 mL/min",
    ),
    Question(
        "modifier-share",
        "Modifier at the pumps: one share, or time and share, row by row",
        (Value("share", "share in % v/v", "shares"),),
        "0 min 5 %, 5 min 40 %, 6 min 40 %, 6.5 min 5 %",
        more="One share is an isocratic method: 20 %. Times are in minutes.",
    ),
    Question(
        "run",
        "Run",
        (
            _q("run_length", "length", "min"),
            _q("settling_time", "settling before the next injection", "min"),
            _q("equilibration", "equilibration before the first", "min"),
        ),
        "8 min, 4 min, 10 min",
    ),
    Question(
        "injection",
        "Injection",
        (_q("injection_volume", "volume", "uL"), Value("diluent", "diluent", "text")),
        "2 uL, 2-propanol",
    ),
    Question(
        "detection",
        "UV detection",
        (_q("wavelength", "wavelength", "nm"), _q("uv_rate", "data rate", "Hz")),
        "254 nm, 20 Hz",
    ),
    Question(
        "ms-detection",
        "MS detection",
        (
            Value("ms_polarity", "polarity", "word", choices=("positive", "negative", "both")),
            Value("scan_from", "m/z from", "number"),
            Value("scan_to", "m/z to", "number"),
        ),
        "positive, 100, 800",
        only=_MS,
    ),
    Question(
        "pressure-limits",
        "Pressure limits set for this method",
        (_q("limit_high", "high", "bar"), _q("limit_low", "low", "bar")),
        "340 bar, 155 bar",
    ),
    Question(
        "sequence",
        "First sequence",
        (
            Value("begins", "begins", "clock"),
            Value("samples", "number of samples", "number"),
            _q("vial_fill", "in each vial", "mL"),
        ),
        "2026-11-24T09:00, 6, 1 mL",
        default="-, 6",
    ),
)
