// SPDX-License-Identifier: GPL-3.0-or-later
// Where the page is one column, what stands below the side view is in panels, of which one is open at a time. One
// that is closed takes a line, which says what is chosen in it, and a search in the page looks into it. Opening one
// closes the others, but those that are held open. state.open names the open ones, with ".held" behind those that are
// held. Where the page is two columns they are sections, all open.
const NARROW = matchMedia("screen and (max-width: 59.99rem)");
const PANELS = ["why", "choose", "measures", "wishes", "terms", "lengths", "tension", "fingers", "restring", "reach", "find", "map", "scale", "below", "whole", "files"];
const panels = new Map(); // name -> its section, heading and what stands under it

function openPanels(open = state.open) {
  return new Map(open.split(" ").filter(Boolean).map((one) => one.split(".")).map(([name, held]) => [name, held === "held"]));
}

const panelWords = (open) => [...open].map(([name, held]) => held ? `${name}.held` : name).join(" ");

// Of such words those that name no panel.
const strangePanels = (open) => open.split(" ").filter((one) => one && !(PANELS.includes(one.split(".")[0]) && /^\w+(?:\.held)?$/.test(one)));

// Whether a section, by the id of its heading, is a panel that is closed.
const isFolded = (id) => panels.get(id.slice(2))?.body.hidden ?? false;

function openPanel(name) {
  const open = openPanels();
  if (open.has(name)) return;
  state.open = panelWords([...[...open].filter(([, held]) => held), [name, false]]);
  showPanels();
}

// Opens the panel in which an element stands.
function reveal(element) {
  for (const [name, { section }] of panels) if (section.contains(element)) openPanel(name);
}

function showPanels() {
  const open = openPanels(), narrow = NARROW.matches;
  for (const [name, { section, heading, title, head, hold, body }] of panels) {
    const closed = narrow && !open.has(name);
    section.classList.toggle("panel", narrow);
    if ((head.parentElement === heading) !== narrow) heading.replaceChildren(narrow ? head : title);
    setTo(head, "aria-expanded", String(!closed));
    hold.hidden = !narrow || closed;
    setTo(hold, "aria-pressed", String(open.get(name) ?? false));
    if (closed && !body.hidden) body.setAttribute("hidden", "until-found");
    else if (!closed) body.removeAttribute("hidden");
  }
  if (!shop) return;
  showChosen();
  drawMeasures(); // as wide as its panel
}

// What is chosen in those that are closed.
function showChosen() {
  if (!NARROW.matches) return;
  for (const [name, { chosen, body }] of panels) if (body.hidden) say(chosen, chosenWords(name));
}

// The line that was pressed stays where it is on the screen.
function pressPanel(name) {
  const { head, section } = panels.get(name), open = openPanels(), { top } = head.getBoundingClientRect();
  if (open.delete(name)) {
    state.open = panelWords(open);
    showPanels();
  } else {
    openPanel(name);
    const folded = section.querySelector("#map-details");
    if (folded) folded.open = true; // there is nothing else in it
  }
  scrollBy({ top: head.getBoundingClientRect().top - top, behavior: "instant" });
  keepChoice();
}

function pressHold(name) {
  const open = openPanels();
  state.open = panelWords(open.set(name, !open.get(name)));
  showPanels();
  keepChoice();
}

// On a phone the steps back and forward stand at the verdict.
function layNarrow() {
  const row = $("undo-row");
  if (NARROW.matches) $("verdict-steps").append(...row.children);
  else row.append($("undo"), $("redo"));
  if (NARROW.matches) reveal(document.activeElement);
  showPanels();
}

function connectPanels() {
  for (const name of PANELS) {
    const heading = $(`h-${name}`), section = heading.closest("section"), title = heading.textContent;
    const body = make("div", { class: "panel-body", id: `panel-${name}` }), rest = [...section.childNodes].filter((node) => node !== heading);
    const chosen = make("span", { class: "chosen" });
    const head = make("button", { type: "button", class: "panel-head", "aria-controls": body.id }, make("span", {}, title), " ", chosen);
    const hold = make("button", { type: "button", class: "plain hold", "aria-label": `Hold open: ${title}`, hidden: true }, "Hold open");
    body.append(...rest);
    section.append(hold, body);
    head.addEventListener("click", () => pressPanel(name));
    hold.addEventListener("click", () => pressHold(name));
    body.addEventListener("beforematch", () => {
      openPanel(name);
      keepChoice();
    });
    panels.set(name, { section, heading, title, head, chosen, hold, body });
  }
  NARROW.addEventListener("change", layNarrow);
  layNarrow();
}
