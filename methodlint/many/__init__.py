"""Checks of many documents: in batches, in this process or in others, with plain results."""
