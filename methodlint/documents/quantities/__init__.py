"""A number and its unit in, a value in SI out, and back into text for people."""
