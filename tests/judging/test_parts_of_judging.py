"""Small parts of judging by themselves: spans, orders of trial, what is looked at, words."""

from __future__ import annotations

from pathlib import Path
from types import SimpleNamespace
from typing import Any, cast

import pytest

from methodlint.checking import targets
from methodlint.checking.check import check, merged
from methodlint.judging import loader
from methodlint.judging.case import Case
from methodlint.judging.deviations import deviation_uses
from methodlint.judging.finding import When
from methodlint.judging.shared import cylinder_words, traces
from methodlint.judging.shared.supply_end import others_draw, supply_end
from methodlint.rulebook.pages import parts_of


def case(**parts: Any) -> Any:
    return cast(Any, SimpleNamespace(**parts))


@pytest.mark.parametrize(
    ("one", "other", "shared"),
    [
        (When(start=0.0, end=60.0), When(start=60.0, end=90.0), True),
        (When(start=0.0, end=60.0), When(start=61.0, end=90.0), True),
        (When(start=0.0, end=60.0), When(start=61.5, end=90.0), False),
        (When(start=30.0), When(start=0.0, end=60.0), True),
        (When(start=61.5), When(start=0.0, end=60.0), False),
        (When(start=30.0), When(start=30.0), True),
        (When(start=30.0), When(start=31.5), False),
        (When(), When(start=31.0, end=40.0), True),
        (When(injection=3, last_injection=5), When(injection=6, last_injection=8), False),
        (When(injection=3, last_injection=5), When(injection=5, last_injection=8), True),
        (When(start=0.0, end=1.0, injection=3), When(start=0.0, end=1.0, injection=4), False),
    ],
)
def test_spans_that_share_a_moment(one: When, other: When, shared: bool) -> None:
    assert one.overlaps(other) is shared
    assert other.overlaps(one) is shared


def line(kind: str, last: int, co2: float = 0.1) -> Any:
    return case(line=case(kind=kind), last_injection=last, co2=co2, injects=True)


@pytest.mark.parametrize(
    ("safe", "words"),
    [(None, "before the start"), (0, "before the start"), (1, "after injection 1 at the latest"),
     (4, "after injection 4 at the latest (the last standard up to there is injection 3)")],
)  # fmt: skip
def test_a_cylinder_is_changed_before_it_is_too_late(safe: int | None, words: str) -> None:
    batch = case(lines=(line("sample", 1), line("calibrator", 3), line("calibrator", 5)))
    assert cylinder_words.change_words(batch, case(not_before=safe)).endswith(words)


@pytest.mark.parametrize(
    ("each", "words"),
    # Ten injections take 10 x `each` of CO2; 2 kg either way less 0.5 kg are 1.5 kg.
    [(0.05, " is +/-30 injections"), (0.15, " is +/-10 injections"), (0.0, "")],
)
def test_what_a_span_is_worth(each: float, words: str) -> None:
    batch = case(lines=tuple(line("sample", n, each) for n in range(1, 11)), injections=10)
    end = case(usable=case(most=6.0, least=2.0, weighing=0.5))
    assert cylinder_words._worth(batch, end) == words


def test_one_injection_is_worth_something() -> None:
    batch = case(lines=(line("sample", 1, 0.5),), injections=1)
    end = case(usable=case(most=6.0, least=2.0, weighing=0.5))
    assert cylinder_words._worth(batch, end) == " is +/-3 injections"


def test_two_labs_make_one_report(tmp_path: Path) -> None:
    reports = []
    for name in ("one", "two"):
        folder = tmp_path / name
        folder.mkdir()
        (folder / "lab.yaml").write_text("kind: lab\n", encoding="utf-8")
        (folder / f"{name}.yaml").write_text("kind: method\nflou: 1\n", encoding="utf-8")
        reports.append(check(folder))
        reports[-1].made[name] = {name}
    assert merged(reports[:1]) is reports[0]
    whole = merged(reports)
    assert len(whole.findings) == len(reports[0].findings) + len(reports[1].findings)
    assert set(whole.documents) == {*reports[0].documents, *reports[1].documents}
    assert whole.made["one"] == {"one"}
    assert whole.made["two"] == {"two"}


def test_rules_beside_a_package_that_is_no_checkout_are_not_ours(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    package = tmp_path / "methodlint"
    package.mkdir()
    monkeypatch.setattr(loader, "_PACKAGE", package)
    (tmp_path / "rules").mkdir()
    with pytest.raises(loader.RulesMissing):
        loader.rules_folder()
    (tmp_path / "pyproject.toml").write_text("", encoding="utf-8")
    assert loader.rules_folder() == tmp_path / "rules"
    (tmp_path / "rules").rmdir()
    with pytest.raises(loader.RulesMissing):
        loader.rules_folder()


def test_parts_of_a_page_end_with_words() -> None:
    page = "Title.\n\nReason\n    One.\n\n    Two.\n\n\nSource\n    A book.\n"
    reason, source = parts_of(case(page=page))
    assert (reason.heading, reason.lines) == ("Reason", ("One.", "", "Two."))
    assert (source.heading, source.lines) == ("Source", ("A book.",))


def test_files_of_a_folder_are_not_asked_for_by_name(tmp_path: Path) -> None:
    file = tmp_path / "a.yaml"
    file.write_text("x: 1\n", encoding="utf-8")
    table = tmp_path / "a.csv"
    table.write_text("sample\n", encoding="utf-8")
    assert targets.files_of([tmp_path]) == [(file, False)]
    assert targets.files_of([file]) == [(file, True)]
    assert targets.files_of([tmp_path, file]) == [(file, True)]
    with pytest.raises(targets.NothingToCheck, match="is a table"):
        targets.files_of([table])
    assert targets.files_of([table], changed=True) == [(table, True)]
    with pytest.raises(FileNotFoundError):
        targets.files_of([tmp_path / "gone.yaml"])
    # Of no kind of ours: told if it was asked for by name and not because it changed.
    ((_, told),) = targets.targets_of([file])
    ((_, quiet),) = targets.targets_of([file], changed=True)
    ((_, in_folder),) = targets.targets_of([tmp_path])
    assert (len(told), quiet, in_folder) == (targets_told(file), [], [])


def targets_told(file: Path) -> int:
    from methodlint.documents.library import LabFolder

    return int(LabFolder(file.parent, file.parent).unreadable(file, asked_for=True) is not None)


@pytest.mark.parametrize(
    ("parts", "tee", "cell", "passes"),
    [
        ("column tee tee tee cell regulator cell", "before the regulator", 4, True),
        ("column tee cell tee regulator", "before the regulator", 2, False),
        ("column cell tee regulator cell", "before the regulator", 1, False),
        ("column tee cell regulator cell", None, 2, False),
        ("column tee cell regulator cell", None, 4, True),
        ("column cell regulator cell", "before the regulator", 1, False),
        ("column cell", "before the regulator", 1, False),
    ],
)
def test_makeup_joins_at_the_last_tee_before_the_regulator(
    parts: str, tee: str | None, cell: int, passes: bool
) -> None:
    makeup = case(tee=tee)
    train = [case(part=part) for part in parts.split()]
    asked = case(method=case(makeup=makeup), instrument=case(train=train))
    assert (traces.makeup_in_cell(asked, cell) is makeup) is passes
    assert traces.makeup_in_cell(asked, None) is None


def test_why_the_end_of_a_supply_is_not_known() -> None:
    assert supply_end(case(supply=None)).why == "no supply card"
    bulk = supply_end(case(supply=case(withdrawal="bulk")))
    assert bulk.why.startswith("bulk tank")
    unsaid = supply_end(case(supply=case(withdrawal=None, dip_tube=None)))
    assert "whether liquid is drawn" in unsaid.why


def test_what_others_draw_is_the_sum_of_the_masses_that_are_given() -> None:
    bookings = [
        case(instrument=name, mass=case(si=mass) if mass else None)
        for name, mass in (("bench-1", 4.0), ("bench-2", 2.0), ("bench-3", None), ("bench-4", 1.5))
    ]
    own = case(instrument="bench-1")
    assert others_draw(case(sequence=own, supply=case(bookings=bookings))) == 3.5
    assert others_draw(case(sequence=None, supply=case(bookings=bookings))) == 7.5
    assert others_draw(case(sequence=own, supply=None)) == 0.0


@pytest.mark.parametrize(
    ("points", "guessed", "grade", "possible"),
    [(15.0, False, None, None), (15.1, False, None, None), (14.9, False, "caution", False), (10.0, True, "caution", False),
     (9.9, False, "fault", False), (9.9, True, "caution", True)],
)  # fmt: skip
def test_points_over_a_peak(
    points: float, guessed: bool, grade: str | None, possible: bool | None
) -> None:
    """Of 10 and 15 points: only a guessed width leaves a fault open, and then it is a caution."""
    verdict = traces.judge_points(points, guessed, 10.0, 15.0)
    assert getattr(verdict, "grade", None) == grade
    assert getattr(verdict, "possible", None) == possible


@pytest.mark.parametrize(
    ("assumed", "sequence", "method", "lab", "purpose"),
    [
        ("all", "sequence", "method", "lab", "all"),
        (None, "sequence", "method", "lab", "sequence"),
        (None, None, "method", "lab", "method"),
        (None, None, None, "lab", "lab"),
        (None, None, None, None, None),
    ],
)
def test_the_purpose_nearest_to_the_run_counts(
    assumed: str | None, sequence: str | None, method: str | None, lab: str | None,
    purpose: str | None,
) -> None:  # fmt: skip
    policy = case(purpose=lab)
    asked = case(
        assumed_purpose=assumed,
        sequence=case(purpose=sequence),
        method=case(purpose=method),
        policy=policy,
    )
    told = cast(Any, Case.purpose).fget
    assert told(asked) == purpose
    if assumed is None and sequence is None:
        asked.sequence = None
        assert told(asked) == purpose
    if assumed is None and method is None:
        asked.method = None
        assert told(asked) == purpose


def test_what_became_of_deviations() -> None:
    first, second, third = (case(rule=rule, reason="") for rule in ("a.b", "c.d", "e.f"))
    beneath = case(rule="c.d", because=())
    document = case(path="m.yaml", model=case(deviations=(first, second, third)))
    without = case(path="n.yaml", model=case(deviations=()))
    result = case(
        case=case(documents={"method": document, "column": without}),
        set_aside=[case(deviation=first)],
        findings=[case(rule="x.y", because=(beneath,))],
        applied={"a.b", "c.d", "e.f"},
        not_checked=[case(rule="g.h")],
        failed=[case(rule="i.j")],
    )
    uses = deviation_uses(result)
    assert list(uses) == ["m.yaml"]
    use = uses["m.yaml"]
    assert use.rules == ("a.b", "c.d", "e.f")
    assert use.used == {0, 1}
    assert use.open_questions == {"g.h", "i.j"}
