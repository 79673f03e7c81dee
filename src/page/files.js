// SPDX-License-Identifier: GPL-3.0-or-later
// The user's own files: chosen or dropped, told apart by name or by their columns, read here.
function tableOf(name, bytes, engine) {
  const base = name.toLowerCase().replace(/^.*[\\/]/, "").replace(/ \(\d+\)(?=\.csv$)/, "");
  if (TABLES.includes(base)) return TABLES.indexOf(base);
  const head = new TextDecoder().decode(bytes.slice(0, 4096)).replace(/^\uFEFF/, "")
    .split(/[\r\n]+/).find((line) => !/^sep=.$/i.test(line)) ?? "";
  return engine.tableOf(head.split(/[,;\t]/).map((cell) => cell.trim().replace(/^"|"$/g, "")));
}

// {files, unknown}: what was open with the new ones in place
async function readFiles(list, engine) {
  const files = new Map(engine.files), unknown = [];
  for (const file of list) {
    const bytes = new Uint8Array(await file.arrayBuffer()), table = tableOf(file.name, bytes, engine);
    if (table < 0) unknown.push(file.name);
    else files.set(table, bytes);
  }
  return { files, unknown };
}

function showRead(answer, unknown) {
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
}

function showTables(shop, keep) {
  const table = $("tables");
  fillTable(table, "", ["table", "rows", "from", "keep"], shop.tables.map((one) =>
    [one.file, String(one.rows), one.built_in ? "the demonstration" : "your file", ""]), { words: [2] });
  shop.tables.forEach((one, i) => {
    const button = make("button", { type: "button", class: "plain" }, `Save ${one.file}`);
    button.addEventListener("click", () => keep(i));
    table.tBodies[0].rows[i].lastChild.replaceChildren(button);
  });
}
