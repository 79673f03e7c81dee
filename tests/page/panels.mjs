// SPDX-License-Identifier: GPL-3.0-or-later
// One column: below the side view one panel is open at a time.
import { readFileSync } from "node:fs";
import { accessibilityFaults, keysReach } from "./access.mjs";
import { inPage } from "./browser.mjs";
import { assert, openPage, run, settle, test, wrong } from "./harness.mjs";

const PHONE = { viewport: { width: 360, height: 740 } }, SHOWN = "#a=kestrel&b=heron&like=heron";
const NAMES = ["why", "choose", "measures", "wishes", "terms", "lengths", "tension", "fingers", "restring", "reach", "find", "map", "scale", "below", "whole", "files"];

const opened = (page) => page.$$eval(".panel-body", (all) => all.filter((one) => one.checkVisibility({ contentVisibilityAuto: true }) && !one.hidden).map((one) => one.id.slice(6)));
const inHash = (page, key) => page.evaluate((key) => new URLSearchParams(location.hash.slice(1)).get(key), key);
const topOf = (page, id) => page.$eval(id, (one) => one.getBoundingClientRect().top);

async function press(page, name) {
  await page.$eval(`#h-${name} button`, (one) => one.scrollIntoView({ block: "center", behavior: "instant" }));
  await page.click(`#h-${name} button`);
  await settle(page);
}

async function short() {
  await test("on a phone the page with every panel closed is under 4,000 px long, each a line; what is dragged is in the first screen", async () => {
    for (const width of [320, 360, 768]) {
      const page = await openPage({ viewport: { width, height: 740 }, fragment: SHOWN });
      assert.deepEqual(await page.$$eval(".panel > h2", (all) => all.map((one) => one.id.slice(2))), NAMES);
      assert.deepEqual(await opened(page), []);
      const lines = await page.$$eval(".panel", (all) => all.map((one) => one.getBoundingClientRect().height));
      assert.ok(Math.max(...lines) < (width < 360 ? 70 : 50), `${width}: ${lines}`);
      const length = await page.evaluate(() => document.documentElement.scrollHeight);
      assert.ok(length < 4000, `${width}: ${length} px`);
      if (width === 360) {
        const boxes = await page.$$eval("#verdict, #decision, #alarms li, #handle-neck, #handle-stop", (all) => all.map((one) => one.getBoundingClientRect()).map(({ top, bottom }) => [top, bottom]));
        assert.ok(boxes.length === 5 && boxes.every(([top, bottom]) => top >= 0 && bottom <= 740), JSON.stringify(boxes));
        assert.ok(await page.$eval("#undo", (one) => one.getBoundingClientRect().bottom) <= 740);
      }
      await page.setViewportSize({ width: 1280, height: 800 });
      await page.waitForFunction(() => !document.querySelector(".panel"));
      assert.deepEqual(await opened(page), NAMES);
      assert.ok(await page.evaluate(() => document.querySelector("#h-choose").parentElement.contains(document.querySelector("#undo"))));
      await page.context().close();
    }
  });
}

async function oneAtATime() {
  await test("opening one panel closes the other, unless it is held; the line pressed stays where it is; link, reload and undo keep them", async () => {
    const page = await openPage({ ...PHONE, fragment: SHOWN });
    await press(page, "measures");
    await page.$eval("#h-wishes", (one) => one.scrollIntoView({ block: "center", behavior: "instant" }));
    const before = await topOf(page, "#h-wishes");
    await page.click("#h-wishes button");
    await settle(page);
    assert.ok(Math.abs(await topOf(page, "#h-wishes") - before) < 2, `${before} to ${await topOf(page, "#h-wishes")}`);
    assert.deepEqual(await opened(page), ["wishes"]);
    assert.equal(await page.getAttribute("#h-wishes button", "aria-expanded"), "true");
    await page.click("[aria-labelledby=h-wishes] .hold");
    await press(page, "tension");
    await press(page, "measures");
    assert.deepEqual(await opened(page), ["measures", "wishes"]);
    assert.equal(await inHash(page, "open"), "wishes.held measures");
    await page.fill("#a-neck", "150");
    await page.keyboard.press("Tab");
    await settle(page);
    await press(page, "reach");
    assert.deepEqual(await opened(page), ["wishes", "reach"]);
    await page.click("#undo");
    await settle(page);
    assert.equal(await page.inputValue("#a-neck"), "144.0"); // to open a panel is no step
    assert.deepEqual(await opened(page), ["wishes", "reach"]);
    await page.reload();
    await page.waitForSelector("html[data-ready=yes]");
    assert.deepEqual(await opened(page), ["wishes", "reach"]);
    await press(page, "wishes");
    assert.deepEqual(await opened(page), ["reach"]);
    const other = await openPage({ ...PHONE, fragment: new URL(page.url()).hash });
    assert.deepEqual(await opened(other), ["reach"]);
    await page.goto(page.url().split("#")[0]); // what the device kept
    await page.waitForSelector("html[data-ready=yes]");
    assert.deepEqual(await opened(page), ["reach"]);
    await page.evaluate(() => { location.hash = "a=kestrel&open=nowhere+wishes+tension.hold"; });
    await settle(page);
    assert.match(await page.textContent("#link-notice"), /open=nowhere tension\.hold/);
    assert.deepEqual(await opened(page), ["wishes"]);
    await other.context().close();
    await page.context().close();
  });
  await test("a search in the page and a door open the panel that they lead to", async () => {
    const page = await openPage({ ...PHONE, fragment: SHOWN });
    assert.deepEqual(await page.$$eval(".panel-body", (all) => [...new Set(all.map((one) => one.getAttribute("hidden")))]), ["until-found"]);
    await page.evaluate(() => { location.hash = "#restring-margin"; }); // found by the browser as a search finds it
    await settle(page);
    assert.deepEqual(await opened(page), ["restring"]);
    assert.equal(await inHash(page, "open"), "restring");
    await page.click("[data-door-to=fingers]");
    await settle(page);
    assert.deepEqual(await opened(page), ["fingers"]);
    await page.click("[data-door-to=strings]");
    await settle(page);
    assert.deepEqual(await opened(page), ["restring"]);
    await page.click("#door-own");
    await settle(page);
    assert.deepEqual(await opened(page), ["choose"]);
    assert.equal(await page.evaluate(() => document.activeElement.id), "own-name");
    await page.context().close();
  });
}

async function whole() {
  await test("paper and files have from a phone what they have from a desktop, whatever is open", async () => {
    const shown = [], fragment = `${SHOWN}&a.neck=150`;
    for (const viewport of [{ width: 1280, height: 800 }, PHONE.viewport]) {
      const page = await openPage({ viewport, fragment });
      if (viewport.width === 360) await press(page, "files");
      const [dossier] = await Promise.all([page.waitForEvent("download"), page.click("[data-keep=dossier]")]);
      await page.emulateMedia({ media: "print" });
      await page.evaluate(() => dispatchEvent(new Event("beforeprint")));
      const pages = (await page.pdf({ format: "A4" })).toString("latin1").match(/\/Type\s*\/Page\b/g).length;
      await page.$eval("#heard", (one) => one.remove()); // is heard, not printed, and comes half a second later
      shown.push({ pages, text: await page.evaluate(() => document.body.innerText.replace(/\s+/g, " ")), dossier: readFileSync(await dossier.path(), "utf8") });
      await page.context().close();
    }
    assert.match(shown[1].text, /Why, and what it changes/);
    assert.match(shown[1].text, /What it changes: /);
    assert.deepEqual(shown[1], shown[0]);
  });
}

async function used() {
  await test("a phone's panels by axe: none open, one open, all held open", async () => {
    for (const colorScheme of ["light", "dark"]) {
      for (const open of ["", "tension", "all"]) {
        const page = await openPage({ ...PHONE, colorScheme, hasTouch: true, isMobile: true, fragment: `${SHOWN}&open=${open === "all" ? "" : open}` });
        if (open === "all") await page.evaluate(inPage.openAll);
        await settle(page);
        assert.equal((await opened(page)).length, { "": 0, tension: 1, all: NAMES.length }[open]);
        assert.deepEqual(await accessibilityFaults(page), [], `${colorScheme} ${open}`);
        await page.context().close();
      }
    }
  });
  await test("a phone's every control is reached by Tab, seen when it has the focus, and works by keys alone", async () => {
    const page = await openPage({ ...PHONE, reducedMotion: "reduce" });
    await page.evaluate(() => { window.print = () => { window.printed = true; }; });
    assert.deepEqual(await keysReach(page, "open-bench"), { idle: [], hidden: [], missed: [] });
    assert.ok(await page.evaluate(() => window.printed));
    await page.context().close();
  });
  await test("while the nut is dragged beside closed panels nothing of them is asked", async () => {
    const page = await openPage({ viewport: { width: 360, height: 1200 }, fragment: SHOWN });
    const { x, y } = await page.$eval("#handle-neck", (one) => { scrollTo({ top: 600, behavior: "instant" }); const box = one.getBoundingClientRect(); return { x: box.x + 22, y: box.y + 22 }; });
    await page.waitForTimeout(200);
    const told = () => page.$eval("#decision-more", (one) => one.textContent), before = await told();
    assert.ok(y > 60 && await topOf(page, "#h-why") < 1200); // both are in sight
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x - 8, y);
    await page.waitForTimeout(100);
    assert.ok(await page.evaluate(() => document.body.classList.contains("moving")));
    assert.equal(await told(), before);
    await page.mouse.up();
    await page.waitForTimeout(700);
    assert.notEqual(await told(), before);
    const { answers: [{ recommended_neck_mm: neck }] } = JSON.parse(run("neck", "kestrel", "--like", "heron", "--format", "json").out);
    assert.ok((await page.textContent("#verdict")).includes(neck.toFixed(1)));
    await page.context().close();
  });
}

async function unanswered() {
  await test("every panel opens where nothing has an answer yet", async () => {
    const page = await openPage({ ...PHONE, fragment: "#a=kestrel&a.neck=abc&a.bridge=30&a4=470&scale=390" });
    await page.evaluate(inPage.openAll);
    await settle(page);
    assert.equal((await opened(page)).length, NAMES.length);
    assert.ok(await page.isVisible("#refusal"));
    assert.deepEqual(wrong, []);
    await page.context().close();
  });
}

export async function panels() {
  await unanswered();
  await short();
  await oneAtATime();
  await whole();
  await used();
}
