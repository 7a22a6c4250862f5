"""Compact blocks of a sequence: what labs repeat, written once and laid out as lines."""
