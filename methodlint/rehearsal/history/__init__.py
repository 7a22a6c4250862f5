"""Readings of a logbook and what was predicted for them in; how benches and columns change out."""
