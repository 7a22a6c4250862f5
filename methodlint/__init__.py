"""Checks of supercritical fluid chromatography methods and sequences before the run."""

__version__ = "0.1.0"
