// SPDX-License-Identifier: GPL-3.0-or-later
// Own instruments in the address: their rows of instruments.csv, with the cells that are not empty, which the
// engine reads as it reads the file.
const MOST_CARRIED = 1500, MOST_OF_THEM = 5; // characters of one, and how many in an address
const CARRIED_NAMES = { strings: "sets", tuning: "tunings", family: "families" }; // what a cell names in the shop
let carriedRows = { shop: null, rows: new Map() }, demonstrationRows = new Map();

// Head and row of an instrument of the open shop without its empty cells.
function rowOf(name) {
  const { status, text } = engine.call("page_rows", [...asked(plainState(), "lengths", { sides: [] }), name]);
  const [head, row] = status === 0 ? readRows(text) : [];
  if (!row) return "";
  const filled = row.map((cell, i) => [head[i], cell]).filter(([column, cell]) => cell !== "" && !(column === "built" && cell === "no"));
  return [0, 1].map((i) => filled.map((pair) => cellText(pair[i])).join(",")).join("\n");
}

const isOwn = () => !shop.tables[INSTRUMENTS].built_in;

// The row of an own instrument as the address has it; empty of one of the demonstration, and of one too long.
function carriedOf(name) {
  if (!isOwn() || !shop.instruments.includes(name)) return "";
  if (carriedRows.shop !== shop) carriedRows = { shop, rows: new Map() };
  if (!carriedRows.rows.has(name)) {
    const row = rowOf(name);
    carriedRows.rows.set(name, row === demonstrationRows.get(name) || row.length > MOST_CARRIED ? "" : row);
  }
  return carriedRows.rows.get(name);
}

const namesIn = (state) => [...new Set([state.a.name, state.b.name, state.like, state.restring.like, state.find.like].filter(Boolean))];
const carriedIn = (state) => shop && engine ? namesIn(state).map(carriedOf).filter(Boolean) : [];

// What is built in, so that it need not be carried. To be called while the demonstration is open.
function rememberDemonstration() {
  demonstrationRows = new Map(shop.instruments.map((name) => [name, rowOf(name)]));
}

// The name in a row of an address, the row as the engine writes it, and what of it this shop has not; or what is
// wrong with it.
function readCarried(text) {
  if (text.length > MOST_CARRIED) return { wrong: `longer than ${MOST_CARRIED} characters` };
  const rows = readRows(`${text.replace(/\r?\n/g, "\r\n")}\r\n`), [head, row] = rows;
  if (rows.length !== 2 || row.length !== head.length || !row[head.indexOf("name")]) return { wrong: "no head with one row that has a name" };
  const missing = [];
  head.forEach((column, i) => {
    const known = shop[CARRIED_NAMES[column]];
    if (!known || !row[i] || known.includes(row[i])) return;
    missing.push(`${column} ${isolated(row[i])}`);
    row[i] = "";
  });
  const before = engine.files, alone = new Map(before);
  alone.set(INSTRUMENTS, engine.encoder.encode(missing.length ? rowsText([head, row]) : text));
  const answer = engine.open(alone), read = answer.status === 0 ? savedRows([]) : null;
  shop = engine.open(before);
  return read?.length === 2 ? { name: read[1][0], row: read, missing } : { wrong: answer.errors.join("; ") || "it cannot be read" };
}

// Takes the instruments that an address carries into the shop, unless they are there; says of each what was done.
// One of the same name that is another here comes under a name of its own.
function takeCarried(next, dropped) {
  const said = [];
  for (const text of next.own.splice(0).slice(0, MOST_OF_THEM)) {
    const { wrong, name, row, missing } = readCarried(text);
    if (wrong) {
      dropped.push(`own=${text.length > 60 ? `${text.slice(0, 60)}…` : text} (${wrong})`);
      continue;
    }
    const here = shop.instruments.includes(name);
    if (here && rowOf(name) === text) continue;
    let called = name;
    for (let i = 1; shop.instruments.includes(called); i++) called = `${name}, from the link${i > 1 ? ` ${i}` : ""}`;
    const [head, ...rows] = savedRows([]), [columns, cells] = row;
    const all = [...head, ...columns.filter((column) => !head.includes(column))];
    const added = all.map((column) => column === "name" ? called : cells[columns.indexOf(column)] ?? "");
    const fault = openRows([all, ...rows.map((one) => all.map((_, i) => one[i] ?? "")), added]);
    if (fault) {
      dropped.push(`own=${name} (${fault})`);
      continue;
    }
    for (const one of [next.a, next.b]) if (one.name === name) one.name = called;
    for (const [of, key] of [[next, "like"], [next.restring, "like"], [next.find, "like"]]) if (of[key] === name) of[key] = called;
    said.push(`The link brought ${isolated(called)}, which is in this shop now${missing.length ? `, without what this shop has not: ${missing.join(", ")}` : ""}.`);
  }
  return said;
}
