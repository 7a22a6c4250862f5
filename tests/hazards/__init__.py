"""Hostile and broken input: whole checks of mutants, hostile folders, processes, injection."""
