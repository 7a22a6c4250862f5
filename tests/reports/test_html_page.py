"""The page: stands alone, says what the card says, plots what its tables hold."""

from __future__ import annotations

import hashlib
import re
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from methodlint.checking.check import check
from methodlint.checking.given import Given
from methodlint.fluids.table_record import table_record
from methodlint.reports.card.blocks import CardRows, Steps, Table
from methodlint.reports.card.contents import card_blocks
from methodlint.reports.card.pressures import minutes
from methodlint.reports.html.chart import STYLES, Chart, label_room, nice_ticks, text_length
from methodlint.reports.html.element import element, markup
from methodlint.reports.html.folder_pages import INDEX, folder_pages
from methodlint.reports.html.page import html_page
from methodlint.reports.html.shell import whole_page
from methodlint.reports.html.style import STYLE
from methodlint.reports.html.thinning import few_rows
from methodlint.reports.prepared import Prepared
from methodlint.version import __version__
from tests.command import run
from tests.reports import readers
from tests.reports.page_read import Node, page_of, part_of
from tests.reports.scratch_lab import example, example_report
from tests.rules.harness import judged
from tests.work_done import calls_of

ROOT = Path(__file__).resolve().parent.parent.parent
NIGHT = ROOT / "tests" / "scenarios" / "scenario_06" / "sequences" / "overnight.yaml"
GRADIENT = ROOT / "example_methods" / "sound" / "dye-intermediates.yaml"


@cache
def _prepared(path: Path, *typed: Given) -> Prepared:
    return Prepared(check(path, given=typed), notes=True)


@cache
def _text(path: Path, *typed: Given) -> str:
    return html_page(_prepared(path, *typed))


def _page(path: Path, *typed: Given) -> Node:
    return page_of(_text(path, *typed))


def _figure(page: Node, title: str) -> Node:
    (found,) = [f for f in page.all("figure") if f.all("figcaption")[0].text.startswith(title)]
    return found


def _table(figure: Node) -> list[list[str]]:
    rows = figure.all("tbody")[0].all("tr")
    return [[cell.text for cell in row.children if isinstance(cell, Node)] for row in rows]


# One file by itself ----------------------------------------------------------------------------


@pytest.mark.parametrize("path", [NIGHT, GRADIENT], ids=["sequence", "method"])
def test_the_page_reaches_for_nothing(path: Path) -> None:
    (policy,) = [
        meta.attributes["content"]
        for meta in _page(path).all("meta")
        if meta.attributes.get("http-equiv") == "Content-Security-Policy"
    ]
    assert policy == "default-src 'none'; style-src 'unsafe-inline'"
    assert not re.search(r"https?:|<script|<link|<img|<a |javascript:|\bon\w+=", _text(path))


@pytest.mark.parametrize("path", [NIGHT, GRADIENT], ids=["sequence", "method"])
def test_every_drawing_has_a_title_a_description_and_its_points(path: Path) -> None:
    figures = _page(path).all("figure")
    assert len(figures) == (8 if path is NIGHT else 6)
    for figure in figures:
        (svg,) = figure.all("svg")
        title, said = svg.attributes["aria-labelledby"].split()
        assert svg.all("title")[0].attributes["id"] == title
        assert svg.all("desc")[0].attributes["id"] == said
        assert svg.all("title")[0].text
        assert len(svg.all("desc")[0].text) > 20
        assert _table(figure)


def test_document_text_cannot_break_the_tree() -> None:
    written = markup(element("p", "</p><script>&\"'\x1b", title="\"><b>'"))
    assert written.strip() == (
        '<p title="&quot;&gt;&lt;b&gt;&#39;">&lt;/p&gt;&lt;script&gt;&amp;&quot;&#39;\\x1b</p>'
    )


# What it says ----------------------------------------------------------------------------------


def test_the_page_says_all_that_the_card_says() -> None:
    (case,) = _prepared(NIGHT).report.batches
    said = re.sub(r"\s+", " ", _page(NIGHT).text).replace("±", "+-")
    told: list[str] = []
    for block in card_blocks(case):
        if block.key == "start":  # this night is not to be run
            continue
        texts: list[str] = []
        if isinstance(block, CardRows):
            texts = [text for _, text in block.rows]
        elif isinstance(block, Steps):
            texts = list(block.steps)
        elif isinstance(block, Table):
            texts = [cell for row in block.rows for cell in row]
            texts += [text for _, text in block.foot]
        told += texts
    assert len(told) > 20
    assert [text for text in told if text not in said] == []


def test_verdict_and_findings_stand_on_top_with_words() -> None:
    page = _page(NIGHT)
    assert page.all("strong")[0].text == "DO NOT RUN"
    finding = page.all("article")[0].text
    assert finding.startswith("fault")
    assert "injection 66-69 of 84" in finding
    assert "supply.cylinder-runs-out" in finding


def test_provenance_names_tool_properties_documents_and_typed_figures() -> None:
    page = _page(NIGHT, Given("supply.net_mass", "30 kg"))
    (footer,) = page.all("footer")
    assert f"methodlint {__version__}, properties from {table_record().library}" in footer.text
    assert table_record().sha256 in footer.text
    assert "Typed for this run: supply.net_mass = 30 kg" in footer.text
    documents = {row.all("th")[0].text: row.text for row in footer.all("tbody")[0].all("tr")}
    assert len(documents) >= 7
    for path, text in documents.items():
        assert hashlib.sha256(Path(path).read_bytes()).hexdigest() in text


def test_what_has_to_be_acted_upon_stands_apart() -> None:
    flawed = ROOT / "example_methods" / "flawed"
    page = _page(flawed / "suitability-vial-runs-dry.yaml")
    loud = [c.text for c in page.all("td") if "loud" in c.attributes.get("class", "").split()]
    assert loud == ["runs dry at draw 5"]
    quiet = _page(ROOT / "example_methods" / "sound" / "triazole-day-batch.yaml")
    assert "loud" not in " ".join(c.attributes.get("class", "") for c in quiet.all("td"))


def test_below_the_boundary_is_said_in_words_and_not_by_a_sign() -> None:
    page = _page(ROOT / "example_methods" / "flawed" / "terpenoids-hot-and-low.yaml")
    keys = next(part for part in page.all("dl") if part.attributes.get("class") == "keys")
    assert re.search(r"BELOW the phase boundary\s*[\d.]+ bartwo phases", keys.text)


def test_a_method_without_a_sequence_has_its_two_drawings() -> None:
    page = _page(GRADIENT)
    titles = [figure.all("figcaption")[0].text for figure in page.all("figure")]
    assert titles[0].startswith("Pressure along the train")
    assert titles[1].startswith("Pressure over the run")
    assert "CLEAR TO RUN" in page.text


@pytest.mark.parametrize("folder", ["unreadable", "flawed", "sound"])
def test_a_folder_is_one_page(folder: str) -> None:
    report = example_report(folder)
    page = page_of(html_page(Prepared(report)))
    assert all(file.rpartition("/")[2] in page.text for file in report.documents)


def test_what_is_not_known_is_said() -> None:
    report = judged("kind: column\nparticle_size: null\n", "document.contradiction")
    page = page_of(html_page(Prepared(report)))
    assert "could not be rehearsed: column.particle_size missing" in page.text
    assert page.all("figure") == []


# Drawings --------------------------------------------------------------------------------------


def test_as_many_markers_as_rows() -> None:
    figure = _figure(_page(GRADIENT), "Pressure over the run")
    rows = _table(figure)
    assert len(figure.all("circle")) == len(rows), "column inlet"
    boundary = [row for row in rows if row[3] != "-"]
    assert len(figure.all("rect")) == len(boundary), "phase boundary"


def test_the_table_holds_the_rehearsed_pressures() -> None:
    """Straight lines between the listed points stay within 1 bar and rounding of the run."""
    (case,) = _prepared(GRADIENT).report.runs
    run = case.run
    rows = _table(_figure(_page(GRADIENT), "Pressure over the run"))
    assert len(rows) <= 20
    highest = max(float(row[1]) for row in rows)
    assert highest == pytest.approx(float(run.column_inlet_pressure.max()) / 1e5, abs=1.5)
    assert float(rows[0][1]) == pytest.approx(float(run.column_inlet_pressure[0]) / 1e5, abs=0.6)
    assert float(rows[-1][2]) == pytest.approx(float(run.column_outlet_pressure[-1]) / 1e5, abs=0.6)


def test_the_train_is_drawn_at_the_minute_where_a_limit_is_nearest() -> None:
    """Scenario 2: up to 278 bar at the pumps where 90 % of methanol fills the column of 400 bar."""
    figure = _figure(_page(GRADIENT), "Pressure along the train")
    rows = {row[0]: row[1:] for row in _table(figure)}
    assert float(rows["pumps"][0]) == pytest.approx(278, rel=0.05)
    assert rows["column diol-3um"][1] == "400"
    assert float(rows["column diol-3um"][0]) + float(rows["column diol-3um"][2]) == pytest.approx(
        400, abs=1
    )
    assert "The nearest limit is that of column diol-3um" in figure.text


def test_levels_end_where_the_liquid_ends() -> None:
    """12.5 kg less 50 L of vapour at 20 degC, 194.2 kg/m3 (Span & Wagner 1996): 2.79 kg of liquid."""
    figure = _figure(_page(NIGHT), "What is left over the sequence")
    assert "CO2 ends at injection 66-69" in figure.all("svg")[0].text
    rows = _table(figure)
    ended = next(row for row in rows if row[2] == "0")
    assert 66 <= int(ended[1]) <= 69
    assert float(rows[0][2]) == pytest.approx(2.79, abs=0.01)
    assert rows[-1][1] == "84"


def test_the_timeline_lists_every_injection_once() -> None:
    rows = _table(_figure(_page(NIGHT), "The sequence over time"))
    numbers: list[int] = []
    for row in rows:
        if row[2] != "-":
            first, _, last = row[2].partition("-")
            numbers += range(int(first), int(last or first) + 1)
    assert numbers == list(range(1, 85))
    assert rows[0][:2] == ["16:00", "16:30"]


@pytest.mark.long
def test_many_lines_are_a_small_page() -> None:
    lines = [
        f"  - {{kind: {'control' if n % 10 == 0 else 'sample'}, sample: s{n}, plate: 1, "
        f"well: A1, fill: 1 mL}}\n"
        for n in range(2_000)
    ]
    fewer, report = (
        judged(f"kind: sequence\nlines:\n{''.join(lines[:count])}", "document.contradiction")
        for count in (200, 2_000)
    )
    text = html_page(Prepared(report))
    some = calls_of(lambda: html_page(Prepared(fewer)))
    assert calls_of(lambda: html_page(Prepared(report))) <= 12 * some
    assert len(text) < 400_000
    assert len(_table(_figure(page_of(text), "The sequence over time"))) <= 30


def _chart() -> Chart:
    return Chart("c", "title", "words", (0.0, 10.0), (0.0, 100.0), "x", "y")


def _texts(chart: Chart) -> dict[str, tuple[float, float, str]]:
    drawing = part_of(markup(chart.svg()))
    return {
        text.text: (
            float(text.attributes["x"]),
            float(text.attributes["y"]),
            text.attributes["text-anchor"],
        )
        for text in drawing.all("text")
    }


@given(st.lists(st.floats(0.0, 100.0), min_size=2, max_size=6))
def test_names_at_the_ends_of_lines_stand_apart(ends: list[float]) -> None:
    chart = _chart()
    for number, end in enumerate(ends):
        chart.line(f"line {number}", [(0.0, 50.0), (10.0, end)], STYLES[number])
    found = _texts(chart)
    places = sorted(found[f"line {number}"][1] for number in range(len(ends)))
    assert min(np.diff(places)) >= 13.9
    assert places[-1] <= chart.height - chart.bottom + 4.1


@given(st.floats(0.0, 10.0), st.integers(min_value=1, max_value=30))
def test_a_note_turns_to_the_side_with_room(x: float, length: int) -> None:
    chart = _chart()
    chart.note(chart.x(x), chart.y(50.0), "n" * length)
    start, _, anchor = _texts(chart)["n" * length]
    room = text_length("n" * length)
    if anchor == "start":
        assert start + room <= chart.width - chart.right
    else:
        assert chart.x(x) + 7.0 + room > chart.width - chart.right


def test_long_names_get_their_room_and_no_more_than_half_of_a_drawing() -> None:
    assert label_room(["CO2"]) == label_room([])
    assert label_room(["modifier-1 ends at 66-69"]) > text_length("modifier-1 ends at 66-69")
    assert label_room(["n" * 500]) < 280.0


def test_the_worst_points_of_a_gradient_are_marked() -> None:
    """Both marks stand at rows of the table, with the rehearsed figures."""
    (case,) = _prepared(GRADIENT).report.runs
    run = case.run
    figure = _figure(_page(GRADIENT), "Pressure over the run")
    notes = [text.text for text in figure.all("text") if text.attributes.get("class") == "note"]
    highest = int(np.argmax(run.column_inlet_pressure))
    least = int(np.argmin(run.least_margin))
    assert notes == [
        f"{run.column_inlet_pressure[highest] / 1e5:.0f} bar at {minutes(run.time[highest])} min",
        f"least margin, {minutes(run.time[least])} min",
    ]
    times = {row[0] for row in _table(figure)}
    assert {minutes(run.time[highest]), minutes(run.time[least])} <= times


def test_a_column_rating_is_drawn_where_it_is_near() -> None:
    too_fast = ROOT / "example_methods" / "flawed" / "dye-rich-end-too-fast.yaml"
    near = _figure(_page(too_fast), "Pressure over the run").all("svg")[0].text
    assert "column withstands 400" in near
    easy = ROOT / "example_methods" / "methods" / "triazole-enantiomers.yaml"
    assert "column stands" not in _figure(_page(easy), "Pressure over the run").text


@given(
    st.lists(st.floats(0.0, 500.0), min_size=2, max_size=60),
    st.integers(min_value=3, max_value=25),
)
def test_thinned_points_draw_the_same_line(values: list[float], most: int) -> None:
    y = np.array(values)
    x = np.arange(y.size, dtype=float)
    kept = few_rows(x, [y], most)
    assert kept == sorted(set(kept))
    assert kept[0] == 0
    assert kept[-1] == y.size - 1
    assert len(kept) <= max(most, 2)
    off = np.abs(np.interp(x, x[kept], y[kept]) - y).max()
    assert off <= 0.005 * np.ptp(y) + 1e-9 or len(kept) == min(most, y.size)


def test_gaps_do_not_hide_what_lies_beside_them() -> None:
    x = np.arange(5.0)
    broken = np.array([np.nan, 1.0, 9.0, 1.0, np.inf])
    assert 2 in few_rows(x, [broken], 4)
    assert few_rows(x, [np.full(5, np.nan)], 4) == [0, 4]


@given(st.floats(-1e6, 1e6), st.floats(1e-3, 1e6))
def test_ticks_are_round_and_inside(low: float, span: float) -> None:
    ticks = nice_ticks(low, low + span)
    assert len(ticks) <= 12
    assert all(low - 1e-6 * span <= tick <= low + span * (1 + 1e-6) for tick in ticks)


# Legible without colour, and with it ------------------------------------------------------------


def _luminance(colour: str) -> float:
    """Relative luminance of sRGB (WCAG 2.2, definition of relative luminance)."""
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def _contrast(one: str, other: str) -> float:
    light, dark = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_contrast_as_the_standard_works_it_out() -> None:
    """Black on white is 21:1, #767676 on white the lightest grey of 4.5:1 (WCAG 2.2, 1.4.3)."""
    assert _contrast("#000000", "#ffffff") == pytest.approx(21.0)
    assert 4.5 <= _contrast("#767676", "#ffffff") < 4.6


def test_every_text_colour_has_a_contrast_of_four_and_a_half() -> None:
    named = dict(re.findall(r"--(ink|muted|accent|stop|caution|good): (#[0-9a-f]{6})", STYLE))
    assert len(named) == 6
    colours = [*named.values(), *(style.colour for style in STYLES)]
    assert min(_contrast(colour, "#ffffff") for colour in colours) >= 4.5


def test_lines_differ_by_dash_and_marker_too() -> None:
    assert len({style.dash for style in STYLES}) == len(STYLES)
    pairs = {(style.dash, style.marker) for style in STYLES}
    assert len(pairs) == len(STYLES)


# Other people's programs -------------------------------------------------------------------------


COMPARED = (
    "compare", "example_methods/methods/triazole-enantiomers.yaml", "--with",
    "oven_temperature=50 degC", "--show", "html",
)  # fmt: skip


@pytest.fixture(scope="module")
def files(tmp_path_factory: pytest.TempPathFactory) -> list[Path]:
    folder = tmp_path_factory.mktemp("pages")
    pages = {
        "scouting": _text(ROOT / "example_methods" / "sound" / "scouting.yaml"),
        "night": _text(NIGHT, Given("supply.net_mass", "12.5 kg")),
        "method": _text(GRADIENT),
        "folder": html_page(example("flawed", notes=True)),
        "unreadable": html_page(example("unreadable")),
        "compared": run(*COMPARED, cwd=ROOT).stdout,
        "index": folder_pages(example("unreadable"))[INDEX],
    }
    written = []
    for name, text in pages.items():
        file = folder / f"{name.removesuffix('.html')}.html"
        file.write_text(text, encoding="utf-8")
        written.append(file)
    return written


@pytest.mark.second_reader
def test_html_validate_finds_no_error(files: list[Path]) -> None:
    assert readers.complaints_of_html_validate(*files) == ""


@pytest.mark.second_reader
def test_axe_finds_no_violation_and_the_page_prints_on_a4(
    files: list[Path], tmp_path: Path
) -> None:
    seen = readers.seen_by_a_browser(tmp_path, *files)
    assert seen["violations"] == []
    assert seen["crowded"] == []
    assert seen["refused"] == [], "the page does nothing that its own policy forbids"
    assert all(float(str(size)) >= 11.0 for size in seen["smallest"])
    assert all(int(str(width)) <= 400 for width in seen["widest"])
    assert {str(address) for address in seen["asked"]} == {f"file://{file}" for file in files}
    for pages in seen["pages"]:
        assert isinstance(pages, list)
        assert 1 <= len(pages)
        for page in pages:  # 210 x 297 mm (ISO 216) in points
            _, _, width, height = (float(number) for number in str(page).split())
            assert (width, height) == pytest.approx((595.3, 841.9), abs=1.5)


@pytest.mark.second_reader
@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_the_card_of_a_simple_sequence_prints_on_two_sheets_at_most(
    paper: str, tmp_path: Path
) -> None:
    text = _text(ROOT / "example_methods" / "sound" / "triazole-day-batch.yaml")
    card = text.replace("</style>", ".figures, footer { display: none }</style>", 1)
    assert readers.printed_sheets(card, paper, tmp_path) <= 2
    assert readers.printed_sheets(text, paper, tmp_path) <= 4


def test_every_sheet_carries_verdict_hash_and_number_and_figures_begin_one() -> None:
    text = _text(ROOT / "example_methods" / "sound" / "triazole-day-batch.yaml")
    assert '@bottom-right { content: "page " counter(page) " of " counter(pages)' in text
    assert re.search(r'@bottom-left \{ content: "CLEAR TO RUN +documents [0-9a-f]{12}', text)
    assert ".figures { break-before: page; }" in text
    assert text.index("limits to set") < text.index(">Figures<") < text.index("<figcaption>")


def test_cautions_stand_where_findings_stand() -> None:
    text = html_page(example("flawed", notes=True))
    assert text.index(">Cautions and notes<") < text.index('class="batch')


def test_every_block_of_the_card_is_on_the_page() -> None:
    path = ROOT / "example_methods" / "sound" / "resin-acid-collected.yaml"
    (case,) = _prepared(path).report.batches
    titles = {block.title for block in card_blocks(case)}
    shown = {title.upper() for title in re.findall("<h3>(.*?)</h3>", _text(path))}
    assert "COLLECTION" in titles
    assert titles - shown == set()


def test_every_sheet_carries_the_title_and_no_title_ends_the_style() -> None:
    text = _text(GRADIENT)
    title = page_of(text).all("title")[0]
    assert f'@top-left {{ content: "{title.text}' in text
    hostile = whole_page('"; } </style><script>x\\', [element("p", "x")])
    assert "<script" not in hostile.replace("&lt;script", "")
    assert hostile.count("</style>") == 2
    boxes = hostile[hostile.index("@top-left") :].partition("</style>")[0]
    assert boxes.count('"') == 2
    assert "\\" not in boxes
