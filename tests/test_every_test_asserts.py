"""No test passes merely because nothing was raised: each asserts something, itself or by a helper.

The tests are read, not run. What counts: `assert` of more than a constant, `pytest.raises`,
`pytest.warns` and `pytest.fail`, a call named `assert_...`, and a call of a function or method of
ours, in the same file or imported from the tests, that does one of these.
"""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

TESTS = Path(__file__).parent
FUNCTIONS = (ast.FunctionDef, ast.AsyncFunctionDef)
Function = ast.FunctionDef | ast.AsyncFunctionDef
PYTEST = {"raises", "warns", "fail"}


class Module:
    """Functions, methods, imports and tests of one file."""

    def __init__(self, tree: ast.Module) -> None:
        self.functions = {node.name: node for node in tree.body if isinstance(node, FUNCTIONS)}
        self.methods: dict[str, list[Function]] = {}
        self.imported: dict[str, tuple[str, str]] = {}
        self.tests = [node for node in self.functions.values() if node.name.startswith("test")]
        for node in ast.walk(tree):
            if isinstance(node, ast.ClassDef):
                parts = [part for part in node.body if isinstance(part, FUNCTIONS)]
                for part in parts:
                    self.methods.setdefault(part.name, []).append(part)
                if node.name.startswith("Test"):
                    self.tests += [part for part in parts if part.name.startswith("test")]
            elif isinstance(node, ast.ImportFrom) and node.module:
                for name in node.names:
                    self.imported[name.asname or name.name] = (node.module, name.name)


class Reader:
    """Says of functions whether they assert something."""

    def __init__(self, modules: dict[str, Module]) -> None:
        self.modules = modules
        self.known: dict[ast.AST, bool] = {}

    def asserts(self, module: Module, function: Function) -> bool:
        """Whether a function, or one that it calls, asserts something."""
        if function not in self.known:
            self.known[function] = False  # one that calls itself
            self.known[function] = any(
                self._is_assertion(module, node)
                for part in function.body
                for node in ast.walk(part)
            )
        return self.known[function]

    def _is_assertion(self, module: Module, node: ast.AST) -> bool:
        if isinstance(node, ast.Assert):
            return not isinstance(node.test, ast.Constant)
        if isinstance(node, ast.Raise):
            raised = node.exc.func if isinstance(node.exc, ast.Call) else node.exc
            return isinstance(raised, ast.Name) and raised.id == "AssertionError"
        if not isinstance(node, ast.Call):
            return False
        called = node.func
        if isinstance(called, ast.Name):
            return called.id.startswith("assert_") or self._function(module, called.id)
        if not isinstance(called, ast.Attribute):
            return False
        if isinstance(called.value, ast.Name):
            holder = called.value.id
            if holder == "pytest":
                return called.attr in PYTEST
            if holder in module.imported:
                imported = self.modules.get(".".join(module.imported[holder]))
                if imported is not None:
                    return self._function(imported, called.attr)
        return called.attr.startswith("assert_") or self._method(module, called.attr)

    def _function(self, module: Module, name: str) -> bool:
        """Whether what a name means in a module asserts something."""
        if name in module.functions:
            return self.asserts(module, module.functions[name])
        source, original = module.imported.get(name, ("", ""))
        return source in self.modules and self._function(self.modules[source], original)

    def _method(self, module: Module, name: str) -> bool:
        """Whether a method of that name, of a class that a module can have met, asserts."""
        sources = {source for source, _ in module.imported.values()} & self.modules.keys()
        met = [module, *(self.modules[source] for source in sorted(sources))]
        return any(self.asserts(one, method) for one in met for method in one.methods.get(name, ()))


def without_assertion(texts: dict[str, str]) -> list[str]:
    """Tests that assert nothing, as module::test.

    Parameters
    ----------
    texts
        Source by the name of its module.
    """
    modules = {name: Module(ast.parse(text)) for name, text in texts.items()}
    reader = Reader(modules)
    return [
        f"{name}::{test.name}"
        for name, module in modules.items()
        if name.rpartition(".")[2].startswith("test_")
        for test in module.tests
        if not reader.asserts(module, test)
    ]


def test_every_test_asserts_something() -> None:
    texts = {
        ".".join(file.relative_to(TESTS.parent).with_suffix("").parts): file.read_text("utf-8")
        for file in sorted(TESTS.rglob("*.py"))
    }
    assert without_assertion(texts) == []


HELPER = """
def looks(a): assert a
def calls(a): looks(a)
def again(a): again(a)
class Client:
    async def until(self): raise AssertionError("never")
    def close(self): pass
"""


@pytest.mark.parametrize(
    "body",
    [
        "assert f() == 1",
        "with pytest.raises(ValueError): f()",
        "pytest.fail('no')",
        "np.testing.assert_allclose(1, f())",
        "for a in f():\n        assert a",
        "looks(1)",
        "calls(1)",
        "helper.looks(1)",
        "own(1)",
        "Client().until()",
        "def inside(a): assert a\n    inside(1)",
    ],
)
def test_what_counts_as_an_assertion(body: str) -> None:
    assert without_assertion({"tests.helper": HELPER, "tests.test_a": _file(body)}) == []


@pytest.mark.parametrize(
    "body",
    [
        "f()",
        "assert True",
        "a = 1",
        "again(1)",
        "f().close()",
        "open('x').raises()",
        "assertion = f()",
        "raise ValueError",
        "subprocess.run(['x'], check=True)",
    ],
)
def test_what_does_not_count(body: str) -> None:
    found = without_assertion({"tests.helper": HELPER, "tests.test_a": _file(body)})
    assert found == ["tests.test_a::test_it"]


def _file(body: str) -> str:
    head = "import pytest\nfrom tests import helper\nfrom tests.helper import again, calls, looks"
    own = "def own(a):\n    assert a"
    return f"{head}, Client\n\n{own}\n\ndef test_it():\n    {body}\n"
