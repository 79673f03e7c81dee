// SPDX-License-Identifier: GPL-3.0-or-later
// Compares the frequency of every note name with the npm package tonal.
// usage: node reference_pitch.mjs PRINT_REFERENCE [FOLDER]; FOLDER holds node_modules (the folder
// reference beside this one, unless said otherwise). Exit 77 where tonal is missing.
import { execFileSync } from "node:child_process";
import { existsSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath } from "node:url";

const printer = process.argv[2];
const folder = resolve(process.argv[3] ?? join(dirname(fileURLToPath(import.meta.url)), "../reference"));

if (!existsSync(join(folder, "node_modules", "tonal"))) {
  console.log(`tonal is missing in ${folder} (npm ci there brings it): skipped`);
  process.exit(77);
}
const tonal = createRequire(join(folder, "package.json"))("tonal");

// tonal places a note by fifths and octaves; a pure fifth is 3/2.
const [fifthsOfA, octavesOfA] = tonal.Note.get("A4").coord;
function pure(coord, a4) {
  return a4 * 1.5 ** (coord[0] - fifthsOfA) * 2 ** (coord[1] - octavesOfA);
}

function off(got, want) {
  return Math.abs(got / want - 1);
}

let worst = 0;
let count = 0;
let wrong = 0;
const text = execFileSync(printer, ["pitch"], { encoding: "utf8" });
for (const line of text.trimEnd().split("\n")) {
  const [name, ...numbers] = line.split("\t");
  const [a4, equal, fifths] = numbers.map(Number);
  const note = tonal.Note.get(name);
  const wanted = (note.freq / 440) * a4;
  const furthest = Math.max(off(equal, wanted), off(fifths, pure(note.coord, a4)));
  if (!(furthest <= 1e-14) || note.empty) {
    console.log(`${name} at ${a4}: mensur ${equal} and ${fifths}, tonal ${wanted} and ${pure(note.coord, a4)}`);
    wrong += 1;
  }
  worst = Math.max(worst, furthest);
  count += 1;
}
console.log(`${count} notes against tonal: ${wrong} wrong, off by ${worst.toExponential(1)} at most`);
process.exit(count >= 600 && wrong === 0 ? 0 : 1);
