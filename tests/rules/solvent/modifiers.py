"""Modifiers with their additives, for the tests of the rules about salts."""

from __future__ import annotations


def modifier(additives: str, liquid: str = "liquid: methanol", rest: str = "") -> str:
    """Write a method whose modifier holds additives."""
    return (
        f"kind: method\nmobile_phase: {{modifier: {{{liquid}, line: modifier-1, additives: "
        f"[{additives}]}}}}\n{rest}"
    )


def salt(name: str, level: str) -> str:
    """Write one additive."""
    return f"{{additive: {name}, level: {level}}}"
