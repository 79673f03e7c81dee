// SPDX-License-Identifier: GPL-3.0-or-later
// The page in a real browser, opened from the disk and off line, against the program.
//   node page.test.mjs PAGE.html PROGRAM [FOLDER with node_modules]
// Exit 77: no browser, or its driver is not installed. SHOTS=FOLDER keeps screenshots; ONLY=inUse,links
// runs those parts alone, SHARE=1/2 the first half of them, NAMED=words the tests whose names hold the words.
import { statSync } from "node:fs";
import { accessible, byKeyboard } from "./access.mjs";
import { begin } from "./begin.mjs";
import { carried } from "./carried.mjs";
import { links, ownFiles } from "./files.mjs";
import { assert, finish, openPage, pageFile, strayed, test, wrong } from "./harness.mjs";
import { moving } from "./moving.mjs";
import { panels } from "./panels.mjs";
import { sameAnswers } from "./same_answers.mjs";
import { sameBytes } from "./same_bytes.mjs";
import { inUse } from "./use.mjs";

await test("the page is one file under 1.5 MB with a policy that forbids every host", async () => {
  assert.ok(statSync(pageFile).size < 1_500_000, `${statSync(pageFile).size} bytes`);
  const page = await openPage();
  const policy = await page.getAttribute("meta[http-equiv=Content-Security-Policy]", "content");
  assert.match(policy, /^default-src 'none'; script-src 'sha256-[^']+' 'wasm-unsafe-eval'; style-src 'sha256-[^']+'; /);
  assert.match(policy, /connect-src 'none'/);
  const refused = await page.evaluate(() => fetch("https://example.invalid/").then(() => "got", () => "refused"));
  assert.equal(refused, "refused");
  wrong.length = 0; // the refusals just provoked
  strayed.length = 0;
  await page.context().close();
});
const parts = [sameBytes, sameAnswers, ownFiles, links, inUse, panels, begin, carried, moving, byKeyboard, accessible];
const [share, shares] = (process.env.SHARE ?? "1/1").split("/").map(Number), upTo = (count) => Math.floor(parts.length * count / shares);
const wanted = parts.slice(upTo(share - 1), upTo(share)).filter(({ name }) => !process.env.ONLY || process.env.ONLY.split(",").includes(name));
assert.ok(wanted.length, "no such part");
for (const part of wanted) await part();
await test("no request left, and nothing went wrong unseen", async () => {
  assert.deepEqual(strayed, []);
  assert.deepEqual(wrong, []);
});
await finish();
