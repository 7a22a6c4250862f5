"""Imports go one way, CoolProp stays inside fluids, and the ordinary path stays light."""

from __future__ import annotations

import ast
import sys
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
PACKAGE = ROOT / "methodlint"
ORDER = (
    "version",
    "documents",
    "fluids",
    "hydraulics",
    "rehearsal",
    "scaling",
    "judging",
    "checking",
    "rulebook",
    "transfer",
    "window",
    "reports",
    "many",
    "changes",
    "api",
    "editor",
    "commands",
    "cli",
)
FILES = sorted(PACKAGE.rglob("*.py"))


@cache
def imported(file: Path) -> tuple[str, ...]:
    """Modules that a file names in import statements, wherever they stand."""
    names: list[str] = []
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            names += [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom) and node.module and node.level == 0:
            names.append(node.module)
            names += [f"{node.module}.{alias.name}" for alias in node.names]
    return tuple(names)


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


def test_imports_go_one_way() -> None:
    wrong = []
    for file in FILES:
        own = layer("methodlint." + ".".join(file.relative_to(PACKAGE).with_suffix("").parts))
        for module in imported(file):
            other = layer(module)
            if own is not None and other is not None and other > own:
                wrong.append(f"{file.relative_to(ROOT)}: {module} lies to the right")
    assert wrong == []


def edges() -> dict[str, set[str]]:
    """Modules of the package that each of its files imports, lazily and for types too."""
    modules = {
        "methodlint." + ".".join(file.relative_to(PACKAGE).with_suffix("").parts): file
        for file in FILES
        if file.stem not in ("__init__", "__main__")
    }
    return {
        name: {other for other in imported(file) if other in modules and other != name}
        for name, file in modules.items()
    }


def circles(graph: dict[str, set[str]]) -> list[list[str]]:
    """What stays when everything is taken away that imports nothing, or that nothing imports."""
    left = {name: set(below) for name, below in graph.items()}
    while True:
        used = set().union(*left.values()) if left else set()
        gone = {name for name, below in left.items() if not below & left.keys() or name not in used}
        if not gone:
            return [[name, *sorted(below & left.keys())] for name, below in sorted(left.items())]
        left = {name: below - gone for name, below in left.items() if name not in gone}


def test_a_circle_is_seen() -> None:
    graph = {"a": {"b"}, "b": {"c"}, "c": {"b", "d"}, "d": set()}
    assert circles(graph) == [["b", "c"], ["c", "b"]]
    assert circles({"a": {"b"}, "b": set()}) == []


def test_no_circle_of_files() -> None:
    assert circles(edges()) == []


def test_no_circle_of_rooms() -> None:
    """A file that lies beside the rooms of its package stands for itself."""
    rooms: dict[str, set[str]] = {}
    for name, below in edges().items():
        room = ".".join(name.split(".")[:3])
        others = {".".join(other.split(".")[:3]) for other in below} - {room}
        rooms[room] = rooms.get(room, set()) | others
    assert circles(rooms) == []


def test_only_fluids_imports_the_property_library() -> None:
    importing = [
        file.relative_to(PACKAGE).as_posix()
        for file in FILES
        if any(name.partition(".")[0] == "CoolProp" for name in imported(file))
    ]
    assert importing
    assert [name for name in importing if not name.startswith("fluids/")] == []


def test_nothing_imports_a_rule() -> None:
    wrong = [
        f"{file.relative_to(ROOT)}: {name}"
        for file in FILES
        for name in imported(file)
        if name == "rules" or name.startswith(("rules.", "methodlint.rules"))
    ]
    assert wrong == []


def test_rules_import_only_what_is_offered_to_them() -> None:
    files = sorted((ROOT / "rules").rglob("*.py"))
    assert files
    wrong = []
    for file in files:
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.ImportFrom):
                top = (node.module or "").partition(".")[0]
                offered = (node.module or "").startswith("methodlint.judging.ask.")
                fine = offered or top in (*sys.stdlib_module_names, "__future__", "numpy")
                if not fine:
                    wrong.append(f"{file.relative_to(ROOT)}: {'.' * node.level}{node.module}")
    assert wrong == []


def test_class_names_stand_once() -> None:
    found: dict[str, list[str]] = {}
    for file in FILES:
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
                found.setdefault(node.name, []).append(file.relative_to(ROOT).as_posix())
    assert {name: files for name, files in found.items() if len(files) > 1} == {}
