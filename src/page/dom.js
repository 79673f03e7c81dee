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

// A text that stands alone is kept as the node that it is.
function say(element, text) {
  const { firstChild } = element;
  if (text && firstChild?.nodeType === Node.TEXT_NODE && !firstChild.nextSibling) {
    if (firstChild.data !== text) firstChild.data = text;
  } else if (element.textContent !== text) element.textContent = text;
}

function setTo(element, name, value) {
  if (element.getAttribute(name) !== value) element.setAttribute(name, value);
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
const MARKS = { "&amp;": "&", "&lt;": "<", "&gt;": ">", "&quot;": '"', "&#39;": "'" };
const unmarked = (text) => text.includes("&") ? text.replace(/&(?:amp|lt|gt|quot|#39);/g, (mark) => MARKS[mark]) : text;

// The elements that begin in a line: names with the values between them, then the text up to the next.
const isLetter = (code) => (code | 32) > 96 && (code | 32) < 123;
const elementsOf = (line) => line.split("<").filter((part) => isLetter(part.charCodeAt(0))).map((part) => part.split('"'));

// Sets what of an element differs; false where the names are others.
function setElement(node, had, has) {
  const last = has.length - 1;
  if (had.length !== has.length) return false;
  for (let i = 0; i < last; i += 2) {
    if (had[i] !== has[i]) return false;
    if (had[i + 1] !== has[i + 1] && i + 1 < last) node.setAttribute(has[i].slice(has[i].lastIndexOf(" ") + 1, -1), unmarked(has[i + 1]));
  }
  if (had[last] !== has[last] && !node.firstElementChild) say(node, unmarked(has[last].slice(has[last].indexOf(">") + 1)));
  return true;
}

function patchLine(figure, i, line) {
  const had = figure.parts[i] ?? elementsOf(figure.lines[i]), has = elementsOf(line);
  figure.parts[i] = has;
  return had.length === has.length && has.every((one, k) => setElement(figure.nodes[figure.starts[i] + k], had[k], one));
}

// lines: an empty one is as it was.
function patchDrawing(figure, lines) {
  const before = figure.lines;
  if (before?.length !== lines.length) return false;
  return lines.every((line, i) => {
    if (line === "" || line === before[i]) return true;
    const patched = patchLine(figure, i, line);
    before[i] = line;
    return patched;
  });
}

// Sets down what has changed of the drawing that stands there; false where it is to be set down whole.
function changeDrawing(figure, changes) {
  figure.drawn = null;
  if (patchDrawing(figure, changes.split("\n"))) return true;
  figure.lines = null;
  return false;
}

function setDrawing(figure, svg) {
  if (figure.drawn === svg) return;
  figure.drawn = svg;
  const lines = svg.split("\n");
  if (svg && patchDrawing(figure, lines)) return;
  figure.replaceChildren();
  figure.lines = null;
  figure.parts = []; // of the lines that have differed
  if (!svg) return;
  const drawing = parser.parseFromString(svg, "image/svg+xml").documentElement;
  if (drawing.nodeName !== "svg") return;
  figure.append(document.importNode(drawing, true));
  figure.nodes = Array.from(figure.querySelectorAll("*"));
  const counts = lines.map((line) => elementsOf(line).length);
  let count = 0;
  figure.starts = counts.map((more) => (count += more) - more); // the first element of each line
  if (figure.nodes.length === count) figure.lines = lines;
}

// HTML of the engine's making, as nodes that are in no page yet.
function parsed(html) {
  const holder = make("template");
  holder.innerHTML = html;
  return holder.content;
}

// Puts other nodes into a box. What has the focus there hands it on, so that the next key is not lost: to the
// element of its kind with its id, with its text, or in its place.
function replaceIn(box, nodes) {
  const had = document.activeElement, alike = () => [...box.querySelectorAll(had.localName)].filter((one) => one.tabIndex >= 0);
  const at = box.contains(had) && had !== box ? alike().indexOf(had) : -1;
  box.replaceChildren(...nodes);
  if (at < 0) return;
  const now = alike();
  const next = now.find((one) => had.id && one.id === had.id) ?? now.find((one) => !had.id && one.textContent === had.textContent) ?? now[at];
  next?.focus({ preventScroll: true });
}

// Builds a box's content anew where what it is made from has changed.
function refill(box, from, build) {
  const key = JSON.stringify(from);
  if (box.madeFrom === key) return;
  box.madeFrom = key;
  replaceIn(box, build());
}

function save(name, type, content) {
  const url = URL.createObjectURL(new Blob([content], { type }));
  const link = make("a", { href: url, download: name });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(url), 60000);
}
