"""Paths in, typed documents out, each value with its place and unit."""
