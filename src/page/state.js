// SPDX-License-Identifier: GPL-3.0-or-later
// What was chosen, and the address's fragment that carries it. Lengths are texts: bare ones are in
// mm, others bear their unit.
const plainState = () => ({
  a: { name: "", changes: {} }, b: { name: "", changes: {} },
  unit: "mm", force: "N", a4: "440", fifths: "pure", steps: "equal", hold: "projection",
  decide: "neck", like: "", wishes: {}, pulls: {},
  player: "", restring: { like: "", from: "", impedance: false, any: false },
});

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
    } else if (KEPT.includes(key)) state[key] = value;
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

// The parts of a question that every question has.
function asked(state, command, more = {}) {
  const instruments = ["a", "b"].filter((side) => state[side].name).map((side) => ({
    name: state[side].name,
    changes: Object.entries(state[side].changes).map(([field, text]) => `${field}=${text}`),
  }));
  return { command, instruments, a4: state.a4, fifths: state.fifths, steps: state.steps,
    hold: state.hold, inches: state.unit === "in", "force-unit": state.force, ...more };
}

// In the order in which the program takes them.
function askedWishes(state) {
  const wishes = WISHES.map(([about]) => ({ about, range: state.wishes[about] })).filter((wish) => wish.range);
  for (const [note, range] of Object.entries(state.pulls)) {
    if (range) wishes.push({ about: "tension", range: note === "all" ? range : `${note}=${range}` });
  }
  return { like: state.like, wishes };
}
