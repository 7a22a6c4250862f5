"""Edits that make a sound day batch dangerous or senseless; each once came out clear to run."""

from __future__ import annotations

from typing import Any

from tests.sweep.sound_lab import lab
from tests.text_labs import REMOVED, TextLab

Changes = tuple[tuple[str, Any], ...]

_CELL = {"part": "cell", "name": "UV cell", "volume": "11 uL", "pressure_rating": "350 bar",
         "detector": "UV"}  # fmt: skip
_SHUTDOWN = {"kind": "shutdown", "duration": "10 min", "co2": "off", "regulator_released": True}

PLANTED: dict[str, Changes] = {
    "no flow at all": (("method.flow", "0 mL/min"),),
    "a flush at 100 mL/min": (("sequence.lines[28].flow", "100 mL/min"),),
    "a sample at 50 mL/min": (("sequence.lines[13].flow", "50 mL/min"),),
    "an equilibration at 80 mL/min": (
        ("sequence.lines[28]", {"kind": "equilibration", "duration": "5 min", "flow": "80 mL/min"}),
    ),
    "a column rated to nothing": (("column.pressure_rating", "0 bar"),),
    "a bed that bears no drop": (("column.drop_rating", "0 bar"),),
    "a vent line without bore": (("instrument.vent_line.bore", "0 mm"),),
    "a tube without bore": (("instrument.train[3].bore", REMOVED),),
    "a tube of no bore": (("instrument.train[3].bore", "0 mm"),),
    "all tubes without bore": tuple(
        (f"instrument.train[{index}].bore", REMOVED) for index in (1, 3, 5, 7)
    ),
    "no dwell volume": (("instrument.dwell_volume", "0 mL"),),
    "a room of no air": (("room.volume", "0 m3"),),
    "a relief above every rating": (("supply.cylinder_relief", "1200 bar"),),
    "the regulator bypassed": (("instrument.train[9].bypassed", True),),
    "the cell bypassed": (("instrument.train[6].bypassed", True),),
    "the cell downstream of the regulator": (
        ("instrument.train[6]", {"part": "regulator", "name": "regulator",
                                 "pressure_rating": "380 bar"}),
        ("instrument.train[9]", _CELL),
    ),
    "no injector": (("instrument.train[2]", REMOVED),),
    "a cell that is not there": (("method.detectors[0].cell", "UV cell 2"),),
    "a detector that the bench lacks": (("method.detectors[0]", {"type": "FID"}),),
    "the separator left out of the room": (("room.outlets[0]", REMOVED),),
    "a rough pump alone in 2 m3": (
        ("room.outlets", [{"name": "rough pump", "of": "rough pump", "ducted": True}]),
        ("room.volume", "2 m3"),
        ("room.monitors", []),
    ),
    "a vent to nowhere": (("instrument.regulator.vents_to", "somewhere"),),
    "alcohols forbidden": (("column.forbidden_liquids", ["alcohols", "ketones"]),),
    "heptane alone allowed": (("column.allowed_liquids", ["n-heptane"]),),
    "a shutdown in the middle": (("sequence.lines[14]", _SHUTDOWN),),
    "a preheater at 150 degC": (("method.preheater_temperature", "150 degC"),),
    "a flow that may be anything": (
        ("method.flow", {"value": "2.0 mL/min", "tolerance": "500 %"}),
    ),
    "an outlet that may be anything": (
        ("method.outlet_pressure", {"value": "130 bar", "tolerance": "100 bar"}),
    ),
    "a retired method": (("method.status", "retired"),),
    "a method of another bench": (("method.runs_on", ["bench-zz"]),),
    "a tray hotter than it can be": (("instrument.autosampler.tray_temperature", "140 degC"),),
    "a column of nothing but holes": (("column.total_porosity", 1.0),),
    "CO2 of grade 0": (("supply.grade", "0 %"),),
    "no cylinders": (("supply.cylinders", 0),),
    "suitability that nothing fails": (
        ("method.suitability.replicates", 0), ("method.suitability.rsd", "100 %"),
    ),
    "a slot on another clock": (("sequence.slot.begins", "2026-11-24T08:30+05:00"),),
    "two columns in the train": (
        ("instrument.train[5]", {"part": "column"}),
    ),
    "a store of dry ice": (("supply.store_temperature", "-60 degC"),),
    "a tolerance of 2000 degC": (
        ("method.oven_temperature", {"value": "35 degC", "tolerance": "2000 degC"}),
    ),
    "a pump rated below its envelope": (("instrument.co2_pump.pressure_rating", "60 bar"),),
    "nobody at 80 o'clock": (("room.staffed.begins", "80:00"),),
    "a column that failed its test": (("column.injections.last_test_passed", False),),
    "a sample with the CO2 off": (("sequence.lines[13].co2", "off"),),
    "a sample without flow": (("sequence.lines[13].flow", "0 mL/min"),),
    "a flush without flow": (("sequence.lines[28].flow", "0 mL/min"),),
    "a retired lab": (("lab.status", "retired"),),
    "lines left with another liquid": (("sequence.leaves.modifier", "n-heptane"),),
}  # fmt: skip


def planted(name: str) -> TextLab:
    """The sound lab with one edit planted."""
    changed = lab()
    for path, value in PLANTED[name]:
        changed = changed.changed(path, value)
    return changed
