"""Preparative work: fractions, stacked injections, load on the bed."""

from __future__ import annotations

from methodlint.rehearsal.batch.collected import (
    Collected,
    Overlap,
    StackWindow,
    bed_mass,
    collected,
    collected_in,
    delay_to_valve,
    peak_window,
    stack_overlaps,
)
