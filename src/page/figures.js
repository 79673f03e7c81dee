// SPDX-License-Identifier: GPL-3.0-or-later
// Figures at a glance, above the side view.
const GLANCED = ["string_length_mm", "stop_per_2_neck", "body_at_semitones", "left_reach_mm"];

// What is told of a decision's instruments: at a glance, beside the sliders and at the handles.
const DECIDED = [...GLANCED, "neck_mm", "stop_mm"];

// Now, as recommended, and the model, as the decision has them; null where it does not tell what stands
// above the side view.
function decidedView(told) {
  if (!told || !sideOfDecision()) return null;
  const beside = state.b.name ? [told.liked] : [];
  if ($("take").dataset.mm) return { instruments: [told.now, told.recommended, ...beside], heads: ["now", "recommended", ...beside.map((one) => `model: ${isolated(one.name)}`)] };
  return state.b.name ? { instruments: [told.now, ...beside] } : null;
}

const CLASSES = ["a", "proposed", "b"];

function namedHeads({ changed, instruments }) {
  if (changed) return ["in the file", "now, as proposed here"];
  const proposed = (key) => Object.keys(state[key].changes).length ? ", as proposed here" : "";
  return instruments.length < 2 ? [""] : instruments.map((one, i) => isolated(one.name) + proposed(i ? "b" : "a"));
}

function showGlance(view) {
  const heads = view.heads ?? namedHeads(view), box = $("glance");
  const rows = GLANCED.map((key) => view.instruments.map((one) => one.figures[key]));
  const kind = (i) => view.heads ? CLASSES[i] : i ? "b" : "a";
  refill(box, [heads, rows.map(([row]) => row.label)], () => rows.map(([row]) => make("div", {}, make("dt", {}, row.label),
    ...heads.map((head, i) => make("dd", { class: kind(i) }, head ? make("span", { class: "hint" }, `${head} `) : "", make("span"))))));
  const cells = box.querySelectorAll("dd > span:last-child");
  rows.flat().forEach(({ shown, unit }, i) => say(cells[i], shown === null ? "not known" : unit ? `${shown} ${unit}` : shown));
}
