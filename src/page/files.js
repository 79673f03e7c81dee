// SPDX-License-Identifier: GPL-3.0-or-later
// The user's own files: chosen or dropped, told apart by name or by their columns, read here.
function tableOf(name, bytes, engine) {
  const base = name.toLowerCase().replace(/^.*[\\/]/, "").replace(/ \(\d+\)(?=\.csv$)/, "");
  if (TABLES.includes(base)) return TABLES.indexOf(base);
  const head = new TextDecoder().decode(bytes.slice(0, 4096)).replace(/^\uFEFF/, "")
    .split(/[\r\n]+/).find((line) => !/^sep=.$/i.test(line)) ?? "";
  return engine.tableOf(head.split(/[,;\t]/).map((cell) => cell.trim().replace(/^"|"$/g, "")));
}

// Text in UTF-16, as spreadsheets save it, in UTF-8; other bytes as they are.
function inUtf8(bytes) {
  const order = bytes[0] === 0xff && bytes[1] === 0xfe ? "utf-16le" : bytes[0] === 0xfe && bytes[1] === 0xff ? "utf-16be" : null;
  return order ? new TextEncoder().encode(new TextDecoder(order).decode(bytes)) : bytes;
}

const isArchive = (bytes) => bytes[0] === 0x50 && bytes[1] === 0x4b && bytes[2] === 3 && bytes[3] === 4;

// {files, unknown, names, everything}: what was open with the new ones in place; of each table the name
// that its file has; a file of everything.
async function readFiles(list, engine) {
  const files = new Map(engine.files), unknown = [], names = new Map();
  for (const file of list) {
    const bytes = inUtf8(new Uint8Array(await file.arrayBuffer())), everything = everythingOf(bytes);
    if (everything) return { files, unknown, names, everything };
    // the engine says of a spreadsheet what to do with it
    const table = isArchive(bytes) ? INSTRUMENTS : tableOf(file.name, bytes, engine);
    if (table < 0) unknown.push(visible(file.name));
    else {
      files.set(table, bytes);
      names.set(TABLES[table], visible(file.name));
    }
  }
  return { files, unknown, names, everything: null };
}

// A message under the name that the file has here.
function inOwnName(line, names) {
  const [table] = line.split(":", 1);
  return names.has(table) ? names.get(table) + line.slice(table.length) : line;
}

let readGone;

// In sight wherever the files were dropped.
function showRead(answer, unknown, said = "") {
  const lines = [...unknown.map((name) => `${name}: this is none of the shop's tables, by its name or its columns; it was left out`),
    ...answer.errors, ...answer.warnings];
  const box = $("read");
  box.replaceChildren();
  if (answer.errors.length) box.append(make("p", {}, make("strong", {}, "These files were not taken; what was open before is still open.")));
  if (lines.length) {
    const list = make("ul", { class: "messages" });
    fillList(list, lines);
    box.append(list);
  } else if (answer.status === 0 && answer.read) box.append(make("p", {}, "Read without complaint."));
  if (said) box.append(make("p", {}, said));
  $("read-box").hidden = !box.firstChild;
  clearTimeout(readGone);
  if (!lines.length && !said) readGone = setTimeout(() => { $("read-box").hidden = true; }, 6000); // nothing to read twice
}

const DEMONSTRATION = "the demonstration"; // where tables are from that are not the user's

function showTables(shop, keep) {
  const table = $("tables");
  fillTable(table, "", ["table", "rows", "from", "keep"], shop.tables.map((one) =>
    [one.file, String(one.rows), one.built_in ? DEMONSTRATION : "your file", ""]), { words: [2] });
  shop.tables.forEach((one, i) => {
    const button = make("button", { type: "button", class: "plain" }, `Save ${one.file}`);
    button.addEventListener("click", () => keep(i));
    table.tBodies[0].rows[i].lastChild.replaceChildren(button);
  });
}
