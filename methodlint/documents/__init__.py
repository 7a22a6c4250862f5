"""YAML text to typed documents, each value with its place; units; references resolved to a plan."""
