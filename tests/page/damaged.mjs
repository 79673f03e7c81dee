// SPDX-License-Identifier: GPL-3.0-or-later
// A link with every key of the address (docs/page.md), and the same with one value damaged at a time.
const PAIRS = Object.entries({
  a: "kestrel", "a.neck": "150", "a.strings": "viola gut", "a.tuning": "viola", "a.built": "yes", b: "heron", "b.stop": "221",
  like: "heron", decide: "neck", unit: "in", force: "N", a4: "442", fifths: "equal", steps: "just", hold: "slope",
  "wish.string-length": "368..376", "wish.ratio": "2:3", "wish.body-note": "8..10", "wish.left-reach": "..580",
  "wish.total-tension": "150..300", "wish.belly-force": "..95", "tension.A4": "40..60", "tension.all": "95%..105%", player: "small",
  "restring.like": "heron", "restring.from": "viola gut", "restring.material": "gut", "restring.profile": "graded", "restring.order": "yes",
  "restring.impedance": "yes", "restring.any": "yes", "restring.margin": "1.5",
  "restring.belly": "95", "restring.packets": "A4=55@370; C3=50@370", "find.like": "heron", "find.conditions": "stop=200..230",
  "find.any": "yes", scale: "400", door: "fingers", open: "wishes.held tension",
});

const written = (pairs) => pairs.map(([key, value]) => `${key}=${encodeURIComponent(value)}`).join("&");

export const whole = written(PAIRS);

// What a value can turn into: cut short, from elsewhere, too large, of another kind, hostile.
export const DAMAGES = ["", "xyz", "--help", "\u0000", "1e999", "-1", "..", "%", "<b>", "\u202e1", "=", "9".repeat(400), "1..", "nan", "\ufffd",
  "constructor"];

// [key, value it has instead, the link]
export const damagedBy = (damages) => damages.flatMap((damage) => PAIRS.map(([key], at) => [key, damage,
  written(PAIRS.map((pair, i) => i === at ? [key, damage] : pair))]));
