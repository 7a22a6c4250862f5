"""A rule's page and the list of rules, laid out for a terminal of any width."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from methodlint.documents.text.visible import visible
from methodlint.judging.loader import Rule
from methodlint.reports.lines import Line, Words, line, wrapped
from methodlint.reports.wording import counted
from methodlint.rulebook.pages import parts_of, source_of

_HERE = "# <- here"
_SUBJECTS = {
    "document": "each document by itself",
    "run": "one method on one instrument, rehearsed",
    "batch": "a sequence with its bench",
    "calendar": "a sequence among those checked with it",
    "history": "a logbook with what was predicted for it (methodlint review)",
    "change": "a document before and after a change (check --changed-from)",
}


def page_lines(rule: Rule, width: int) -> Iterator[Line]:
    """Lay a rule's page out.

    Parameters
    ----------
    rule
        The rule.
    width
        Columns to wrap prose at; examples are never wrapped.
    """
    yield [Words(rule.id, "head")]
    yield []
    yield from wrapped("", rule.title, 0, width)
    for part in parts_of(rule):
        yield []
        yield line(Words(part.heading, "head"))
        if part.example:
            for text in part.lines:
                yield line(Words(f"    {text}", "fault" if text.endswith(_HERE) else "plain"))
            continue
        for number, text in enumerate(part.paragraphs):
            if number:
                yield []
            yield from wrapped("", text, 4, width)
    yield from _fact("Judges", _SUBJECTS[rule.subject], width)
    yield from _fact("Classes", ", ".join(rule.grades), width)
    yield from _fact("Needs", ", ".join(rule.needs) or "nothing beside the document", width)
    if rule.tags:
        yield from _fact("Waits for a purpose tag", ", ".join(rule.tags), width)
    if rule.causes:
        yield from _fact("Grouped under it", ", ".join(rule.causes), width)


def _fact(heading: str, text: str, width: int) -> Iterator[Line]:
    yield []
    yield [Words(heading, "head")]
    yield from wrapped("", text, 4, width)


def rule_list_lines(rules: Sequence[Rule], width: int, *, whole: bool = False) -> Iterator[Line]:
    """List rules by family.

    Parameters
    ----------
    rules
        In order of id.
    width
        Columns to wrap at.
    whole
        Whether sources are told too.
    """
    family = ""
    for rule in rules:
        head = rule.id.partition(".")[0]
        if head != family:
            if family:
                yield []
            family = head
            number = sum(other.id.startswith(f"{head}.") for other in rules)
            yield [Words(visible(head).upper(), "head"), Words(f"  {counted(number, 'rule')}")]
        worst = rule.grades[0] if rule.grades else "note"
        yield line("  ", Words(rule.id, worst), f"  ({', '.join(rule.grades)})")
        yield from wrapped("", rule.title, 6, width)
        if rule.needs:
            yield from wrapped("", f"needs {', '.join(rule.needs)}", 6, width)
        if rule.tags:
            yield from wrapped("", f"waits for a purpose: {', '.join(rule.tags)}", 6, width)
        if whole:
            yield from wrapped("", f"source: {source_of(rule)}", 6, width)


def match_lines(words: Sequence[str], rules: Sequence[Rule], width: int) -> Iterator[Line]:
    """List the rules that speak of some words, with what each requires.

    Parameters
    ----------
    words
        As they were typed.
    rules
        The best match first.
    width
        Columns to wrap at.
    """
    yield [Words(f"{counted(len(rules), 'rule')} on '{visible(' '.join(words))}'", "head")]
    for rule in rules:
        yield line("  ", Words(rule.id, rule.grades[0] if rule.grades else "note"))
        yield from wrapped("", rule.title, 6, width)
    yield from wrapped("", "methodlint why RULE shows the page of one of them.", 0, width)
