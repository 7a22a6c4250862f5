"""A transfer in the terminal: what stands in it is what was computed, and nothing is wider."""

from __future__ import annotations

import dataclasses
import re

from methodlint.reports.lines import plain_line
from methodlint.reports.transfer_text import transfer_lines
from methodlint.scaling.density_match import CAUTION_ABOVE, FAULT_ABOVE

from .lab import GRADIENT, make_lab, moved, transferred


def said(transfer, width=100):
    return "\n".join(plain_line(parts) for parts in transfer_lines(transfer, width=width))


def test_a_transfer_that_works_names_both_sides_and_every_corner():
    transfer = transferred()
    text = said(transfer)
    assert text.startswith("TRANSFER COMPUTED: predicted; verify on both systems\n")
    assert "assay: wide on here -> narrow on there" in text
    corners = text.partition("DENSITY ALONG THE COLUMN")[2].partition("\n\n")[0]
    assert len(re.findall(r"modifier: mean", " ".join(corners.split()))) == len(
        transfer.attempt.matches
    )
    assert f"CHECK OF THE PROPOSAL: {transfer.report.verdict}" in text
    for finding in transfer.remaining:
        assert f"[{finding.rule}]" in text


def test_the_reasons_stand_beside_the_values_or_beneath_them_on_a_narrow_screen():
    transfer = transferred()
    wide, narrow = said(transfer, 140), said(transfer, 80)
    for entry in transfer.entries:
        for text in (entry.source, entry.proposed):
            assert text in wide
            assert text in narrow
    assert "why below each" not in wide
    assert "why below each" in narrow
    words = " ".join(wide.split())
    first = transfer.entries[0].reason
    assert " ".join(first.split())[:30] in words


def test_a_reason_that_repeats_is_said_once():
    transfer = transferred()
    one = dataclasses.replace(transfer.entries[0], how="derived", why="from the particles")
    two = dataclasses.replace(one, item="another")
    text = said(dataclasses.replace(transfer, entries=(one, two)), 140)
    assert text.count("derived: from the particles") == 1
    assert text.count("as above") == 1


def test_what_is_left_of_the_density_is_graded(monkeypatch):
    """Within both limits it is said plainly, between them as a caution, beyond both as a fault."""
    transfer = transferred()
    number = len(transfer.attempt.residuals)
    for left, word in (
        (CAUTION_ABOVE / 2, ""),
        (-(CAUTION_ABOVE + FAULT_ABOVE) / 2, "caution"),
        (FAULT_ABOVE * 1.1, "fault"),
    ):
        monkeypatch.setattr(type(transfer.attempt), "residuals", [left] * number)
        block = said(transfer).partition("every corner")[2]
        block = block.partition("\n\n")[0]
        assert f"({left * 100:+.2f} %)" in " ".join(block.split())
        for other in ("caution", "fault"):
            assert (other in block) is (other == word)


def test_allowances_say_what_is_exceeded_and_what_has_none(tmp_path):
    transfer = moved(make_lab(tmp_path), allowances="pharmacopoeial")
    uses = transfer.uses
    assert uses
    inside = dataclasses.replace(uses[0], exceeded=False, span="-50 % to +50 %")
    beyond = dataclasses.replace(uses[0], exceeded=True, span="-10 % to +10 %", item="flow")
    free = dataclasses.replace(
        uses[0], exceeded=False, found=False, span="no allowance is given", item="cell"
    )
    text = said(dataclasses.replace(transfer, uses=(inside, beyond, free)))
    block = text.partition("ALLOWANCES")[2].partition("\n\n")[0]
    words = " ".join(block.split())
    assert re.search(r"inside .*allowed -50 % to \+50 %", words)
    assert re.search(r"EXCEEDED flow: .*allowed -10 % to \+10 %", words)
    assert re.search(r"change cell: .*; no allowance is given", words)


def test_nothing_that_can_be_done_says_what_binds(tmp_path):
    """A dwell of 1.5 mL is more than any hold can cure on so narrow a column."""
    transfer = moved(
        make_lab(tmp_path, GRADIENT, "kind: instrument\nx-name: there\ndwell_volume: 1.5 mL\n")
    )
    text = said(transfer)
    assert transfer.obstacles
    assert text.startswith("NO FEASIBLE TRANSFER: nothing is written\n")
    assert text.count("BINDING") == len(transfer.obstacles)
    for number in range(1, len(transfer.ways) + 1):
        assert f"way {number}" in text
