"""The script of a window's page: it shows the figures of the nearest computed point.

It reads the points from the page itself; nothing is fetched. Without it the page shows the figures
at the method's own settings, and everything else that it says.
"""

from __future__ import annotations

__all__ = ["SCRIPT"]

SCRIPT = """
'use strict';
const data = JSON.parse(document.getElementById('points').textContent);
const map = document.getElementById('plane');
const svg = map.querySelector('svg');
const cursor = document.getElementById('cursor');
const shown = document.getElementById('shown');
const box = data.box;
let at = [data.own[0], data.own[1]];

function part(value, span) { return (value - span[0]) / (span[1] - span[0]); }

function nearest() {
  let best = null, least = Infinity;
  for (const point of data.points) {
    const dx = part(point[0], data.x.span) - part(at[0], data.x.span);
    const dy = part(point[1], data.y.span) - part(at[1], data.y.span);
    const far = dx * dx + dy * dy;
    if (far < least) { least = far; best = point; }
  }
  return best;
}

function row(list, name, text) {
  const line = document.createElement('div');
  const term = document.createElement('dt');
  const said = document.createElement('dd');
  term.textContent = name;
  said.textContent = text;
  line.append(term, said);
  list.append(line);
}

function figure(value, unit) {
  if (value === null) { return 'not known'; }
  return Number(value.toPrecision(4)) + ' ' + unit;
}

function show() {
  const point = nearest();
  const x = box[0] + part(point[0], data.x.span) * (box[2] - box[0]);
  const y = box[3] - part(point[1], data.y.span) * (box[3] - box[1]);
  cursor.setAttribute('transform', 'translate(' + x + ' ' + y + ')');
  cursor.setAttribute('visibility', 'visible');
  const list = document.createElement('dl');
  list.className = 'rows';
  row(list, data.x.name, figure(point[0], data.x.unit));
  row(list, data.y.name, figure(point[1], data.y.unit));
  row(list, 'state', data.states[point[2]]);
  if (point[3].length) { row(list, 'checks', point[3].map(n => data.rules[n]).join(', ')); }
  data.figures.forEach((one, n) => {
    if (point[4].length) { row(list, one[0], figure(point[4][n], one[1])); }
  });
  shown.replaceChildren(list);
}

function move(axis, steps) {
  const span = data[axis === 0 ? 'x' : 'y'].span;
  const wanted = at[axis] + steps * (span[1] - span[0]) / 48;
  at[axis] = Math.min(Math.max(wanted, span[0]), span[1]);
  show();
}

map.addEventListener('keydown', event => {
  const far = event.shiftKey ? 6 : 1;
  const keys = {ArrowLeft: [0, -far], ArrowRight: [0, far], ArrowDown: [1, -far],
    ArrowUp: [1, far]};
  if (keys[event.key]) {
    move(...keys[event.key]);
  } else if (event.key === 'Home') {
    at = [data.own[0], data.own[1]];
    show();
  } else {
    return;
  }
  event.preventDefault();
});

svg.addEventListener('click', event => {
  const seen = svg.createSVGPoint();
  seen.x = event.clientX;
  seen.y = event.clientY;
  const spot = seen.matrixTransform(svg.getScreenCTM().inverse());
  const part_x = Math.min(Math.max((spot.x - box[0]) / (box[2] - box[0]), 0), 1);
  const part_y = Math.min(Math.max((box[3] - spot.y) / (box[3] - box[1]), 0), 1);
  at = [data.x.span[0] + part_x * (data.x.span[1] - data.x.span[0]),
    data.y.span[0] + part_y * (data.y.span[1] - data.y.span[0])];
  show();
  map.focus();
});
"""
