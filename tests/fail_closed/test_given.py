"""A figure typed for one run counts, or is refused: nobody types one in vain."""

from __future__ import annotations

from pathlib import Path

import pytest

from methodlint.checking.check import check
from methodlint.checking.given import Given, GivenWrong
from methodlint.many.check_many import check_many
from tests.command import run
from tests.fail_closed.lab import BATCH, METHOD, day_batch


def test_a_figure_of_the_lab_counts(tmp_path: Path) -> None:
    """The margin to the phase boundary is 64 bar, by the report of the sound batch."""
    lab = day_batch(tmp_path)
    assert check(lab / METHOD).verdict == "clear to run"
    for margin, clear in (("60 bar", True), ("70 bar", False)):
        given = [Given("lab.policy.boundary_margin", margin)]
        for report in (check(lab / METHOD, given=given), check_many([lab / METHOD], given=given)):
            assert (report.verdict == "clear to run") is clear


@pytest.mark.parametrize("path", ["supply.net_mass", "room.volume", "sequence.operator"])
def test_a_figure_of_a_card_that_takes_no_part_is_refused(tmp_path: Path, path: str) -> None:
    lab = day_batch(tmp_path)
    given = [Given(path, "30 kg" if "mass" in path else "45 m3" if "volume" in path else "Ann")]
    for judge in (lambda: check(lab / METHOD, given=given),
                  lambda: check_many([lab / METHOD], given=given)):  # fmt: skip
        with pytest.raises(GivenWrong, match=path):
            judge()
    assert check(lab / BATCH, given=given).verdict == "clear to run"


def test_the_command_line_refuses_it_with_status_2(tmp_path: Path) -> None:
    lab = day_batch(tmp_path)
    done = run("check", METHOD, "--given", "supply.net_mass=30 kg", cwd=lab)
    assert done.status == 2
    assert "supply.net_mass is given, and no supply takes part" in done.stderr
    assert run("check", BATCH, "--given", "supply.net_mass=30 kg", cwd=lab).status == 0


def test_a_lab_without_a_document_of_its_own_has_no_policy_to_give(tmp_path: Path) -> None:
    lab = day_batch(tmp_path)
    flat = tmp_path / "flat"
    flat.mkdir()
    for file in lab.glob("*/*.yaml"):
        (flat / file.name).write_bytes(file.read_bytes())
    with pytest.raises(GivenWrong, match=r"lab\.policy"):
        check(flat / Path(METHOD).name, given=[Given("lab.policy.boundary_margin", "60 bar")])
