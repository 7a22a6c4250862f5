"""A transferred method and its source, in the sound lab."""

from __future__ import annotations

ISOCRATIC = """
kind: method
transferred_from: source
programme: []
mobile_phase: {modifier_share: 10 % v/v}
"""
FROM = """
---
kind: method
x-name: source
programme: []
mobile_phase: {modifier_share: 10 % v/v}
"""
GRADIENT = "kind: method\ntransferred_from: source\n"
FROM_GRADIENT = "\n---\nkind: method\nx-name: source\n"
REGULATED = "\n---\nkind: sequence\npurpose: regulated\n"
WIDE = """
---
kind: column
x-name: wide
length: 250 mm
inner_diameter: 4.6 mm
particle_size: 5 um
"""


def pair(target: int, source: int, share: int = 5, celsius: int = 40, card: str = "") -> str:
    """Outlet pressures [bar] of 4.6 x 250, 5 um at 3.0 mL/min -> 3.0 x 150, 3 um at 2.13 mL/min."""
    shared = f"programme: []\nmobile_phase: {{modifier_share: {share} % v/v}}\n"
    shared += f"oven_temperature: {celsius} degC\n"
    return (
        f"kind: method\ntransferred_from: source\nflow: 2.13 mL/min\n"
        f"outlet_pressure: {target} bar\n{shared}"
        f"---\nkind: method\nx-name: source\ncolumn: wide\nflow: 3.0 mL/min\n"
        f"outlet_pressure: {source} bar\n{shared}" + WIDE + card
    )


def programme(*rows: tuple[float, float]) -> str:
    """Rows of times [min] and modifier shares [% v/v]."""
    lines = "\n".join(f"  - {{time: {t} min, modifier_share: {s} % v/v}}" for t, s in rows)
    return f"programme:\n{lines}\n"
