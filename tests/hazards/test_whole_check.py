"""Whatever stands in a document, its whole check ends with findings and finite figures."""

from __future__ import annotations

import json
import random
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, given, settings

from methodlint.checking.check import check
from methodlint.documents.contents.walk import quantities
from methodlint.documents.loading import KINDS, load
from methodlint.documents.text.reader import read_text
from tests.hazards.mutants import NUMBERS, as_yaml
from tests.hazards.our_schema import document, documents, is_quantity, spots
from tests.hazards.whole_check import (
    Tally,
    every_field,
    faults_of,
    formats_of,
    judged,
    mutant,
    scenes,
)

# Shrinking documents this large takes minutes.
BOUNDED = {
    "suppress_health_check": list(HealthCheck), "phases": (Phase.explicit, Phase.generate),
}  # fmt: skip


def no_faults(tally: Tally) -> None:
    told = [f"{len(cases)} x {what}\n{cases[0]}" for what, cases in tally.faults.items()]
    assert not told, "\n".join(told)


def test_the_scenes_reach_runs_and_batches() -> None:
    kinds = [scene.texts[scene.target]["kind"] for scene in scenes()]
    assert kinds.count("method") >= 10
    assert kinds.count("sequence") >= 8


def test_examples_unchanged_are_judged_as_from_the_folder() -> None:
    scene = next(s for s in scenes() if s.target.endswith("overnight-cylinder.yaml"))
    texts = {path: as_yaml(plain) for path, plain in scene.texts.items()}
    here = {(f.rule, f.message) for f in judged(scene, texts, scene.target).findings}
    assert here == {(f.rule, f.message) for f in check(scene.target).findings}


@pytest.mark.parametrize("seeds", [range(24), pytest.param(range(24, 260), marks=pytest.mark.long)])
def test_mutants_of_examples_fail_no_rule_and_print_no_nan(seeds: range) -> None:
    tally = Tally()
    for seed in seeds:
        tally.look_at(*mutant(seed))
    no_faults(tally)


# Primes, so that the sample walks through fields and values alike.
@pytest.mark.parametrize("step", [2503, pytest.param(499, marks=pytest.mark.long)])
def test_zero_negative_and_extreme_values_in_physical_fields(step: int) -> None:
    tally = Tally()
    for each in every_field(step):
        tally.look_at(*each)
    assert tally.tried > 10
    no_faults(tally)


@pytest.mark.parametrize("number", NUMBERS)
def test_every_extreme_value_is_a_finding_or_one_that_can_be_computed_with(number: str) -> None:
    """The first line of defence: what no model can use is refused where it is written."""
    tried = 0
    for kind in KINDS:
        data = document(kind, random.Random(number + kind))
        figures = [s for s in spots(data) if s.holds == "quantity" and isinstance(s.value, str)]
        for spot in figures:
            sample = next(o["examples"][0] for o in spot.options if is_quantity(o))
            spot.parent[spot.step] = f"{number} {sample.partition(' ')[2]}"
        loaded = load(read_text(as_yaml(data), "grown.yaml"), "grown.yaml", "grown")
        assert loaded is not None
        for _, _, value in quantities(loaded.model):
            assert value.si == 0.0 or 1e-20 <= abs(value.si) <= 1e20
            tried += 1
        held = {path for path, _, _ in quantities(loaded.model)}
        for spot in figures:
            # A list that loses an item is not used at all: its other values go with it.
            gone = any(path[:1] in ((), spot.path[:1]) for path in loaded.broken)
            assert gone or held & {spot.path, spot.path[:-1]}, spot.path
            tried += 1
    assert tried > 20


@settings(max_examples=60, **BOUNDED)
@given(documents())
def test_documents_grown_from_our_schema_are_read_without_a_shape_fault(data: Any) -> None:
    loaded = load(read_text(as_yaml(data), "grown.yaml"), "grown.yaml", "grown")
    assert loaded is not None
    assert loaded.kind == data["kind"]
    for problem in loaded.problems:
        assert problem.rule != "document.unknown-key", problem.message


@pytest.mark.long
@settings(max_examples=20, **BOUNDED)
@given(documents("method"), documents("column"), documents("instrument"))
def test_documents_grown_from_our_schema_are_judged(method: Any, column: Any, bench: Any) -> None:
    scene = next(s for s in scenes() if s.target.endswith("triazole-day-batch.yaml"))
    texts = {path: as_yaml(plain) for path, plain in scene.texts.items()}
    for path, grown in (
        ("example_methods/methods/triazole-enantiomers.yaml", method),
        ("example_methods/columns/amylose-3um.yaml", column),
        ("example_methods/instruments/bench-a.yaml", bench),
    ):
        assert path in texts
        texts[path] = as_yaml(grown)
    report = judged(scene, texts, "example_methods/methods/triazole-enantiomers.yaml")
    assert faults_of(report, formats_of(report)) == []


def write(folder: Path, **documents: dict[str, Any]) -> None:
    for name, data in documents.items():
        (folder / f"{name.replace('_', '-')}.yaml").write_bytes(as_yaml(data))


def test_documents_that_name_themselves_come_to_an_end(tmp_path: Path) -> None:
    names = dict.fromkeys(("column", "transferred_from"), "self")
    transfer = {"source_instrument": "self", "verification": ["self", "self"]}
    write(tmp_path, self={"kind": "method", **names, "runs_on": ["self"], "transfer": transfer})
    report = check(tmp_path)
    assert not report.failed
    unresolved = [f for f in report.findings if f.rule == "document.reference-unresolved"]
    assert {f.at.path[0] for f in unresolved} == {"column", "runs_on", "transfer"}


def test_methods_transferred_from_each_other_in_a_circle_come_to_an_end(tmp_path: Path) -> None:
    base = json.loads(json.dumps(scenes()[0].texts["example_methods/columns/amylose-3um.yaml"]))
    write(tmp_path, amylose_3um=base)
    for name, origin in (("a", "c"), ("b", "a"), ("c", "b")):
        write(tmp_path, **{name: {"kind": "method", "column": "amylose-3um",
                                  "transferred_from": origin}})  # fmt: skip
    report = check(tmp_path)
    assert not report.failed
    assert len(report.documents) == 4


@pytest.mark.long
def test_a_thousand_lines_that_name_a_thousand_missing_methods(tmp_path: Path) -> None:
    lines = [{"kind": "sample", "method": f"none-{number}"} for number in range(1000)]
    write(tmp_path, night={"kind": "sequence", "lines": lines})
    report = check(tmp_path)
    assert not report.failed
    assert sum(f.rule == "document.reference-unresolved" for f in report.findings) == 1000


def test_lines_of_centuries_are_said_and_start_no_clock(tmp_path: Path) -> None:
    method = scenes()[0].texts["example_methods/methods/triazole-enantiomers.yaml"]
    scene = next(s for s in scenes() if s.target.endswith("triazole-day-batch.yaml"))
    texts = {path: as_yaml(plain) for path, plain in scene.texts.items()}
    changed = {**method, "run_length": "1e15 min"}
    texts["example_methods/methods/triazole-enantiomers.yaml"] = as_yaml(changed)
    report = judged(scene, texts, scene.target)
    assert faults_of(report, formats_of(report)) == []
    assert any("years" in item.reason for item in report.not_checked)
