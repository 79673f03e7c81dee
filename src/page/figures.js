// SPDX-License-Identifier: GPL-3.0-or-later
// Figures at a glance, above the side view.
const GLANCED = ["string_length_mm", "stop_per_2_neck", "body_at_semitones", "left_reach_mm"];

// What is told of a decision's instruments: at a glance, beside the sliders and at the handles.
const DECIDED = [...GLANCED, "neck_mm", "stop_mm"];

// The states that are told of, each { state, figures ... }: of the first as the decision has them, what is
// recommended as long as nothing is proposed; the model beside it, as the decision has it or as given, unless the
// first was asked about alone. null where nothing is decided.
function decidedView(told, beside) {
  if (!told) return null;
  const model = sideOfDecision() ? told.model : beside;
  if (state.b.name && model === null) return null;
  const instruments = [["now", told.now], ["proposed", told.proposed],
    ["recommended", !told.proposed && $("take").dataset.mm ? told.recommended : null], ["model", state.b.name ? model : null]]
    .filter(([, one]) => one).map(([state, one]) => ({ state, ...one }));
  return { instruments };
}

// The same of instruments that are told of without a decision.
function plainView({ changed, instruments }) {
  const first = changesOf(state.a).length ? "proposed" : "now";
  return { instruments: instruments.map((one, i) => ({ state: changed ? ["now", "proposed"][i] : i ? "model" : first, ...one })) };
}

// The first as it is asked about: what is moved.
const presentOf = ({ instruments }) => instruments.find((one) => one.state === "proposed") ?? instruments.find((one) => one.state === "now");

// The word of a state, where the state is named; of the model with its name.
const stateWord = (one) => shop.states[one];
const modelWord = () => `${stateWord("model")}: ${isolated(state.b.name)}${changesOf(state.b).length ? `, ${stateWord("proposed")}` : ""}`;
const wordOf = (one) => one === "model" ? modelWord() : stateWord(one);

const CLASSES = { now: "a", proposed: "proposed", recommended: "proposed", model: "b" };

function showGlance(view) {
  const { instruments } = view, heads = instruments.length < 2 ? [""] : instruments.map((one) => wordOf(one.state)), box = $("glance");
  const rows = GLANCED.map((key) => instruments.map((one) => one.figures[key]));
  const kind = (i) => CLASSES[instruments[i].state];
  const from = [heads, rows.map(([row]) => row.label)];
  refill(box, from, () => rows.map(([row]) => make("div", {}, make("dt", {}, row.label),
    ...heads.map((head, i) => make("dd", { class: kind(i) }, head ? make("span", { class: "hint" }, `${head} `) : "", make("span"))))));
  if (!box.cells?.[0]?.isConnected) box.cells = box.querySelectorAll("dd > span:last-child");
  rows.flat().forEach(({ shown, unit }, i) => say(box.cells[i], shown === null ? "not known" : unit ? `${shown} ${unit}` : shown));
}
