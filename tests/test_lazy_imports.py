"""What ordinary use does not import: one process walks through it, the lightest use first."""

from __future__ import annotations

import json
import sys

from tests.command import process

SERVER = {"asyncio", "lsprotocol", "methodlint.editor", "pygls"}
HEAVY = {"CoolProp", "openpyxl", "rich", "scipy"}
USES = [
    (
        """
import methodlint.cli
assert methodlint.__version__
""",
        {*HEAVY, *SERVER, "numpy", "pydantic", "ruamel"},
    ),
    (
        """
import methodlint.fluids.additives.known
import methodlint.fluids.liquids.known
import methodlint.fluids.miscibility.blends
""",
        {*HEAVY, *SERVER, "numpy", "pydantic", "ruamel"},
    ),
    (
        """
from methodlint.fluids.co2 import properties as co2
from methodlint.fluids.mixtures.mixture_choice import model_for
co2.density_and_viscosity(313.15, 1.5e7)
co2.saturation_temperature(6e6)
co2.isenthalpic_end(333.15, 9e6, 1e5)
co2.pressure_at_density(313.15, 750.0)
mixture = model_for("methanol")
mixture.density_and_viscosity([0.0, 0.1, 1.0], 313.15, [150e5, 80e5, 10e5])
mixture.two_phase(0.1, 298.15, 60e5)
""",
        {*HEAVY, *SERVER, "pydantic", "ruamel"},
    ),
    ("main('editor', '--help')", {*HEAVY, *SERVER, "pydantic"}),
    ("main('rules')", {*HEAVY, *SERVER}),
    ("main('schema', 'method')", {*HEAVY, *SERVER}),
    (
        "main('check', 'example_methods/methods/triazole-enantiomers.yaml', '--cache', 'off')",
        {*HEAVY, *SERVER},
    ),
    (
        "main('check', 'example_methods/sound/overnight-table.yaml', '--cache', 'off')",
        {*HEAVY, *SERVER},
    ),
]
"""Pieces of code, with what is not loaded after each of them."""

_WALK = """
import json, sys

def main(*arguments):
    from methodlint.cli import main
    try:
        main(list(arguments))
    except SystemExit as ended:
        assert not ended.code, (arguments, ended.code)

loaded = []
for code in json.loads(sys.argv[1]):
    exec(code)
    loaded.append(list(sys.modules))
print()
print(json.dumps(loaded))
"""


def test_ordinary_use_loads_no_library_that_it_does_not_need() -> None:
    codes = json.dumps([code for code, _ in USES])
    done = process("-W", "error", "-c", _WALK, codes, program=(sys.executable,))
    assert done.status == 0, done.stderr
    loaded = [set(names) for names in json.loads(done.stdout.splitlines()[-1])]
    assert "numpy" in loaded[-1]
    found = {
        code: unwanted & names
        for (code, unwanted), names in zip(USES, loaded, strict=True)
        if unwanted & names
    }
    assert found == {}
