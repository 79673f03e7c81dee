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

const bare = (text) => text.replace(/[\u2068\u2069]/g, "");
// What stands on the lines of the closed panels, by their names; empty ones left out.
const onLines = (page) => page.$$eval(".panel > h2 .chosen", (all) => all.filter((one) => one.checkVisibility()).map((one) => [one.closest("h2").id.slice(2), one.textContent]))
  .then((all) => Object.fromEntries(all.map(([name, text]) => [name, bare(text)])));
const CHANGED = "#a=kestrel&a.neck=150&a.bridge=38&b=heron&b.stop=220&like=heron&wish.ratio=2:2.6..2:3&decide=stop&unit=in&force=N&a4=415&fifths=equal&hold=slope"
  + "&restring.from=viola+gut&restring.like=heron&restring.belly=80&restring.margin=3&restring.order=yes&player=small&find.like=heron&find.conditions=stop%3D200..215&find.any=yes&scale=395";

// Follows a link until the device has kept it, by words of it.
async function follow(page, hash, words) {
  await page.evaluate((hash) => { location.hash = hash; }, hash);
  await page.waitForFunction((words) => localStorage.getItem("mensur.state")?.includes(words), words);
}

async function chosen() {
  await test("the line of a closed panel says what is chosen in it, and that of one that only answers nothing", async () => {
    const page = await openPage({ ...PHONE, fragment: SHOWN }), lines = await onLines(page);
    assert.deepEqual(lines, { choose: "kestrel, beside heron", measures: "stop 214.0, neck 144.0 mm", wishes: "string as long as on heron", terms: "mm, kg, A4 440 Hz",
      restring: "from the whole catalogue", files: "the demonstration" });
    await follow(page, CHANGED, "scale=395");
    const { measures, ...others } = await onLines(page);
    assert.match(measures, /^stop [\d /.]+, neck [\d /.]+ in; 2 changed; heron: 1 changed$/);
    assert.deepEqual(others, { choose: lines.choose, wishes: "string as long as on heron; neck : stop 2:2.6..2:3; the stop that this neck wants",
      terms: "inches, N, A4 415 Hz; open strings equal; when wood moves, keep the neck's slope",
      restring: "from viola gut; feel as on heron; gauges of plain gut to order; margin to breaking 3 semitones; at most on the belly 80 N",
      reach: "player small", find: "nearest to heron; and with stop=200..215; instruments of every family", scale: "body 395 mm", files: lines.files });
    await follow(page, "#a=wren", "a=wren");
    assert.deepEqual([(await onLines(page)).choose, (await onLines(page)).wishes], ["wren", "none given"]);
    await page.click("#undo");
    await settle(page);
    assert.deepEqual(await onLines(page), { measures, ...others });
    await page.context().close();
  });
  await test("an open panel's line is its title; closed again it says what was chosen meanwhile; two columns have titles alone", async () => {
    const page = await openPage({ ...PHONE, fragment: SHOWN });
    await press(page, "terms");
    assert.equal(bare(await page.$eval("#h-terms", (one) => one.innerText)).trim(), "How it is asked");
    await page.selectOption("#force", "N");
    await press(page, "whole");
    await page.selectOption("#whole-format", "json");
    await press(page, "whole");
    const { terms, whole } = await onLines(page);
    assert.deepEqual([terms, whole], ["mm, N, A4 440 Hz", "as JSON"]);
    await page.setViewportSize({ width: 1280, height: 800 });
    await page.waitForFunction(() => !document.querySelector(".panel"));
    assert.equal(await page.textContent("#h-terms"), "How it is asked");
    await page.context().close();
  });
  await test("what is chosen takes one line of what was there, is cut where it is too long, and stands whole in the button's name behind its title", async () => {
    for (const width of [320, 360, 768]) {
      const page = await openPage({ viewport: { width, height: 740 }, fragment: CHANGED });
      const heads = await page.$$eval(".panel-head", (all) => all.filter((one) => one.querySelector(".chosen").textContent).map((one) => {
        const [title, chosen] = one.querySelectorAll("span"), box = chosen.getBoundingClientRect();
        return { text: one.textContent, title: title.textContent, height: one.getBoundingClientRect().height, line: box.height, right: box.right, px: parseFloat(getComputedStyle(chosen).fontSize),
          cut: chosen.scrollWidth > chosen.clientWidth, below: title.getBoundingClientRect().bottom <= box.top + 1 };
      }));
      assert.equal(heads.length, 9);
      for (const { title, height, line, right, px, below } of heads) assert.ok(height >= 44 && height < 50 && line > px && line < 2 * px && px >= 13 && right <= width && below, `${width} ${title}: ${[height, line, right, px, below]}`);
      assert.ok(heads.some(({ cut }) => cut) && heads.some(({ cut }) => !cut), `${width}`);
      for (const { text, title } of heads) {
        assert.ok(text.startsWith(`${title} `));
        assert.equal(await page.getByRole("button", { name: text, exact: true }).count(), 1, text);
      }
      await page.context().close();
    }
  });
  await test("a name from a file is text on the line, isolated, whichever way it runs", async () => {
    const page = await openPage(PHONE), raven = "עורב 2", rook = "<b>Rook\u202e";
    await page.setInputFiles("#open", { name: "instruments.csv", mimeType: "text/csv", buffer: Buffer.from(`name,family,stop,neck\n${rook},violin,195,130\n${raven},violin,196,131\n`) });
    await page.waitForFunction((name) => document.querySelector("#a-name").value === name, rook);
    await settle(page);
    await press(page, "choose");
    await page.selectOption("#b-name", raven);
    await press(page, "choose");
    assert.equal(await page.textContent("#h-choose .chosen"), `\u2068<b>Rook<U+202E>\u2069, beside \u2068${raven}\u2069`);
    assert.equal((await onLines(page)).files, "instruments.csv");
    await page.context().close();
  });
  await test("while the nut is dragged nothing is written on the lines; at rest only what differs", async () => {
    const page = await openPage({ viewport: { width: 360, height: 1200 }, fragment: SHOWN });
    await page.evaluate(() => {
      window.written = [];
      const lineOf = ({ target }) => (target.closest ? target : target.parentElement)?.closest(".chosen")?.closest("h2").id;
      new MutationObserver((all) => window.written.push(...all.map(lineOf).filter(Boolean))).observe(document.querySelector("main"), { subtree: true, childList: true, characterData: true });
    });
    const { x, y } = await page.$eval("#handle-neck", (one) => { scrollTo({ top: 600, behavior: "instant" }); const box = one.getBoundingClientRect(); return { x: box.x + 22, y: box.y + 22 }; });
    const written = () => page.evaluate(() => window.written);
    await page.mouse.move(x, y);
    await page.mouse.down();
    for (let i = 1; i <= 8; i++) await page.mouse.move(x - i, y);
    await page.waitForTimeout(400);
    assert.ok(await page.evaluate(() => document.body.classList.contains("moving")));
    assert.deepEqual(await written(), []);
    await page.mouse.up();
    await page.waitForFunction(() => /changed/.test(document.querySelector("#h-measures .chosen").textContent));
    await settle(page);
    const neck = Number(await page.inputValue("#a-neck")).toFixed(1);
    assert.notEqual(neck, "144.0");
    assert.equal((await onLines(page)).measures, `stop 214.0, neck ${neck} mm; 1 changed`);
    assert.ok(await page.$eval("#h-measures .chosen", (one) => one.scrollWidth <= one.clientWidth)); // whole
    assert.deepEqual([...new Set(await written())], ["h-measures"]);
    await page.context().close();
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
      await page.$eval("#heard", (one) => { one.style.display = "none"; }); // is heard, not printed, and comes half a second later
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
  await test("where nothing has an answer yet every panel opens, and the closed ones say what is chosen", async () => {
    const page = await openPage({ ...PHONE, fragment: "#a=kestrel&a.neck=abc&a.bridge=30&a4=470&scale=390" });
    const { choose, terms, scale } = await onLines(page);
    assert.deepEqual([choose, terms, scale], ["kestrel", "mm, kg, A4 470 Hz", "body 390 mm"]);
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
  await chosen();
  await oneAtATime();
  await whole();
  await used();
}
