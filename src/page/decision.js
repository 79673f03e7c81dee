// SPDX-License-Identifier: GPL-3.0-or-later
// The decision on the neck, or on the stop, in words and tables.
const firstUp = (text) => text ? text[0].toUpperCase() + text.slice(1) : "";

function verdictOf(answer) {
  if (!answer.met) return firstUp(`${answer.instrument}: no ${answer.place} meets every wish.`);
  if (/^[-+]?[0.]+$/.test(answer.move)) {
    return `${answer.instrument}: leave the ${answer.place} as it is, ${answer.now}.`;
  }
  const what = answer.place === "neck" ? "cut the neck" : "set the stop to";
  return `${answer.instrument}: ${what} ${answer.recommended} (now ${answer.now.replace(/\s\S+$/, "")}, ${answer.move}).`;
}

function showDecision(answer, units) {
  say($("verdict"), verdictOf(answer));
  say($("reason"), answer.reason ? `${firstUp(answer.reason)}.` : "");
  const [one, other] = answer.conflict;
  say($("gives"), one ? `The least that would do: either the wish for ${wishWord(one.what)} ${one.wanted} gives ${one.give}, `
    + `or the one for ${wishWord(other.what)} ${other.wanted} gives ${other.give}.` : "");
  const take = $("take");
  take.hidden = !answer.met || /^[-+]?[0.]+$/.test(answer.move);
  say(take, take.hidden ? "" : `Take this ${answer.place}: ${answer.recommended}`);
  take.dataset.place = answer.place;
  take.dataset.mm = answer.recommended_mm ?? "";
  $("costs-box").hidden = !answer.costs.length;
  fillList($("costs"), answer.costs);
  showWants(answer);
  showSteps(answer, units);
  say($("instead-line"), answer.instead_length ? `Leave the ${answer.place} as it is, and these strings would pull as the present ones do on ${answer.instead_length}.` : "");
  fillTable($("instead"), "", ["note", "now, g/m", "needed, g/m", "nearest, g/m", "nearest string"],
    answer.instead.map((row) => [row.note, ...row.cells, row.nearest ?? "none"]), { words: [4] });
}

function showWants(answer) {
  const none = (row) => row.within_reach ? "any" : "none";
  const rows = answer.wants.map((row) => [wishWord(row.what), row.wanted, row.from ?? none(row), row.to ?? none(row), row.origin]);
  rows.push(["all together", "", answer.from ?? "none", answer.to ?? "none", ""]);
  fillTable($("wants"), "", ["wish", "wanted", `${answer.place} from`, `${answer.place} to`, "why"], rows, { words: [1, 4] });
}

function showSteps(answer, units) {
  const mark = (row) => row.recommended ? row.present ? "stays" : "best" : row.present ? "now" : "";
  fillTable($("step-table"), `Lengths in ${units.length}, pulls in ${units.force}. 2 to: neck : stop as 2 to this. Reach: lower end of the body to the nut. Room: from the board's end to the bridge.`,
    [answer.place, "string", "2 to", "note at the body, st", "reach", "room", ...answer.notes, "which"],
    answer.steps.map((row) => [...row.cells, mark(row)]),
    { words: [6 + answer.notes.length], marks: answer.steps.map((row) => row.recommended ? "best" : row.present ? "now" : "") });
}

function noDecision(why) {
  say($("verdict"), "No decision.");
  say($("reason"), why);
  for (const id of ["gives", "instead-line"]) say($(id), "");
  $("take").hidden = $("costs-box").hidden = true;
  setDrawing($("draw-wishes"), "");
  for (const id of ["wants", "step-table", "instead"]) {
    delete $(id).dataset.shape;
    $(id).replaceChildren();
  }
}
