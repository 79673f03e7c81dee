// SPDX-License-Identifier: GPL-3.0-or-later
// Two other states of the page: at the bench, five figures that are read from 1.5 m; before a class, before
// and after with the working beside the picture. Both are in the link, and the back key leaves them.
const VIEWS = { bench: "Bench view", class: "Class view" };
const NUDGE_MM = 0.5;
const SHOWN = { bench: ["neck_mm", "stop_mm", "string_length_mm", "stop_per_2_neck"],
  class: ["string_length_mm", "neck_mm", "stop_mm", "stop_per_2_neck", "body_at_semitones", "left_reach_mm"] };
let viewFrom = ""; // id of what opened it

// The states that are told of, each by its word: as the file has it where that has an answer.
function statesOf() {
  const { a, b } = state, changes = changesOf(a);
  return [...(side.a.base.answered ? [{ words: [a.name], says: wordOf("now") }] : []), ...(changes.length ? [{ words: [a.name, ...changes], says: wordOf("proposed") }] : []),
    ...(b.name ? [{ words: [b.name, ...changesOf(b)], says: wordOf("model") }] : [])];
}

function askedStates(states) {
  const words = asked(state, states.length > 1 ? "compare" : "lengths", { sides: [], options: states.length > 1 ? [] : ["--output", "page.svg"] });
  return [...words, ...states.flatMap((one) => one.words)];
}

const figuresOf = (states) => engine.json("page_figures", askedStates(states)).instruments.map((one) => one.figures);

const named = ({ label, unit }) => unit ? `${label}, ${unit}` : label;

function showBench() {
  const states = statesOf().filter(({ words: [name] }) => name === state.a.name), figures = figuresOf(states).at(-1);
  say($("view-state"), `${isolated(state.a.name)}, ${states.at(-1).says}`);
  for (const key of SHOWN.bench) {
    say($(`name-${key}`), named(figures[key]));
    say($(`at-${key}`), figures[key].shown ?? "?");
  }
  const [, number, unit] = /^(.*\S)\s+(\S+)$/.exec($("verdict")?.querySelector(".big")?.textContent ?? "") ?? ["", "none", ""];
  say($("at-recommended"), number);
  say($("name-recommended"), `${state.decide} ${$("take").hidden ? "by the verdict" : wordOf("recommended")}${unit && `, ${unit}`}`);
  say($("view-verdict"), heardText($("verdict") ?? $("decision")));
  $("view-alarms").replaceChildren(...[...$("alarms").children].map((one) => one.cloneNode(true)));
}

// The steps that a class follows from the back row; every other one is folded away below them.
const LESSON_STEPS = { lengths: /^(?:stop|neck|string length|neck : stop)\b/, fingers: /^(?:string length|place of semitone (?:1|2|12)|frame in position [12]):/ };

function showLesson(of) {
  const { status, text } = engine.ask(asked(state, of, { sides: ["a"], options: ["--full", "--format", "html", "--working"] }), "view-working", HTML.working);
  const box = $("view-steps"), all = $("view-all");
  all.hidden = status > 1;
  if (status > 1) return box.replaceChildren(make("p", {}, pageWords(text)));
  const [head, ...steps] = parsed(text).children, brief = steps.filter((one) => LESSON_STEPS[of].test(one.textContent));
  showMarkup(box, [head, ...brief].map((one) => one.outerHTML).join(""));
  if (all.open) showMarkup($("view-every"), steps.map((one) => one.outerHTML).join(""));
}

function showClass() {
  const states = statesOf(), figures = figuresOf(states), { unit: lengths } = figures[0].string_length_mm;
  const label = ({ label: name, unit }) => unit === lengths ? name : named({ label: name, unit });
  fillTable($("view-figures"), "", [`${isolated(state.a.name)}, ${lengths}`, ...states.map((one) => one.says)],
    SHOWN.class.map((key) => [label(figures[0][key]), ...figures.map((one) => one[key].shown ?? "not known")]));
  const fingers = state.door === "fingers", part = fingers ? "places" : "side";
  say($("view-state"), isolated(state.a.name));
  const words = fingers || !changesOf(state.a).length || !state.b.name ? askedView(state) : askedStates(states);
  const { status } = engine.ask(words);
  if (status <= 1) setDrawing($("view-picture"), engine.draw([part, "brief", "over"], "view"));
  showLesson(fingers ? "fingers" : "lengths");
}

function showView() {
  const { view } = state, box = $("view");
  document.documentElement.dataset.view = view;
  box.hidden = !view;
  holdScreen(view === "bench");
  if (!view) return;
  say($("h-view"), VIEWS[view]);
  say($("view-leave"), `Leave the ${VIEWS[view].toLowerCase()}`);
  $("view-bench").hidden = view !== "bench";
  $("view-class").hidden = view !== "class";
  if (view === "bench") showBench();
  else showClass();
}

function setView(view) {
  if (state.view === view) return;
  const left = state.view;
  if (view) viewFrom = document.activeElement?.id ?? "";
  state.view = view;
  redraw();
  newEntry();
  if (view) {
    scrollTo(0, 0);
    $("h-view").focus({ preventScroll: true });
  } else ($(viewFrom) ?? $(`open-${left}`)).focus();
}

// A step of the browser's own back key. Back over a view leaves it, and keeps what was done in it.
function newEntry() {
  history.pushState({ page: "mensur" }, "", `#${toFragment(state)}`);
  knownHash = location.hash;
}

function goBack(event) {
  const next = fromFragment(location.hash.slice(1));
  if (event.state?.page !== "mensur" || next.door !== state.door || next.view === state.view) return;
  state.view = next.view in VIEWS ? next.view : "";
  knownHash = location.hash;
  keepAddress();
  redraw();
}

function nudge(field, way) {
  const { mm, hidden } = $(`handle-${field}`);
  if (!hidden) setMm(field, Number((mm + way).toFixed(6)));
}

// The screen stays on at the bench, where the browser can do that.
let heldScreen = null, asksScreen = false;

async function holdScreen(on) {
  if (!on) {
    heldScreen?.release();
    heldScreen = null;
  }
  if (!on || heldScreen || asksScreen || document.hidden) return;
  asksScreen = true;
  try {
    heldScreen = await navigator.wakeLock.request("screen");
    heldScreen.addEventListener("release", () => { heldScreen = null; });
  } catch { /* said below */ }
  asksScreen = false;
  say($("view-awake"), heldScreen ? "The screen stays on." : "This browser cannot keep the screen on: set it so on the device.");
  if (state.view !== "bench") holdScreen(false);
}

function connectViews() {
  for (const view of Object.keys(VIEWS)) $(`open-${view}`).addEventListener("click", () => setView(view));
  $("view-leave").addEventListener("click", () => setView(""));
  for (const button of document.querySelectorAll("[data-nudge]")) {
    button.addEventListener("click", () => nudge(button.dataset.nudge, Number(button.dataset.way) * NUDGE_MM));
  }
  $("view-all").addEventListener("toggle", () => state.view === "class" && showClass());
  for (const [id, from, to] of [["view-undo", past, future], ["view-redo", future, past]]) $(id).addEventListener("click", () => step(from, to));
  addEventListener("keydown", (event) => event.key === "Escape" && state.view && setView(""));
  addEventListener("popstate", goBack);
  if (!history.state) history.replaceState({ page: "mensur" }, "");
  document.addEventListener("visibilitychange", () => holdScreen(state.view === "bench"));
}
