"""Elements of a page as plain data: text can never become markup, and no tag stays open."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from methodlint.documents.text.visible import visible

__all__ = ["Child", "Element", "element", "markup"]

_VOID = frozenset({"br", "hr", "meta"})
_ESCAPES = str.maketrans({"&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "'": "&#39;"})


@dataclass(frozen=True, slots=True)
class Element:
    """A tag with attributes and children.

    Attributes
    ----------
    raw
        Children are written as they are: for the style sheet of the page alone.
    """

    tag: str
    attributes: tuple[tuple[str, str], ...]
    children: tuple[Child, ...]
    raw: bool = False


Child = Element | str


def element(tag: str, *children: Child | None, **attributes: str | float | None) -> Element:
    """Build an element.

    Parameters
    ----------
    children
        Elements and texts; None is left out.
    attributes
        By name, a final underscore dropped and the others written as hyphens (`class_`,
        `stroke_width`); None leaves one out. Numbers are written with two decimals at most.
    """
    named = tuple(
        (name.rstrip("_").replace("_", "-"), _figure(value))
        for name, value in attributes.items()
        if value is not None
    )
    return Element(tag, named, tuple(child for child in children if child is not None))


def _figure(value: str | float) -> str:
    if isinstance(value, str):
        return value
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def markup(child: Child) -> str:
    """Write an element, or a text, as HTML."""
    return "".join(_written(child))


def _written(child: Child) -> Iterator[str]:
    if isinstance(child, str):
        yield _text(child)
        return
    yield f"<{child.tag}"
    for name, value in child.attributes:
        yield f' {name}="{_text(value)}"'
    yield ">"
    if child.tag in _VOID:
        return
    yield from _inside(child)
    yield f"</{child.tag}>"
    if child.tag in _BLOCKS:
        yield "\n"


_BLOCKS = frozenset(
    [
        "html",
        "head",
        "body",
        "header",
        "main",
        "footer",
        "section",
        "article",
        "div",
        "h1",
        "h2",
        "h3",
        "h4",
        "p",
        "ul",
        "ol",
        "li",
        "dl",
        "dt",
        "dd",
        "table",
        "thead",
        "tbody",
        "tr",
        "caption",
        "figure",
        "figcaption",
        "svg",
        "g",
        "style",
        "title",
        "meta",
    ]
)


def _inside(child: Element) -> Iterable[str]:
    if child.raw:
        return (text for text in child.children if isinstance(text, str))
    return (piece for below in child.children for piece in _written(below))


def _text(text: str) -> str:
    return visible(text).translate(_ESCAPES).replace("+-", "\N{PLUS-MINUS SIGN}")
