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
