// SPDX-License-Identifier: GPL-3.0-or-later
// A browser, the program beside it, and results as TAP.
//   node page.test.mjs PAGE.html PROGRAM [FOLDER with node_modules]
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { pathToFileURL } from "node:url";

const CHROMIUM = process.env.CHROMIUM ?? "/usr/bin/chromium";
const QUIET = ["--no-sandbox", ...(process.env.UNCLOCKED ? ["--disable-frame-rate-limit", "--disable-gpu-vsync"] : []), "--disable-gpu", "--disable-quic", "--no-first-run",
  "--disable-background-networking", "--disable-component-update", "--disable-sync"];

export const [pageFile, program] = process.argv.slice(2, 4).map((path) => resolve(path));

const skip = (why) => {
  console.log(`1..0 # SKIP ${why}`);
  process.exit(77);
};
if (!process.argv[3]) {
  console.error("usage: node page.test.mjs PAGE.html PROGRAM [FOLDER with node_modules]");
  process.exit(2);
}

const modules = createRequire(join(resolve(process.argv[4] ?? import.meta.dirname ?? "."), "from.cjs"));
let chromium;
export let axePath;
try {
  ({ chromium } = modules("playwright-core"));
  axePath = modules.resolve("axe-core/axe.min.js");
} catch {
  skip("playwright-core or axe-core is not installed");
}
if (!existsSync(CHROMIUM)) skip("chromium is not installed");

export const address = pathToFileURL(pageFile).href;
export const scratch = mkdtempSync(join(tmpdir(), "mensur-page-"));
export const browser = await chromium.launch({ executablePath: CHROMIUM, args: QUIET });
process.on("exit", () => rmSync(scratch, { recursive: true, force: true }));

// What any page asked for that is not the file itself, and what went wrong in it.
export const strayed = [], wrong = [];

// A page of its own, off line, opened from the disk.
export async function openPage({ fragment = "", ...options } = {}) {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, acceptDownloads: true, ...options });
  await context.setOffline(true);
  const page = await context.newPage();
  page.on("request", (request) => {
    const url = request.url();
    if (url.split("#")[0] !== address && !/^(data|blob):/.test(url)) strayed.push(url);
  });
  page.on("pageerror", (error) => wrong.push(error.message));
  page.on("console", (message) => message.type() === "error" && wrong.push(message.text()));
  await page.goto(address + fragment);
  await page.waitForSelector("html[data-ready=yes]");
  return page;
}

// Lets what waits for a slider to rest come to rest.
export const settle = (page) => page.waitForTimeout(320);

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

let count = 0, failed = 0;
export async function test(name, body) {
  count++;
  try {
    await body();
    console.log(`ok ${count} - ${name}`);
  } catch (error) {
    failed++;
    console.log(`not ok ${count} - ${name}`);
    console.log(`${error.message ?? error}\n${error.stack?.split("\n").find((line) => line.includes("tests/page")) ?? ""}`
      .split("\n").map((line) => `  # ${line}`).join("\n"));
  }
}

export async function finish() {
  await browser.close();
  console.log(`1..${count}`);
  process.exit(failed ? 1 : 0);
}

export { assert };
