"""Texts that try to act where they should only be read. Put together for this purpose."""

from __future__ import annotations

from typing import Any

import pytest

TERMINAL = (
    "\x1b[2J\x1b[1;1Hclean",
    "\x1b]0;title\x07",
    "\x1b]8;;http://evil.example\x07click\x1b]8;;\x07",
    "\x1b[8mhidden\x1b[0m",
    "\x9b31mred",
    "\x1bP$q\x1b\\",
    "one\rtwo",
    "a\x08\x08\x08b",
    "bell\x07\x07",
    "form\x0cfeed",
    "v\x0btab",
    "null\x00byte",
    "del\x7f\x7f",
)
UNSEEN = (
    "\u202e drawkcab",
    "\u2066isolated\u2069",
    "zero\u200bwidth\u200d",
    "\ufeffmark",
    "line\u2028separator",
    "para\u2029graph",
    "next\u0085line",
    "soft\u00adhyphen",
    "tag\U000e0041\U000e0042",
    "no\u00a0break",
    "\u2800blank\u3164",
)
MARKUP = (
    "<script>alert(1)</script>",
    "<img src=x onerror=alert(1)>",
    "</td></tr></table><h1>x</h1>",
    "<!-- <b> -->",
    "]]><x/>",
    "<![CDATA[x]]>",
    "<?xml version='1.0'?>",
    "<!DOCTYPE a [<!ENTITY b SYSTEM 'file:///etc/passwd'>]>",
    "&lt;b&gt; &amp; &#x41; &b;",
    '" onmouseover="x',
    "'><svg/onload=1>",
    "javascript:alert(1)",
)
MARKDOWN = (
    "# heading",
    "**bold** _it_ ~~no~~",
    "[click](http://evil.example)",
    "![pixel](http://evil.example/p.png)",
    "<http://evil.example>",
    "http://evil.example/a?b=c",
    "www.evil.example",
    "someone@example.org",
    "@everyone and @team/leads",
    "fixes #1, lab/methods#22, GH-3",
    "0123abc4567",
    "`tick` ``two`` ```three",
    "ends with `",
    "| a | b |",
    "\\| \\` \\\\",
    "- [ ] task",
    "> quoted",
    "---",
    "1. first",
    "$\\href{http://evil.example}{x}$",
    ":tada: :+1:",
    "[^1]: note",
    "text[^1]",
    "<details><summary>",
    "```\n# out\n```",
    "\n\n## Clear to run\n\n",
)
COMMANDS = (
    "::error::made up",
    "\n::set-output name=a::b",
    "\r\n::add-mask::x",
    "%0A::warning::x",
    "::stop-commands::token",
    "##[error]made up",
    "###[group]x",
    "#####vso[task.setvariable]x",
    "##teamcity[testFailed name='x']",
    "a,line=1::b",
    ":: , : % %25",
)
SHEETS = (
    "=1+1",
    "+cmd|' /C calc'!A0",
    "-2+3",
    "@SUM(A1)",
    "\t=1",
)
SARIF = (
    "[x](1)",
    "[x](http://evil.example)",
    "{0} {1}",
    "{{0}}",
    "\\[x\\](2)",
    "[a]{b}(c)",
    "%SRCROOT%/../../etc",
    "file:///etc/passwd",
)
STRANGE = (
    "\ud800 alone",
    "\ufffe\uffff",
    "e\u0301 \u1f9ea",
    "🧪" * 20,
    "x" * 3_000,
)

PAYLOADS: tuple[str, ...] = (
    *TERMINAL, *UNSEEN, *MARKUP, *MARKDOWN, *COMMANDS, *SHEETS, *SARIF, *STRANGE,
)  # fmt: skip

UNREADABLE = tuple(text for text in PAYLOADS if "\ud800" in text or "\ufffe" in text)
"""What makes a whole document unreadable: no other text is seen beside it."""

_READABLE = tuple(text for text in PAYLOADS if text not in UNREADABLE)


def in_turns(turns: int) -> list[Any]:
    """Cases for a test that lays texts into fields, one after the other.

    In each turn the fields begin with another text, so that a text stands in another field each
    time. Every text in every field at once is a `long` case.
    """
    step = len(_READABLE) // turns
    cases = [_READABLE[step * n :] + _READABLE[: step * n] for n in range(turns)]
    return [
        *(pytest.param(texts, id=f"turn {n}") for n, texts in enumerate(cases)),
        *(pytest.param((text,), id=ascii(text)) for text in UNREADABLE),
        *(pytest.param((text,), id=ascii(text)[:40], marks=pytest.mark.long) for text in _READABLE),
    ]
