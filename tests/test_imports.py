"""Imports go one way, CoolProp stays inside fluids, and the ordinary path stays light."""

from __future__ import annotations

import ast
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
PACKAGE = ROOT / "methodlint"
ORDER = (
    "documents",
    "fluids",
    "hydraulics",
    "rehearsal",
    "scaling",
    "judging",
    "transfer",
    "reports",
    "many",
    "editor",
    "commands",
    "cli",
)
FILES = sorted(PACKAGE.rglob("*.py"))


def imported(file: Path) -> list[str]:
    """Modules that a file names in import statements, wherever they stand."""
    names: list[str] = []
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            names += [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom) and node.module and node.level == 0:
            names.append(node.module)
            names += [f"{node.module}.{alias.name}" for alias in node.names]
    return names


def layer(module: str) -> int | None:
    """Rank of a module of the package; the package itself has none, it offers what all write."""
    parts = module.split(".")
    if parts[0] != "methodlint" or len(parts) < 2:
        return None
    return ORDER.index(parts[1]) if parts[1] in ORDER else None


def test_files_were_found() -> None:
    assert len(FILES) > 50
    found = {file.relative_to(PACKAGE).parts[0].removesuffix(".py") for file in FILES}
    assert found == {*ORDER, "__init__", "__main__"}, "every part has its place in the order"


@pytest.mark.parametrize("file", FILES, ids=lambda f: f.relative_to(PACKAGE).as_posix())
def test_imports_go_one_way(file: Path) -> None:
    own = layer("methodlint." + ".".join(file.relative_to(PACKAGE).with_suffix("").parts))
    if own is None:
        return
    for module in imported(file):
        other = layer(module)
        assert other is None or other <= own, f"{module} lies to the right"


@pytest.mark.parametrize("file", FILES, ids=lambda f: f.relative_to(PACKAGE).as_posix())
def test_only_fluids_imports_the_property_library(file: Path) -> None:
    if file.relative_to(PACKAGE).parts[0] != "fluids":
        assert not any(name.partition(".")[0] == "CoolProp" for name in imported(file))


def test_nothing_imports_a_rule() -> None:
    for file in FILES:
        names = imported(file)
        assert not any(n.startswith(("rules.", "methodlint.rules")) or n == "rules" for n in names)


def test_rules_import_only_what_is_offered_to_them() -> None:
    allowed = {"methodlint.judging.for_rules", "__future__"}
    files = sorted((ROOT / "rules").rglob("*.py"))
    assert files
    for file in files:
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.ImportFrom):
                assert node.module is not None
                top = node.module.partition(".")[0]
                fine = node.module in allowed or top in sys.stdlib_module_names or top == "numpy"
                assert fine, f"{file.name} imports {node.module}"
