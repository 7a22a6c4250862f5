"""Rehearsed sequences in; what they do to each other out, in the order of their starts."""
