"""Cold starts: a check of one method with its cards, `--help`, `--version`, what is imported."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

from tests.benchmarks.figure import Figure, ms
from tests.benchmarks.measuring import Compared, Program, environment, in_turn
from tests.benchmarks.places import EXAMPLES, Places

METHOD = "methods/triazole-enantiomers.yaml"
HEAVY = ("CoolProp", "pygls", "openpyxl", "rich", "scipy", "pandas")


def figures(places: Places) -> list[Figure]:
    """Measure all of them."""
    schema = places.folder / "method.schema.json"
    with schema.open("wb") as stream:
        subprocess.run(
            [places.methodlint, "schema", "method"],
            stdout=stream, env=environment(), check=True,
        )  # fmt: skip
    found = [_check(places, schema, places.ours, "the wheel in a bare environment")]
    here = Path(sys.executable).parent
    if (here / "methodlint").exists():
        where = "an editable install beside the test libraries"
        found.append(_check(places, schema, here, where))
    found.append(_imports(places))
    for option in ("--help", "--version"):
        asked = Program([places.methodlint, option], EXAMPLES)
        bare = Program([places.ours / "python", "-c", "pass"], EXAMPLES)
        times = in_turn(asked, bare, times=places.turns(11))
        found.append(
            Figure(
                f"`methodlint {option}`",
                "an interpreter that does nothing",
                ms(times.processor()),
                "at most 100 ms",
                times.processor() <= 0.1,
                both(times),
            )
        )
    return found


def _check(places: Places, schema: Path, programs: Path, where: str) -> Figure:
    ours = Program([programs / "methodlint", "check", METHOD], EXAMPLES)
    theirs = Program([places.theirs / "check-jsonschema", "--schemafile", schema, METHOD], EXAMPLES)
    times = in_turn(ours, theirs, times=places.turns(11))
    return Figure(
        f"cold check of one method with its cards, full physics, all rules; {where}",
        "a schema check of the same file with the method's schema",
        f"{times.processor_ratio:.2f} x",
        "at most 2 x",
        times.processor_ratio <= 2.0,
        both(times),
    )


def both(times: Compared) -> str:
    """Both medians, of processor times and from start to end."""
    return (
        f"{ms(times.processor())} against {ms(times.processor(1))}; start to end "
        f"{ms(times.wall())} against {ms(times.wall(1))}, {times.ratio:.2f} x"
    )


def _imports(places: Places) -> Figure:
    """What a check off a terminal imports, as the interpreter itself tells."""
    script = "from methodlint.cli import main; main()"
    done = subprocess.run(
        [places.ours / "python", "-X", "importtime", "-c", script, "check", METHOD],
        cwd=EXAMPLES, env=environment(), capture_output=True, text=True, check=False,
    )  # fmt: skip
    modules = [line.rpartition("|")[2].strip() for line in done.stderr.splitlines()]
    heavy = sorted({name.partition(".")[0] for name in modules} & set(HEAVY))
    return Figure(
        "imports of that check, told by the interpreter",
        f"none of {', '.join(HEAVY)}",
        ", ".join(heavy) or "none of them",
        "none of them",
        not heavy and "numpy" in modules,
        f"{len(modules)} modules",
    )
