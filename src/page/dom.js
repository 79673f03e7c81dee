// SPDX-License-Identifier: GPL-3.0-or-later
// Setting things down. Names come from files: they only ever become text.
const $ = (id) => document.getElementById(id);

function make(tag, attributes = {}, ...children) {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value === true) element.setAttribute(name, "");
    else if (value !== false && value !== null && value !== undefined) element.setAttribute(name, value);
  }
  element.append(...children);
  return element;
}

function say(element, text) {
  if (element.textContent !== text) element.textContent = text;
}

// A name inside a text: isolated, so that its direction turns nothing beside it round; characters that
// control or steer the direction of a text stand as their code points.
const STEERING = /[\u0000-\u001f\u007f-\u009f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069]/g;
const visible = (text) => String(text).replace(STEERING, (one) => `<U+${one.codePointAt(0).toString(16).toUpperCase().padStart(4, "0")}>`);
const isolated = (name) => `\u2068${visible(name)}\u2069`;

// options: names, or [value, label] pairs
function fillSelect(select, options, value) {
  const pairs = options.map((option) => Array.isArray(option) ? option : [option, isolated(option)]);
  const key = JSON.stringify(pairs);
  if (select.dataset.key !== key) {
    select.dataset.key = key;
    select.replaceChildren(...pairs.map(([v, label]) => new Option(label, v)));
  }
  select.value = value;
}

function fillList(list, texts) {
  while (list.children.length > texts.length) list.lastChild.remove();
  texts.forEach((text, i) => {
    if (!list.children[i]) list.append(make("li"));
    say(list.children[i], text);
  });
}

// A table of texts; rows start with their head. Cells of a table whose shape stays are kept, so that
// a move of a slider changes texts alone. words: columns of words.
function fillTable(table, caption, heads, rows, { words = [] } = {}) {
  const shape = JSON.stringify([caption, heads, rows.length, words]);
  if (table.dataset.shape !== shape) {
    table.dataset.shape = shape;
    const cell = (tag, i, scope) => make(tag, { scope, class: words.includes(i) ? "words" : null });
    const head = make("tr", {}, ...heads.map((text, i) => {
      const th = cell(text === "" && i > 0 ? "td" : "th", i, "col");
      th.textContent = text;
      return th;
    }));
    const body = rows.map(() => make("tr", {}, ...heads.map((_, i) => cell(i ? "td" : "th", i, i ? null : "row"))));
    table.replaceChildren(...(caption ? [make("caption", {}, caption)] : []),
      make("thead", {}, head), make("tbody", {}, ...body));
  }
  const body = table.tBodies[0];
  rows.forEach((row, r) => {
    const cells = body.rows[r].cells;
    row.forEach((text, c) => say(cells[c], text ?? "?"));
  });
}

// The engine's drawings are markup of its own making: parsed as XML, and never run. Where the next one
// has the same elements in the same order, as along a slider's way, only what differs is set.
const parser = new DOMParser();
const ELEMENT = /<([a-z]+)((?: [\w:-]+="[^"]*")*)\/?>([^<]*)/gi;
const MARKS = { "&amp;": "&", "&lt;": "<", "&gt;": ">", "&quot;": '"', "&#39;": "'" };
const unmarked = (text) => text.replace(/&(?:amp|lt|gt|quot|#39);/g, (mark) => MARKS[mark]);

function patchDrawing(figure, elements) {
  const before = figure.elements;
  if (before?.length !== elements.length || before.some((one, i) => one[1] !== elements[i][1])) return false;
  elements.forEach(([, , attributes, text], i) => {
    const node = figure.nodes[i], [, , had, said] = before[i];
    if (had !== attributes) {
      const gone = new Set(Array.from(had.matchAll(/ ([\w:-]+)=/g), ([, name]) => name));
      for (const [, name, value] of attributes.matchAll(/ ([\w:-]+)="([^"]*)"/g)) {
        gone.delete(name);
        if (name !== "xmlns" && node.getAttribute(name) !== value) node.setAttribute(name, unmarked(value));
      }
      for (const name of gone) node.removeAttribute(name);
    }
    if (said !== text && !node.firstElementChild) node.textContent = unmarked(text);
  });
  figure.elements = elements;
  return true;
}

function setDrawing(figure, svg) {
  if (figure.drawn === svg) return;
  figure.drawn = svg;
  const elements = Array.from(svg.matchAll(ELEMENT));
  if (svg && patchDrawing(figure, elements)) return;
  figure.replaceChildren();
  figure.elements = null;
  if (!svg) return;
  const drawing = parser.parseFromString(svg, "image/svg+xml").documentElement;
  if (drawing.nodeName !== "svg") return;
  figure.append(document.importNode(drawing, true));
  figure.nodes = Array.from(figure.querySelectorAll("*"));
  if (figure.nodes.length === elements.length) figure.elements = elements;
}

// Builds a box's content anew where what it is made from has changed.
function refill(box, from, build) {
  const key = JSON.stringify(from);
  if (box.madeFrom === key) return;
  box.madeFrom = key;
  box.replaceChildren(...build());
}

function save(name, type, content) {
  const url = URL.createObjectURL(new Blob([content], { type }));
  const link = make("a", { href: url, download: name });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(url), 60000);
}
