"""Words of a closed list: common practice, no source."""

from __future__ import annotations

import pytest

from tests.rules.document.pages import found_in, report_on

RULE = "document.word-not-known"


@pytest.mark.parametrize(
    "word", ["regulated", "bioanalysis", "research", "screening", "preparative"]
)
def test_silent_for_every_word_of_the_list(word: str) -> None:
    assert found_in(f"kind: method\npurpose: {word}\n", RULE) == []


def test_silent_for_free_text() -> None:
    assert found_in("kind: method\ntitle: fun\ninjection: {diluent: wine}\n", RULE) == []


def test_silent_for_a_word_that_is_left_to_be_filled_in_which_is_said_elsewhere() -> None:
    assert found_in("kind: method\npurpose: TBD\n", RULE) == []


@pytest.mark.parametrize(
    ("text", "path", "meant"),
    [
        ("kind: sequence\nlines: [{kind: smaple}]\n", ("lines", 0, "kind"), "sample"),
        ("kind: method\ninjection: {stream: mixt}\n", ("injection", "stream"), "mixed"),
        ("kind: method\npurpose: Regulated\n", ("purpose",), "regulated"),
        ("kind: column\nphase: bonded silca\n", ("phase",), "bonded silica"),
    ],
)
def test_the_word_that_is_meant_is_offered(
    text: str, path: tuple[str | int, ...], meant: str
) -> None:
    (found,) = found_in(text, RULE)
    assert (found.grade, found.at.path) == ("fault", path)
    assert f"did you mean '{meant}'?" in found.remedy


def test_a_word_that_is_near_to_none_gets_the_list_and_is_not_used() -> None:
    report = report_on("kind: method\npurpose: fun\n", RULE)
    (found,) = report.findings
    assert "did you mean" not in found.remedy
    for word in ("regulated", "research", "preparative"):
        assert word in found.remedy
    assert report.documents["page.yaml"].model.purpose is None  # type: ignore[attr-defined]
