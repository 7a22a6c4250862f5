"""Refresh the expected reports beside the flawed examples and the README's screen.

python -m tests.refresh_expected            writes them
python -m tests.refresh_expected --check    fails if one is stale or missing
"""

from __future__ import annotations

import re
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
SCREEN = "<!-- screen -->"
FLAWED = ROOT / "example_methods" / "flawed"


def expected_of(document: Path) -> Path:
    """Where the expected report of a document lies."""
    return document.with_name(f"{document.stem}.expected.txt")


def report_of(document: Path) -> str:
    """The report in words, as `methodlint check` prints it into a pipe."""
    from methodlint.checking.check import check
    from methodlint.reports.text import report_lines

    lines = report_lines(check(document.relative_to(ROOT)))
    return "".join("".join(part.text for part in line).rstrip() + "\n" for line in lines)


def readme_with_screen() -> str:
    """The README with the screen that its example gives now."""
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    before, marker, rest = readme.partition(SCREEN)
    example = re.findall(r"`methodlint check (\S+\.yaml)`", before)[-1]
    _, _, after = rest.partition("```text\n")
    _, _, after = after.partition("```\n")
    return f"{before}{marker}\n```text\n{report_of(ROOT / example)}```\n{after}"


def documents() -> list[Path]:
    """Flawed documents, in order of name."""
    return sorted(FLAWED.glob("*.yaml"))


def main(arguments: list[str]) -> int:
    """Write or check; the status is 1 if a report is stale."""
    stale = []
    for document in documents():
        now = report_of(document)
        file = expected_of(document)
        if "--check" in arguments:
            if not file.is_file() or file.read_text(encoding="utf-8") != now:
                stale.append(file.relative_to(ROOT).as_posix())
        else:
            file.write_text(now, encoding="utf-8")
    readme = ROOT / "README.md"
    screen = readme_with_screen()
    if screen != readme.read_text(encoding="utf-8"):
        if "--check" in arguments:
            stale.append("README.md")
        else:
            readme.write_text(screen, encoding="utf-8")
    for name in stale:
        print(f"stale: {name}; run python -m tests.refresh_expected and look at the difference")
    return 1 if stale else 0


if __name__ == "__main__":
    import os

    os.chdir(ROOT)
    sys.exit(main(sys.argv[1:]))
