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
    ["Wishes", wishesText() || "none"],
    ["Asked", `the ${state.decide}; ${a4Text()}; open strings ${chosenText("fifths")}; stopped notes ${chosenText("steps")}; when wood moves, kept: ${chosenText("hold")}`]];
  $("paper").replaceChildren(...rows.flatMap(([head, text]) => [make("dt", {}, head), make("dd", {}, text)]));
}
