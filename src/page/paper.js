// SPDX-License-Identifier: GPL-3.0-or-later
// What the printed page has beside the decision: its drawing, the date, and every input.
const ORIGINS = { measured: "", assumed: " (assumed)", follows: " (follows)" };

// Every input; what is proposed with what the file has.
function inputsOf(key) {
  const { changes } = state[key], { base } = side[key];
  const proposed = (was) => ` (${stateWord("proposed")}; ${stateWord("now")} ${was ?? "not given"})`;
  const fields = side[key].fields.map(({ field, shown, origin }, i) => ({ field, shown, origin, was: givenText(base.fields[i], ""), is: changes[field] !== undefined }))
    .filter(({ shown, origin, is }) => shown !== null && (origin !== "follows" || is))
    .map(({ field, shown, origin, was, is }) => `${fieldLabel(field)} ${shown}${is ? proposed(was) : ORIGINS[origin] ?? ""}`);
  const words = ["strings", "tuning", "built"].filter((field) => changes[field] ?? (field !== "built" && base[field]))
    .map((field) => `${field} ${isolated(changes[field] ?? base[field])}${changes[field] === undefined ? "" : proposed(base[field] && isolated(base[field]))}`);
  return [...words, ...fields].join("; ");
}

function wishesText() {
  const ranges = shop.wishes.filter(({ about }) => state.wishes[about]).map(({ about, label }) => `${label} ${state.wishes[about]}`);
  const tensions = Object.entries(state.tensions).filter(([, range]) => range).map(([note, range]) => `tension of ${note} ${range}`);
  return [...(state.like ? [`string as long as on ${isolated(state.like)}`] : []), ...ranges, ...tensions].join("; ") || "none";
}

const chosenText = (id) => $(id).selectedOptions[0].textContent;

// The picture with large letters: of the decision's states; of the door that is open, the strings' tensions or
// the finger places.
const PAPER_PARTS = { strings: [], fingers: ["places", "brief"] };

function drawPaper() {
  const { door } = state, own = door in PAPER_PARTS, asks = door === "strings" ? DOORS.strings.words() : !own && sideOfDecision() ? askedDecision(state) : askedView(state);
  const { status } = engine.ask(asks);
  if (status > 1 && door === "strings") engine.ask(askedView(state)); // no strings: as without the door
  const parts = own && status <= 1 ? PAPER_PARTS[door] : ["side", "brief"];
  setDrawing($("paper-drawing"), status <= 1 || door === "strings" ? engine.draw(parts, "paper") : "");
}

function fillPaper() {
  drawPaper();
  const rows = [["Date", new Date().toLocaleDateString(undefined, { year: "numeric", month: "long", day: "numeric" })],
    ...["a", "b"].filter((key) => state[key].name).map((key) => [isolated(state[key].name), `${inputsOf(key)}; in ${state.unit}`]),
    ["Wishes", wishesText()],
    ["Asked", `the ${state.decide}; A4 ${state.a4} Hz; open strings ${chosenText("fifths")}; stopped notes ${chosenText("steps")}; when wood moves, kept: ${chosenText("hold")}`]];
  $("paper").replaceChildren(...rows.flatMap(([head, text]) => [make("dt", {}, head), make("dd", {}, text)]));
}
