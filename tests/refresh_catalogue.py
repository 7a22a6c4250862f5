"""Refresh the catalogue of rules from their pages, or check that it is not stale.

python -m tests.refresh_catalogue            writes rules/CATALOGUE.md
python -m tests.refresh_catalogue --check    fails if it is stale or missing
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from itertools import groupby
from pathlib import Path

from methodlint.judging.loader import Rule, built_in_rules
from methodlint.reports.markdown_text import inert
from methodlint.rulebook.pages import parts_of, source_of

ROOT = Path(__file__).resolve().parent.parent
FILE = ROOT / "rules" / "CATALOGUE.md"
_HEAD = """\
# Catalogue of the rules

Written by `python -m tests.refresh_catalogue` from the rules' own pages; do not edit it.
`methodlint why RULE` shows a page with its examples, `methodlint rules` lists them in a terminal.

Classes: a *stop* can hurt someone or break hardware, a *fault* makes the run unsound, a *caution*
is likely trouble that a competent analyst may accept, a *note* is a figure worth having. A rule
whose figures are missing is *not checked*, never a pass.
"""


def catalogue(rules: tuple[Rule, ...]) -> str:
    """Write the catalogue."""
    return "\n".join(_lines(rules)) + "\n"


def _lines(rules: tuple[Rule, ...]) -> Iterator[str]:
    yield _HEAD
    families = [(name, list(own)) for name, own in groupby(rules, key=_family)]
    yield "| family | rules | stop | fault | caution | note |"
    yield "| --- | --- | --- | --- | --- | --- |"
    for name, own in families:
        counts = [
            sum(grade in rule.grades for rule in own)
            for grade in ("stop", "fault", "caution", "note")
        ]
        cells = " | ".join(str(count) for count in (len(own), *counts))
        yield f"| [{name}](#{name}) | {cells} |"
    yield f"\n{len(rules)} rules; a rule counts for each class that it may use."
    for name, own in families:
        yield f"\n## {name}"
        for rule in own:
            yield from _entry(rule)


def _family(rule: Rule) -> str:
    return rule.id.partition(".")[0]


def _entry(rule: Rule) -> Iterator[str]:
    place = f"{rule.file.parent.name}/{rule.file.name}"
    yield f"\n### [{rule.id}]({place})"
    yield f"\n**{inert(rule.title)}**"
    for part in parts_of(rule):
        if part.heading in ("Reason", "Remedy"):
            yield f"\n*{part.heading}:* {inert(' '.join(part.paragraphs))}"
    yield f"\n*Source:* {inert(source_of(rule))}"
    facts = [f"classes {', '.join(rule.grades)}", f"judges a {rule.subject}"]
    if rule.needs:
        facts.append("needs " + ", ".join(f"`{need}`" for need in rule.needs))
    if rule.tags:
        facts.append(f"waits for a purpose: {', '.join(rule.tags)}")
    if rule.causes:
        facts.append("grouped under it: " + ", ".join(f"`{cause}`" for cause in rule.causes))
    yield f"\n{'; '.join(facts)}"


def main(arguments: list[str]) -> int:
    """Write or check; the status is 1 if the catalogue is stale."""
    now = catalogue(built_in_rules())
    if "--check" not in arguments:
        FILE.write_text(now, encoding="utf-8", newline="\n")
        return 0
    if FILE.is_file() and FILE.read_text(encoding="utf-8") == now:
        return 0
    print("stale: rules/CATALOGUE.md; run python -m tests.refresh_catalogue")
    return 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
