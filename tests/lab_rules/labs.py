"""A lab folder with a rule of its own, for the tests of such rules."""

from __future__ import annotations

import textwrap
from pathlib import Path

import methodlint.rulebook

BASE = Path(methodlint.rulebook.__file__).parent / "base_lab"

RULE = '''
"""A method settles for at least five minutes.

Reason
    Our mixers are slow.

Unsound
    kind: method
    settling_time: 0.5 min  # <- here

Sound
    kind: method
    settling_time: 6 min

Put right
    Settle longer.

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.for_rules import Finding, RunCase, show

SUBJECT = "run"
CLASSES = ("caution",)
NEEDS = ("method.settling_time",)


def judge(case: RunCase) -> Iterator[Finding]:
    """Compare with five minutes."""
    given = case.get("method.settling_time").si
    if given < 300.0:
        yield case.finding(
            "method.settling_time", "caution", f"settling for {show(given, 'time', 'min')} only"
        )
'''.lstrip()


def lab(root: Path, lab_yaml: str = "rule_folders: [our-rules]", settling: str = "3 min") -> Path:
    """Write the sound lab with `lab.yaml` of one's own; gives the path of the sequence."""
    for file in sorted(BASE.glob("*.yaml")):
        kind, text = file.stem, file.read_text(encoding="utf-8")
        if kind == "lab":
            text = f"kind: lab\n{textwrap.dedent(lab_yaml)}\n"
        if kind == "method":
            lines = [line for line in text.splitlines() if not line.startswith("settling_time")]
            text = "\n".join([*lines, f"settling_time: {settling}"]) + "\n"
        (root / f"{kind}.yaml").write_text(text, encoding="utf-8")
    return root / "sequence.yaml"


def rule_file(
    root: Path, where: str = "our-rules/house/settles_too_short.py", text: str = RULE
) -> Path:
    """Write a rule file."""
    file = root / where
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(text, encoding="utf-8")
    return file
