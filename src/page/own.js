// SPDX-License-Identifier: GPL-3.0-or-later
// The shop's instruments: made from three numbers, copied, renamed, removed. Each makes a new
// instruments.csv, which the engine reads as it reads any other.
const INSTRUMENTS = 0; // its place among TABLES

// Rows of cells, as the engine writes them.
function readRows(text) {
  const rows = [[]];
  for (const [, quoted, plain, end] of text.matchAll(/(?:"((?:[^"]|"")*)"|([^,\r\n"]*))(,|\r\n|$)/g)) {
    rows.at(-1).push(quoted === undefined ? plain : quoted.replaceAll('""', '"'));
    if (end === "\r\n") rows.push([]);
  }
  return rows.filter((row) => row.length > 1);
}

const cellText = (cell) => /[,;\t"\r\n]|^ /.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
const rowsText = (rows) => rows.map((row) => `${row.map(cellText).join(",")}\r\n`).join("");

// Opens the shop with these rows; what is wrong with them, or null.
function openRows(rows) {
  const files = new Map(engine.files);
  files.set(INSTRUMENTS, engine.encoder.encode(rowsText(rows)));
  return openShop(files);
}

// Every instrument as it stands, those that were changed with their changes where they are wanted.
const savedRows = (words) => readRows(engine.call("page_save", asked(plainState(), "lengths", { sides: [] }).concat(words)).text);

function changedWords() {
  const all = new Map(others);
  for (const key of ["a", "b"]) if (state[key].name) all.set(state[key].name, state[key].changes);
  return [...all].filter(([name, changes]) => shop.instruments.includes(name) && Object.keys(changes).length)
    .flatMap(([name, changes]) => [name, ...changesOf({ changes })]);
}

// The name typed; where none is, the usual one, numbered where it is taken.
function ownName(usual) {
  let name = $("own-name").value.trim();
  if (!name && !usual) return [null, "Give it a name."];
  for (let i = 1; !name; i++) {
    const tried = i > 1 ? `${usual} ${i}` : usual;
    if (!shop.instruments.includes(tried)) name = tried;
  }
  if (shop.instruments.includes(name)) return [null, `${isolated(name)} is in the shop already: give it another name.`];
  return [name, null];
}

const familyOf = (name) => engine.json("page_fields", [...asked(plainState(), "lengths", { sides: [] }), name]).family;

// The rows with one instrument more, less or of another name; then the page shows name.
function changeShop(rows, name) {
  const wrong = openRows(rows);
  if (wrong) return wrong;
  const next = { ...state, a: { name, changes: others.get(name) ?? {} } };
  if (next.b.name === name) next.b = { name: "", changes: {} };
  begin(next);
  keepStep();
  return null;
}

const OWN = {
  make() {
    const [name, wrong] = ownName(`my ${$("own-family").value}`);
    if (wrong) return wrong;
    const [head] = savedRows([]), rows = savedRows([]);
    const given = { name, family: $("own-family").value, body: keptLength($("own-body").value, state.unit),
      stop: keptLength($("own-stop").value, state.unit), neck: keptLength($("own-neck").value, state.unit) };
    const missing = ["stop", "neck"].filter((field) => !given[field]);
    if (missing.length) return `Give its ${missing.join(" and its ")}.`;
    leave();
    if (state.like && familyOf(state.like) !== given.family) state.like = ""; // a string of another family's is no wish
    return changeShop([...rows, head.map((column) => given[column] ?? "")], name);
  },
  copy() {
    const [name, wrong] = ownName(`${state.a.name}, copy`);
    if (wrong) return wrong;
    const source = state.a.name, row = savedRows([source, ...changesOf(state.a)]).find(([one]) => one === source);
    leave();
    return changeShop([...savedRows([]), [name, ...row.slice(1)]], name);
  },
  rename() {
    const [name, wrong] = ownName();
    if (wrong) return wrong;
    const before = state.a.name;
    others.set(name, state.a.changes);
    others.delete(before);
    for (const at of ["like"]) if (state[at] === before) state[at] = name;
    if (state.restring.like === before) state.restring.like = name;
    return changeShop(savedRows([]).map((row) => row[0] === before ? [name, ...row.slice(1)] : row), name);
  },
  remove() {
    const gone = state.a.name, left = shop.instruments.filter((name) => name !== gone);
    if (!left.length) return "It is the only instrument of the shop: make another before it is removed.";
    if (state.like === gone) state.like = "";
    others.delete(gone);
    return changeShop(savedRows([]).filter(([name]) => name !== gone), state.b.name || left[0]);
  },
};

// The changes of the instrument that is left for another.
function leave() {
  if (Object.keys(state.a.changes).length) others.set(state.a.name, state.a.changes);
}

function showOwn() {
  fillSelect($("own-family"), shop.families, $("own-family").value || (shop.families.includes("viola") ? "viola" : shop.families[0]));
  for (const [id, verb] of [["copy", "Copy"], ["rename", "Rename"], ["remove", "Remove"]]) say($(`own-${id}`), `${verb} ${isolated(state.a.name)}`);
  for (const one of document.querySelectorAll(".own-unit")) say(one, state.unit);
}

function connectOwn() {
  for (const [id, act] of Object.entries(OWN)) {
    $(`own-${id}`).addEventListener("click", () => {
      const wrong = act();
      say($("own-wrong"), pageWords(wrong ?? ""));
      if (wrong) return;
      $("own-name").value = "";
      $("results").focus();
      $("results").scrollIntoView();
    });
  }
}
