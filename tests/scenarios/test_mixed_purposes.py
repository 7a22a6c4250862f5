"""Mixed batches: each method's lines are judged by its own purpose, controls and brackets.

ICH M10 (step 4, 2022) is about bioanalysis: its six controls and matrix blank are nobody's concern in a
screening that shares the bench for the night (rules `sequence.qc-too-few` and
`sequence.calibration-no-blank-and-zero` name the clauses).
"""

from __future__ import annotations

from typing import Any

import pytest

from methodlint.checking.report import Report
from tests.text_labs import REMOVED, TextLab, base_lab, everything, reported

LEVELS = (1, 2, 5, 10, 20, 50)


def line(kind: str, sample: str, method: str, well: int, **more: Any) -> dict[str, Any]:
    place = {"plate": "1", "well": f"{'ABCDEF'[well // 9]}{well % 9 + 1}", "fill": "1 mL"}
    return {"kind": kind, "sample": sample, "method": method, **place, **more}


def quantitative(method: str = "assay", first: int = 0) -> list[dict[str, Any]]:
    """Blanks, suitability, six levels, controls at three levels around the samples."""
    low, middle, high = (
        line("control", f"QC {level}", method, first + 12 + number, control_level=level)
        for number, level in enumerate(("lower", "middle", "upper"))
    )
    return [
        line("blank", "diluent", method, first),
        line("matrix blank", "matrix", method, first + 1),
        line("zero", "zero", method, first + 2),
        line("suitability", "SST", method, first + 3, count=6),
        *(
            line("calibrator", f"C{level}", method, first + 4 + number, level=level)
            for number, level in enumerate(LEVELS)
        ),
        line("blank", "diluent", method, first),
        low, middle, high,
        line("sample", "subject 1", method, first + 15),
        line("sample", "subject 2", method, first + 16),
        low, middle, high,
    ]  # fmt: skip


def screening(count: int = 3, method: str = "screen", first: int = 30) -> list[dict[str, Any]]:
    """Samples and nothing else."""
    return [line("sample", f"crude {n}", method, first + n) for n in range(count)]


END = [
    {"kind": "flush", "liquid": "methanol", "duration": "5 min"},
    {"kind": "shutdown", "duration": "5 min", "co2": "off", "makeup": "off", "source": "off",
     "regulator_released": True},
]  # fmt: skip


def lab(
    lines: list[dict[str, Any]],
    *,
    assay: str | None = "bioanalysis",
    screen: str | None = "screening",
    sequence: str | None = None,
) -> TextLab:
    """Two methods on one bench and one column; what differs is what they are for."""
    found = base_lab()
    text = found.texts["method/method"]
    for name, purpose in (("assay", assay), ("screen", screen)):
        own = text.replace("purpose: research\n", f"purpose: {purpose}\n" if purpose else "")
        own = own.replace("rsd: 2.0 %", "rsd: 2.0 %, signal_to_noise: 10")
        found = found.with_text(f"method/{name}", own)
    found = found.changed("sequence.purpose", REMOVED if sequence is None else sequence)
    found = found.changed("sequence.method", "assay")
    found = found.changed("sequence.slot", {"begins": "2026-11-24T08:30", "length": "24 h"})
    return found.changed("sequence.lines", [*lines, *END])


def found(report: Report, rule: str) -> list[str]:
    return [f.message for f in everything(report.findings) if f.rule == rule]


def rules(report: Report) -> set[str]:
    return {rule for _, rule, _ in reported(report) if rule.startswith("sequence.")}


def without(lines: list[dict[str, Any]], kind: str) -> list[dict[str, Any]]:
    return [one for one in lines if one["kind"] != kind]


def test_a_sound_mixed_batch_raises_nothing() -> None:
    report = lab([*quantitative(), *screening()]).judged()
    assert rules(report) == set()


@pytest.mark.parametrize("sequence", [None, "screening", "bioanalysis"])
def test_the_methods_go_by_their_own_tags_whatever_the_default(sequence: str | None) -> None:
    assert rules(lab([*quantitative(), *screening()], sequence=sequence).judged()) == set()


@pytest.mark.parametrize(
    ("kind", "rule"),
    [
        ("control", "sequence.qc-too-few"),
        ("matrix blank", "sequence.calibration-no-blank-and-zero"),
        ("suitability", "sequence.no-sst"),
    ],
)
def test_what_the_bioanalysis_lacks_is_found(kind: str, rule: str) -> None:
    report = lab([*without(quantitative(), kind), *screening()], sequence="screening").judged()
    assert found(report, rule)


def test_controls_are_counted_by_the_samples_of_their_own_method() -> None:
    """Six controls serve two subjects; 200 crude samples want none of them."""
    report = lab([*quantitative(), *screening(9)]).judged()
    assert found(report, "sequence.qc-too-few") == []
    assert found(report, "sequence.not-bracketed") == []


def test_controls_of_one_method_do_not_serve_the_other() -> None:
    """Both for bioanalysis: the second has its levels and no control."""
    second = without(quantitative("screen", 27), "control")
    report = lab([*quantitative(), *second], screen="bioanalysis").judged()
    [message] = found(report, "sequence.qc-too-few")
    assert message.startswith("0 controls for 2 samples")
    [message] = found(report, "sequence.not-bracketed")
    assert "2 samples after the last standard" in message


def test_twin_each_method_with_its_own_controls() -> None:
    both = [*quantitative(), *quantitative("screen", 27)]
    report = lab(both, screen="bioanalysis").judged()
    assert found(report, "sequence.qc-too-few") == []
    assert found(report, "sequence.not-bracketed") == []


def test_screening_between_two_controls_does_not_count_as_unguarded_samples() -> None:
    """25 crude samples between the subjects: no gap of the assay's controls."""
    assay = quantitative()
    lines = [*assay[:14], *screening(20), *assay[14:]]
    report = lab(lines).judged()
    assert found(report, "sequence.qc-unevenly-spread") == []
    alone = lab([one | {"method": "assay"} for one in lines], screen="bioanalysis").judged()
    assert found(alone, "sequence.qc-unevenly-spread")


def test_a_line_is_an_exception() -> None:
    """A crude sample by the assay's method, marked as research, needs no bracket."""
    extra = line("sample", "crude", "assay", 40)
    lines = [*quantitative(), extra]
    assert found(lab(lines).judged(), "sequence.not-bracketed")
    marked = [*quantitative(), extra | {"purpose": "research"}]
    report = lab(marked).judged()
    assert found(report, "sequence.not-bracketed") == []
    assert found(report, "sequence.qc-too-few") == []


def test_an_exception_can_be_stricter_too() -> None:
    """One sample of a screening is for bioanalysis: it has no controls."""
    lines = screening(3)
    lines[1] |= {"purpose": "bioanalysis"}
    report = lab([*quantitative(), *lines]).judged()
    [message] = found(report, "sequence.qc-too-few")
    assert message.startswith("0 controls for 1 sample,")


def test_the_default_serves_a_method_without_a_tag() -> None:
    lines = [*without(quantitative(), "control"), *screening()]
    report = lab(lines, assay=None, sequence="bioanalysis").judged()
    assert found(report, "sequence.qc-too-few")


def test_as_in_0_1_the_sequence_has_the_word_where_all_methods_say_the_same() -> None:
    lines = [*without(quantitative(), "control"), *screening()]
    report = lab(lines, assay="research", screen="research", sequence="bioanalysis").judged()
    assert found(report, "sequence.qc-too-few")


def test_methods_with_tags_of_their_own_are_not_asked_for_a_purpose() -> None:
    report = lab([*quantitative(), *screening()]).judged()
    assert found(report, "document.purpose-missing") == []


def test_a_blank_is_missing_after_the_highest_standard_whoever_comes_next() -> None:
    assay = quantitative()
    lines = [*assay[:10], *screening(1), *assay[11:]]
    [message] = found(lab(lines).judged(), "sequence.no-carryover-blank")
    assert "line 11 is a sample" in message


def test_what_is_collected_first_needs_no_opening_blank() -> None:
    """Preparative lines come first, the assay opens with its own blank and suitability."""
    rule = "sequence.no-opening-blank"
    report = lab([*screening(), *quantitative()], screen="preparative").judged()
    assert found(report, rule) == []
    report = lab([*screening(), *quantitative()], sequence="preparative").judged()
    assert found(report, rule), "a screening is measured, whatever the sequence's default is"
