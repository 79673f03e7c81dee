// SPDX-License-Identifier: GPL-3.0-or-later
// What was chosen, and the address's fragment that carries it. Lengths are texts: bare ones are in
// mm, others bear their unit.
const plainState = () => ({
  a: { name: "", changes: {} }, b: { name: "", changes: {} },
  unit: "mm", force: "kg", a4: "440", fifths: "pure", steps: "equal", hold: "projection",
  decide: "neck", like: "", wishes: {}, pulls: {},
  player: "", restring: { like: "", from: "", impedance: false, any: false, margin: "", belly: "", packets: "" },
});

// The shop's habits as settings.csv names them, and what they set here.
const HABITS = { a4: "a4", fifths: "fifths", steps: "steps", hold: "hold", units: "unit", force_unit: "force", player: "player" };

function withHabits(state, settings) {
  for (const [name, key] of Object.entries(HABITS)) state[key] = settings[name] ?? state[key];
  return state;
}

const KEPT = ["unit", "force", "a4", "fifths", "steps", "hold", "decide", "like", "player"];

function toFragment(state) {
  const usual = plainState(), pairs = new URLSearchParams();
  for (const side of ["a", "b"]) {
    if (!state[side].name) continue;
    pairs.set(side, state[side].name);
    for (const [field, text] of Object.entries(state[side].changes)) pairs.set(`${side}.${field}`, text);
  }
  for (const key of KEPT) if (state[key] !== usual[key]) pairs.set(key, state[key]);
  for (const [about, range] of Object.entries(state.wishes)) if (range) pairs.set(`wish.${about}`, range);
  for (const [note, range] of Object.entries(state.pulls)) if (range) pairs.set(`pull.${note}`, range);
  for (const [key, value] of Object.entries(state.restring)) {
    if (value) pairs.set(`restring.${key}`, value === true ? "yes" : value);
  }
  return pairs.toString();
}

function fromFragment(text) {
  const state = plainState();
  for (const [key, value] of new URLSearchParams(text)) {
    const [head, ...rest] = key.split("."), tail = rest.join(".");
    if (key === "a" || key === "b") state[key].name = value;
    else if ((head === "a" || head === "b") && tail) state[head].changes[tail] = value;
    else if (head === "wish" && tail) state.wishes[tail] = value;
    else if (head === "pull" && tail) state.pulls[tail] = value;
    else if (head === "restring" && tail in state.restring) {
      state.restring[tail] = typeof state.restring[tail] === "boolean" ? value === "yes" : value;
    } else if (KEPT.includes(key)) state[key] = { kgf: "kg", lbf: "lb" }[value] ?? value;
  }
  return state;
}

// A length as typed, in the page's unit unless it says otherwise, as it is kept.
function keptLength(text, unit) {
  const trimmed = text.trim();
  if (trimmed === "" || unit === "mm" || /[a-z"″']/i.test(trimmed)) return trimmed.replace(/\s*mm$/, "");
  return `${trimmed}in`;
}

// The same as it is shown in a field beside which the page's unit stands.
function shownLength(text, unit) {
  if (unit === "in") return /in$/.test(text) ? text.replace(/\s*in$/, "") : /[a-z"″']/i.test(text) ? text : `${text} mm`;
  return text;
}

// "368..376" into its two sides, and back; empty where both are open.
const rangeSides = (range) => range ? [range.split("..")[0], range.split("..")[1] ?? ""] : ["", ""];
const rangeOf = (low, high) => low || high ? `${low}..${high}` : "";

// The words of a question: the command, what every question has, more options; then the instruments,
// each with its changes behind it.
const changesOf = (one) => Object.entries(one.changes).map(([field, text]) => `${field}=${text}`);

function asked(state, command, { sides = ["a", "b"], options = [] } = {}) {
  const names = sides.filter((side) => state[side].name).flatMap((side) => [state[side].name, ...changesOf(state[side])]);
  return [command, "--a4", state.a4, "--fifths", state.fifths, "--steps", state.steps, "--hold", state.hold,
    ...(state.unit === "in" ? ["--inches"] : []), "--force-unit", state.force, ...options, "--", ...names];
}

// The instruments chosen side by side; one alone as for a drawing, which has every figure.
function askedView(state) {
  if (state.b.name) return asked(state, "compare");
  return changesOf(state.a).length ? asked(state, "change") : asked(state, "lengths", { options: ["--output", "page.svg"] });
}

// The liked instrument is the one beside the first with its changes, where it is that one.
function likeWords(state, name) {
  if (!name) return [];
  return ["--like", name, ...(name === state.b.name ? changesOf(state.b).flatMap((change) => ["--like-with", change]) : [])];
}

const tensionWords = (state) => Object.entries(state.pulls).filter(([, range]) => range)
  .flatMap(([note, range]) => ["--tension", note === "all" ? range : `${note}=${range}`]);

function wishWords(state) {
  return [...likeWords(state, state.like), ...tensionWords(state),
    ...WISHES.filter(([about]) => state.wishes[about]).flatMap(([about]) => [`--${about}`, state.wishes[about]])];
}

const askedDecision = (state, options = []) => asked(state, state.decide, { sides: ["a"], options: [...wishWords(state), ...options] });
