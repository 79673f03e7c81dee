// SPDX-License-Identifier: GPL-3.0-or-later
// Chromium, driven whole.
//   node page.test.mjs PAGE.html PROGRAM [FOLDER with node_modules]
import { existsSync } from "node:fs";
import { address, finished, modules, skip } from "./tap.mjs";

const CHROMIUM = process.env.CHROMIUM ?? "/usr/bin/chromium";
const QUIET = ["--no-sandbox", ...(process.env.UNCLOCKED ? ["--disable-frame-rate-limit", "--disable-gpu-vsync"] : []), "--disable-gpu", "--disable-quic", "--no-first-run",
  "--disable-background-networking", "--disable-component-update", "--disable-sync"];

let chromium;
export let axePath;
try {
  ({ chromium } = modules("playwright-core"));
  axePath = modules.resolve("axe-core/axe.min.js");
} catch {
  skip("playwright-core or axe-core is not installed");
}
if (!existsSync(CHROMIUM)) skip("chromium is not installed");

export const browser = await chromium.launch({ executablePath: CHROMIUM, args: QUIET });

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

export async function finish() {
  await browser.close();
  finished();
}

export * from "./tap.mjs";
