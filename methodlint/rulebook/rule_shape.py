"""What every rule file has to have, whoever wrote it."""

from __future__ import annotations

import ast
import re
import sys
from collections.abc import Collection

from methodlint.judging.finding import GRADES
from methodlint.judging.loader import Rule
from methodlint.rulebook.examples import examples_of, parts_missing

_ID = re.compile(r"[a-z]+\.[a-z0-9]+(-[a-z0-9]+)*")
_LEFT = re.compile(r"<[a-z][^<>\n]*>")
MOST_CODE_LINES = 110
_ALLOWED = ("methodlint.judging.for_rules", "numpy")  # the first for rules written for 0.1
_SUBJECTS = "methodlint.judging.ask."
PURPOSES = ("regulated", "bioanalysis", "research", "screening", "preparative")


def is_rule_id(name: str) -> bool:
    """Whether a text has the form of an id: `family.what-is-wrong`, in words."""
    return _ID.fullmatch(name) is not None


def shape_problems(rule: Rule, known: Collection[str]) -> list[str]:
    """What a rule's file lacks.

    Parameters
    ----------
    rule
        The rule.
    known
        Ids of all rules, its own included.
    """
    text = rule.file.read_text(encoding="utf-8")
    return [
        *_of_the_page(rule),
        *_of_the_data(rule, known),
        *_of_the_imports(text),
        *(
            [f"more than {MOST_CODE_LINES} lines of code"]
            if code_lines(text) > MOST_CODE_LINES
            else []
        ),
    ]


def _of_the_page(rule: Rule) -> list[str]:
    if not rule.page.strip():
        return ["there is no page: the file begins with a docstring"]
    found = [f"the page has no heading '{part}'" for part in parts_missing(rule)]
    if not rule.title.endswith("."):
        found.append("the first line is not one sentence that ends with a full stop")
    if not rule.page.partition("\nSource\n")[2].strip():
        found.append("no source: name one, or write: common practice, no source")
    left = _LEFT.search(rule.page)
    if left is not None:
        found.append(f"still to be filled in: {left[0]}")
    examples = examples_of(rule)
    if not any(example.sound for example in examples):
        found.append("there is no sound example")
    if all(example.sound for example in examples):
        found.append("there is no unsound example")
    return found


def _of_the_data(rule: Rule, known: Collection[str]) -> list[str]:
    found = []
    if not is_rule_id(rule.id):
        found.append(f"the id {rule.id} is not made of words; it comes from folder and file name")
    if not rule.grades:
        found.append(f"CLASSES is empty; classes are {', '.join(GRADES)}")
    found += [f"CAUSES names {name}, which is no rule" for name in rule.causes if name not in known]
    if rule.id in rule.causes:
        found.append("CAUSES names the rule itself")
    found += [f"TAGS names {tag}, which is no purpose" for tag in rule.tags if tag not in PURPOSES]
    return found


def _of_the_imports(text: str) -> list[str]:
    found = []
    for node in ast.walk(ast.parse(text)):
        names = []
        if isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            names = [node.module or "." * node.level]
        found += [
            f"it imports {name}; rules import methodlint.judging.ask and the standard library"
            for name in names
            if name not in _ALLOWED
            and not name.startswith(_SUBJECTS)
            and name.partition(".")[0] not in sys.stdlib_module_names
        ]
    return found


def code_lines(text: str) -> int:
    """Count the lines of a file that hold code: no docstring, comment, import or blank."""
    left_out: set[int] = set()
    for node in ast.walk(ast.parse(text)):
        of_text = isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)
        if isinstance(node, ast.Import | ast.ImportFrom) or of_text:
            assert isinstance(node, ast.stmt)
            left_out |= set(range(node.lineno, (node.end_lineno or node.lineno) + 1))
    empty = {number for number, line in enumerate(text.splitlines(), 1) if _bare(line)}
    return len(text.splitlines()) - len(left_out | empty)


def _bare(line: str) -> bool:
    return not line.strip() or line.lstrip().startswith("#")
