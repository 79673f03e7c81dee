// SPDX-License-Identifier: GPL-3.0-or-later
// The page's engine, as the browser runs it, and the program, asked the same questions in the same
// words (tests/ask/questions.json): exit codes, messages, text, HTML and drawings are the same byte for
// byte, JSON in keys, words and order and in numbers to 1e-12 (uncertainties and likelihoods to 1e-9). WebAssembly computes with a C library
// of its own: a figure of a CSV table may differ by one unit of its last place, which is counted.
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { assert, openPage, program, scratch, test } from "./harness.mjs";

const here = (path) => readFileSync(new URL(path, import.meta.url), "utf8");
const QUESTIONS = JSON.parse(here("../ask/questions.json"));
const BATCH = 50;

// What the program says: its exit code and what it printed and wrote, or what it complained of.
function told(words) {
  const cwd = mkdtempSync(join(scratch, "asked-"));
  const { status, stdout, stderr, error } = spawnSync(program, words, { cwd, encoding: "utf8", env: { PATH: process.env.PATH, LC_ALL: "C.UTF-8" } });
  assert.ok(!error, String(error));
  const written = readdirSync(cwd).map((name) => readFileSync(join(cwd, name), "utf8")).join("");
  const messages = stderr.split("\n").map((line) => line.replace(/^mensur: /, "")).join("\n").trimEnd();
  if (status <= 1) assert.equal(messages, "", `${words.join(" ")}: messages beside an answer`);
  return { status, text: status > 1 ? messages : stdout + written };
}

// The same of the page: its own engine, started from the module that the page carries.
const answers = (page, questions) => page.evaluate(`(async () => {
  ${here("../../src/page/wasi.js")}
  ${here("../../src/page/engine.js")}
  const text = atob(document.getElementById("engine").textContent);
  const engine = new Engine(Uint8Array.from(text, (letter) => letter.charCodeAt(0)));
  await engine.start();
  engine.open(new Map());
  return ${JSON.stringify(questions)}.map((words) => engine.ask(words));
})()`);

// A decimal number as an integer, in units of its last place: [integer, decimals].
function decimal(text) {
  const parts = /^([+-]?)(\d+)(?:\.(\d*))?(?:e([+-]?\d+))?$/i.exec(text);
  if (!parts) return null;
  const [, sign, whole, fraction = "", exponent = "0"] = parts;
  return [BigInt(`${sign === "-" ? "-" : ""}${whole}${fraction}`), fraction.length - Number(exponent)];
}

// Whether two cells are numbers that differ by one unit of the last place that either has.
function oneUnit(one, other) {
  const pair = [decimal(one), decimal(other)];
  if (pair.includes(null)) return false;
  const places = Math.max(pair[0][1], pair[1][1]);
  const [a, b] = pair.map(([value, decimals]) => value * 10n ** BigInt(places - decimals));
  return a - b === 1n || b - a === 1n;
}

// How many cells differ by a unit; no other difference may be. Cells in quotes hold words, which are equal.
function sameCsv(one, other, name) {
  const cells = [one, other].map((text) => text.split(/([,\r\n])/));
  assert.equal(cells[0].length, cells[1].length, name);
  const differing = cells[0].map((cell, i) => [cell, cells[1][i]]).filter(([cell, beside]) => cell !== beside);
  for (const [cell, beside] of differing) assert.ok(oneUnit(cell, beside), `${name}: ${cell} and ${beside}`);
  return differing.length;
}

// How sure a figure is, and how likely a place meets the wishes, comes from numerical derivatives, which
// magnify the last places in which two C libraries differ: those alone are held to 1e-9.
const derived = (path) => /plus_minus|share|\/likelihood$/.test(path);

// The same keys, words and order; numbers to 1e-12, as a part of the larger where that is above 1. Tells
// the path of each number and how far apart the two are.
export function sameJson(one, other, path, tell = () => {}) {
  if (typeof one === "number" && typeof other === "number") {
    const apart = Math.abs(one - other) / Math.max(1, Math.abs(one), Math.abs(other));
    assert.ok(apart <= (derived(path) ? 1e-9 : 1e-12), `${path}: ${one} and ${other}`);
    tell(path, apart);
  } else if (one && other && typeof one === "object" && typeof other === "object") {
    assert.deepEqual(Object.keys(one), Object.keys(other), path);
    for (const key of Object.keys(one)) sameJson(one[key], other[key], `${path}/${key}`, tell);
  } else assert.equal(one, other, path);
}

export async function sameBytes() {
  const page = await openPage(), count = { text: 0, csv: 0, json: 0, html: 0, svg: 0, refused: 0 };
  const most = { figures: 0, uncertainties: 0 };
  let units = 0;
  const tell = (path, apart) => {
    const of = derived(path) ? "uncertainties" : "figures";
    most[of] = Math.max(most[of], apart);
  };
  for (let from = 0; from < QUESTIONS.length; from += BATCH) {
    const questions = QUESTIONS.slice(from, from + BATCH);
    await test(`the same words, the same answer: questions ${from + 1} to ${from + questions.length}`, async () => {
      const shown = await answers(page, questions);
      questions.forEach((words, i) => {
        const name = words.join(" "), here = shown[i], there = told(words);
        assert.equal(here.status, there.status, `${name}: exit code\n${here.text}\n${there.text}`);
        const medium = there.status > 1 ? "refused" : /json|csv|html|svg/.exec(words.slice(1).join(" "))?.[0] ?? "text";
        count[medium]++;
        if (medium === "csv") units += sameCsv(here.text, there.text, name);
        else if (medium === "json") sameJson(JSON.parse(here.text), JSON.parse(there.text), name, tell);
        else assert.equal(here.text, there.text, name);
      });
    });
  }
  console.log(`# ${QUESTIONS.length} questions: ${Object.entries(count).map(([medium, n]) => `${n} ${medium}`).join(", ")}; ` +
    `${units} CSV figures one unit apart, JSON figures at most ${most.figures.toExponential(1)} apart, uncertainties ${most.uncertainties.toExponential(1)}`);
  await test("200 questions and more were compared", () => {
    const compared = Object.values(count).reduce((sum, n) => sum + n);
    assert.ok(compared >= 200 && compared === QUESTIONS.length, `${compared} questions`);
  });
  await page.context().close();
}
