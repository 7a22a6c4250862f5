"""Pressure and temperature along tubes and columns."""
