"""Paths in, a report out: load, plan, rehearse, judge, try remedies."""
