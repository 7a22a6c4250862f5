"""Refresh the expected reports beside the flawed examples and the README's pictures.

python -m tests.refresh_expected            writes them
python -m tests.refresh_expected --check    fails if one is stale or missing
"""

from __future__ import annotations

import sys
from pathlib import Path

from tests.pictures import pictures

ROOT = Path(__file__).resolve().parent.parent
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


def documents() -> list[Path]:
    """Flawed documents, in order of name."""
    return sorted(FLAWED.glob("*.yaml"))


def main(arguments: list[str]) -> int:
    """Write or check; the status is 1 if a report is stale."""
    wanted = {expected_of(document): report_of(document) for document in documents()}
    wanted |= pictures()
    stale = []
    for file, now in wanted.items():
        if "--check" not in arguments:
            file.write_text(now, encoding="utf-8")
        elif not file.is_file() or file.read_text(encoding="utf-8") != now:
            stale.append(file.relative_to(ROOT).as_posix())
    for name in stale:
        print(f"stale: {name}; run python -m tests.refresh_expected and look at the difference")
    return 1 if stale else 0


if __name__ == "__main__":
    import os

    os.chdir(ROOT)
    sys.exit(main(sys.argv[1:]))
