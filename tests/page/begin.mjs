// SPDX-License-Identifier: GPL-3.0-or-later
// The three doors, the bench view and the class view.
import { readFileSync } from "node:fs";
import { assert, axePath, openPage, run, settle, test } from "./harness.mjs";

const plain = (text) => text.replace(/[\u2068\u2069]/g, "").replace(/\s+/g, " ").trim();
const firstLine = (...words) => plain(run(...words).out.split(/\n(?=[A-Z\n-])/)[0]);
const inHash = (page) => page.evaluate(() => Object.fromEntries(new URLSearchParams(location.hash.slice(1))));

async function axe(page) {
  await page.evaluate(readFileSync(axePath, "utf8"));
  const report = await page.evaluate(() => window.axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] }));
  return report.violations.map((one) => `${one.id}: ${one.nodes.slice(0, 4).map((node) => node.target.join(" ")).join(", ")}`);
}

async function doors() {
  await test("three doors below the verdict open the demonstration set up for neck, strings and fingers", async () => {
    const page = await openPage({ viewport: { width: 360, height: 740 } });
    const [verdict, row] = await page.evaluate(() => ["#verdict", ".door-row"].map((one) => document.querySelector(one).getBoundingClientRect()).map(({ top, bottom }) => [top, bottom]));
    assert.ok(verdict[1] < row[0] && row[1] <= 740, `${verdict} ${row}`);
    await page.waitForFunction(() => location.hash.length > 1); // kept once the page rests
    const before = page.url(), sections = () => page.evaluate(() => document.querySelectorAll(".sheet > section, .first > section").length), all = await sections();
    const expected = { neck: ["#verdict", ["neck", "kestrel", "--like", "heron"], "h-side"], strings: ["#door-answer > p", ["restring", "kestrel", "--like", "heron"], "h-restring"],
      fingers: ["#door-answer > p:nth-child(2)", ["compare", "kestrel", "heron"], "h-fingers"] };
    for (const [door, [where, words, section]] of Object.entries(expected)) {
      await page.focus(`[data-door-to=${door}]`);
      await page.keyboard.press("Enter");
      await settle(page);
      assert.equal((await inHash(page)).door, door);
      assert.equal(await page.getAttribute(`[data-door-to=${door}]`, "aria-pressed"), "true");
      assert.equal(plain(await page.textContent(where)), firstLine(...words), door);
      assert.equal(await page.evaluate(() => document.activeElement.id), section);
      assert.equal(await page.evaluate(() => document.querySelector("#doors").nextElementSibling.getAttribute("aria-labelledby")), section);
    }
    assert.match(await page.textContent("#verdict ~ *, #door-answer"), /all fingers stand 3\.8.%.wider/);
    assert.equal(await sections(), all);
    for (let i = 0; i < 3; i++) await page.goBack();
    await settle(page);
    assert.equal(page.url().split("#")[1], before.split("#")[1]);
    assert.equal(await page.evaluate(() => document.querySelector("#doors").nextElementSibling.getAttribute("aria-labelledby")), "h-side");
    await page.goForward();
    await page.goForward();
    await settle(page);
    assert.ok(await page.isVisible("#door-answer"));
    const fragment = new URL(page.url()).hash, other = await openPage({ fragment });
    assert.equal(await other.textContent("#door-answer"), await page.textContent("#door-answer"));
    await page.$eval("#h-below", (one) => one.scrollIntoView({ behavior: "instant" }));
    await page.waitForFunction(() => document.querySelector("#bar").classList.contains("on"));
    assert.match(await page.textContent("#bar"), /^21\.8.kg strings/);
    await other.context().close();
    await page.context().close();
  });
  await test("the warnings at the verdict are those of the open door's answer, and follow what it proposes", async () => {
    const cautions = (words) => /^Cautions?: ([^]*?)\.?\n(?=[A-Z])/m.exec(run(...words).out)?.[1].replace(/\s+/g, " ") ?? "";
    const cases = [["", ["neck", "kestrel", "--like", "heron"], "decision"], ["strings", ["restring", "kestrel", "--like", "heron"], "door-answer"],
      ["strings", ["restring", "kestrel", "neck=153", "--like", "heron"], "door-answer"], ["fingers", ["compare", "kestrel", "heron"], "door-answer"]];
    const seen = [];
    for (const [door, words, box] of cases) {
      const change = words.includes("neck=153") ? "&a.neck=153" : "";
      const page = await openPage({ viewport: { width: 360, height: 740 }, fragment: `#a=kestrel${change}&b=heron&like=heron&restring.like=heron${door && `&door=${door}`}` });
      await settle(page);
      const told = (await page.$$eval("#alarms li", (all) => all.map((one) => one.textContent))).map((text) => plain(text).replace(/\.$/, ""));
      assert.equal(told.join("; "), cautions(words), `${door} ${change}`);
      assert.equal(await page.$eval("#alarms", (one) => one.previousElementSibling.id), box, door);
      seen.push(told.join());
      await page.context().close();
    }
    assert.match(seen[0], /7\.6 %/);
    assert.match(seen[1], /11 %/);
    const page = await openPage({ fragment: "#a=kestrel&a.strings=violin gut&a.tuning=violin&a4=470&b=heron&door=fingers" });
    assert.match(await page.textContent("#alarms .grave"), /would break/);
    await page.context().close();
  });
  await test("a door's sentence names the instruments chosen, and none that is not", async () => {
    const page = await openPage({ fragment: "#a=kestrel&door=fingers" }), said = async () => plain(await page.textContent("#door-says"));
    assert.equal(await said(), "The demonstration: where the fingers stand on kestrel. The places stand below.");
    await page.selectOption("#b-name", "wren");
    await settle(page);
    assert.equal(await said(), "The demonstration: where the fingers stand on kestrel and on wren. The places stand below.");
    await page.selectOption("#a-name", "heron");
    await settle(page);
    assert.match(await said(), /on heron and on wren\./);
    await page.click("[data-door-to=strings]");
    await page.selectOption("#restring-like", "");
    await settle(page);
    assert.equal(await said(), "The demonstration: strings for kestrel. Choose others below.");
    await page.click("[data-door-to=neck]");
    await page.selectOption("#like", "wren");
    await settle(page);
    assert.match(await said(), /what neck kestrel needs for a string as long as on wren\./);
    await page.context().close();
  });
  await test("now with my own: from the door to an instrument of three numbers, and files of one's own stay", async () => {
    const page = await openPage({ viewport: { width: 360, height: 740 } });
    await page.click("[data-door-to=strings]");
    await page.click("#door-own");
    assert.equal(await page.evaluate(() => document.activeElement.id), "own-name");
    await page.selectOption("#own-family", "violin");
    for (const [id, text] of [["stop", "195"], ["neck", "129,5"], ["body", "355"]]) await page.fill(`#own-${id}`, text);
    await page.click("#own-make");
    await settle(page);
    assert.equal(await page.inputValue("#a-name"), "my violin");
    assert.equal(await page.inputValue("#like"), "");
    await page.waitForFunction(() => scrollY < 100);
    await page.click("#own-copy");
    await settle(page);
    assert.equal(await page.inputValue("#a-name"), "my violin, copy");
    await page.click("[data-door-to=fingers]");
    await settle(page);
    assert.equal(await page.inputValue("#a-name"), "my violin, copy");
    assert.equal(await page.textContent("#door-says"), "");
    await page.click("#undo");
    await settle(page);
    assert.equal((await inHash(page)).door, "strings");
    await page.context().close();
  });
}

const atBench = (page) => page.evaluate(() => Object.fromEntries([...document.querySelectorAll("#view-bench output")].map((one) => [one.id.slice(3), one.textContent.replaceAll("\u00a0", " ")])));

async function bench() {
  await test("bench view: five figures of 56 px and more, moved by half a millimetre; the screen is held and let go", async () => {
    const context = { viewport: { width: 360, height: 740 }, fragment: "#a=kestrel&b=heron&like=heron" };
    const page = await openPage(context);
    await page.evaluate(() => {
      window.locks = { held: 0, asked: 0 };
      Object.defineProperty(navigator, "wakeLock", { configurable: true, value: { request: async () => {
        window.locks.held++;
        window.locks.asked++;
        return { addEventListener() {}, release: async () => { window.locks.held--; } };
      } } });
    });
    await page.focus("#open-bench");
    await page.keyboard.press("Enter");
    await settle(page);
    assert.deepEqual(await page.evaluate(() => window.locks), { held: 1, asked: 1 });
    assert.equal(await page.textContent("#view-awake"), "The screen stays on.");
    const sizes = await page.$$eval("#view-bench output", (all) => all.map((one) => [parseFloat(getComputedStyle(one).fontSize), one.getBoundingClientRect().bottom]));
    assert.equal(sizes.length, 5);
    for (const [size, bottom] of sizes) assert.ok(size >= 56 && bottom <= 740, `${sizes}`);
    for (const way of [1, 1, 1, -1]) {
      await page.focus(`[data-nudge=neck][data-way="${way}"]`);
      await page.keyboard.press("Enter");
      await page.waitForTimeout(60);
    }
    await settle(page);
    const told = JSON.parse(run("lengths", "kestrel", "neck=145", "--format", "json").out).answers[0];
    assert.deepEqual(await atBench(page), { recommended: "158.0", neck_mm: "145.0", stop_mm: "214.0", string_length_mm: told.string_length_mm.toFixed(1), stop_per_2_neck: `2 : ${told.stop_per_2_neck.toFixed(2)}` });
    assert.equal(plain(await page.textContent("#view-state")), "kestrel, proposed");
    assert.match(await page.textContent("#view-alarms"), /force on the belly/);
    const fragment = new URL(page.url()).hash;
    assert.match(fragment, /view=bench/);
    await page.goBack();
    await settle(page);
    assert.ok(await page.isHidden("#view") && await page.isVisible("#side-states"));
    assert.deepEqual(await page.evaluate(() => window.locks), { held: 0, asked: 1 });
    assert.equal(await page.inputValue("#a-neck"), "145"); // what was done in it stays
    await page.goForward();
    await settle(page);
    assert.ok(await page.isVisible("#view-bench"));
    await page.keyboard.press("Escape");
    await settle(page);
    assert.ok(await page.isHidden("#view"));
    assert.deepEqual(await page.evaluate(() => window.locks), { held: 0, asked: 2 });
    await page.click("#undo");
    await settle(page);
    assert.ok(await page.isVisible("#view-bench"));
    await page.click("#view-leave");
    assert.equal(await page.evaluate(() => document.activeElement.id), "open-bench");
    const other = await openPage({ ...context, fragment });
    assert.ok(await other.isVisible("#view-bench"));
    await other.click("[data-nudge=stop][data-way='-1']");
    await settle(other);
    assert.equal((await inHash(other))["a.stop"], "213.5");
    await other.context().close();
    await page.context().close();
  });
}

async function lesson() {
  await test("class view: labels of 28 px on a projector, before and after, the working beside the moving picture", async () => {
    for (const [width, height] of [[1280, 720], [1280, 800], [1920, 1080]]) {
      const page = await openPage({ viewport: { width, height }, fragment: "#a=kestrel&a.neck=150&b=heron&like=heron" });
      await page.click("#open-class");
      await settle(page);
      const sizes = await page.evaluate(() => {
        const svg = document.querySelector("#view-picture svg"), scale = svg.getBoundingClientRect().width / svg.viewBox.baseVal.width;
        return [...[...svg.querySelectorAll("text")].map((one) => parseFloat(one.getAttribute("font-size")) * scale),
          ...[...document.querySelectorAll("#view-figures th, #view-figures td, #view-working p")].map((one) => parseFloat(getComputedStyle(one).fontSize))];
      });
      assert.ok(sizes.length > 40 && Math.min(...sizes) >= 28, `${width}: ${Math.min(...sizes)}`);
      const heads = (await page.$$eval("#view-figures thead th", (all) => all.map((one) => one.textContent))).map(plain);
      assert.equal(heads[0], "kestrel, mm");
      assert.deepEqual(heads.slice(1), ["now", "proposed", "model: heron"]);
      const cells = () => page.$$eval("#view-figures tbody tr", (rows) => rows.map((row) => [...row.cells].map((one) => one.textContent)));
      const told = (...changes) => JSON.parse(run("lengths", ...changes, "--format", "json").out).answers[0].string_length_mm.toFixed(1);
      assert.deepEqual((await cells())[0], ["string length", told("kestrel"), told("kestrel", "neck=150"), told("heron")]);
      const picture = await page.textContent("#view-picture");
      await page.click("#view-class [data-nudge=neck][data-way='1']");
      await settle(page);
      assert.equal((await cells())[0][2], told("kestrel", "neck=150.5"));
      assert.match(await page.textContent("#view-working"), /N =.150\.50.mm/);
      assert.notEqual(await page.textContent("#view-picture"), picture);
      // in the picture too, the model over what is proposed, in its own colour
      for (const [beside, drawn] of [["heron", ["now: kestrel", "proposed: kestrel", "model:", "heron"]], ["wren", ["now: kestrel", "proposed: kestrel", "model:", "wren"]]]) {
        await page.evaluate((beside) => { location.hash = `a=kestrel&a.neck=150&b=${beside}&like=heron&view=class`; }, beside);
        await settle(page);
        const texts = await page.$$eval("#view-picture text", (all) => all.map((one) => one.textContent));
        for (const one of drawn) assert.ok(texts.includes(one), `${beside}: ${one} of ${texts.join("|")}`);
        const own = await page.$$eval("#view-picture :is(polygon, polyline, line)[stroke*='--other']", (all) => all.map((one) => [one.nodeName, one.hasAttribute("stroke-dasharray")].join()));
        assert.deepEqual([...new Set(own)].sort(), ["line,false", "polygon,false", "polyline,true"], beside); // nut, bridge, strings
      }
      for (const door of ["", "&door=fingers", "&a=bittern&a.neck=290"]) {
        await page.evaluate((door) => { location.hash = `a=kestrel&a.neck=150&b=heron&like=heron&view=class${door}`; }, door);
        await settle(page);
        const all = await page.evaluate(() => ["#view-picture svg", "#view-working", "#view-steps p:nth-of-type(3)"].map((one) => document.querySelector(one).getBoundingClientRect()).map(({ left, right, top, bottom }) => ({ left, right, top, bottom })));
        const [picture, working, result] = all;
        assert.ok(picture.right <= working.left && all.every(({ top, bottom }) => top >= 0 && bottom <= height + 0.5), `${width} x ${height}${door}: ${JSON.stringify(all)}`);
        assert.ok(result.bottom <= working.bottom + 0.5, `${width} x ${height}${door}: ${JSON.stringify(all)}`);
        assert.deepEqual(await page.evaluate(() => [document.documentElement, document.querySelector("#view-picture")].map((one) => one.scrollHeight - one.clientHeight).filter((more) => more > 0)), [], `${width} x ${height}${door}`);
      }
      await page.click("#view-all summary");
      await settle(page);
      assert.ok(await page.$$eval("#view-every p", (all) => all.length) > 20);
      await page.context().close();
    }
  });
}

async function looks() {
  await test("bench and class: axe finds nothing, nothing wider than the screen, 320 to 1920 px; every control by keys", async () => {
    for (const [view, door] of [["bench", ""], ["class", ""], ["class", "fingers"], ["", "strings"], ["", "fingers"]]) {
      for (const colorScheme of ["light", "dark"]) {
        const page = await openPage({ colorScheme, fragment: `#a=kestrel&a.neck=147.3&b=heron&like=heron&view=${view}&door=${door}` });
        for (const width of [320, 360, 768, 1280, 1920]) {
          await page.setViewportSize({ width, height: 800 });
          const [inner, outer] = await page.evaluate(() => [document.documentElement.scrollWidth, innerWidth]);
          assert.ok(inner <= outer, `${view} ${door}: ${inner} px of content in ${outer} px`);
          const cut = await page.$$eval("#view-bench > div, #view-class .wide", (all) => all.filter((one) => one.checkVisibility() && one.scrollWidth > one.clientWidth).map((one) => `${one.textContent}: ${one.scrollWidth} px in ${one.clientWidth} px`));
          assert.deepEqual(width < 360 ? [] : cut, [], `${view} ${door}, ${width} px`);
        }
        await page.setViewportSize({ width: 360, height: 740 });
        assert.deepEqual(await axe(page), [], `${view} ${door} ${colorScheme}`);
        if (view && colorScheme === "light") {
          const reached = new Set();
          for (let i = 0; i < 20; i++) {
            await page.keyboard.press("Tab");
            reached.add(await page.evaluate(() => { const it = document.activeElement; return it.id || [it.dataset.nudge, it.dataset.way].join(); }));
          }
          for (const one of ["view-leave", "view-undo", "neck,1", "stop,-1"]) assert.ok(reached.has(one), `${view}: ${one} of ${[...reached]}`);
        }
        await page.context().close();
      }
    }
  });
}

export async function begin() {
  await doors();
  await bench();
  await lesson();
  await looks();
}
