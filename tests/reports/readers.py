"""Programs of other people that read what we write.

They are not part of a plain installation. METHODLINT_SECOND_READERS names a folder in which npm
has installed @microsoft/sarif-multitool, ajv, ajv-formats, html-validate, axe-core and
puppeteer-core; the browser is Chromium. When it is set, a reader that is missing is a failure,
otherwise its tests are skipped.
"""

from __future__ import annotations

import importlib.util
import json
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

VARIABLE = "METHODLINT_SECOND_READERS"
_MULTITOOL = "node_modules/@microsoft/sarif-multitool-linux"
_AJV = """
const Ajv = require('ajv/dist/2020').default, formats = require('ajv-formats').default;
const fs = require('fs'), read = file => JSON.parse(fs.readFileSync(file, 'utf8'));
const ajv = new Ajv({strict: true, allErrors: true, allowUnionTypes: true});
formats(ajv);
const validate = ajv.compile(read(process.argv[1]));
for (const file of process.argv.slice(2)) {
  if (!validate(read(file))) { console.log(file, JSON.stringify(validate.errors)); }
}
"""

_PRESETS = "recommended,standard,a11y,document"
_AXE = """
const puppeteer = require('puppeteer-core');
function crowded() {
  const said = [], root = document.documentElement;
  if (root.scrollWidth > root.clientWidth) said.push(`the page is ${root.scrollWidth} wide`);
  for (const drawing of document.querySelectorAll('svg')) {
    const frame = drawing.getBoundingClientRect();
    const texts = [...drawing.querySelectorAll('text')];
    const boxes = texts.map(text => [text, text.getBoundingClientRect()]);
    for (const [text, box] of boxes)
      if (box.left < frame.left - 1 || box.right > frame.right + 1 || box.top < frame.top - 1 ||
          box.bottom > frame.bottom + 1) said.push(`outside: ${text.textContent}`);
    const level = boxes.filter(([text]) => !text.hasAttribute('transform'));
    level.forEach(([one, a], n) => level.slice(n + 1).forEach(([other, b]) => {
      if (Math.min(a.right, b.right) - Math.max(a.left, b.left) > 1 &&
          Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 3)
        said.push(`${one.textContent} upon ${other.textContent}`);
    }));
  }
  return said;
}
(async () => {
  const browser = await puppeteer.launch({executablePath: process.argv[1], headless: true,
    userDataDir: process.argv[2], args: ['--no-sandbox', '--disable-gpu', '--disable-quic',
    '--no-first-run', '--disable-background-networking', '--disable-component-update',
    '--disable-sync']});
  const found = {violations: [], asked: [], refused: [], pages: [], crowded: [], smallest: [], widest: []};
  for (const file of process.argv.slice(3)) {
    const page = await browser.newPage();
    page.on('request', request => found.asked.push(request.url()));
    page.on('console', message => found.refused.push(message.text()));
    await page.goto('file://' + file);
    const bytes = Buffer.from(await page.pdf({preferCSSPageSize: true, format: 'A4', printBackground: true}));
    found.pages.push([...bytes.toString('latin1').matchAll(/MediaBox \\[([^\\]]*)/g)].map(m => m[1]));
    const unfold = () => document.querySelectorAll('details').forEach(one => { one.open = true; });
    await page.evaluate(unfold);
    found.crowded.push(...await page.evaluate(crowded));
    await page.setBypassCSP(true);
    await page.reload();
    await page.evaluate(unfold);
    await page.addScriptTag({path: require.resolve('axe-core/axe.min.js')});
    for (const width of [1200, 400]) {
      await page.setViewport({width, height: 800});
      const result = await page.evaluate(() => axe.run());
      for (const violation of result.violations)
        found.violations.push([width, violation.id, violation.nodes.map(node => node.failureSummary)]);
    }
    found.smallest.push(await page.evaluate(() => Math.min(99, ...[...document.querySelectorAll('svg text')]
      .filter(text => text.getBoundingClientRect().width > 0)
      .map(text => [parseFloat(getComputedStyle(text).fontSize), text.getScreenCTM()])
      .map(([size, turned]) => size * Math.hypot(turned.a, turned.b)))));
    found.widest.push(await page.evaluate(() => document.documentElement.scrollWidth));
    await page.close();
  }
  await browser.close();
  console.log(JSON.stringify(found));
})().catch(error => { console.error(error); process.exit(1); });
"""


def _missing(what: str) -> None:
    if os.environ.get(VARIABLE):
        pytest.fail(f"{what} is not there although {VARIABLE} is set")
    pytest.skip(f"{what} is not installed; set {VARIABLE} to a folder with it")


def _npm_folder(package: str) -> Path:
    folder = Path(os.environ.get(VARIABLE, ""))
    if not os.environ.get(VARIABLE) or not (folder / "node_modules" / package).is_dir():
        _missing(package)
    return folder


def need(module: str, package: str) -> None:
    """Skip, or fail, unless a package of Python is installed."""
    if importlib.util.find_spec(module) is None:
        _missing(package)


def script(name: str, package: str) -> str:
    """Path of a command that comes with a package of Python."""
    found = shutil.which(
        name, path=f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}"
    )
    if found is None:
        _missing(package)
    assert found is not None
    return found


def complaints_of_multitool(file: Path) -> list[str]:
    """Lines with an error or a warning that the SARIF multitool prints about a file."""
    folder = _npm_folder("@microsoft/sarif-multitool-linux")
    program = folder / _MULTITOOL / "Sarif.Multitool"
    program.chmod(program.stat().st_mode | 0o100)
    done = subprocess.run(
        [program, "validate", file, "--rule-kind", "Sarif;Ghas"],
        capture_output=True,
        text=True,
        env={**os.environ, "DOTNET_SYSTEM_GLOBALIZATION_INVARIANT": "1"},
        cwd=file.parent,
        timeout=300,
        check=False,
    )
    said = done.stdout + done.stderr
    assert "Analysis completed successfully." in said, said
    return [line for line in said.splitlines() if re.search(r"\b(error|warning)\b", line)]


def complaints_of_ajv(schema: Path, *files: Path) -> str:
    """What ajv, in strict mode, has against files."""
    folder = _npm_folder("ajv")
    done = subprocess.run(
        ["node", "-e", _AJV, schema, *files],
        capture_output=True,
        text=True,
        cwd=folder,
        timeout=120,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    return done.stdout


def sarif_schema() -> dict[str, object]:
    """The OASIS schema as the multitool ships it."""
    folder = _npm_folder("@microsoft/sarif-multitool-linux")
    text = (folder / _MULTITOOL / "sarif-2.1.0.json").read_text(encoding="utf-8-sig")
    schema: dict[str, object] = json.loads(text)
    return schema


def complaints_of_html_validate(*files: Path) -> str:
    """What html-validate has against pages, with its rules for documents and accessibility."""
    folder = _npm_folder("html-validate")
    program = folder / "node_modules/html-validate/bin/html-validate.mjs"
    done = subprocess.run(
        ["node", program, "--preset", _PRESETS, "--formatter", "text", *files],
        capture_output=True,
        text=True,
        cwd=folder,
        timeout=120,
        check=False,
    )
    assert done.returncode in (0, 1), done.stderr
    return done.stdout


def _browser() -> str:
    found = shutil.which("chromium") or shutil.which("chromium-browser")
    if found is None:
        _missing("chromium")
    assert found is not None
    return found


def printed_sheets(text: str, paper: str, folder: Path) -> int:
    """Number of sheets that a browser prints of a page, on A4 or Letter."""
    page, sheets = folder / "page.html", folder / "page.pdf"
    sized = text.replace("@page {", f"@page {{ size: {paper};", 1)
    page.write_text(sized, encoding="utf-8")
    subprocess.run(
        [_browser(), "--headless", "--no-sandbox", "--disable-gpu", "--no-pdf-header-footer",
         f"--user-data-dir={folder / 'profile'}", f"--print-to-pdf={sheets}", page.as_uri()],
        capture_output=True, timeout=120, check=True,
    )  # fmt: skip
    return len(re.findall(rb"/Type\s*/Page\b(?!s)", sheets.read_bytes()))


def seen_by_a_browser(profile: Path, *files: Path) -> dict[str, list[object]]:
    """What axe-core and the browser say about pages.

    Returns
    -------
    dict
        `violations` of axe; `asked` for addresses; `refused` by the page's own policy; `pages`:
        sizes of the printed pages in points, of each file; `crowded`: what is wider than the
        window, labels outside their drawing, and labels upon each other; `smallest`: height of
        the smallest letters of a drawing, and `widest`: width of the page, in a window of 400 px.
    """
    folder = _npm_folder("axe-core")
    browser = _browser()
    done = subprocess.run(
        ["node", "-e", _AXE, browser, profile, *files],
        capture_output=True,
        text=True,
        cwd=folder,
        timeout=300,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    found: dict[str, list[object]] = json.loads(done.stdout)
    return found
