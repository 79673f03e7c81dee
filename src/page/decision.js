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
  const made = make("div", {}, ...folded([...parsed(html).childNodes]));
  if (box.childNodes.length === made.childNodes.length && [...made.childNodes].every((node, i) => patched(box.childNodes[i], node))) return;
  const open = [...box.querySelectorAll("details")].map((details) => details.open);
  const nodes = [...made.childNodes];
  made.querySelectorAll("details").forEach((details, i) => { details.open = open[i] ?? false; });
  replaceIn(box, nodes);
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
    replaceIn(box, [make("p", {}, pageWords(text))]);
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

// The side view shows the decision's states, unless another than the liked one stands beside the first.
const sideOfDecision = () => !state.b.name || state.b.name === state.like;

// The verdict and how sure it is stand together, the rest below the side view.
const isSure = (node) => node.nodeName === "P" && node.textContent.startsWith("How sure");

function splitDecision(html) {
  const nodes = [...parsed(html).children];
  nodes.filter(isSure).forEach((node) => { node.className = "sure"; });
  const head = [nodes[0], ...nodes.filter(isSure)], text = (list) => list.filter(Boolean).map((node) => node.outerHTML).join("");
  return [text(head), text(nodes.filter((node) => !head.includes(node)))];
}

// The verdict alone, and what stands below it.
function splitHeadline(html) {
  const end = html.indexOf("</p>") + 4;
  return [html.slice(0, end), html.slice(end)];
}

// The verdict's measurement, larger than its sentence.
const VERDICT_FIGURE = /(?:\d+ )?\d+(?:\.\d+|\/\d+)?\u00a0?\s?(?:mm|in)(?![a-z])/;

function enlarge(verdict, figure = VERDICT_FIGURE) {
  for (const node of verdict?.childNodes ?? []) {
    const found = node.nodeType === Node.TEXT_NODE && figure.exec(node.data);
    if (!found) continue;
    const text = node.splitText(found.index);
    text.splitText(found[0].length);
    text.replaceWith(make("span", { class: "big" }, found[0]));
    return found[0];
  }
  return "";
}

// The texts of a verdict in the program's HTML, its measurement one of its own, and what stands between them.
function textsOf(html) {
  const texts = [], between = [];
  let depth = 0, figure = "";
  html.split(/(<[^>]*>)/).forEach((part, i) => {
    if (i % 2) {
      depth += part[1] === "/" ? -1 : 1;
      between.push(part);
    } else if (part) {
      const text = unmarked(part), found = depth === 1 && !figure ? VERDICT_FIGURE.exec(text) : null;
      if (found) {
        [figure] = found;
        texts.push(text.slice(0, found.index), figure);
      }
      texts.push(found ? text.slice(found.index + figure.length) : text);
      between.push(found ? "figure" : "text");
    }
  });
  return { texts, figure, shape: between.join("") };
}

// Whether the verdict that stands there has the same elements and thus only its texts were to be set.
function retold(verdict, { texts, shape }) {
  if (verdict?.shape !== shape) return false;
  texts.forEach((text, i) => { if (verdict.texts[i].data !== text) verdict.texts[i].data = text; });
  return true;
}

// Keeps where its texts stand.
function keepTexts(verdict, { texts, shape }) {
  const walker = document.createTreeWalker(verdict, NodeFilter.SHOW_TEXT), nodes = [];
  while (walker.nextNode()) nodes.push(walker.currentNode);
  if (nodes.length === texts.length && nodes.every((node, i) => node.data === texts[i])) Object.assign(verdict, { shape, texts: nodes });
}

// The verdict with how sure it is; its measurement and its text.
function tellVerdict(box, head) {
  const made = parsed(head), text = made.firstElementChild.textContent, figure = enlarge(made.firstElementChild);
  box.replaceChildren(made);
  return { figure, text };
}

// The verdict alone, as it is told while something is moved, set down where it is in sight; its measurement and text.
function retellVerdict(box, head, seen) {
  const told = textsOf(head), { figure } = told, text = told.texts.join("");
  if (!seen || retold(box.firstElementChild, told)) return { figure, text };
  const made = parsed(head).firstElementChild;
  enlarge(made);
  if (!patched(box.firstElementChild, made)) box.firstElementChild.replaceWith(made);
  keepTexts(box.firstElementChild, told);
  return { figure, text };
}

// Warnings and cautions out of notes in the program's HTML.
const ALARMS = /<h3>(?:Warnings|Cautions)<\/h3>\s*<ul>([^]*?)<\/ul>/g;
const alarmsOf = (html) => Array.from(html.matchAll(ALARMS)).flatMap(([, list]) => Array.from(list.matchAll(/<li>([^]*?)<\/li>/g), ([, item]) => item));

// What the strings warn of where the neck (stop) is as changed to that place; {}: where it is.
function alarmsOfStrings(engine, state, place) {
  const there = { ...state.a, changes: { ...state.a.changes, ...place } }, box = $("alarms");
  const from = [there.name, ...changesOf(there)].join("\0"), head = headOfDecision(state);
  if (box.from !== from || box.head !== head) { // the same while the neck is dragged that the decision is about
    const words = asked({ ...state, a: there }, "tension", { sides: ["a"], options: ["--format", "html"] });
    const { status, text } = engine.ask(words, "alarms", HTML.alarms);
    Object.assign(box, { from, head, ofStrings: status <= 1 ? alarmsOf(text) : [] });
  }
  return box.ofStrings;
}

// What to be careful with, below the verdict that it belongs to: the items of some lists.
function showAlarms(verdict, ...lists) {
  const box = $("alarms");
  if (verdict.nextElementSibling !== box) verdict.after(box);
  if (box.lists?.length === lists.length && lists.every((list, i) => list === box.lists[i])) return;
  box.lists = lists;
  const list = [...new Set(lists.flat())], key = list.join("\0");
  if (box.shown === key) return;
  box.shown = key;
  const items = list.map((html) => {
    const item = make("li", { class: /would break|within a semitone of breaking/.test(html) ? "grave" : null });
    item.append(parsed(html));
    return item;
  });
  box.replaceChildren(...items);
  say($("bar-alarm"), list.length ? `\u26a0\ufe0e ${list.length}` : "");
}

const capital = (word) => word[0].toUpperCase() + word.slice(1);

// The states that the side view of a decision has, and what it shows.
const statesOfSide = (told) => [...(told?.proposed ? ["proposed", "now"] : ["now", ...($("take").dataset.mm ? ["recommended"] : [])]), ...(state.like ? ["model"] : [])];

function statesText(states) {
  const meant = { now: "as the file has it", proposed: "with the changes made here", recommended: "by the verdict", model: isolated(state.like) };
  return [...states.map((one) => `${capital(stateWord(one))}: ${meant[one]}`), "Drag the nut or the bridge."].join(". ");
}

// A figure that bears no unit of its own with the unit behind it.
const withUnit = (text, unit) => unit && /^[-+]?[\d./ ]+$/.test(text) ? `${text} ${unit}` : text;

// What was changed here of an instrument, each beside what the file has.
function proposedOf(key) {
  if (!state[key].name) return "";
  const { base } = side[key];
  return Object.entries(state[key].changes).map(([field, text]) => {
    const before = base.fields.find((one) => one.field === field), shown = before ? withUnit(shownLength(text, state.unit), state.unit) : text;
    const was = before ? givenText(before, state.unit) : base[field];
    return `${fieldLabel(field)} ${shown} (${stateWord("now")} ${was || "not given"})`;
  }).join("; ");
}

function changesText() {
  const model = proposedOf("b");
  const texts = [proposedOf("a"), model && `${isolated(state.b.name)}: ${model}`].filter(Boolean);
  return texts.length ? `${capital(stateWord("proposed"))} here: ${texts.join("; ")}.` : "";
}

// Its first paragraph is the verdict. Its notes are those of a brief answer: what it rests on, and what
// to be careful with; every assumption and source stands in a section of its own. The figures of its
// instruments; null without an answer, which is not shown while something is moved: then nobody asked how
// sure the decision is.
function showDecision(engine, state, wanted, moving = false) {
  const full = wanted("h-why") ? ["--full"] : []; // the verdict and how sure it is are the same in brief
  const alone = moving && !wanted("h-why"); // then the verdict is all that is told, and what to be careful with
  const { status, text } = engine.ask(askedDecision(state, [...full, "--format", "html"]), "decision", alone ? HTML.headline | HTML.alarms : HTML.answer);
  const answered = status <= 1, box = $("decision");
  if (moving && !answered) return null;
  const [head, rest] = !answered ? [make("p", {}, pageWords(text)).outerHTML, ""] : alone ? splitHeadline(text) : splitDecision(text);
  const seen = !moving || Boolean(state.view) || wanted("decision");
  if (box.told !== head || (seen && !box.seen)) {
    const verdict = moving && box.firstElementChild ? retellVerdict(box, head, seen) : tellVerdict(box, head);
    Object.assign(box, { told: head, seen });
    say($("bar-number"), verdict.figure || "?");
    say($("bar-says"), answered ? barText(verdict.text, moving ? null : box) : "no answer");
  }
  if (box.firstElementChild) setTo(box.firstElementChild, "id", "verdict");
  const notes = !answered ? "" : alone ? rest : engine.tell("decision-notes", HTML.notes, false);
  if (box.notes !== notes) Object.assign(box, { notes, alarms: alarmsOf(notes) });
  if (wanted("h-why")) {
    showMarkup($("decision-more"), rest);
    showMarkup($("decision-notes"), notes);
    drawPart("wishes", answered);
    placeBands(answered ? engine.wishes() : [], engine.axes());
  }
  if (sideOfDecision() && wanted("h-side")) drawPart("side", answered);
  const mm = answered ? engine.recommended() : NaN, take = $("take");
  if (take.hidden !== Number.isNaN(mm)) take.hidden = Number.isNaN(mm);
  if (!moving) say(take, `Take this ${state.decide}`);
  setTo(take, "data-place", state.decide);
  setTo(take, "data-mm", Number.isNaN(mm) ? "" : String(Number(mm.toFixed(6))));
  const told = answered ? engine.decided(DECIDED, moving && sideOfDecision() && !wanted("glance")) : null;
  if (!doorAsks()) showAlarms(box, box.alarms, alarmsOfStrings(engine, state, take.dataset.mm ? { [state.decide]: take.dataset.mm } : {}));
  const states = sideOfDecision() ? statesOfSide(told) : [], line = $("side-states");
  if (!moving || String(states) !== line.states) say(line, statesText(states));
  line.states = String(states);
  return told;
}

// Beside the number on a phone: what it is of, and how sure, where that is told in the box.
function barText(verdict, box) {
  const sure = box && /^How sure: ([^(;]{0,40}\([^)]*\))/.exec([...box.children].find(isSure)?.textContent ?? "")?.[1];
  const [, stays] = /leave the \w+ (as [\w ]+),/.exec(verdict) ?? [];
  return [stays ? `${state.decide}, ${stays}` : state.decide, sure].filter(Boolean).join("; ");
}
