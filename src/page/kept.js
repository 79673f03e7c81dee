// SPDX-License-Identifier: GPL-3.0-or-later
// What was chosen and opened: steps back and forward, kept on the device, and as one file.
const KEPT_STATE = "mensur.state", KEPT_FILES = "mensur.files", STEPS = 200;
const past = [], future = [];
let present = null; // the latest step: what was chosen, the files open, changes of instruments not shown
let others = new Map(); // instrument -> its changes, while another one is shown
let keptFiles = null; // the files as the device has them
let keptOpen = ""; // and the panels that are open

const base64 = (bytes) => {
  let text = "";
  for (let at = 0; at < bytes.length; at += 0x8000) text += String.fromCharCode(...bytes.subarray(at, at + 0x8000));
  return btoa(text);
};
// Letter by letter: an iteration of the text would keep the page, whose engine comes so, a quarter of a second from its start.
function fromBase64(encoded) {
  const text = atob(encoded), bytes = new Uint8Array(text.length);
  for (let i = 0; i < bytes.length; i++) bytes[i] = text.charCodeAt(i);
  return bytes;
}

const packFiles = (files) => Object.fromEntries([...files].map(([table, bytes]) => [TABLES[table], base64(bytes)]));

function unpackFiles(packed) {
  const known = Object.entries(packed ?? {}).filter(([name]) => TABLES.includes(name));
  return new Map(known.map(([name, text]) => [TABLES.indexOf(name), fromBase64(text)]));
}

const packOthers = () => JSON.stringify([...others]);

function unpackOthers(text) {
  try {
    return new Map(JSON.parse(text).map(([name, changes]) => [String(name), Object.fromEntries(Object.entries(changes).map(([field, value]) => [field, String(value)]))]));
  } catch {
    return new Map();
  }
}

function store() {
  keptOpen = state.open;
  try {
    localStorage.setItem(KEPT_STATE, JSON.stringify({ fragment: toFragment(state), others: present.others }));
    if (keptFiles !== present.files) {
      if (present.files.size) localStorage.setItem(KEPT_FILES, JSON.stringify(packFiles(present.files)));
      else localStorage.removeItem(KEPT_FILES);
      keptFiles = present.files;
    }
    say($("kept-line"), "What you choose, and your files, stay in this browser on this device, until you forget them.");
  } catch { // the browser keeps nothing, or not so much
    say($("kept-line"), "This browser does not keep all of it: save everything as a file before you close the page.");
  }
}

// What the device has, {fragment, others, files}; what is damaged is left out.
function readKept() {
  const read = (key) => {
    try {
      return JSON.parse(localStorage.getItem(key)) ?? {};
    } catch {
      return {};
    }
  };
  const { fragment, others } = read(KEPT_STATE);
  let files = new Map();
  try {
    files = unpackFiles(read(KEPT_FILES));
  } catch { /* as none */ }
  return { fragment: String(fragment ?? ""), others: String(others ?? "[]"), files };
}

// A step, where something changed since the last; which panels are open is none.
function keepStep() {
  const next = { fragment: toFragment({ ...state, open: "" }), files: engine.files, others: packOthers() };
  if (present && next.fragment === present.fragment && next.files === present.files && next.others === present.others) return;
  if (present) {
    past.push(present);
    if (past.length > STEPS) past.shift();
    future.length = 0;
  }
  present = next;
  store();
  showSteps();
}

function showSteps() {
  for (const [id, steps] of [["undo", past], ["redo", future]]) $(id).setAttribute("aria-disabled", String(steps.length === 0));
}

function step(from, to) {
  keepStep();
  if (from.length === 0) return;
  to.push(present);
  present = from.pop();
  goTo({ ...present, fragment: `${present.fragment}&${new URLSearchParams({ open: state.open })}` });
  store();
  showSteps();
}

function goTo({ fragment, files, others: packed }) {
  if (files !== engine.files) openShop(files);
  others = unpackOthers(packed);
  beginFrom(fragment);
}

function forget() {
  try {
    localStorage.removeItem(KEPT_STATE);
    localStorage.removeItem(KEPT_FILES);
  } catch { /* nothing was kept */ }
  demonstration();
  others = new Map();
  begin(freshState());
  keptFiles = engine.files;
  present = { fragment: toFragment({ ...state, open: "" }), files: engine.files, others: packOthers() };
  past.length = future.length = 0;
  showSteps();
  say($("kept-line"), "Nothing of yours is kept on this device now.");
}

// Everything as one file, and back.
function keepEverything() {
  keepStep();
  save("mensur everything.json", "application/json", JSON.stringify({ mensur: "everything", fragment: toFragment(state),
    others: present.others, files: packFiles(present.files) }));
}

function everythingOf(bytes) {
  try {
    const kept = JSON.parse(new TextDecoder().decode(bytes));
    return kept?.mensur === "everything" ? { fragment: String(kept.fragment ?? ""), others: String(kept.others ?? "[]"), files: unpackFiles(kept.files) } : null;
  } catch {
    return null;
  }
}
