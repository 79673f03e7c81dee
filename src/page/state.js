// SPDX-License-Identifier: GPL-3.0-or-later
// What was chosen, and the address's fragment that carries it. Lengths and forces are texts: bare ones
// are in mm and N, others bear their unit.
const plainState = () => ({
  a: { name: "", changes: {} }, b: { name: "", changes: {} },
  unit: "mm", force: "kg", a4: "440", fifths: "pure", steps: "equal", hold: "",
  decide: "neck", like: "", wishes: {}, tensions: {},
  player: "", restring: { like: "", from: "", material: "", profile: "", impedance: false, any: false, order: false,
    margin: "", belly: "", packets: "" },
  find: { like: "", conditions: "", any: false }, scale: "",
  own: [], // rows of instruments that an address brings; the page's own address takes them from the shop
  door: "", view: "", // where it was begun; the state of the page
  open: "", // panels that are open
});

// The shop's habits as settings.csv names them, and what they set here.
const HABITS = { a4: "a4", fifths: "fifths", steps: "steps", hold: "hold", units: "unit", force_unit: "force", player: "player" };

function withHabits(state, settings) {
  if (settings.units === "in") state.force = "lb"; // as the program does, where no force_unit is set
  for (const [name, key] of Object.entries(HABITS)) state[key] = settings[name] ?? state[key];
  return state;
}

const UNSAFE = /(?:^|\.)(?:__proto__|constructor|prototype)$/;
const OLD_UNITS = new Map([["kgf", "kg"], ["lbf", "lb"]]);
const KEPT = ["unit", "force", "a4", "fifths", "steps", "hold", "decide", "like", "player", "scale", "door", "view", "open"];

function toFragment(state) {
  const usual = plainState(), pairs = new URLSearchParams();
  for (const side of ["a", "b"]) {
    if (!state[side].name) continue;
    pairs.set(side, state[side].name);
    for (const [field, text] of Object.entries(state[side].changes)) pairs.set(`${side}.${field}`, text);
  }
  for (const key of KEPT) if (state[key] !== usual[key]) pairs.set(key, state[key]);
  for (const [about, range] of Object.entries(state.wishes)) if (range) pairs.set(`wish.${about}`, range);
  for (const [note, range] of Object.entries(state.tensions)) if (range) pairs.set(`tension.${note}`, range);
  for (const panel of ["restring", "find"]) {
    for (const [key, value] of Object.entries(state[panel])) if (value) pairs.set(`${panel}.${key}`, value === true ? "yes" : value);
  }
  for (const row of carriedIn(state)) pairs.append("own", row);
  return pairs.toString();
}

// What a choice can be.
const CHOICES = { unit: ["mm", "in"], force: ["kg", "N", "lb"], fifths: ["pure", "equal"], steps: ["equal", "pythagorean", "just"],
  hold: ["", "projection", "slope"], decide: ["neck", "stop"], door: ["", "neck", "strings", "fingers"], view: ["", "bench", "class"] };

// dropped: what is no choice at all is added to it.
function fromFragment(text, dropped = []) {
  const state = plainState();
  for (const [key, value] of new URLSearchParams(text)) {
    if (/\0/.test(key + value) || UNSAFE.test(key)) {
      dropped.push(`${key}=${value}`);
      continue;
    }
    const [head, ...rest] = key.split("."), tail = rest.join(".");
    if (key === "own") state.own.push(value);
    else if (key === "a" || key === "b") state[key].name = value;
    else if ((head === "a" || head === "b") && tail) state[head].changes[tail] = value;
    else if (head === "wish" && tail) state.wishes[tail] = value;
    else if ((head === "tension" || head === "pull") && tail) state.tensions[tail] = value; // pull: older links
    else if ((head === "restring" || head === "find") && Object.hasOwn(state[head], tail)) {
      if (typeof state[head][tail] !== "boolean") state[head][tail] = value;
      else if (value === "yes") state[head][tail] = true;
      else dropped.push(`${key}=${value}`);
    } else if (KEPT.includes(key)) state[key] = OLD_UNITS.get(value) ?? value;
    else dropped.push(`${key}=${value}`);
  }
  return state;
}

// A number as people write it, in the program's words: a decimal comma, a fraction in one character and
// other signs for inch and minus. The program reads the rest, and refuses what is none.
const FRACTIONS = { "½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "⅓": "1/3", "⅔": "2/3" };

const asNumber = (text) => text.trim().replace(/(\d)\s*,\s*(?=\d)/g, "$1.").replace(/(\d?)\s*([½¼¾⅛⅜⅝⅞⅓⅔])/g, (_, whole, one) => `${whole && `${whole} `}${FRACTIONS[one]}`)
  .replace(/(\d)\s*\u2044\s*(\d)/g, "$1/$2").replace(/[″”“]|''/g, '"').replace(/\u2212/g, "-").replace(/\u00a0|\u202f/g, " ");

// A length as typed, in the page's unit unless it says otherwise, as it is kept.
function keptLength(text, unit) {
  const trimmed = asNumber(text);
  if (trimmed === "" || unit === "mm" || /[a-z"″']/i.test(trimmed)) return trimmed.replace(/\s*mm$/, "");
  return `${trimmed}in`;
}

// The same as it is shown in a field beside which the page's unit stands.
function shownLength(text, unit) {
  if (unit === "in") return /in$/.test(text) ? text.replace(/\s*in$/, "") : /[a-z"″']/i.test(text) ? text : `${text} mm`;
  return text;
}

// A force as typed, in the page's unit unless it says otherwise, as it is kept; and as it is shown.
const BARE_NUMBER = /^\d*\.?\d+$/;
function keptForce(text, unit) {
  const number = asNumber(text);
  return BARE_NUMBER.test(number) && unit !== "N" ? `${number}${unit}` : number.replace(/\s*N$/, "");
}

function shownForce(text, unit) {
  if (BARE_NUMBER.test(text)) return unit === "N" ? text : `${text} N`;
  return text.endsWith(unit) ? text.slice(0, -unit.length).trim() : text;
}

// "368..376" or "368-376" into its two sides, which both bear the unit of the last; one value stands on
// both sides. And back; empty where both are open.
function rangeSides(range) {
  if (!range) return ["", ""];
  const [, low, high] = /^(.*?)(?:\.\.|(?<=[^\s.])\s*[-\u2013]\s*)(.*)$/.exec(range) ?? [range, range, range];
  const unit = BARE_NUMBER.test(low) ? /\s*(?:[a-z]+|["\u2033%])$/i.exec(high)?.[0] ?? "" : "";
  return [low + unit, high];
}

const rangeOf = (low, high) => low === high ? low : `${low}..${high}`;

// The words of a question: the command, what every question has, more options; then the instruments,
// each with its changes behind it.
const changesOf = (one) => Object.entries(one.changes).map(([field, text]) => `${field}=${text}`);

function asked(state, command, { sides = ["a", "b"], options = [] } = {}) {
  const names = sides.filter((side) => state[side].name).flatMap((side) => [state[side].name, ...changesOf(state[side])]);
  return [command, "--a4", state.a4, "--fifths", state.fifths, "--steps", state.steps, ...(state.hold ? ["--hold", state.hold] : []),
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

const tensionWords = (state) => Object.entries(state.tensions).filter(([, range]) => range)
  .flatMap(([note, range]) => ["--tension", note === "all" ? range : `${note}=${range}`]);

function wishWords(state) {
  return [...likeWords(state, state.like), ...tensionWords(state),
    ...shop.wishes.filter(({ about }) => state.wishes[about]).flatMap(({ about }) => [`--${about}`, state.wishes[about]])];
}

// The wishes without that for the liked instrument's string: nearness is another question.
function findWords(state) {
  const { like, conditions, any } = state.find;
  const words = asked(state, "find", { sides: [], options: [...likeWords(state, like), ...wishWords({ ...state, like: "" }), "--top", "20"] });
  return [...words, ...(any ? ["family=any"] : []), ...conditions.split(";").map((one) => one.trim()).filter(Boolean)];
}

const scaleWords = (state) => [...asked(state, "scale", { sides: ["a"], options: wishWords({ ...state, like: "" }) }), `body=${state.scale}`];
const mapWords = (state) => asked(state, "map", { options: wishWords(state) });

// The words of a decision up to its instrument, kept as long as nothing but that one's measurements changes.
let decisionHead = null;

function headOfDecision(state) {
  if (decisionHead?.state !== state) decisionHead = { state, words: asked(state, state.decide, { sides: [], options: wishWords(state) }).slice(0, -1) };
  return decisionHead.words;
}

const askedDecision = (state, options = []) => [...headOfDecision(state), ...options, "--", state.a.name, ...changesOf(state.a)];
