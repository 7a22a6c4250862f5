"""Reads a page back, tag by tag, and refuses whatever could act or reach out."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from html.parser import HTMLParser

from methodlint.reports.html.style import STYLE

VOID = frozenset({"br", "hr", "meta"})
TAGS = VOID | frozenset(
    [
        "a",
        "details",
        "summary",
        "html",
        "head",
        "title",
        "style",
        "body",
        "main",
        "footer",
        "section",
        "article",
        "div",
        "h1",
        "h2",
        "h3",
        "p",
        "span",
        "i",
        "strong",
        "ul",
        "ol",
        "li",
        "dl",
        "dt",
        "dd",
        "table",
        "caption",
        "thead",
        "tbody",
        "tr",
        "th",
        "td",
        "figure",
        "figcaption",
        "svg",
        "desc",
        "path",
        "line",
        "rect",
        "circle",
        "polygon",
        "text",
    ]
)
ATTRIBUTES = frozenset(
    [
        "aria-label",
        "href",
        "tabindex",
        "lang",
        "charset",
        "http-equiv",
        "content",
        "name",
        "class",
        "id",
        "scope",
        "role",
        "aria-labelledby",
        "aria-hidden",
        "viewbox",
        "d",
        "fill",
        "fill-rule",
        "stroke",
        "stroke-width",
        "stroke-dasharray",
        "points",
        "x",
        "y",
        "x1",
        "x2",
        "y1",
        "y2",
        "cx",
        "cy",
        "r",
        "width",
        "height",
        "text-anchor",
        "transform",
    ]
)


@dataclass
class Node:
    """A tag that was read."""

    tag: str
    attributes: dict[str, str]
    children: list[Node | str] = field(default_factory=list)

    def all(self, tag: str) -> list[Node]:
        """Every tag of a name beneath this one, in order."""
        found = []
        for child in self.children:
            if isinstance(child, Node):
                found += [child] if child.tag == tag else []
                found += child.all(tag)
        return found

    @property
    def text(self) -> str:
        """All text beneath it."""
        return "".join(c if isinstance(c, str) else c.text for c in self.children)


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.root = Node("", {})
        self.open = [self.root]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        assert tag in TAGS, tag
        named = {name: value or "" for name, value in attrs}
        assert len(named) == len(attrs)
        assert named.keys() <= ATTRIBUTES, named.keys() - ATTRIBUTES
        node = Node(tag, named)
        self.open[-1].children.append(node)
        if tag not in VOID:
            self.open.append(node)

    def handle_endtag(self, tag: str) -> None:
        assert self.open[-1].tag == tag, (self.open[-1].tag, tag)
        self.open.pop()

    def handle_data(self, data: str) -> None:
        self.open[-1].children.append(data)

    def handle_comment(self, data: str) -> None:
        raise AssertionError(f"a comment: {data}")

    def handle_pi(self, data: str) -> None:
        raise AssertionError(f"an instruction: {data}")

    def handle_decl(self, decl: str) -> None:
        assert decl == "DOCTYPE html"


_MARK = r"[A-Z ]+(  documents [0-9a-f]{12}(, judged as of [0-9-]{10})?)?"
_FOOT = re.compile(
    r'@page { @top-left { content: "[\w .,:()%+-]*"; font: 7pt sans-serif; }'
    rf'( @bottom-left {{ content: "{_MARK}(; {_MARK})*"; font: 7pt sans-serif; }})? }}'
)


def part_of(text: str) -> Node:
    """Read one element with all that is in it."""
    reader = _Reader()
    reader.feed(text)
    reader.close()
    assert reader.open == [reader.root], [node.tag for node in reader.open]
    (part,) = [child for child in reader.root.children if isinstance(child, Node)]
    return part


def page_of(text: str) -> Node:
    """Read a page; every tag closes, none can act, the style is the one of the package."""
    page = part_of(text)
    assert page.tag == "html"
    own, *foot = [style.text for style in page.all("style")]
    assert own == STYLE
    assert all(_FOOT.fullmatch(text) for text in foot)
    assert len(foot) == 1
    assert not re.search(r"url\(|@import|expression", STYLE)
    marks = [node.attributes["id"] for node in _everything(page) if "id" in node.attributes]
    assert len(marks) == len(set(marks))
    return page


def _everything(node: Node) -> list[Node]:
    found = [node]
    for child in node.children:
        if isinstance(child, Node):
            found += _everything(child)
    return found
