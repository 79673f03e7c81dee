// SPDX-License-Identifier: GPL-3.0-or-later
// The page that is kept in the tree and a fresh one, asked 20 of tests/ask/questions.json: the same bytes.
//   node kept.mjs KEPT.html FRESH.html
// Exit 77: there is no kept page.
import assert from "node:assert/strict";
import { existsSync, readFileSync } from "node:fs";

const here = (path) => readFileSync(new URL(path, import.meta.url), "utf8");
const [kept, fresh] = process.argv.slice(2);
if (!existsSync(kept)) {
  console.log(`skipped: ${kept} is not in the tree; build it: src/page/build.sh docs/mensur.html`);
  process.exit(77);
}
const { Engine } = new Function(`${here("../../src/page/wasi.js")}\n${here("../../src/page/engine.js")}\nreturn { Engine };`)();

async function started(path) {
  const [, text] = /<script type="text\/plain" id="engine">([^<]+)</.exec(readFileSync(path, "utf8"));
  const engine = new Engine(Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0)));
  await engine.start();
  engine.open(new Map());
  return engine;
}

const all = JSON.parse(here("../ask/questions.json")), engines = [await started(kept), await started(fresh)];
const asked = all.filter((_, i) => i % Math.floor(all.length / 20) === 0).slice(0, 20);
for (const words of asked) {
  const [one, other] = engines.map((engine) => engine.ask(words));
  assert.deepEqual(one, other, words.join(" "));
}
assert.equal(asked.length, 20);
console.log("20 questions, the same answers");
