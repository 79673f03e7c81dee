// SPDX-License-Identifier: GPL-3.0-or-later
// Three beginnings. Each sets the demonstration up for its question, answers that question at the verdict
// and puts its sections first; files of the user's own stay as they are. says: of the instruments chosen;
// alarms: what the answer's own warnings leave out.
const DOORS = {
  neck: { sections: ["h-side"], set: { like: "heron" },
    says: (first) => `what ${state.decide} ${first} needs${state.like ? ` for a string as long as on ${isolated(state.like)}` : ""}. Drag the nut or the bridge in the side view.` },
  strings: { sections: ["h-restring", "h-tension"], set: { restring: { like: "heron" } }, bar: "strings",
    words: () => asked(state, "restring", { sides: ["a"], options: restringWords(state) }), alarms: () => [],
    says: (first) => `strings for ${first}${state.restring.like ? ` that feel as those on ${isolated(state.restring.like)}` : ""}. Choose others below.` },
  fingers: { sections: ["h-fingers"], set: {}, bar: "fingers", first: fingersSaid, words: () => asked(state, state.b.name ? "compare" : "fingers"),
    alarms: () => alarmsOfStrings(engine, state, {}),
    says: (first) => `where the fingers stand on ${first}${state.b.name ? ` and on ${isolated(state.b.name)}` : ""}. The places stand below.` },
};
const placed = new Map(); // a section that was moved -> the mark where it stood

const sectionOf = (heading) => $(heading).closest("section");

// The door's sections follow it; those of another go back.
function placeSections() {
  const wanted = (DOORS[state.door]?.sections ?? []).map(sectionOf);
  if (wanted.every((section) => placed.has(section)) && placed.size === wanted.length) return;
  for (const [section, mark] of placed) mark.replaceWith(section);
  placed.clear();
  for (const section of wanted) {
    const mark = document.createComment("");
    section.replaceWith(mark);
    placed.set(section, mark);
  }
  $("doors").after(...wanted);
}

// Whether a door with a question of its own is open: its answer stands at the verdict.
const doorAsks = () => Boolean(DOORS[state.door]?.words);

// Answers the door's own question first; the decision on the neck stands below it.
function showDoor() {
  const door = DOORS[state.door], box = $("door-answer");
  placeSections();
  document.documentElement.dataset.door = state.door;
  for (const button of document.querySelectorAll("[data-door-to]")) setTo(button, "aria-pressed", String(button.dataset.doorTo === state.door));
  $("door-next").hidden = !door;
  say($("door-says"), door && shop.shop === "demonstration" ? `The demonstration: ${door.says(isolated(state.a.name))}` : "");
  box.hidden = !doorAsks();
  if (box.hidden) {
    if (box.told) $("decision").told = null; // the bar is the decision's again
    box.told = null;
    return;
  }
  const words = door.words(), { status, text } = engine.ask([words[0], "--format", "html", ...words.slice(1)], "door-answer", HTML.answer);
  const head = status > 1 ? make("p", {}, pageWords(text)).outerHTML : (door.first?.(text) ?? "") + splitDecision(text)[0];
  if (box.told !== head) {
    box.told = head;
    box.replaceChildren(...new DOMParser().parseFromString(head, "text/html").body.childNodes);
    box.figure = enlarge(box.firstElementChild, DOOR_FIGURE);
  }
  showAlarms(box, status <= 1 ? alarmsOf(engine.tell("alarms", HTML.notes, false)) : [], door.alarms());
  say($("bar-number"), box.figure || "?");
  say($("bar-says"), door.bar);
}

// The figure of a door's answer: the tension in all, or by how much the fingers are wider.
const DOOR_FIGURE = /\d+(?:\.\d+)?[\u00a0 ](?:kg|N|lb|%)(?![a-z])/;

// Of two instruments side by side, what is said of the fingers.
function fingersSaid(html) {
  const item = [...new DOMParser().parseFromString(html, "text/html").querySelectorAll("li")].find((one) => /fingers/.test(one.textContent));
  return item ? `<p>${item.innerHTML}</p>` : "";
}

// The verdict of what was asked, as it is heard.
const heardVerdict = () => ($("door-answer").hidden ? $("decision") : $("door-answer")).firstElementChild;

// The panel that it opens; "" where what it leads to is always open.
function panelOf(name) {
  const panel = DOORS[name]?.sections[0].slice(2);
  return PANELS.includes(panel) ? panel : "";
}

function openDoor(name) {
  keepStep();
  if (name && shop.shop === "demonstration") {
    const { unit, force, a4, fifths, steps, hold, player, view } = state, usual = plainState(), { set } = DOORS[name];
    const side = (name) => ({ name, changes: {} });
    begin({ ...usual, unit, force, a4, fifths, steps, hold, player, view, a: side("kestrel"), b: side("heron"), ...set,
      restring: { ...usual.restring, ...set.restring }, door: name, open: panelOf(name) });
  } else {
    state.door = name;
    if (panelOf(name)) openPanel(panelOf(name));
    redraw();
  }
  newEntry();
  if (name) {
    const heading = $(DOORS[name].sections[0]);
    heading.tabIndex = -1;
    heading.focus({ preventScroll: true });
    $("doors").scrollIntoView({ block: "nearest" });
  }
}

function connectDoors() {
  for (const button of document.querySelectorAll("[data-door-to]")) {
    button.addEventListener("click", () => openDoor(button.dataset.doorTo === state.door ? "" : button.dataset.doorTo));
  }
  $("door-own").addEventListener("click", () => {
    reveal($("own"));
    $("own").open = true;
    $("own-name").focus();
    $("own").scrollIntoView({ block: "nearest" });
  });
}
