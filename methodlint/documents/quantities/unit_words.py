"""What people write for units, and which units of the table to offer them."""

from __future__ import annotations

# Units to offer, the usual one of the trade first, with a figure for a sample.
USUAL: dict[str, tuple[str, ...]] = {
    "pressure": ("bar", "psi", "MPa"),
    "temperature": ("degC", "K"),
    "temperature difference": ("K", "degC"),
    "volume flow": ("mL/min", "uL/min"),
    "mass flow": ("g/min",),
    "volume": ("mL", "uL", "L"),
    "length": ("mm", "um", "nm"),
    "time": ("min", "s", "h"),
    "mass": ("kg", "g", "mg"),
    "share": ("% v/v", "% w/w", "% mol"),
    "amount concentration": ("mM", "mol/L"),
    "mass concentration": ("mg/mL", "ug/mL", "ng/mL"),
    "density": ("g/mL", "kg/m3"),
    "frequency": ("Hz",),
    "power": ("W",),
    "air change rate": ("1/h",),
    "ppm": ("ppm",),
    "voltage": ("V",),
}
SAMPLES: dict[str, str] = {
    "pressure": "150 bar", "temperature": "40 degC", "temperature difference": "2 degC",
    "volume flow": "1.5 mL/min", "mass flow": "3 g/min", "volume": "5 uL", "length": "150 mm",
    "time": "2 min", "mass": "12.5 kg", "share": "5 % v/v", "amount concentration": "20 mM",
    "mass concentration": "1 mg/mL", "density": "0.79 g/mL", "frequency": "10 Hz", "power": "50 W",
    "air change rate": "6 1/h", "ppm": "5000 ppm", "voltage": "3000 V",
}  # fmt: skip
# What people write, and the unit of the table that it means.
SYNONYMS: dict[str, str] = {
    "cc/min": "mL/min", "cm3/min": "mL/min", "mlpm": "mL/min", "lpm": "L/min", "l/min": "L/min",
    "ul/min": "uL/min", "mcl/min": "uL/min", "ml": "mL", "cc": "mL", "cm3": "mL", "l": "L",
    "ul": "uL", "mcl": "uL", "nl": "nL", "liter": "L", "litre": "L", "liters": "L", "litres": "L",
    "m^3": "m3", "m³": "m3", "micron": "um", "microns": "um", "mcm": "um", "µ": "um", "inch": "in",
    "inches": "in", '"': "in", "sec": "s", "secs": "s", "second": "s", "seconds": "s",
    "mins": "min", "minute": "min", "minutes": "min", "hr": "h", "hrs": "h",
    "hour": "h", "hours": "h", "day": "d", "days": "d", "msec": "ms", "kilogram": "kg",
    "kgs": "kg", "gram": "g", "grams": "g", "lbs": "lb", "deg c": "degC", "deg. c": "degC",
    "celsius": "degC", "degrees c": "degC", "º c": "degC", "ºc": "degC", "° c": "degC", "℃": "degC",
    "f": "degF", "°f": "degF", "deg f": "degF", "fahrenheit": "degF", "℉": "degF", "kelvin": "K",
    "bars": "bar", "barg.": "bar(g)", "bar (g)": "bar(g)", "bar (a)": "bar(a)", "psi (g)": "psi(g)",
    "psi (a)": "psi(a)", "psi gauge": "psi(g)", "bar gauge": "bar(g)", "bar abs": "bar(a)",
    "lb/in2": "psi", "mpa": "MPa", "kpa": "kPa", "pascal": "Pa", "hpa": "mbar", "m": "mol/L",
    "vol%": "% v/v", "vol %": "% v/v", "vol-%": "% v/v", "% vol": "% v/v", "%v/v": "% v/v",
    "% (v/v)": "% v/v", "%(v/v)": "% v/v", "v/v": "% v/v", "v/v %": "% v/v", "wt%": "% w/w",
    "wt %": "% w/w", "wt-%": "% w/w", "% wt": "% w/w", "%w/w": "% w/w", "% (w/w)": "% w/w",
    "%(w/w)": "% w/w", "% m/m": "% w/w", "mol%": "% mol", "mol %": "% mol", "mol-%": "% mol",
    "%mol": "% mol", "percent": "%", "g/ml": "g/mL", "g/cm3": "g/mL", "kg/l": "g/mL",
    "kg/m^3": "kg/m3", "kg/m³": "kg/m3", "mg/ml": "mg/mL", "ng/ml": "ng/mL", "ug/ml": "ug/mL",
    "µg/ml": "ug/mL", "mcg/ml": "ug/mL", "pg/ml": "pg/mL", "mg/l": "mg/L", "ug/l": "ug/L",
    "ng/ul": "ug/mL", "g/l": "g/L", "mmol/l": "mmol/L",
    "mol/l": "mol/L", "mol/dm3": "mol/L", "hz": "Hz", "1/s": "Hz", "watt": "W", "watts": "W",
    "w": "W", "/h": "1/h", "per hour": "1/h", "per h": "1/h", "ach": "1/h", "h-1": "1/h",
    "volt": "V", "volts": "V", "v": "V",
}  # fmt: skip
