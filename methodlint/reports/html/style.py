"""The style sheet of the page: for a screen and for A4 or Letter, readable without colour."""

from __future__ import annotations

STYLE = """
:root { color-scheme: light; --ink: #16202a; --muted: #47535e; --line: #c3ccd4; --soft: #eef2f5;
  --accent: #0b4f6c; --stop: #a11622; --caution: #7a4a00; --good: #1d5b3a; }
* { box-sizing: border-box; }
body { margin: 0; background: #e4e9ed; color: var(--ink);
  font: 15px/1.42 system-ui, "Segoe UI", "DejaVu Sans", Arial, sans-serif; }
main { max-width: 1040px; margin: 20px auto; background: #fff; padding: 30px 38px 36px;
  border: 1px solid var(--line); }
h1, h2, h3, h4, p, dl, dd, ol, ul, figure, table { margin: 0; }
h1 { font-size: 25px; line-height: 1.2; font-weight: 650; overflow-wrap: anywhere; }
h2 { font-size: 20px; font-weight: 650; margin: 34px 0 4px; padding-top: 14px;
  border-top: 3px solid var(--ink); overflow-wrap: anywhere; }
h3 { font-size: 13px; font-weight: 700; letter-spacing: .07em; text-transform: uppercase;
  color: var(--accent); margin: 0 0 7px; padding-bottom: 4px; border-bottom: 1px solid var(--line); }
h3.method { margin-top: 34px; font-size: 15px; } h3.method, h3 span { text-transform: none;
  letter-spacing: 0; } h3 span { margin-left: .7em; color: var(--ink); }
.small, .path { color: var(--muted); font-size: 13px; overflow-wrap: anywhere; }
.stamp { font-size: 13px; font-weight: 700; letter-spacing: .02em; }
.given { margin-top: 8px; }
.verdict { display: flex; align-items: center; gap: 16px; margin: 16px 0 0; padding: 14px 18px;
  color: #fff; }
.verdict svg { fill: none; width: 40px; height: 40px; flex: none; }
.verdict strong { display: block; font-size: 24px; line-height: 1.15; letter-spacing: .02em; }
.verdict.stop { background: var(--stop); } .verdict.care { background: var(--caution); }
.verdict.good { background: var(--good); }
.keys { display: grid; grid-auto-flow: column; grid-auto-columns: 1fr; margin: 14px 0 0;
  border: 1px solid var(--line); border-width: 1px 0; }
.keys div { padding: 9px 14px; border-left: 1px solid var(--line); }
.keys div:first-child { border-left: 0; padding-left: 0; }
.keys dt { color: var(--muted); font-size: 12.5px; }
.keys dd { font-size: 17px; font-weight: 650; line-height: 1.25; }
.keys dd span { display: block; font-size: 12.5px; font-weight: 400; color: var(--muted); }
.blocks { display: grid; grid-template-columns: 1fr 1fr; gap: 24px 32px; margin-top: 20px; }
.block { min-width: 0; } .blocks > div { display: flex; flex-direction: column; gap: 24px;
  min-width: 0; }
.full { grid-column: 1 / -1; }
.rows { display: grid; grid-template-columns: minmax(94px, max-content) 1fr; gap: 3px 14px; }
.rows div { display: contents; }
.rows dt { color: var(--muted); } .rows dd { overflow-wrap: anywhere; }
.rows.foot { margin-top: 8px; }
.rows .loud, td.loud { color: var(--stop); font-weight: 700; }
table { border-collapse: collapse; width: 100%; font-variant-numeric: tabular-nums;
  font-size: 14px; line-height: 1.32; }
.unseen { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%);
  white-space: nowrap; }
caption { text-align: left; font-size: 13px; color: var(--muted); padding-bottom: 4px; }
th, td { padding: 3px 8px; text-align: right; vertical-align: top;
  border-bottom: 1px solid #dde3e8; font-weight: 400; }
thead th { color: var(--muted); font-size: 12.5px; border-bottom: 1px solid var(--ink);
  vertical-align: bottom; }
th:first-child, td:first-child { padding-left: 0; } th:last-child, td:last-child { padding-right: 0; }
.w { text-align: left; overflow-wrap: break-word; }
ol.steps, ul.steps { list-style: none; padding: 0; counter-reset: step; }
ol.steps li { counter-increment: step; position: relative; padding: 2px 0 2px 52px; }
ol.steps li::before { content: counter(step); position: absolute; left: 24px; font-weight: 700; }
ol.steps li::after { content: ""; position: absolute; left: 0; top: 6px; width: 13px; height: 13px;
  border: 1.5px solid var(--ink); }
ul.steps li { padding: 2px 0 2px 16px; position: relative; }
ul.steps li::before { content: ""; position: absolute; left: 1px; top: 10px; width: 6px; height: 6px;
  background: currentColor; }
.warn { border: 2px solid var(--ink); padding: 12px 16px; }
.warn h3 { color: var(--stop); border: 0; padding: 0; }
.sign { display: grid; grid-template-columns: auto 1fr auto 1fr; gap: 10px; margin-top: 22px;
  align-items: end; }
.sign i { border-bottom: 1px solid var(--ink); height: 22px; }
figure { margin-top: 26px; }
figcaption { font-weight: 650; } figcaption span { display: block; font-weight: 400;
  color: var(--muted); font-size: 14px; }
.pair { display: grid; grid-template-columns: minmax(0, 1.65fr) minmax(0, 1fr); gap: 22px;
  margin-top: 8px; align-items: start; }
.pair.wide { grid-template-columns: 1fr; gap: 10px; } .pair.wide .w:last-child { width: 64%; }
.pair table { font-size: 12.5px; line-height: 1.22; } .pair thead th { font-size: 12px; }
.pair th, .pair td { padding: 2px 5px; }
.pair svg { display: block; width: 100%; height: auto; overflow: visible; }
.pair svg { fill: var(--ink); }
svg text { font: 12px system-ui, "Segoe UI", "DejaVu Sans", Arial, sans-serif;
  font-variant-numeric: tabular-nums; }
svg text.name { fill: var(--muted); }
svg .axis { stroke: var(--ink); stroke-width: 1; }
svg .grid { stroke: #dde3e8; stroke-width: 1; }
svg .area { opacity: .13; }
svg .level { stroke: var(--muted); stroke-width: 1.2; stroke-dasharray: 10 4; }
svg path.end { stroke: var(--stop); stroke-width: 2; fill: none; } svg text.end { fill: var(--stop); }
svg .note, svg text.end { font-weight: 700; paint-order: stroke; stroke: #fff; stroke-width: 4px;
  stroke-linejoin: round; }
svg path.note { stroke: var(--ink); stroke-width: 1.6; fill: none; }
svg .over { paint-order: stroke; stroke: #fff; stroke-width: 3px; stroke-linejoin: round; }
svg .night { fill: #d5dbe2; }
.finding { border-left: 6px solid var(--muted); padding: 2px 0 2px 14px; margin-top: 14px; }
.finding.stop, .finding.fault { border-color: var(--stop); }
.finding.caution { border-color: var(--caution); border-left-style: double; }
.finding .class { font-weight: 700; text-transform: uppercase; letter-spacing: .04em;
  font-size: 13px; }
.finding.stop .class, .finding.fault .class { color: var(--stop); }
.finding.caution .class { color: var(--caution); }
.finding p { overflow-wrap: anywhere; }
.finding .do { font-weight: 650; }
.finding ul { padding-left: 18px; color: var(--muted); font-size: 14px; }
.plain { padding-left: 18px; margin-top: 8px; } .plain li { overflow-wrap: anywhere; }
.hash, .papers td:last-child { font: 10.5px ui-monospace, "DejaVu Sans Mono", Consolas, monospace;
  overflow-wrap: anywhere; }
.numbers { table-layout: fixed; margin-top: 8px; } .numbers td, .numbers th { overflow-wrap: break-word; }
.numbers th:first-child { width: 19%; } .numbers th:nth-child(n+2):nth-child(-n+4) { width: 13%; }
.numbers td:nth-child(4) { font-weight: 700; }
.papers { margin-top: 8px; font-size: 13px; table-layout: fixed; }
.papers th, .papers td { overflow-wrap: break-word; }
.papers th:nth-child(2) { width: 92px; } .papers th:nth-child(3) { width: 416px; }
.papers td:last-child { vertical-align: middle; }
.plane { min-width: 0; } .plane:focus-visible { outline: 3px solid var(--accent); outline-offset: 4px; }
.plane svg { cursor: crosshair; }
.patches { list-style: none; padding: 0; margin-top: 8px; font-size: 13px; display: flex;
  flex-wrap: wrap; gap: 4px 18px; } .patches li { display: flex; gap: 8px; align-items: center; }
.pair .patches svg { width: 28px; height: 16px; flex: none; cursor: auto; }
.patches .axis { fill-opacity: 1; }
.setting { margin-top: 18px; }
#shown .rows { grid-template-columns: minmax(0, 1.3fr) minmax(0, 1fr); }
#cursor { pointer-events: none; }
@media screen and (max-width: 940px) { .pair { grid-template-columns: 1fr; } }
@media screen and (max-width: 760px) {
  main { padding: 18px; margin: 0; border: 0; }
  .blocks { grid-template-columns: 1fr; } .keys { grid-auto-flow: row; }
  .keys div { border-left: 0; padding-left: 0; }
  table, .papers { font-size: 12px; } th, td { padding: 2px 4px; }
  .pair { overflow-x: auto; } .pair > svg { min-width: 540px; }
  .pair.wide > svg { min-width: 860px; }
  .block { overflow-x: auto; } .papers th:nth-child(3) { width: 50%; }
}
@page { margin: 9mm 11mm 11mm;
  @bottom-right { content: "page " counter(page) " of " counter(pages); font: 7pt sans-serif; } }
@media print {
  body { background: #fff; font-size: 7.9pt; line-height: 1.18; }
  main { margin: 0; padding: 0; border: 0; max-width: none; }
  .verdict, .verdict *, svg, svg * { print-color-adjust: exact; -webkit-print-color-adjust: exact; }
  .warn, .finding, figure, .keys, .verdict, .sign, tr, li, .rows div { break-inside: avoid; }
  caption, thead, h2, h3, figcaption, .stamp { break-after: avoid; }
  .batch, .run, .figures { break-before: page; } .first { break-before: auto; }
  h1 { font-size: 13pt; } h2 { font-size: 11pt; margin-top: 7pt; padding-top: 3pt; }
  h3 { font-size: 8.2pt; margin-bottom: 2pt; padding-bottom: 1pt; }
  .small, .path, .stamp, caption, figcaption span, .finding ul { font-size: 7pt; }
  .verdict { margin-top: 4pt; padding: 3pt 8pt; gap: 8pt; } .verdict strong { font-size: 13pt; }
  .verdict svg { width: 18pt; height: 18pt; }
  .keys { margin-top: 5pt; } .keys div { padding: 2pt 8pt; }
  .keys dd { font-size: 12pt; } .keys dt, .keys dd span { font-size: 7pt; }
  .blocks { display: block; columns: 2; column-gap: 6mm; margin-top: 6pt; }
  .blocks > div { display: block; } .block { margin: 0 0 5pt; } .blocks .block table { margin: 0; }
  .rows { gap: 0 8pt; grid-template-columns: minmax(54pt, max-content) 1fr; }
  .rows.foot { margin-top: 1pt; }
  th, td { padding: .6pt 3pt; } table { font-size: 7.3pt; line-height: 1.14; } thead th { font-size: 7.2pt; }
  ol.steps { font-size: 9pt; font-weight: 600; line-height: 1.16; }
  ol.steps li { padding: .6pt 0 .6pt 33pt; } ol.steps li::before { left: 16pt; }
  ol.steps li::after { width: 8pt; height: 8pt; top: 2pt; }
  ul.steps li { padding: 0 0 0 9pt; } ul.steps li::before { width: 3pt; height: 3pt; top: 4pt; }
  .warn { border-width: 1pt; padding: 3pt 6pt; } .finding { margin-top: 4pt; }
  .sign { margin-top: 5pt; } .sign i { height: 12pt; }
  .hash, .papers td:last-child { font-size: 6.6pt; }
  .papers th:nth-child(2) { width: 68pt; } .papers th:nth-child(3) { width: 262pt; }
  .figures { font-size: 9pt; } .pair table { font-size: 7.6pt; } .papers { font-size: 8pt; }
  figure.long { break-inside: auto; } figcaption, .pair svg { break-inside: avoid; }
  .pair.wide { display: block; } .pair.wide svg { break-after: avoid; break-before: avoid; }
  figure { margin-top: 11pt; }
}
"""
