"""The command `start`: a lab folder set up by questions, or from answers in a file."""

from __future__ import annotations

import os
import sys
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING

import click

from methodlint.commands.output import Refused, answer_of, columns, show_answer, write_files

if TYPE_CHECKING:
    from rich.console import Console

    from methodlint.documents.guided.questions import Question

ANSWERS = "start-answers.txt"
_STOPPED = "stopped; the answers so far are kept: run the same command to go on"


@click.command()
@click.argument("folder", type=click.Path())
@click.option(
    "--answers",
    metavar="FILE",
    type=click.Path(),
    help="Answers from a file, a line 'question: answer' for each; nothing is asked.",
)
def start(folder: str, answers: str | None) -> int:
    """Set up a lab FOLDER by about 25 questions, and check it.

    Enter means: not known. What is not known is left out; check says what it is needed for. The
    answers are kept in FOLDER/start-answers.txt, so that you can stop and go on.

    \b
    Examples:
      methodlint start our-lab
      methodlint start our-lab --answers answers.txt
    """
    if os.path.lexists(os.path.join(folder, "lab.yaml")):
        raise Refused(f"{folder} is a lab folder already: change its documents, and check them")
    kept = os.path.join(folder, ANSWERS)
    if answers is not None:
        template, given = _from_file(answers)
        values = _values_of(template, given, answers)
    else:
        template, values = _ask(folder, kept)
    return _write_lab(folder, template, values)


def _write_lab(folder: str, template: str, values: Mapping[str, str]) -> int:
    from methodlint.documents.guided.lab_texts import lab_texts

    texts = {os.path.join(folder, path): text for path, text in lab_texts(values, template).items()}
    _make_folders(texts)
    write_files(texts, "start", judged=[folder])
    click.echo(f"written: {len(texts)} documents in {folder}; the YAML is the truth from now on")
    click.echo(f"check again with: methodlint check {folder}\n")
    return _checked(folder)


def _make_folders(texts: Mapping[str, str]) -> None:
    for path in texts:
        try:
            Path(path).parent.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise Refused(f"cannot write {path}: {error.strerror}") from error


def _checked(folder: str) -> int:
    from methodlint.many.check_many import check_with_workers
    from methodlint.reports.prepared import Prepared

    report = check_with_workers([folder], 1)
    show_answer(answer_of(Prepared(report, overview=True, cards=False), "words"))
    return 0


def _from_file(file: str) -> tuple[str, dict[str, str]]:
    """Template and answers of a file."""
    from methodlint.documents.guided.answers import AnswerWrong, read_answers
    from methodlint.documents.guided.questions import TEMPLATES
    from methodlint.documents.text.opening import CannotOpen, bytes_of

    try:
        text = bytes_of(file, 1 << 20, own=False).decode("utf-8")
        given = read_answers(text)
    except (CannotOpen, AnswerWrong, UnicodeDecodeError) as error:
        raise Refused(f"{file}: {error}") from error
    template = given.pop("template", "uv")
    if template not in TEMPLATES:
        raise Refused(f"{file}: template '{template}' is none of {', '.join(TEMPLATES)}")
    return template, given


def _values_of(template: str, given: Mapping[str, str], file: str) -> dict[str, str]:
    """Values of all answers of a file; the first that cannot be used refuses it."""
    from methodlint.documents.guided.questions import questions_for

    questions = {question.key: question for question in questions_for(template)}
    odd = [key for key in given if key not in questions]
    if odd:
        raise Refused(f"{file}: '{odd[0]}' is none of the questions: {', '.join(questions)}")
    values: dict[str, str] = {}
    for key, question in questions.items():
        found, wrong = _judged(question, given.get(key, ""), template, values)
        if wrong:
            raise Refused(f"{file}: {key}: {wrong}")
        values |= found
    return values


def _judged(
    question: Question, text: str, template: str, known: Mapping[str, str]
) -> tuple[dict[str, str], str]:
    """Values of an answer, and what is wrong with it in words; empty if nothing."""
    from methodlint.documents.guided.answers import AnswerWrong, read_answer
    from methodlint.documents.guided.lab_texts import problems_with

    try:
        found = read_answer(question, text)
    except AnswerWrong as error:
        return {}, str(error)
    return found, "; ".join(problems_with(found, template, known))


def _ask(folder: str, kept: str) -> tuple[str, dict[str, str]]:
    """Ask what is not answered yet, keeping every answer at once."""
    from rich.console import Console

    from methodlint.documents.guided.questions import TEMPLATES, questions_for

    console = Console(highlight=False, markup=False, emoji=False, width=columns())
    template, given = _from_file(kept) if os.path.isfile(kept) else ("", {})
    if given or template:
        console.print(f"going on with {len(given)} answers of {kept}")
    console.print("Enter: not known.  -: one value of several is not known.  ?: more.  <: back.\n")
    if not template:
        template = _template(console, TEMPLATES)
        _keep(folder, kept, template, given)
    questions = questions_for(template)
    values: dict[str, str] = {}
    number = 0
    while number < len(questions):
        question = questions[number]
        if question.key in given:
            found, wrong = _judged(question, given[question.key], template, values)
            if not wrong:
                values |= found
                number += 1
                continue
            console.print(wrong, style="bold red")
        _show(console, question, number + 1, len(questions))
        text = _line(console)
        if text == "?":
            console.print(
                question.more or "Take it from the manual or the leaflet, or press Enter."
            )
            continue
        if text == "<":
            number = max(number - 1, 0)
            given.pop(questions[number].key, None)
            continue
        found, wrong = _judged(question, text, template, values)
        if wrong:
            console.print(wrong, style="bold red")
            continue
        for value in question.values:
            values.pop(value.key, None)
        values |= found
        given[question.key] = text
        _keep(folder, kept, template, given)
        number += 1
    return template, values


def _template(console: Console, templates: Mapping[str, str]) -> str:
    names = list(templates)
    for number, name in enumerate(names, start=1):
        console.print(f"  {number}  {templates[name]}")
    while True:
        console.print(f"Which kind of instrument? 1 to {len(names)}", style="bold")
        text = _line(console)
        if text in names:
            return text
        if text.isdigit() and 1 <= int(text) <= len(names):
            return names[int(text) - 1]


def _show(console: Console, question: Question, number: int, count: int) -> None:
    console.print(f"\n{number}/{count}  {question.heading}", style="bold")
    asked = []
    for value in question.values:
        unit = f" [{value.unit}]" if value.unit else ""
        words = f" ({', '.join(value.choices)})" if value.choices else ""
        asked.append(f"{value.words}{unit}{words}")
    console.print(f"  {', '.join(asked)}")
    default = f"   Enter: {question.default}" if question.default else ""
    console.print(f"  example: {question.example}{default}", style="dim")


def _line(console: Console) -> str:
    """One line from whoever answers; the end of the input stops, and the answers are kept."""
    if sys.stdin.isatty():
        try:
            return input("> ").strip()
        except EOFError:
            raise Refused(_STOPPED) from None
    console.print("> ", end="")
    text = sys.stdin.readline()
    console.print(text.rstrip("\n"))
    if not text:
        raise Refused(_STOPPED)
    return text.strip()


def _keep(folder: str, kept: str, template: str, given: Mapping[str, str]) -> None:
    from methodlint.documents.guided.answers import answers_text

    _make_folders({kept: ""})
    try:
        Path(kept).write_text(answers_text(template, given), encoding="utf-8")
    except OSError as error:
        raise Refused(f"cannot write {kept}: {error.strerror}") from error
