// SPDX-License-Identifier: GPL-3.0-or-later
// The figures of one instrument or of two, as the engine shows them.
const names = (view) => view.changed ? ["as it is", "as changed"] : view.instruments.map((one) => one.name);
const withUnit = (label, unit) => unit && unit !== "semitones" ? `${label}, ${unit === "degrees" ? "deg" : unit}` : label;

const GLANCED = ["string length", "neck : stop", "note at the body", "left reach"];

function showGlance(view) {
  const heads = names(view), rows = view.lengths.filter((row) => GLANCED.includes(row.label));
  const box = $("glance");
  refill(box, [heads, rows.map((row) => row.label)], () => rows.map((row) => make("div", {}, make("dt", {}, row.label),
    ...heads.map((head, i) => make("dd", { class: i ? "b" : "a" },
      heads.length > 1 ? make("span", { class: "hint" }, `${head} `) : "", make("span"))))));
  const cells = box.querySelectorAll("dd > span:last-child");
  rows.forEach((row, r) => row.shown.forEach((shown, i) => say(cells[r * heads.length + i],
    shown === null ? "not known" : row.label === "neck : stop" ? shown : `${shown} ${row.unit}`)));
}

function showLengths(view) {
  const heads = names(view), two = heads.length > 1;
  fillTable($("lengths"), "", ["figure", ...heads, ...(two ? ["difference"] : [])],
    view.lengths.map((row) => [withUnit(row.label, row.unit), ...row.shown, ...(two ? [row.difference] : [])]));
}

function showStrings(view) {
  const heads = names(view), two = heads.length > 1, force = view.force_unit;
  const columns = ["note", "string", "pitch, Hz", "mass, g/m", `pull, ${force}`, "stress, MPa", "margin, st", `belly, ${force}`];
  const rows = [], marks = [], words = [];
  heads.forEach((head, i) => {
    for (const row of view.strings) {
      const cell = row.instruments[i];
      if (!cell) continue;
      rows.push([two ? `${row.note}, ${head}` : row.note, (cell.string ?? "no string") + (cell.mark ? " *" : ""),
        cell.pitch, cell.mass, cell.pull, cell.stress, cell.margin, cell.belly]);
      if (cell.mark) marks.push(`${row.note}${two ? ` on ${head}` : ""}: ${cell.mark}`);
    }
    rows.push([two ? `all, ${head}` : "all", "", "", "", view.pull_in_all.shown[i], "", "", view.force_on_belly.shown[i]]);
  });
  fillTable($("strings"), "", columns, rows, { words: [1] });
  say($("marks"), `${marks.length ? `* ${marks.join("; ")}. ` : ""}Margin: semitones (st) higher that the string could be tuned before it breaks. Belly: force on the belly.`);
}

function showFingers(view) {
  const heads = names(view), two = heads.length > 1, unit = view.length_unit;
  const each = (label) => heads.map((head) => two ? `${label}, ${head}` : `${label}, ${unit}`);
  fillTable($("positions"), two ? `In ${inWords(unit)} from the nut; the hand's frame is first finger to fourth.` : "",
    ["position", ...each("first finger"), ...each("fourth"), ...each("hand's frame"), ...(two ? ["difference"] : [])],
    view.positions.map((row) => [row.position, ...row.first.map(dash), ...row.fourth.map(dash), ...row.frame.map(dash),
      ...(two ? [row.difference ?? "–"] : [])]));
  fillTable($("places"), two ? `In ${inWords(unit)} from the nut.` : "", ["semitones", ...each("from nut"), ...each("to next")],
    view.places.map((row) => [String(row.semitones), ...row.from_nut.map(dash), ...row.to_next.map(dash)]));
}
const stopped = (text) => /[.?!]$/.test(text) ? text : `${text}.`;
const inWords = (unit) => unit === "in" ? "inches" : unit;
const dash = (text) => text ?? "–";

function showBelow(view) {
  const lists = view.instruments.map((one) => one.assumed.map((item) => `${item.field.replaceAll("_", " ")} ${item.shown ?? "?"}`));
  const box = $("assumed"), heads = names(view);
  refill(box, heads, () => heads.map((head) => make("p", {}, make("strong", {}, `Assumed, not measured (${head}): `), make("span"))));
  box.querySelectorAll("span").forEach((span, i) => say(span, lists[i].length ? `${lists[i].join(", ")}.` : "nothing."));
  const warnings = [...new Set(view.instruments.flatMap((one) => one.warnings))];
  refill($("warnings"), warnings, () => warnings.map((text) => make("p", { class: "notice" }, text)));
  fillList($("cautions"), view.cautions);
  fillList($("sources"), view.sources);
}

// wanted: tells of a section's heading whether it is to be drawn anew
function showFigures(view, wanted) {
  if (wanted("h-side")) {
    showGlance(view);
    showLengths(view);
    fillList($("remarks"), view.remarks.map(stopped));
  }
  if (wanted("h-pull")) showStrings(view);
  if (wanted("h-fingers")) showFingers(view);
  if (wanted("h-below")) showBelow(view);
}
