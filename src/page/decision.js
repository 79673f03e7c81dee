// SPDX-License-Identifier: GPL-3.0-or-later
// Answers as the program tells them, in the program's own HTML; first of all the decision.

// A table of more rows is folded away.
const LONG = 12;

// What stands below a heading with a table in it is folded away under the heading; a long table that
// stands under none, under its caption.
function folded(nodes) {
  const parts = [[]];
  for (const node of nodes) {
    if (node.nodeName === "H3") parts.push([]);
    parts.at(-1).push(node);
  }
  return parts.flatMap((part) => {
    const [head, ...rest] = part;
    if (head?.nodeName !== "H3" || !rest.some((node) => node.querySelector?.("table"))) return part.map(foldedTable);
    return [make("details", {}, make("summary", {}, ...head.childNodes), ...rest)];
  });
}

// The summary takes the caption's place, its id too.
function foldedTable(node) {
  const table = node.firstElementChild;
  if (table?.nodeName !== "TABLE" || table.tBodies[0].rows.length <= LONG) return node;
  const { caption } = table, summary = make("summary", { id: caption.id }, ...caption.childNodes);
  caption.remove();
  return make("details", {}, summary, node);
}

// Sets what differs; false where the elements are others. What is open or scrolled stays so.
function patched(before, after) {
  if (before.nodeName !== after.nodeName || before.childNodes.length !== after.childNodes.length) return false;
  if (before.nodeType === Node.TEXT_NODE) {
    if (before.data !== after.data) before.data = after.data;
    return true;
  }
  if ((before.className ?? "") !== (after.className ?? "")) before.className = after.className;
  return [...after.childNodes].every((node, i) => patched(before.childNodes[i], node));
}

function setFragment(box, html) {
  const made = make("div", {}, ...folded([...new DOMParser().parseFromString(html, "text/html").body.childNodes]));
  if (box.childNodes.length === made.childNodes.length && [...made.childNodes].every((node, i) => patched(box.childNodes[i], node))) return;
  const open = [...box.querySelectorAll("details")].map((details) => details.open);
  box.replaceChildren(...made.childNodes);
  box.querySelectorAll("details").forEach((details, i) => { details.open = open[i] ?? false; });
}

// Markup of the program's, where it is not what the box holds already.
function showMarkup(box, html) {
  if (box.told === html) return;
  box.told = html;
  setFragment(box, html);
}

// The full answer to the words, those parts of it, or why there is none; its status.
function showAnswer(engine, box, words, parts) {
  const { status, text } = engine.ask([words[0], "--full", "--format", "html", ...words.slice(1)], box.id, parts);
  if (status <= 1) showMarkup(box, text);
  else if (box.told !== text) {
    box.told = text;
    box.replaceChildren(make("p", {}, pageWords(text)));
  }
  return status;
}

// A text as it is heard: what its markup isolates, isolated by characters.
const heardText = (element) => [...element.childNodes].map((node) => node.nodeName === "BDI" ? isolated(node.textContent) : node.textContent).join("");

// A message of the program's with its options by the names that the controls have.
const OPTION_LABELS = { like: "String as long as on", "feel-by": "same impedance", margin: "Margin to breaking", packet: "Strings by their packets",
  tension: "Tension of each string", a4: "A4 in Hz", from: "Choose from" };
const pageWords = (text) => text.replace(/--([a-z][a-z0-9-]*)(?: (?:NAME|FIELD=VALUE|MM|RANGE|FOLDER|FILE)\b)?/g,
  (_, option) => `“${OPTION_LABELS[option] ?? option.replaceAll("-", " ")}”`);

// Its first paragraph is the verdict. Its notes are those of a brief answer: what it rests on, and what
// to be careful with; every assumption and source stands in a section of its own.
function showDecision(engine, state) {
  const box = $("decision"), answered = showAnswer(engine, box, askedDecision(state), HTML.answer) <= 1;
  if (box.firstElementChild) box.firstElementChild.id = "verdict";
  showMarkup($("decision-notes"), answered ? engine.tell("decision-notes", HTML.notes, false) : "");
  setDrawing($("draw-wishes"), answered ? engine.draw(["wishes"], "wishes") : "");
  const mm = answered ? engine.recommended() : NaN, take = $("take");
  take.hidden = Number.isNaN(mm);
  say(take, `Take this ${state.decide}`);
  take.dataset.place = state.decide;
  take.dataset.mm = Number.isNaN(mm) ? "" : String(Number(mm.toFixed(6)));
}
