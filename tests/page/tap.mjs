// SPDX-License-Identifier: GPL-3.0-or-later
// The page's file, the program beside it, and results as TAP: what needs no browser.
import assert from "node:assert/strict";
import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

if (!process.argv[3]) {
  console.error(`usage: node ${process.argv[1]} PAGE.html PROGRAM [FOLDER with node_modules]`);
  process.exit(2);
}
export const [pageFile, program] = process.argv.slice(2, 4).map((path) => resolve(path));
export const address = pathToFileURL(pageFile).href;
// npm's packages for tests: from FOLDER, or from beside this file.
export const modules = createRequire(join(resolve(process.argv[4] ?? dirname(fileURLToPath(import.meta.url))), "from.cjs"));
export const scratch = mkdtempSync(join(tmpdir(), "mensur-page-"));
process.on("exit", () => rmSync(scratch, { recursive: true, force: true, maxRetries: 5 }));

export const skip = (why) => {
  console.log(`1..0 # SKIP ${why}`);
  process.exit(77);
};

// The page that is kept in the tree, built from other sources, answers for those.
const top = fileURLToPath(new URL("../..", import.meta.url));
if (pageFile === join(top, "docs", "mensur.html")) {
  const { status, stdout, stderr } = spawnSync("python3", [join(top, "tests", "page", "kept.py"), top], { encoding: "utf8" });
  if (status !== 0) skip(`${stderr}${stdout}`.trim());
}

// The program's answer: {code, out, err}
export function run(...words) {
  try {
    const out = execFileSync(program, words, { encoding: "utf8", stdio: ["ignore", "pipe", "pipe"],
      env: { PATH: process.env.PATH, LC_ALL: "C.UTF-8" } });
    return { code: 0, out, err: "" };
  } catch (error) {
    if (error.status === null || error.status === undefined) throw error;
    return { code: error.status, out: error.stdout, err: error.stderr };
  }
}

// A body that cannot test here gives back {skipped: why}.
let count = 0, failed = 0;
export async function test(name, body) {
  if (process.env.NAMED && !name.includes(process.env.NAMED)) return;
  count++;
  try {
    const { skipped } = await body() ?? {};
    console.log(`ok ${count} - ${name}${skipped ? ` # SKIP ${skipped}` : ""}`);
  } catch (error) {
    failed++;
    console.log(`not ok ${count} - ${name}`);
    console.log(`${error.message ?? error}\n${error.stack?.split("\n").find((line) => line.includes("tests/page")) ?? ""}`
      .split("\n").map((line) => `  # ${line}`).join("\n"));
  }
}

export function finished() {
  console.log(`1..${count}`);
  process.exit(failed ? 1 : 0);
}

export { assert };
