// SPDX-License-Identifier: GPL-3.0-or-later
// Keyboard alone, axe, narrow screens, zoom, light and dark, less motion.
import { readFileSync } from "node:fs";
import { inPage } from "./browser.mjs";
import { assert, axePath, openPage, settle, test } from "./harness.mjs";
import { everyControl } from "./keyboard.mjs";

// Whether an act of the page brings a download or a chooser of files. Both are listened to from the begin:
// a chooser that opens before anybody listens stays open unseen, and no other one opens behind it. The browser
// holds back some of many downloads in a row.
function bringer(page) {
  const brought = { download: 0, filechooser: 0 };
  for (const kind in brought) page.on(kind, () => brought[kind]++);
  return async (kind, act) => {
    const before = brought[kind];
    for (let tries = 0; tries < 3; tries++) {
      await act();
      for (const end = performance.now() + 5000; performance.now() < end; await page.waitForTimeout(20)) if (brought[kind] > before) return true;
    }
    return false;
  };
}

// Every control of the page by keys; round: the control at which a round begins anew.
export const keysReach = (page, round) => everyControl({ press: (key) => page.keyboard.press(key), run: (body, given) => page.evaluate(body, given),
  brings: bringer(page) }, round);

export async function byKeyboard() {
  const page = await openPage({ reducedMotion: "reduce" }); // a scroll under way hides what has the focus
  await test("every control is reached by Tab, seen when it has the focus, and works by keys alone", async () => {
    await page.evaluate(() => { window.print = () => { window.printed = true; }; });
    assert.deepEqual(await keysReach(page), { idle: [], hidden: [], missed: [] });
    assert.ok(await page.evaluate(() => window.printed));
    assert.ok(await page.isHidden("#failure"));
  });
  await page.context().close();
}

export async function accessibilityFaults(page) {
  await page.evaluate(readFileSync(axePath, "utf8"));
  const report = await page.evaluate(() => window.axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] }));
  return report.violations.map((one) => `${one.id}: ${one.nodes.slice(0, 4).map((node) => node.target.join(" ")).join(", ")}`);
}

export async function accessible() {
  const looks = [["phone, light", { viewport: { width: 360, height: 740 }, colorScheme: "light", hasTouch: true, isMobile: true }],
    ["phone, dark", { viewport: { width: 360, height: 740 }, colorScheme: "dark", hasTouch: true, isMobile: true }],
    ["desktop, light", { colorScheme: "light" }], ["desktop, dark", { colorScheme: "dark" }]];
  for (const [look, options] of looks) {
    await test(`axe reports nothing: ${look}`, async () => {
      const page = await openPage({ ...options, fragment: "#a=kestrel&a.neck=149&b=heron&like=heron&player=small" });
      await page.evaluate(inPage.openAll);
      await settle(page);
      assert.deepEqual(await accessibilityFaults(page), []);
      if (process.env.SHOTS) await page.screenshot({ path: `${process.env.SHOTS}/${look.replace(", ", "-")}.png`, fullPage: true });
      await page.context().close();
    });
  }
  await test("nothing is cut off at 320 px, at 360 px, or at 200 % of 1280 px", async () => {
    for (const [width, scale] of [[320, 1], [360, 1], [640, 2]]) {
      const page = await openPage({ viewport: { width, height: 700 }, deviceScaleFactor: scale });
      await page.evaluate(inPage.openAll);
      await settle(page);
      const [inner, outer] = await page.evaluate(() => [document.documentElement.scrollWidth, innerWidth]);
      assert.ok(inner <= outer, `${inner} px of content in ${outer} px`);
      await page.context().close();
    }
  });
  await test("targets of touch are 24 px or more", async () => {
    const page = await openPage({ viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true });
    const small = await page.$$eval("button, select, input, summary", (all) => all.filter((it) => it.checkVisibility()).map((it) => {
      const box = it.getBoundingClientRect(), label = it.closest("label")?.getBoundingClientRect();
      return [it.id || it.textContent, Math.max(box.height, label?.height ?? 0)];
    }).filter(([, height]) => height < 24));
    assert.deepEqual(small, []);
    await page.tap("#h-wishes button");
    await page.tap("#decide-stop");
    await settle(page);
    assert.match(await page.textContent("#verdict"), /stop/);
    await page.context().close();
  });
  await test("the decision is told, once it rests, to those who listen", async () => {
    const page = await openPage();
    await page.focus("#a-neck-slider");
    for (let i = 0; i < 4; i++) await page.keyboard.press("ArrowRight");
    await page.waitForTimeout(1100);
    assert.equal((await page.textContent("#heard")).replace(/[\u2068\u2069]/g, ""), await page.textContent("#verdict"));
    assert.match(await page.getAttribute("#a-neck-slider", "aria-valuetext"), /^146\.0 mm$/);
    await page.context().close();
  });
  await test("less motion where that is asked for", async () => {
    const page = await openPage({ reducedMotion: "reduce" });
    assert.equal(await page.evaluate(() => getComputedStyle(document.documentElement).scrollBehavior), "auto");
    await page.context().close();
  });
}
