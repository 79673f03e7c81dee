// SPDX-License-Identifier: GPL-3.0-or-later
// The page: from what is chosen to what is shown. Every move asks the engine anew.
let state = plainState(), shop, engine, side = {}, wishes, waiting = false, told = "", tellLater;
let shownOnce = false; // figures stand on the page

// On a phone the side view is drawn with fewer figures, so that they can be read; the reaches stand below it.
const SMALL = matchMedia("screen and (max-width: 27rem)");
let small = SMALL.matches; // asked for with every move, it would be looked up anew
const partsOf = (part) => part === "side" && small ? [part, "brief"] : [part];

const DRAWN = { side: "h-side", tension: "h-tension", places: "h-fingers", bridge: "h-lengths" };

// Sections in sight or about to be, and those parts in sight that are told apart, are drawn anew with every move,
// the others when it rests.
const SECTIONS = ".first > section, .bench > section, .sheet > section", TOLD_APART = "#decision, #glance, #changes";
const inSight = new Set(), nameOf = (section) => section.getAttribute("aria-labelledby") ?? section.id;
const watch = (parts, rootMargin, seen = () => {}) => {
  const observer = new IntersectionObserver((all) => all.forEach(({ target, isIntersecting }) => {
    inSight[isIntersecting ? "add" : "delete"](nameOf(target));
    if (isIntersecting) seen(target);
  }), { rootMargin });
  document.querySelectorAll(parts).forEach((part) => observer.observe(part));
};

function watchSight() {
  watch(SECTIONS, "100px", (section) => lay(section, false));
  watch(TOLD_APART, "0px");
}

// While something is moved, the sections out of sight keep their height, and are not laid out; the verdict
// keeps at least its own, so that what is moved stays where it is on the screen.
let underWay = false;

function lay(section, aside, height) {
  section.style.contentVisibility = aside ? "hidden" : "";
  section.style.height = aside ? `${height}px` : "";
}

function setMoving(on) {
  if (underWay === on) return;
  underWay = on;
  engine.moving(on);
  const sections = [...document.querySelectorAll(SECTIONS)];
  const away = on ? sections.filter((one) => !inSight.has(nameOf(one)) && !one.contains(document.activeElement)) : sections;
  const heights = away.map((one) => one.getBoundingClientRect().height), verdict = document.querySelector(".verdict");
  verdict.style.minHeight = on ? `${verdict.offsetHeight}px` : "";
  away.forEach((one, i) => lay(one, on, heights[i]));
  document.body.classList.toggle("moving", on);
}

// A drawing of the latest answer in its place, where there is an answer; while something is moved what has
// changed of it.
function drawPart(part, answered = true) {
  const figure = $(`draw-${part}`), parts = partsOf(part);
  if (answered && underWay && figure.lines && changeDrawing(figure, engine.draw(parts, part, true))) return;
  setDrawing(figure, answered ? engine.draw(parts, part) : "");
}

// The figures and their drawings, all from one state. Throws a Refusal where there is no answer.
function showInstruments(wanted) {
  const drawn = Object.keys(DRAWN).filter((part) => wanted(DRAWN[part]) && (part !== "side" || !sideOfDecision()) && (part !== "bridge" || $("bridge-details").open));
  const view = engine.json("page_figures", askedView(state)), [first, second] = view.instruments;
  wishes.notes(first.notes);
  if (!underWay) side.a.tell((view.changed ? second : first).figures);
  say($("changes"), changesText());
  if (state.b.name) side.b.tell(second.figures);
  drawn.forEach((part) => drawPart(part));
  if (wanted("h-below")) showMarkup($("notes"), engine.tell("notes", HTML.notes));
  if (wanted("h-lengths")) {
    if (second) showMarkup($("lengths"), engine.tell("lengths", HTML.answer));
    else showAnswer(engine, $("lengths"), asked(state, "lengths"), HTML.answer);
  }
  if (wanted("h-tension")) showAnswer(engine, $("strings"), asked(state, "tension"), HTML.answer);
  if (wanted("h-fingers")) showAnswer(engine, $("fingers"), asked(state, "fingers"), HTML.answer);
  return view;
}

// While something is moved and no section of the instruments is in sight, the decision tells all that is
// to be shown. null where it does not.
function showMoved(wanted) {
  if (["h-lengths", "h-tension", "h-fingers", "h-below"].some(wanted)) return null;
  const told = showDecision(engine, state, wanted, true);
  if (!told) return null;
  if (wanted("changes") && $("changes").textContent) say($("changes"), changesText()); // a new line would move what is held
  return decidedView(told, null);
}

function showAll(wanted) {
  const view = showInstruments(wanted);
  return decidedView(showDecision(engine, state, wanted), view.instruments[1]) ?? plainView(view);
}

function showMeasures() {
  for (const key of ["a", "b"]) {
    if (!state[key].name) continue;
    const words = asked(state, "lengths", { sides: [key] }), question = words.join("\0");
    if (side[key].shown === question) continue;
    side[key].show(engine.json("page_fields", words), state[key].changes, state.unit);
    side[key].shown = question;
  }
}

function drawMeasures() {
  for (const key of ["a", "b"]) {
    const model = key === "b" && state.b.name === state.like, alone = asked(state, "lengths", { sides: [key], options: ["--output", "page.svg"] });
    if (state[key].name) side[key].draw(engine, key === "a" || model ? [askedDecision(state), alone] : [alone], model);
  }
}

// A larger shop is searched: what is listed are the names found, and those chosen.
const MOST_LISTED = 100;

function foundNames() {
  const sought = $("search").value.trim().toLowerCase(), { instruments } = shop;
  const found = sought ? instruments.filter((name) => name.toLowerCase().includes(sought)) : instruments;
  $("search-line").hidden = instruments.length <= MOST_LISTED;
  say($("search-found"), found.length > MOST_LISTED ? `${found.length} of ${instruments.length}; the first ${MOST_LISTED} are listed below.`
    : `${found.length} of ${instruments.length}, listed below.`);
  return found.slice(0, instruments.length <= MOST_LISTED ? undefined : MOST_LISTED);
}

function buildNames() {
  const found = foundNames();
  const listed = (chosen, without) => [...new Set(chosen ? [...(found.includes(chosen) ? [] : [chosen]), ...found] : found)].filter((name) => name !== without);
  fillSelect($("a-name"), listed(state.a.name), state.a.name);
  fillSelect($("b-name"), [["", "none"], ...listed(state.b.name, state.a.name)], state.b.name);
  fillSelect($("like"), [["", "no wish"], ...listed(state.like, state.a.name)], state.like);
  fillSelect($("find-like"), [["", "none: as in the file"], ...listed(state.find.like)], state.find.like);
  fillSelect($("restring-like"), [["", "its own strings"], ...listed(state.restring.like, state.a.name)], state.restring.like);
}

// Controls that follow from the shop and from which instruments are chosen.
function buildControls() {
  showOwn();
  buildNames();
  $("find-conditions").value = state.find.conditions;
  $("find-any").checked = state.find.any;
  $("scale-body").value = state.scale && shownLength(state.scale, state.unit);
  say($("scale-unit"), state.unit);
  fillSelect($("restring-from"), [["", "the whole catalogue"], ...shop.sets], state.restring.from);
  fillSelect($("player"), [["", "none"], ...shop.players], state.player);
  $("b-details").hidden = !state.b.name;
  for (const key of ["a", "b"]) {
    if (!state[key].name) continue;
    const base = engine.json("page_fields", [...asked(state, "lengths", { sides: [] }), state[key].name]);
    side[key].build(base, shop, state.unit);
  }
  say($("b-summary"), `Measurements of ${isolated(state.b.name)}`);
  for (const key of ["unit", "force", "fifths", "steps", "hold"]) $(key).value = state[key];
  if (document.activeElement !== $("a4")) $("a4").value = state.a4;
  $(`decide-${state.decide}`).checked = true;
  for (const key of ["impedance", "any", "order"]) $(`restring-${key}`).checked = state.restring[key];
  for (const key of ["material", "profile", "margin", "packets"]) $(`restring-${key}`).value = state.restring[key];
  $("restring-belly").value = state.restring.belly && shownForce(state.restring.belly, state.force);
  say($("restring-belly-unit"), state.force);
  say($("shop-line"), shop.shop === "demonstration" ? "From the demonstration, invented; open your own files below."
    : "From your own files; what they leave out comes from the demonstration.");
}

// What may wait until a slider rests: it is asked seldom, or takes longer than a frame.
function showSlow() {
  showRestring(engine, state);
  showReach(engine, state);
  showFind(engine, state);
  showMap(engine, state);
  showScale(engine, state);
  drawMeasures();
  for (const details of document.querySelectorAll("details.working[open]")) showWorking(engine, state, details);
  showWhole();
}

function showWhole() {
  const { text } = wholeAnswer(engine, state);
  say($("whole"), text);
}

// A message instead of figures; those on the page are then of the last that had an answer.
function refuse(why) {
  const box = $("refusal");
  if (!why && box.hidden) return;
  if (box.hidden === Boolean(why)) box.hidden = !why; // set, it is styled anew
  document.querySelector("main").classList.toggle("stale", Boolean(why));
  say(box, why ? `${pageWords(why)}${shownOnce ? "\nThe figures below are the last that had an answer." : ""}` : "");
}

// Draws anew, and says what is wrong (or null): all of it, or what is in sight; while something is moved the side view
// alone, until it is time that the words follow.
function redraw(wanted = () => true, moving = false) {
  waiting = false;
  atRest(null);
  if (!moving) decisionHead = null;
  if (moving && underWay && drawMoved(wanted)) followLater(() => drawAll(wanted, true));
  else {
    const wrong = drawAll(wanted, moving);
    if (wrong !== null) return wrong;
  }
  atRest(() => rest(wanted));
  return null;
}

// Draws what is wanted, words too, and says what is wrong (or null).
function drawAll(wanted, moving) {
  followers.show = null;
  setMoving(moving);
  try {
    const follows = moving && !$("a-rest").open; // what is moved then stands among the answer's figures
    if (!moving || (!follows && wanted("h-measures"))) showMeasures();
    const view = (moving && showMoved(wanted)) || showAll(wanted), { figures } = presentOf(view);
    if (wanted("h-side")) {
      if (!moving || wanted("glance")) showGlance(view);
      placeHandles(view);
    }
    if (moving && wanted("h-measures")) {
      side.a.tell(figures);
      if (follows) side.a.follow(figures, state.a.changes, state.unit);
    }
    if (!moving) wishes.show();
    if (!moving) showPanels();
    if (!moving || state.door) showDoor();
    if (!moving || state.view) showView();
    refuse("");
  } catch (refusal) {
    if (!(refusal instanceof Refusal)) return fail(refusal);
    refuse(refusal.message);
    if (!moving) showChosen();
    atRest(keepChoice);
    return refusal.message;
  }
  shownOnce = true;
  return null;
}

// While something is moved, the side view follows with every frame; the verdict, figures, fields and handles, which
// are read, eight times a second. show: what is to come next, null at rest.
const FOLLOW = 125; // ms
const followers = { show: null, timer: null };

function followLater(show) {
  followers.show = show;
  followers.timer ??= setTimeout(() => {
    followers.timer = null;
    followers.show?.();
  }, FOLLOW);
}

// false where more than the side view is drawn from what is moved.
function drawMoved(wanted) {
  if (state.view || wanted("h-why") || !sideOfDecision()) return false;
  if (!wanted("h-side")) return true;
  const { status } = engine.ask(askedDecision(state, ["--format", "html"]), "decision", HTML.nothing);
  if (status <= 1) drawPart("side");
  return status <= 1;
}

// What is done once it has rested for a quarter of a second (null: nothing): the latest of what was asked for. One
// timer waits for it, whatever moves meanwhile.
const REST = 250; // ms
const resting = { then: null, from: 0, timer: null };

function atRest(then) {
  resting.then = then;
  if (!then) return;
  resting.from = performance.now();
  resting.timer ??= setTimeout(tryRest, REST);
}

function tryRest() {
  const { then } = resting, left = REST - (performance.now() - resting.from);
  resting.timer = then && left > 0 ? setTimeout(tryRest, left) : null;
  if (resting.timer || !then) return;
  resting.then = null;
  then();
}

// Nothing comes to rest under a pointer that holds it: what would then be told moves the page.
function rest(wanted) {
  if (following) return atRest(() => rest(wanted));
  if (!wanted("all")) redraw();
  atRest(null);
  keepChoice();
  showSlow();
  tell();
}

const isSeen = (section) => inSight.has(section) && !isFolded(section);

// moving: more of the same may follow at once; alone: measurements of the first instrument, and nothing else.
function soon(moving, alone = false) {
  if (!alone) decisionHead = null;
  if (waiting) return;
  waiting = true;
  requestAnimationFrame(() => redraw(isSeen, moving));
}

function keepChoice() {
  keepAddress();
  keepStep();
  if (keptOpen !== state.open) store();
}

// The fragment carries the state; the page's own writing of it brings back nothing. What stands in the address but is
// not known is a link that a hashchange is about to bring: it is not written over.
let knownHash = "";

function keepAddress() {
  if (location.hash !== knownHash) return;
  const text = toFragment(state);
  if (knownHash.slice(1) !== text) history.replaceState(history.state ?? { page: "mensur" }, "", `#${text}`);
  knownHash = location.hash;
}

// Whoever listens hears the decision once it has come to rest.
function tell() {
  clearTimeout(tellLater);
  tellLater = setTimeout(() => {
    const text = heardText(heardVerdict());
    if (text !== told) say($("heard"), text);
    told = text;
  }, 500);
}

// A measurement, a set or a tuning changed; field null: all of them back; read: the text of a slider under
// way, which need not be tried. Says what cannot be read.
function changed(key, field, text, read = false) {
  if (field === null) state[key].changes = {};
  else if (text === null) delete state[key].changes[field];
  else if (!read) {
    const tried = [state[key].name, `${field}=${text}`];
    const { status, text: why } = engine.call("page_fields", [...asked(state, "lengths", { sides: [] }), ...tried]);
    if (status === 2) return why;
  }
  if (field !== null && text !== null) state[key].changes[field] = text;
  soon(read, read && key === "a");
  return null;
}

function choose(key, name) {
  for (const one of ["a", "b"]) if (state[one].name) others.set(state[one].name, state[one].changes);
  state[key] = { name, changes: { ...others.get(name) } };
  if (state.b.name === state.a.name) state.b = { name: "", changes: {} };
  if (state.like === state.a.name) state.like = "";
  for (const [one, changes] of others) if (!Object.keys(changes).length) others.delete(one);
  buildControls();
  redraw();
}

// What is not in this shop is left out of a state that came from elsewhere; says what it was.
function settle(next) {
  const missing = [];
  for (const key of ["a", "b"]) {
    if (next[key].name && !shop.instruments.includes(next[key].name)) {
      missing.push(next[key].name);
      next[key] = { name: "", changes: {} };
    }
  }
  if (!next.a.name) {
    const demonstration = shop.shop === "demonstration" && !missing.length;
    next.a.name = demonstration ? "kestrel" : shop.instruments[0];
    if (demonstration && !next.b.name) next.b.name = next.like = "heron"; // else the wish is the user's alone
    else if (next.b.name === next.a.name) next.b = { name: "", changes: {} };
  }
  for (const [choices, key, names] of [[next, "like", shop.instruments], [next, "player", shop.players],
    [next.restring, "like", shop.instruments], [next.restring, "from", shop.sets], [next.find, "like", shop.instruments]]) {
    if (!choices[key] || names.includes(choices[key])) continue;
    missing.push(choices[key]);
    choices[key] = "";
  }
  state = next;
  return [...new Set(missing)];
}

// As at the beginning, with the panels that are open.
const freshState = () => ({ ...plainState(), open: state.open });

function begin(next) {
  const missing = settle(next);
  buildControls();
  redraw();
  if (missing.length) refuse(`Not in this shop: ${missing.map(isolated).join(", ")}. Open the files that it came from.`);
}

// Begins with what a link says; what of it cannot be read is dropped and named.
function beginFrom(fragment) {
  const dropped = [], next = fromFragment(fragment, dropped);
  const brought = takeCarried(next, dropped), missing = settle(next);
  mend(state, dropped);
  buildControls();
  redraw();
  const said = [...brought, ...(missing.length ? [`Not in this shop: ${missing.map(isolated).join(", ")}. Open the files that it came from.`] : []),
    ...(dropped.length ? [`The link was damaged. Left out, because it cannot be read: ${dropped.map(visible).join("; ")}.`] : [])];
  say($("link-notice"), said.join("\n"));
  $("link-notice").hidden = !said.length;
}

// A fragment without a choice in it, as of a link within the page, changes nothing.
function followLink() {
  const fragment = location.hash.slice(1);
  knownHash = location.hash;
  if (fragment === toFragment(state)) return;
  if (!/[=]/.test(fragment) && fragment) return keepAddress();
  beginFrom(fragment);
}

// Asks for each choice in turn whether the program can read it, and takes back those that it cannot.
function mend(next, dropped) {
  const usual = plainState();
  const readable = (words) => engine.ask(words).status !== 2;
  const lone = (more = {}) => ({ ...usual, a: { name: next.a.name, changes: {} }, ...more });
  const entries = (key, store, test) => Object.entries(store).forEach(([name, value]) => {
    if (value && test(name, value)) return;
    if (value) dropped.push(`${key}${name}=${value}`);
    delete store[name];
  });
  for (const [key, values] of Object.entries(CHOICES)) {
    if (values.includes(next[key])) continue;
    dropped.push(`${key}=${next[key]}`);
    next[key] = usual[key];
  }
  const strange = strangePanels(next.open);
  if (strange.length) {
    dropped.push(`open=${strange.join(" ")}`);
    next.open = next.open.split(" ").filter((one) => !strange.includes(one)).join(" ");
  }
  if (!readable(asked(lone({ a4: next.a4 }), "lengths", { sides: ["a"] }))) {
    dropped.push(`a4=${next.a4}`);
    next.a4 = usual.a4;
  }
  for (const side of ["a", "b"]) {
    entries(`${side}.`, next[side].changes, (field, value) => next[side].name
      && engine.call("page_fields", [...asked(usual, "lengths", { sides: [] }), next[side].name, `${field}=${value}`]).status !== 2);
  }
  const wished = (more) => readable(askedDecision(lone(more)));
  entries("wish.", next.wishes, (about, range) => shop.wishes.some((one) => one.about === about) && wished({ wishes: { [about]: range } }));
  entries("tension.", next.tensions, (note, range) => wished({ like: next.like, tensions: { [note]: range } }));
  const { restring } = next;
  for (const [key, words] of [["find.conditions", findWords], ["scale", scaleWords]]) {
    const tried = lone({ scale: next.scale, find: { ...usual.find, conditions: next.find.conditions } });
    const value = key === "scale" ? next.scale : next.find.conditions;
    if (!value || readable(words(tried))) continue;
    dropped.push(`${key}=${value}`);
    if (key === "scale") next.scale = "";
    else next.find.conditions = "";
  }
  for (const key of ["material", "profile", "margin", "belly", "packets"]) {
    const tried = lone({ restring: { ...usual.restring, [key]: restring[key] } });
    if (!restring[key] || readable(asked(tried, "restring", { sides: ["a"], options: restringWords(tried) }))) continue;
    dropped.push(`restring.${key}=${restring[key]}`);
    restring[key] = usual.restring[key];
  }
}

async function open(list) {
  const { files, unknown, names, everything } = await readFiles(list, engine);
  if (everything) {
    keepStep();
    const wrong = openShop(everything.files);
    showRead(wrong ? { status: 3, errors: [wrong], warnings: [] } : { ...shop, read: true }, []);
    if (!wrong) goTo({ ...everything, files: engine.files });
    return;
  }
  if (unknown.length === list.length) return showRead({ status: 2, errors: [], warnings: [] }, unknown);
  keepStep();
  const answer = engine.open(files);
  showRead({ ...answer, errors: answer.errors.map((line) => inOwnName(line, names)), warnings: answer.warnings.map((line) => inOwnName(line, names)), read: true }, unknown);
  if (answer.status === 0) {
    shop = answer;
    $("search").value = "";
    others = new Map();
    showTables(shop, keepTable);
    begin(withHabits(freshState(), shop.settings));
  }
}

// Opens the demonstration with these files in place of its own; what is wrong with them, or null.
function openShop(files) {
  const answer = engine.open(files);
  if (answer.status !== 0) return answer.errors.join("\n") || "The files cannot be read.";
  shop = answer;
  showTables(shop, keepTable);
  return null;
}

function demonstration() {
  openShop(new Map());
  showRead(shop, []);
}

function keepTable(table) {
  const own = engine.files.get(table);
  const text = TABLES[table] === "instruments.csv" ? engine.call("page_save", [...asked(plainState(), "lengths", { sides: [] }), ...changedWords()]).text
    : own ?? engine.table(table);
  save(TABLES[table], "text/csv;charset=utf-8", text);
}

function fail(error) {
  $("failure").hidden = false;
  say($("failure"), `The page has failed (${error.message}). Load it again; if it fails again, open it without what stands behind # in its address.`);
  console.error(error);
  return error.message;
}
