// SPDX-License-Identifier: GPL-3.0-or-later
// Chromium, driven whole.
//   node page.test.mjs PAGE.html PROGRAM [FOLDER with node_modules]
import { existsSync } from "node:fs";
import { address, finished, modules, skip } from "./tap.mjs";

// Its headless shell, where there is one: Chromium without the pages of its own window, which take two thirds of the processor.
const CHROMIUM = process.env.CHROMIUM ?? ["/usr/bin/chromium-headless-shell", "/usr/bin/chromium"].find(existsSync);
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
if (!CHROMIUM || !existsSync(CHROMIUM)) skip("chromium is not installed");

export const browser = await chromium.launch({ executablePath: CHROMIUM, args: QUIET });

// What any page asked for that is not the file itself, and what went wrong in it.
export const strayed = [], wrong = [];

// Keeps in a page what it has put off to a frame, or by less than the half second after which a listener is told.
function keepPutOff() {
  const putOff = window.putOff = new Set(), { setTimeout, clearTimeout, requestAnimationFrame } = window;
  window.nextFrame = requestAnimationFrame;
  window.requestAnimationFrame = (then) => {
    const key = {};
    putOff.add(key);
    return requestAnimationFrame((time) => {
      putOff.delete(key);
      then(time);
    });
  };
  window.setTimeout = (then, after, ...rest) => {
    const id = setTimeout(() => {
      putOff.delete(id);
      then(...rest);
    }, after);
    if (!(after >= 500)) putOff.add(id);
    return id;
  };
  window.clearTimeout = (id) => {
    putOff.delete(id);
    clearTimeout(id);
  };
}

// A page of its own, off line, opened from the disk.
export async function openPage({ fragment = "", ...options } = {}) {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, acceptDownloads: true, ...options });
  await context.setOffline(true);
  if (!process.env.UNCLOCKED) await context.addInitScript(keepPutOff); // a bench measures the page alone
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

// Lets what waits for a slider to rest come to rest: until in three frames nothing has been put off.
export const settle = (page) => page.evaluate(async () => {
  for (let still = 0, end = performance.now() + 10000; still < 3; await new Promise(window.nextFrame)) {
    still = window.putOff.size ? 0 : still + 1;
    if (performance.now() > end) throw new Error("the page does not come to rest");
  }
});

export async function finish() {
  await browser.close();
  finished();
}

export * from "./tap.mjs";
