// SPDX-License-Identifier: GPL-3.0-or-later
// Keyboard alone, axe, narrow screens, zoom, light and dark, less motion.
import { readFileSync } from "node:fs";
import { assert, axePath, openPage, settle, test } from "./harness.mjs";

const FOCUSABLE = "a[href], button, input, select, summary, [tabindex='0']";

// Does what each kind of control is for; true where something came of it.
async function operate(page, info) {
  const value = () => page.evaluate(() => {
    const it = document.activeElement;
    return it.type === "checkbox" ? String(it.checked) : it.tagName === "SUMMARY" ? String(it.parentElement.open) : it.value;
  });
  const before = await value();
  if (info.tag === "SELECT") {
    if (info.options < 2) return true;
    await page.keyboard.press(info.last ? "ArrowUp" : "ArrowDown");
  } else if (info.type === "range") await page.keyboard.press(info.full ? "ArrowLeft" : "ArrowRight");
  else if (info.type === "checkbox" || info.type === "radio") await page.keyboard.press(info.type === "radio" ? "ArrowDown" : "Space");
  else if (info.type === "text") {
    await page.keyboard.press("End");
    await page.keyboard.type(info.id === "a4" || !before ? "" : ".0".repeat(Number(!before.includes("."))));
    await page.keyboard.press("Enter");
    return true;
  } else if (info.tag === "SUMMARY") await page.keyboard.press("Enter");
  else if (info.tag === "BUTTON" || info.type === "file") {
    const expected = info.type === "file" ? "filechooser" : info.saves ? "download" : null;
    if (!expected) return page.keyboard.press("Enter").then(() => true);
    for (let tries = 0; tries < 2; tries++) { // the browser holds back some of many downloads in a row
      const event = page.waitForEvent(expected, { timeout: 5000 }).catch(() => null);
      await page.keyboard.press("Enter");
      if (await event) return true;
    }
    return page.isVisible("#refusal"); // nothing to keep is said, too
  } else return true;
  await page.waitForTimeout(20);
  return info.type === "radio" || (await value().catch(() => "gone")) !== before;
}

const focused = (page) => page.evaluate(async () => {
  await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))); // what the last control changed is laid out
  const it = document.activeElement;
  if (!it || it === document.body) return null;
  it.dataset.seen ??= String(window.seenCount = (window.seenCount ?? 0) + 1);
  const box = it.getBoundingClientRect();
  return { key: it.id || it.dataset.seen, id: it.id, tag: it.tagName, type: it.type ?? "", text: it.textContent.slice(0, 40),
    options: it.options?.length, last: it.options ? it.selectedIndex === it.options.length - 1 : false,
    full: it.type === "range" && Number(it.value) >= Number(it.max), seen: box.bottom > 0 && box.top < innerHeight,
    ring: getComputedStyle(it).outlineStyle !== "none",
    saves: /^Save /.test(it.textContent) || (it.dataset.keep && it.dataset.keep !== "print") };
});

export async function byKeyboard() {
  const page = await openPage({ reducedMotion: "reduce" }); // a scroll under way hides what has the focus
  await test("every control is reached by Tab, seen when it has the focus, and works by keys alone", async () => {
    await page.evaluate(() => { window.print = () => { window.printed = true; }; });
    const done = new Set(), idle = [], hidden = [];
    let fresh = 1; // controls met for the first time on this round; what one does may bring up others
    for (let press = 0; press < 1500; press++) {
      await page.keyboard.press("Tab");
      const info = await focused(page);
      if (info?.id === "a-name" && done.has("a-name")) {
        if (fresh === 0) break;
        fresh = 0;
      }
      if (!info || done.has(info.key)) continue;
      fresh++;
      done.add(info.key);
      if (!info.seen || !info.ring) hidden.push(info.id || info.text);
      if (info.tag !== "A" && !(await operate(page, info))) idle.push(info.id || info.text);
    }
    assert.deepEqual(idle, []);
    assert.deepEqual(hidden, []);
    const missed = await page.$$eval(FOCUSABLE, (all, done) => all.filter((it) => it.checkVisibility?.() && !it.dataset.seen
      && !done.includes(it.id) && !(it.type === "radio" && !it.checked)).map((it) => it.id || it.textContent.slice(0, 40)), [...done]);
    assert.deepEqual(missed, []);
    assert.ok(await page.evaluate(() => window.printed));
    assert.ok(await page.isHidden("#failure"));
  });
  await page.context().close();
}

async function axe(page) {
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
      await page.$$eval("details", (all) => all.forEach((one) => { one.open = true; }));
      await settle(page);
      assert.deepEqual(await axe(page), []);
      if (process.env.SHOTS) await page.screenshot({ path: `${process.env.SHOTS}/${look.replace(", ", "-")}.png`, fullPage: true });
      await page.context().close();
    });
  }
  await test("nothing is cut off at 320 px, at 360 px, or at 200 % of 1280 px", async () => {
    for (const [width, scale] of [[320, 1], [360, 1], [640, 2]]) {
      const page = await openPage({ viewport: { width, height: 700 }, deviceScaleFactor: scale });
      await page.$$eval("details", (all) => all.forEach((one) => { one.open = true; }));
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
