// SPDX-License-Identifier: GPL-3.0-or-later
// What the controls do.
function keep(what) {
  const parts = { side: ["side", "bridge"], places: ["places"], tension: ["tension"], wishes: ["wishes", "side", "places", "tension"] }[what];
  const name = [state.a.name, state.b.name].filter(Boolean).join(" and ").replace(/[^\p{L}\p{N} -]/gu, "_");
  if (what === "print") return window.print();
  if (what === "dossier") return keepDossier(name);
  if (what === "template" || what === "sheet" || what === "map") return keepFile(what, name);
  const { status, text } = engine.ask(what === "wishes" ? askedDecision(state) : askedView(state));
  if (status > 1) return refuse(text);
  save(`${name} ${what}.svg`, "image/svg+xml", engine.draw(parts));
}

function keepDossier(name) {
  const { status, text } = engine.ask(asked(state, "dossier",
    { options: ["--output", "dossier.html", ...wishWords(state)] }));
  if (status > 1) return refuse(text);
  save(`${name} dossier.html`, "text/html;charset=utf-8", text);
}

// What the program writes as a drawing of its own: at true size, or the map.
function keepFile(what, name) {
  const words = what === "map" ? mapWords(state) : asked(state, what, { sides: what === "template" ? ["a"] : ["a", "b"] });
  const { status, text } = engine.ask([what, "--output", `${what}.svg`, ...words.slice(1)]);
  if (status > 1) return refuse(text);
  save(`${name} ${what}.svg`, "image/svg+xml", text);
}

function keepWhole() {
  const { text, command, format } = wholeAnswer(engine, state);
  const [type, ending] = { text: ["text/plain", "txt"], csv: ["text/csv", "csv"], json: ["application/json", "json"] }[format];
  save(`mensur ${command}.${ending}`, `${type};charset=utf-8`, text);
}

function onDrop(event) {
  event.preventDefault();
  document.body.classList.remove("dropping");
  if (event.dataTransfer?.files.length) open(event.dataTransfer.files).catch(fail);
}

function setTerm(key, value) {
  state[key] = value;
  if (key === "unit" || key === "force") buildControls();
  redraw();
}

function setA4() {
  const before = state.a4;
  state.a4 = asNumber($("a4").value) || "440";
  const wrong = redraw();
  $("a4").setAttribute("aria-invalid", wrong ? "true" : "false");
  if (wrong) state.a4 = before;
}

function take(button) {
  state.a.changes[button.dataset.place] = button.dataset.mm;
  redraw();
  $("decision").focus();
}

function connect() {
  for (const key of ["a", "b"]) $(`${key}-name`).addEventListener("change", (event) => choose(key, event.target.value));
  for (const key of ["unit", "force", "fifths", "steps", "hold", "like", "player"]) {
    $(key).addEventListener("change", (event) => setTerm(key, event.target.value));
  }
  for (const place of ["neck", "stop"]) $(`decide-${place}`).addEventListener("change", () => setTerm("decide", place));
  for (const key of ["like", "from", "material", "profile"]) {
    $(`restring-${key}`).addEventListener("change", (event) => { state.restring[key] = event.target.value; redraw(); });
  }
  for (const key of ["impedance", "any", "order"]) {
    $(`restring-${key}`).addEventListener("change", (event) => { state.restring[key] = event.target.checked; redraw(); });
  }
  const asTyped = (text) => text.trim();
  for (const [key, kept] of [["margin", asNumber], ["belly", (text) => keptForce(text, state.force)], ["packets", asTyped]]) {
    $(`restring-${key}`).addEventListener("change", (event) => { state.restring[key] = kept(event.target.value); redraw(); });
  }
  $("a4").addEventListener("change", setA4);
  $("find-like").addEventListener("change", (event) => { state.find.like = event.target.value; redraw(); });
  $("find-conditions").addEventListener("change", (event) => { state.find.conditions = event.target.value.trim(); redraw(); });
  $("find-any").addEventListener("change", (event) => { state.find.any = event.target.checked; redraw(); });
  $("scale-body").addEventListener("change", (event) => { state.scale = keptLength(event.target.value, state.unit); redraw(); });
  $("map-details").addEventListener("toggle", () => showMap(engine, state));
  $("wish-none").addEventListener("click", () => {
    Object.assign(state, { like: "", wishes: {}, tensions: {} });
    buildControls();
    redraw();
  });
  $("take").addEventListener("click", (event) => take(event.currentTarget));
  for (const id of ["whole-command", "whole-format", "whole-full", "whole-working"]) $(id).addEventListener("change", showWhole);
  $("whole-save").addEventListener("click", keepWhole);
  $("bridge-details").addEventListener("toggle", () => redraw());
  new IntersectionObserver(([{ isIntersecting, boundingClientRect }]) =>
    $("bar").classList.toggle("on", !isIntersecting && boundingClientRect.bottom < 0)).observe($("decision"));
  watchSight();
  SMALL.addEventListener("change", () => {
    small = SMALL.matches;
    soon(false);
  });
  for (const details of document.querySelectorAll("details.working")) {
    details.addEventListener("toggle", () => details.open && showWorking(engine, state, details));
  }
  for (const button of document.querySelectorAll("[data-keep]")) button.addEventListener("click", () => keep(button.dataset.keep));
  $("open").addEventListener("change", (event) => open(event.target.files).catch(fail));
  $("demonstration").addEventListener("click", () => {
    keepStep();
    demonstration();
    others = new Map();
    begin(freshState());
    showRead({ ...shop, status: 2 }, [], "The demonstration is open. Undo brings back what was open before.");
  });
  $("undo").addEventListener("click", () => step(past, future));
  $("redo").addEventListener("click", () => step(future, past));
  $("forget").addEventListener("click", forget);
  $("keep-everything").addEventListener("click", keepEverything);
  $("read-close").addEventListener("click", () => { $("read-box").hidden = true; });
  addEventListener("pagehide", keepStep);
  connectPanels();
  addEventListener("resize", drawMeasures);
  connectOwn();
  connectHandles();
  connectDoors();
  connectViews();
  addEventListener("beforeprint", fillPaper);
  $("search").addEventListener("input", buildNames);
  addEventListener("dragover", (event) => { event.preventDefault(); document.body.classList.add("dropping"); });
  addEventListener("dragleave", (event) => event.relatedTarget || document.body.classList.remove("dropping"));
  addEventListener("drop", onDrop);
  addEventListener("hashchange", followLink);
  addEventListener("focusin", ({ target }) => target.matches("input[type=text]") && target.scrollIntoView({ block: "nearest" })); // WebKit does not
  document.querySelector(".skip").addEventListener("click", (event) => { event.preventDefault(); $("results").focus(); $("results").scrollIntoView(); });
}

async function startPage() {
  engine = new Engine(fromBase64($("engine").textContent.trim()));
  await engine.start();
  side = { a: new Measures("a", $("a-measures"), changed), b: new Measures("b", $("b-measures"), changed) };
  fillSelect($("whole-command"), WHOLE, "lengths");
  connect();
  openShop(new Map());
  wishes = new Wishes(shop.wishes, () => state, () => redraw() ?? decisionFault());
  rememberDemonstration();
  const kept = readKept(), fragment = location.hash.slice(1);
  knownHash = location.hash;
  if (kept.files.size && openShop(kept.files) !== null) demonstration();
  else keptFiles = engine.files;
  others = unpackOthers(kept.others);
  beginFrom(fragment.includes("=") ? fragment : kept.fragment);
  say($("version"), `${engine.ask(["--version"]).text.trim()}, GPL-3.0-or-later. It computes on your device, and asks no other.`);
  document.documentElement.dataset.ready = "yes";
}

// Why the wishes cannot be read; null where they can.
function decisionFault() {
  const { status, text } = engine.ask(askedDecision(state));
  return status === 2 && wishWords(state).length ? text : null;
}

startPage().catch(fail);
