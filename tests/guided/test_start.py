"""The guided set-up: questions at a prompt, answers from a file, and the lab that comes of it."""

from __future__ import annotations

from pathlib import Path

import pytest

from methodlint.checking.check import check
from methodlint.documents.guided.answers import AnswerWrong, answers_text, read_answer
from methodlint.documents.guided.lab_texts import lab_texts, problems_with
from methodlint.documents.guided.questions import QUESTIONS, TEMPLATES, questions_for
from methodlint.documents.guided.template import fill, keys_of, template_text
from tests.command import run

BY_KEY = {question.key: question for question in QUESTIONS}
KINDS = ("lab", "instrument", "column", "supply", "solvents", "room", "method", "sequence")
RISKY = ("rating", "relief", "trip", "volume", "vent", "mass", "air_changes", "limit", "dead")


def examples(template: str) -> str:
    return answers_text(template, {q.key: q.example for q in questions_for(template)})


@pytest.mark.parametrize("template", TEMPLATES)
def test_the_examples_make_a_lab_that_checks_at_once(template: str, tmp_path: Path) -> None:
    file = tmp_path / "answers.txt"
    file.write_text(examples(template), encoding="utf-8")
    done = run("start", "lab", "--answers", str(file), cwd=tmp_path)
    assert done.status == 0, done.stderr
    report = check(tmp_path / "lab")
    assert report.unusable == []
    assert {d.kind for d in report.documents.values()} == set(KINDS)
    assert {f.grade for f in report.findings} <= {"caution", "note"}
    assert not any(f.rule.startswith("document.") for f in report.findings)
    assert report.runs[0].run.done
    assert "OVERVIEW" in done.stdout


@pytest.mark.parametrize("template", TEMPLATES)
def test_nothing_known_is_never_clear_and_asks_each_card_once(
    template: str, tmp_path: Path
) -> None:
    file = tmp_path / "answers.txt"
    file.write_text(f"template: {template}\n", encoding="utf-8")
    text = run("start", "lab", "--answers", str(file), cwd=tmp_path).stdout
    report = check(tmp_path / "lab")
    assert report.unusable == []
    assert report.verdict == "run with care"
    tail = text[text.index("NOT CHECKED") :]
    assert tail.count("instruments/bench-1.yaml") == 1
    assert tail.count("rooms/room.yaml") == 1


def test_a_scripted_newcomer_needs_at_most_60_answers(tmp_path: Path) -> None:
    for template in TEMPLATES:
        assert 20 <= len(questions_for(template)) + 1 <= 32
    typed = ["uv", *(question.example for question in questions_for("uv"))]
    done = run("start", "lab", stdin="".join(f"{line}\n" for line in typed), cwd=tmp_path)
    assert done.status == 0, done.stderr
    assert len(typed) <= 60
    assert "RUN WITH CARE" in done.stdout


def test_a_wrong_answer_is_told_at_once_and_asked_again(tmp_path: Path) -> None:
    typed = ["1", "bench-1, c, m", "reserch", "research", "550 bars, 5 mL/min", "550 bar, 5, 380"]
    done = run("start", "lab", stdin="\n".join(typed) + "\n", cwd=tmp_path)
    assert done.status == 2
    told = " ".join(done.stdout.split())
    assert "did you mean research" in told
    assert "bars" in told
    assert told.count(" Pumps ") == 2
    assert "run the same command to go on" in done.stderr


def test_it_goes_on_where_it_was_stopped(tmp_path: Path) -> None:
    run("start", "lab", stdin="1\nbench-9, c, m\nresearch\n", cwd=tmp_path)
    rest = "\n" * len(questions_for("uv"))
    done = run("start", "lab", stdin=rest, cwd=tmp_path)
    assert done.status == 0, done.stderr
    assert "going on with 2 answers" in done.stdout
    assert (tmp_path / "lab" / "instruments" / "bench-9.yaml").is_file()


def test_back_asks_the_question_before_again(tmp_path: Path) -> None:
    run("start", "lab", stdin="1\nbench-9, c, m\n<\nbench-8, c, m\n", cwd=tmp_path)
    assert "bench-8" in (tmp_path / "lab" / "start-answers.txt").read_text(encoding="utf-8")


def test_a_lab_that_is_there_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / "lab").mkdir()
    (tmp_path / "lab" / "lab.yaml").write_text("kind: lab\nname: Ours\n", encoding="utf-8")
    done = run("start", "lab", stdin="1\n", cwd=tmp_path)
    assert done.status == 2
    assert "a lab folder already" in done.stderr


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("template: gas\n", "none of"),
        ("template: uv\nvalves: 3\n", "none of the questions"),
        ("template: uv\npumps: 550 bar, 5 kg\n", "pumps: "),
        ("nonsense\n", "question: answer"),
        ("template: uv\nnames: ../../x, c, m\n", "a name begins with a letter"),
    ],
)
def test_a_file_of_answers_that_cannot_be_used_is_refused(
    text: str, said: str, tmp_path: Path
) -> None:
    (tmp_path / "answers.txt").write_text(text, encoding="utf-8")
    done = run("start", "lab", "--answers", "answers.txt", cwd=tmp_path)
    assert done.status == 2
    assert said in done.stderr
    assert not (tmp_path / "lab" / "lab.yaml").exists()


def test_nothing_that_can_hurt_has_a_default() -> None:
    for question in QUESTIONS:
        taken = read_answer(question, "")
        assert not any(word in key for key in taken for word in RISKY), question.key
        assert set(taken) <= {"instrument_name", "column_name", "method_name", "samples"}


def test_every_word_of_a_choice_is_one_that_documents_take() -> None:
    wrong = []
    for question in QUESTIONS:
        for number, value in enumerate(question.values):
            for choice in value.choices:
                text = ", ".join(["-"] * number + [choice])
                wrong += problems_with(read_answer(question, text), "uv-ms", {})
    assert wrong == []


def test_every_place_of_the_templates_is_asked_for() -> None:
    asked = {value.key for question in QUESTIONS for value in question.values}
    made = {"lines", "monitors", "programme", "lab_name"}
    places = set().union(*(keys_of(template_text(kind)) for kind in KINDS))
    assert places - asked - made == set()
    assert asked - places == {
        "samples", "vial_fill", "monitor_place", "monitor_low", "monitor_tested",
    }  # fmt: skip


@pytest.mark.parametrize(
    ("key", "text", "found"),
    [
        ("pumps", "550, 5, 380", {"pump_rating": "550 bar", "pump_flow": "5 mL/min"}),
        ("column", "150 mm x 3.0 mm, 3 um", {"inner_diameter": "3.0 mm", "particle_size": "3 um"}),
        ("modifier-share", "20", {"share": "20 % v/v"}),
        ("phase", "bonded", {"phase": "bonded silica"}),
        ("trips", "-, no", {"trip_low": "false"}),
        ("modifier", "2-propanol", {"modifier": '"2-propanol"'}),
    ],
)
def test_answers_are_read_as_people_type_them(key: str, text: str, found: dict[str, str]) -> None:
    values = read_answer(BY_KEY[key], text)
    assert found.items() <= values.items()


@pytest.mark.parametrize(
    ("key", "text"),
    [("pumps", "1, 2, 3, 4"), ("trips", "550 bar, perhaps"), ("modifier-share", "5 to 40")],
)
def test_answers_that_cannot_be_read_say_why(key: str, text: str) -> None:
    with pytest.raises(AnswerWrong, match=r"write|asked for"):
        read_answer(BY_KEY[key], text)


def test_a_monitor_that_is_not_there_is_said() -> None:
    values = read_answer(BY_KEY["vents"], "no, none")
    assert "monitors: []" in lab_texts(values, "uv")["rooms/room.yaml"]


def test_a_value_that_is_not_known_takes_its_entry_along() -> None:
    text = "a:\n  # told above b\n  b: <x>\n  - {c: 1, d: <y>}\n  - {e: <!z>, f: 2}\n"
    assert fill(text, {}, "") == "a:\n  - {c: 1}\n"
    known = fill(text, {"x": "1", "y": "2", "z": "3"}, "")
    assert known == "a:\n  # told above b\n  b: 1\n  - {c: 1, d: 2}\n  - {e: 3, f: 2}\n"
