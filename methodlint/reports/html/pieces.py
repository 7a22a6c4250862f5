"""Blocks of the card, figures and tables as elements."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from methodlint.reports.card.blocks import Alert, Block, CardRows, Steps, Table
from methodlint.reports.html.element import Child, Element, element
from methodlint.reports.html.figure import Figure

__all__ = ["block_element", "figure_element", "papers_element", "rows_element", "table_element"]

_SHORT = 10


def block_element(block: Block) -> Element:
    """Lay out one block of the card."""
    words, _, subject = block.title.partition("  ")
    title = element("h3", _title(words), element("span", subject) if subject else None)
    if isinstance(block, Table):
        table = table_element(block.headers, block.rows, block.words, block.subject, block.title)
        foot = rows_element(block.foot, "rows foot") if block.foot else None
        return element("section", title, table, foot, class_="block full")
    if isinstance(block, CardRows):
        return element("section", title, rows_element(block.rows), class_="block")
    kind = "ol" if block.key in ("start", "stop") else "ul"
    steps = element(kind, *(element("li", step) for step in block.steps), class_="steps")
    return element("section", title, steps, class_=_steps_class(block))


def _steps_class(block: Steps) -> str:
    wide = " full" if block.key == "cautions" else ""
    return f"block warn{wide}" if block.tone == "caution" else "block"


def _title(title: str) -> str:
    """First letter large alone: the style sheet sets headings in capitals."""
    if not title.isupper() or any(letter.isdigit() for letter in title):
        return title  # CO2 stays CO2 for who listens to the page
    return title.capitalize()


def _cell_class(cell: str, class_: str | None) -> str | None:
    """Set what has to be acted upon apart; its words say so too."""
    return f"{class_ or ''} loud".lstrip() if isinstance(cell, Alert) else class_


def _label_class(label: str) -> str | None:
    return "loud" if isinstance(label, Alert) else None


def rows_element(rows: Iterable[tuple[str, str]], class_: str = "rows") -> Element:
    """Lay out labels and texts."""
    return element(
        "dl",
        *(
            element(
                "div",
                element("dt", label or "state", class_=_label_class(label)),
                element("dd", text),
            )
            for label, text in rows
        ),
        class_=class_,
    )


def table_element(
    headers: Sequence[str],
    rows: Iterable[Sequence[str]],
    words: Iterable[int] = (),
    caption: str = "",
    unseen: str = "",
    class_: str | None = None,
) -> Element:
    """Lay out a table whose first column names the rows."""
    left = {0, *words}

    def class_of(column: int) -> str | None:
        return "w" if column in left else None

    head = element(
        "tr",
        *(
            element("th", header or "state", scope="col", class_=class_of(column))
            for column, header in enumerate(headers)
        ),
    )
    body = [
        element(
            "tr",
            element("th", row[0], scope="row", class_="w"),
            *(
                element("td", cell, class_=_cell_class(cell, class_of(column)))
                for column, cell in enumerate(row[1:], start=1)
            ),
        )
        for row in rows
    ]
    # On paper a short table stays on its page.
    kind = " ".join(word for word in (class_, "short" if len(body) <= _SHORT else "") if word)
    said: Child = element("caption", caption)
    if not caption:
        # Those who hear the page are told what the heading above shows to the others.
        said = element("caption", element("span", _title(unseen), class_="unseen"))
    return element(
        "table", said, element("thead", head), element("tbody", *body), class_=kind or None
    )


def papers_element(rows: Iterable[tuple[str, str, str]], caption: str) -> Element:
    """Lay out documents with kind and SHA-256; sums fold rather than leave the page."""
    headers = ("document", "kind", "SHA-256")
    return table_element(headers, rows, {1, 2}, caption, class_="papers")


def figure_element(figure: Figure) -> Element:
    """Lay out a drawing with its points beside it."""
    words = {len(figure.headers) - 1} if figure.wide else set()
    table = table_element(figure.headers, figure.rows, words, "Plotted points")
    return element(
        "figure",
        element("figcaption", figure.title, element("span", figure.words)),
        element(
            "div",
            figure.drawing,
            table,
            class_="pair wide" if figure.wide else "pair",
            # Narrow screens scroll it, and keys have to reach what scrolls.
            tabindex="0",
            role="group",
            aria_label=figure.title,
        ),
        class_="long" if figure.wide else None,
    )
