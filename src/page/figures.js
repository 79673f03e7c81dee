// SPDX-License-Identifier: GPL-3.0-or-later
// Figures at a glance, above the side view.
const GLANCED = ["string_length_mm", "stop_per_2_neck", "body_at_semitones", "left_reach_mm"];

// Now, as recommended, and the model: the same instrument twice, and the one beside it.
function threeStates(view) {
  const mm = $("take").dataset.mm;
  if (!mm || !sideOfDecision()) return view;
  const there = ["--", state.a.name, ...changesOf(state.a), state.a.name, ...changesOf({ changes: { ...state.a.changes, [state.decide]: mm } })];
  const beside = state.b.name ? [state.b.name, ...changesOf(state.b)] : [];
  const words = asked(state, "compare", { sides: [] });
  const { instruments } = engine.json("page_figures", [...words.slice(0, -1), ...there, ...beside]);
  return { instruments, heads: [`now`, "recommended", ...(state.b.name ? [`model: ${isolated(state.b.name)}`] : [])] };
}

const CLASSES = ["a", "proposed", "b"];

function namedHeads({ changed, instruments }) {
  if (changed) return ["in the file", "now, as proposed here"];
  const proposed = (key) => Object.keys(state[key].changes).length ? ", as proposed here" : "";
  return instruments.length < 2 ? [""] : instruments.map((one, i) => isolated(one.name) + proposed(i ? "b" : "a"));
}

function showGlance(plain) {
  const view = threeStates(plain), heads = view.heads ?? namedHeads(view), box = $("glance");
  const rows = GLANCED.map((key) => view.instruments.map((one) => one.figures[key]));
  const kind = (i) => view.heads ? CLASSES[i] : i ? "b" : "a";
  refill(box, [heads, rows.map(([row]) => row.label)], () => rows.map(([row]) => make("div", {}, make("dt", {}, row.label),
    ...heads.map((head, i) => make("dd", { class: kind(i) }, head ? make("span", { class: "hint" }, `${head} `) : "", make("span"))))));
  const cells = box.querySelectorAll("dd > span:last-child");
  rows.flat().forEach(({ shown, unit }, i) => say(cells[i], shown === null ? "not known" : unit ? `${shown} ${unit}` : shown));
}
