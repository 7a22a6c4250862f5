"""Start, stop, read-back and stamp of the card: flows that keep a reserve, order, what is held."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest

from methodlint.checking.check import check
from methodlint.checking.report import Report
from methodlint.many.check_many import check_many
from methodlint.rehearsal.run.gentle_flow import HIGH_LIMIT, RESERVE, gentle_flows
from methodlint.reports.card.stamp import documents_hash
from methodlint.reports.html.page import html_page
from methodlint.reports.lines import plain_line
from methodlint.reports.markdown import markdown_report
from methodlint.reports.prepared import Prepared
from methodlint.reports.text import report_lines
from tests.text_labs import TextLab, base_lab, example

SOUND = "sequence/triazole-day-batch"
FILE = Path(__file__).resolve().parents[2] / "example_methods" / "sound" / "triazole-day-batch.yaml"
SIGNED = "Read and understood"


def _words(report: Report) -> str:
    return "\n".join(plain_line(parts) for parts in report_lines(report))


@cache
def _sound() -> Report:
    return example(SOUND).judged()


def _block(text: str, title: str) -> str:
    (found,) = [block for block in text.split("\n\n") if block.startswith(title)]
    return re.sub(r"\s+", " ", found)


def _steps(text: str, *words: str) -> list[int]:
    places = [text.find(word) for word in words]
    assert -1 not in places, dict(zip(words, places, strict=True))
    return places


# Flows -----------------------------------------------------------------------------------------


def test_the_weakest_part_keeps_a_fifth_at_the_upper_end_of_the_band() -> None:
    """Column rated 400 bar: at most 320 with the band; the next flow that was tried has more."""
    lab = example(SOUND).changed("method.pressure_limits", {"high": "380 bar", "low": "165 bar"})
    (batch,) = lab.judged().batches
    run = batch.runs["triazole-enantiomers"].run
    rinse = run.ask(gentle_flows).rinse
    assert rinse is not None
    assert rinse.weakest.startswith("column")
    assert rinse.pressure + rinse.band <= (1.0 - RESERVE) * 400e5
    # losses of neat liquid rise in proportion to its flow (Darcy)
    outlet = float(run.outlet_pressure[0])
    next_flow = rinse.flow + 0.1 * float(run.set_flow[0])
    assert outlet + (rinse.pressure + rinse.band - outlet) * next_flow / rinse.flow > 0.79 * 400e5


def test_pumps_do_not_reach_their_high_limit_while_neat_modifier_flows() -> None:
    (batch,) = _sound().batches
    rinse = batch.runs["triazole-enantiomers"].run.ask(gentle_flows).rinse
    assert rinse is not None
    assert rinse.weakest == HIGH_LIMIT
    assert rinse.pressure + rinse.band <= 260e5


def test_a_column_that_keeps_less_is_said_to() -> None:
    lab = example(SOUND).changed("column.pressure_rating", "270 bar")
    text = _words(lab.judged())
    assert "keeps only" not in _block(_words(_sound()), "START")
    assert re.search(r"keeps only 1?\d % of its rating", _block(text, "START"))


# Order -----------------------------------------------------------------------------------------


def test_start_stands_in_its_order() -> None:
    start = _block(_words(_sound()), "START")
    places = _steps(
        start,
        "Ventilation running",
        "monitor on",
        "High limit set to 260 bar",
        "pump head is at",
        "regulator heater on",
        "Modifier alone at",
        "CO2 from the cylinder, slowly",
        "Leak check at this pressure",
        "arm the low limit, 165 bar",
        "Equilibrate",
    )
    assert places == sorted(places)
    assert re.search(r"Modifier alone at [\d.]+ mL/min for \d+ min", start)
    assert re.search(r"expect up to \d+ bar \(band [^)]+ bar\)", start)


def test_stop_closes_the_cylinder_before_anything_is_vented() -> None:
    stop = _block(_words(_sound()), "STOP")
    places = _steps(
        stop,
        "Close the cylinder valve first",
        "CO2 pump off",
        "Vent the closed section",
        "relief 200 bar",
        "Modifier alone (methanol)",
        "Let the regulator down slowly",
        "wait for zero on every gauge",
        "Heaters off",
    )
    assert places == sorted(places)


def test_a_bulk_supply_is_closed_at_the_bench() -> None:
    text = _words(example(SOUND).changed("supply.withdrawal", "bulk").judged())
    assert "Close the bench's CO2 valve first" in _block(text, "STOP")


def test_a_ramp_of_the_regulator_gives_the_time() -> None:
    """130 bar at 10 bar/min are 13 min."""
    text = _words(example(SOUND).changed("instrument.regulator.ramp", 10).judged())
    assert "no faster than 10 bar/min (13 min)" in _block(text, "STOP")


def test_co2_alone_needs_no_modifier_step() -> None:
    lab = base_lab()
    phase = {"modifier": None, "modifier_share": "0 % v/v"}
    lab = lab.changed("method.mobile_phase", phase).changed("method.programme", [])
    text = _words(lab.judged())
    assert "Modifier alone" not in _block(text, "STOP")


# Verdict and hash ------------------------------------------------------------------------------


def _held() -> TextLab:
    return example(SOUND).changed("column.pressure_rating", "200 bar")


def test_what_is_not_to_be_run_has_no_start_and_no_signature() -> None:
    report = _held().judged()
    text = _words(report)
    assert report.verdict == "do not run"
    assert "Modifier alone at" not in text.partition("STOP, IN THIS ORDER")[0]
    assert "START not printed: this is not to be run" in re.sub(r"\s+", " ", text)
    assert SIGNED not in text
    for block in ("STOP, IN THIS ORDER", "EMERGENCY"):
        assert _block(text, block)
    assert "Phone +00 000 0199" in _block(text, "EMERGENCY")


def test_a_sound_card_has_both() -> None:
    text = _words(_sound())
    assert "START, IN THIS ORDER" in text
    assert SIGNED in text


def test_a_placeholder_holds_the_start_and_nothing_else() -> None:
    report = example(SOUND).changed("method.title", "<title>").judged()
    text = _words(report)
    assert report.verdict == "do not run"
    assert "START, IN THIS ORDER" not in text
    assert "STOP, IN THIS ORDER" in text
    assert "Phone +00 000 0199" in text


@pytest.mark.parametrize("lab", [example(SOUND), _held()], ids=["sound", "held"])
def test_verdict_and_hash_stand_above_the_start_and_beside_the_emergency(lab: TextLab) -> None:
    report = lab.judged()
    (batch,) = report.batches
    mark = f"{report.verdict.upper()}  documents {documents_hash(batch)[:12]}"
    lines = _words(report).splitlines()
    begins = next(number for number, line in enumerate(lines) if line.startswith("START"))
    assert mark in lines[begins - 1] or mark in lines[begins - 2]
    assert sum(mark in line for line in lines) == 3
    page = html_page(Prepared(report))
    assert page.count(f'<p class="stamp">{mark}</p>') == 2
    assert f'@bottom-left {{ content: "{mark}"' in page
    assert ("Read and understood" in page) == (report.verdict != "do not run")
    assert "Phone +00 000 0199" in page


def test_a_comment_on_a_change_carries_them_too() -> None:
    report = _held().judged()
    (batch,) = report.batches
    mark = f"DO NOT RUN  documents {documents_hash(batch)[:12]}"
    assert f"`{batch.name}`: `{mark}`" in markdown_report(Prepared(report))


def test_another_document_has_another_hash() -> None:
    (first,), (second,) = _sound().batches, _held().judged().batches
    assert documents_hash(first) != documents_hash(second)
    assert documents_hash(first) == documents_hash(example(SOUND).judged().batches[0])


def test_workers_print_the_same_card() -> None:
    one, many = check(FILE), check_many([FILE])
    assert _words(one).partition("BENCH CARD")[2] == _words(many).partition("BENCH CARD")[2]


# Read back -------------------------------------------------------------------------------------


def test_every_set_value_has_a_row_and_a_box() -> None:
    block = _block(_words(_sound()), "READ BACK  method")
    for words in ("flow 2.0 mL/min", "oven 35 degC", "regulator 130 bar", "modifier share 18 % v/v",
                  "run length 4 min", "high limit 260 bar", "low limit 165 bar",
                  "modifier methanol on modifier-1"):  # fmt: skip
        assert f"{words} [__" in block
    steps = _block(_words(_sound()), "READ BACK  sequence")
    assert "line 29 flush methanol, 5 min [__" in steps
    write = _block(_words(_sound()), "WRITE DOWN")
    for words in ("at start", "highest", "weight before", "after", "initials"):
        assert words in write


def test_rows_of_a_programme_are_read_back_one_by_one() -> None:
    (batch,) = base_lab().judged().batches
    method = next(iter(batch.runs.values())).method
    assert method is not None
    block = _block(_words(base_lab().judged()), "READ BACK  method")
    assert block.count(" at ") == len(method.programme) > 1


def test_what_an_injection_and_the_batch_take_and_leave() -> None:
    """2 mL/min for run and overhead, 18 % of it methanol; 0.2 mL of needle wash (arithmetic)."""
    (batch,) = _sound().batches
    line = next(line for line in batch.batch.lines if line.injects)
    block = _block(_words(_sound()), "TAKES AND LEAVES")
    match = re.search(r"one injection, \S+ ([\d.]+) g ([\d.]+) mL ([\d.]+) mL", block)
    assert match is not None
    pumped = 0.18 * 2.0 * (line.ends - line.begins) / 60.0
    assert float(match[2]) == pytest.approx(pumped + 0.2, rel=0.01)  # and the needle wash
    whole = re.search(r"the whole sequence ([\d.]+) kg ([\d.]+) L ([\d.]+) L", block)
    assert whole is not None
    assert float(whole[1]) == pytest.approx(batch.batch.co2_demand, rel=0.01)
    assert float(whole[2]) > 33 * float(match[2]) / 1e3


def test_water_is_no_organic_solvent() -> None:
    """Methanol with 5 % of water by volume: 95 % of what is pumped is organic."""
    blend = [{"liquid": "methanol", "share": "95 % v/v"}, {"liquid": "water", "share": "5 % v/v"}]
    lab = base_lab().changed("method.mobile_phase.modifier", {"liquids": blend})
    block = _block(_words(lab.judged()), "TAKES AND LEAVES")
    match = re.search(r"one injection, \S+ [\d.]+ g ([\d.]+) mL ([\d.]+) mL", block)
    assert match is not None
    assert float(match[1]) < float(match[2])
