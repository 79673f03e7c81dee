// The figures of one instrument or of two, as the engine shows them.
const names = (view) => view.changed ? ["as it is", "as changed"] : view.instruments.map((one) => one.name);
const withUnit = (label, unit) => unit && unit !== "semitones" ? `${label}, ${unit === "degrees" ? "deg" : unit}` : label;

function showGlance(view) {
  const heads = names(view), wanted = ["string length", "neck : stop", "note at the body", "left reach"];
  const cells = view.lengths.filter((row) => wanted.includes(row.label)).map((row) => {
    const unit = row.unit && row.label !== "neck : stop" ? ` ${row.unit}` : "";
    const values = row.shown.map((shown, i) => make("dd", { class: i ? "b" : "a" },
      heads.length > 1 ? make("span", { class: "hint" }, `${heads[i]} `) : "", shown === null ? "not known" : shown + unit));
    return make("div", {}, make("dt", {}, row.label), ...values);
  });
  $("glance").replaceChildren(...cells);
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
  fillTable($("positions"), two ? `In ${unit} from the nut; the hand's frame is first finger to fourth.` : "",
    ["position", ...each("first finger"), ...each("fourth"), ...each("hand's frame"), ...(two ? ["difference"] : [])],
    view.positions.map((row) => [row.position, ...row.first.map(dash), ...row.fourth.map(dash), ...row.frame.map(dash),
      ...(two ? [row.difference ?? "–"] : [])]));
  fillTable($("places"), two ? `In ${unit} from the nut.` : "", ["semitones", ...each("from nut"), ...each("to next")],
    view.places.map((row) => [String(row.semitones), ...row.from_nut.map(dash), ...row.to_next.map(dash)]));
}
const dash = (text) => text ?? "–";

function showBelow(view) {
  const assumed = view.instruments.map((one, i) => {
    const list = one.assumed.map((item) => `${item.field.replaceAll("_", " ")} ${item.shown ?? "?"}`);
    return list.length ? make("p", {}, make("strong", {}, `Assumed, not measured (${names(view)[i]}): `), `${list.join(", ")}.`) : "";
  });
  $("assumed").replaceChildren(...assumed);
  const warnings = [...new Set(view.instruments.flatMap((one) => one.warnings))];
  $("warnings").replaceChildren(...warnings.map((text) => make("p", { class: "notice" }, text)));
  fillList($("cautions"), view.cautions);
  fillList($("sources"), view.sources);
}

function showFigures(view) {
  showGlance(view);
  showLengths(view);
  showStrings(view);
  showFingers(view);
  showBelow(view);
  fillList($("remarks"), view.remarks.map(stopped));
}
