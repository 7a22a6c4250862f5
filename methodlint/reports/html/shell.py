"""What every page has: head, policy, style sheet, banner and key figures."""

from __future__ import annotations

import base64
import hashlib
import re
from collections.abc import Iterable
from typing import Literal

from methodlint.documents.text.visible import visible
from methodlint.reports.html.element import Element, element, markup
from methodlint.reports.html.style import STYLE
from methodlint.version import __version__

__all__ = ["Mood", "banner", "keys_element", "whole_page"]

Mood = Literal["good", "care", "stop"]

_POLICY = "default-src 'none'; style-src 'unsafe-inline'"
_TITLE_LENGTH = 60


def whole_page(title: str, parts: Iterable[Element], foot: str = "", script: str = "") -> str:
    """Write a page that stands alone: no network, and no script but the one given.

    Parameters
    ----------
    foot
        Plain words, no quotation marks, that a printer puts at the foot of every sheet.
    script
        A script of ours, the only one that the page's policy lets run; it may fetch nothing.
    """
    policy = _POLICY
    if script:
        digest = base64.b64encode(hashlib.sha256(script.encode()).digest()).decode()
        policy += f"; script-src 'sha256-{digest}'"
    # No sign of a title can end the text of the style sheet.
    at_top = re.sub(r"[^\w .,:()%+-]", " ", visible(title))[:_TITLE_LENGTH]
    boxes = f'@top-left {{ content: "{at_top}"; font: 7pt sans-serif; }}'
    if foot:
        boxes += f' @bottom-left {{ content: "{foot}"; font: 7pt sans-serif; }}'
    head = element(
        "head",
        element("meta", charset="utf-8"),
        element("meta", name="generator", content=f"methodlint {__version__}"),
        element("meta", http_equiv="Content-Security-Policy", content=policy),
        element("meta", name="viewport", content="width=device-width, initial-scale=1"),
        element("title", title[:_TITLE_LENGTH]),
        Element("style", (), (STYLE,), raw=True),
        Element("style", (), (f"@page {{ {boxes} }}",), raw=True),
    )
    code = Element("script", (), (script,), raw=True) if script else None
    body = element("body", element("main", *parts), code)
    return f"<!DOCTYPE html>\n{markup(element('html', head, body, lang='en'))}"


def banner(mood: Mood, words: str, more: str) -> Element:
    """Say the verdict in words, a sign and a colour."""
    shape = {
        "good": element(
            "path", d="M8 21L17 30L33 11", fill="none", stroke="#ffffff", stroke_width=5.0
        ),
        "care": element("path", d="M20 3L38 36H2ZM18 14V25H22V14ZM18 28V32H22V28Z", fill="#ffffff",
                        fill_rule="evenodd"),
        "stop": element("path", d="M12 2H28L38 12V28L28 38H12L2 28V12ZM10 17V23H30V17Z",
                        fill="#ffffff", fill_rule="evenodd"),
    }[mood]  # fmt: skip
    return element(
        "div",
        element("svg", shape, viewBox="0 0 40 40", aria_hidden="true"),
        element("div", element("strong", words), more),
        class_=f"verdict {mood}",
    )


def keys_element(items: Iterable[tuple[str, str, str]]) -> Element:
    """Lay out name, figure and what belongs to it, side by side."""
    return element(
        "dl",
        *(
            element(
                "div",
                element("dt", name),
                element("dd", value, element("span", more) if more else None),
            )
            for name, value, more in items
        ),
        class_="keys",
    )
