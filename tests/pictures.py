"""Pictures of reports in words for the README: each is what the command prints, drawn as SVG.

`python -m tests.refresh_expected` writes them, with `--check` it compares them.
"""

from __future__ import annotations

from collections.abc import Iterable
from html import escape
from pathlib import Path

from methodlint.reports.lines import Line

ROOT = Path(__file__).resolve().parent.parent
PICTURES = ROOT / "example_methods" / "pictures"
FINDING = "example_methods/flawed/terpenoids-hot-and-low.yaml"
CARD = "example_methods/sound/triazole-day-batch.yaml"
FOLDER = "example_methods/sound"
COLUMNS = 80
_ADVANCE, _LINE, _MARGIN = 8.4, 18, 14  # pixels of a letter of 14 px, of a line, around
_COLOURS = {
    "stop": "#a3122a",
    "fault": "#a3122a",
    "caution": "#7a5200",
    "note": "#0b5a7a",
    "good": "#14632b",
    "quiet": "#5c5c5c",
}
_BOLD = {"head", "stop", "fault", "caution", "good"}


def drawn(lines: Iterable[Line], command: str) -> str:
    """Draw lines as SVG, under the command that prints them."""
    rows = [f'<tspan fill="#5c5c5c">$ {escape(command)}</tspan>', ""]
    for line in lines:
        parts = []
        for part in line:
            weight = ' font-weight="700"' if part.tone in _BOLD else ""
            colour = _COLOURS.get(part.tone)
            fill = f' fill="{colour}"' if colour else ""
            text = escape(part.text)
            parts.append(f"<tspan{weight}{fill}>{text}</tspan>" if weight or fill else text)
        rows.append("".join(parts))
    while rows and not rows[-1]:
        rows.pop()
    width = round(COLUMNS * _ADVANCE) + 2 * _MARGIN
    height = len(rows) * _LINE + 2 * _MARGIN
    texts = "\n".join(
        f'<text x="{_MARGIN}" y="{_MARGIN + (n + 1) * _LINE - 5}" xml:space="preserve">{row}</text>'
        for n, row in enumerate(rows)
        if row
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}" '
        f'width="{width}" height="{height}" role="img">\n'
        f"<title>{escape(command)}</title>\n"
        f'<rect width="{width}" height="{height}" fill="#fbfaf7" stroke="#c9c5bb"/>\n'
        f'<g font-family="monospace" font-size="14" fill="#1d1d1b">\n{texts}\n</g>\n</svg>\n'
    )


def pictures() -> dict[Path, str]:
    """Every picture by its file, as the package draws it now; the working folder is the root."""
    from methodlint.checking.check import check
    from methodlint.reports.text import report_lines

    finding = list(report_lines(check(FINDING)))
    card = list(report_lines(check(CARD)))
    begin = next(n for n, line in enumerate(card) if line and line[0].text.startswith("BENCH CARD"))
    folder = list(report_lines(check(FOLDER), overview=True, cards=False))
    found = {
        "folder.svg": drawn(folder, f"methodlint check {FOLDER}"),
        "finding.svg": drawn(finding, f"methodlint check {FINDING}"),
        "bench-card.svg": drawn(card[begin:], f"methodlint check {CARD}"),
    }
    return {PICTURES / name: text for name, text in found.items()}
