"""A sequence in, its clock, lines, vials, bottles and waste out."""
