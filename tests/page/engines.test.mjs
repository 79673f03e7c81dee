// SPDX-License-Identifier: GPL-3.0-or-later
// The page in Firefox and WebKit, opened from the disk: what people do to it, the same in each. What an engine does
// not let be tested is skipped with the reason; page.test.mjs tests Chromium.
//   node engines.test.mjs PAGE.html PROGRAM [FOLDER with node_modules]
// ENGINES=webkit runs that alone, ONLY=nut the parts with that in their names. Exit 77: an engine is not installed.
import { execFileSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { Browser, inPage, pause } from "./browser.mjs";
import { cutTexts, textsOnTexts } from "./boxes.mjs";
import { DAMAGES, damagedBy, whole } from "./damaged.mjs";
import { everyControl } from "./keyboard.mjs";
import { sameSection } from "./sections.mjs";
import { assert, finished, modules, run, scratch, skip, test } from "./tap.mjs";
import { ENGINES, missing, startEngine } from "./webdriver.mjs";

const names = (process.env.ENGINES ?? Object.keys(ENGINES).join(",")).split(",");
for (const name of names) if (missing(name).length) skip(`${missing(name)} is not installed`);

const SHOWN = "#a=kestrel&b=heron&like=heron";

const bare = (text) => text.replace(/[\u2068\u2069]/g, "").replace(/\s+/g, " ");

const string = (changes) => `string ${JSON.parse(run("lengths", "kestrel", ...changes, "--format", "json").out).answers[0].string_length_mm.toFixed(1)} mm`;

// Beside the sliders and in every section stand the program's figures for kestrel as changed, to the last digit.
async function sameFigures(browser, changes) {
  const { now } = await browser.run(inPage.shown), changed = ["kestrel", ...changes];
  assert.ok(bare(now).includes(string(changes)), `${now}; ${string(changes)}`);
  for (const [id, ...words] of [["lengths", "compare", ...changed, "heron"], ["strings", "tension", ...changed, "heron"], ["fingers", "fingers", ...changed, "heron"],
    ["decision", "neck", ...changed, "--like", "heron"]]) await sameSection((body, given) => browser.run(body, given), id, [...words, "--full"], "answer");
}

async function firstScreen(browser) {
  await browser.open(SHOWN);
  const { verdict } = await browser.run(inPage.shown);
  assert.ok(bare(run("neck", "kestrel", "--like", "heron").out).includes(bare(verdict)), verdict);
  await browser.clean("opened from the disk");
  for (const [width, height] of [[360, 740], [1280, 800]]) {
    await browser.openSized(width, height, SHOWN);
    for (const [top, bottom] of await browser.run(inPage.boxes)) assert.ok(top >= 0 && bottom <= height && bottom > top, `${width} x ${height}: ${top} to ${bottom}`);
    assert.match(await browser.run(() => document.querySelector("#decision").textContent), /How sure: /);
    await browser.clean(`${width} x ${height}`);
  }
}

async function handlesBy(browser, pointerType) {
  await browser.open(SHOWN);
  const changes = [];
  for (const [field, way] of [["neck", -30], ["stop", 20]]) {
    const before = await browser.run(inPage.shown), handle = await browser.run(inPage.handle, field);
    assert.ok(handle.width >= 44 && handle.height >= 44, `${handle.width} x ${handle.height}`);
    await browser.run(inPage.listen, `handle-${field}`);
    await browser.drag(handle, way, pointerType);
    const arrived = await browser.run(() => window.arrived);
    if (arrived !== pointerType) return { skipped: `a ${pointerType} arrives as ${arrived}` };
    await browser.rested();
    const after = await browser.run(inPage.shown);
    assert.ok(Number(after[field]) > Number(before[field]) + 5 && Number(after[field]) % 0.5 === 0, `${field}: ${before[field]} to ${after[field]}`);
    changes.push(`${field}=${after[field]}`);
    await sameFigures(browser, changes);
  }
  await browser.clean("dragged");
}

async function handlesByKeys(browser) {
  await browser.open(SHOWN);
  const changes = [];
  for (const field of ["neck", "stop"]) {
    const before = await browser.run(inPage.shown);
    assert.ok(await browser.run(inPage.focus, `handle-${field}`));
    await browser.keys("ArrowUp", "ArrowUp", "ArrowUp");
    await browser.rested();
    const after = await browser.run(inPage.shown);
    assert.equal(Number(after[field]), Number(before[field]) + 1.5);
    assert.equal(await browser.run((id) => document.getElementById(id).getAttribute("aria-valuetext"), `handle-${field}`), `${Number(after[field]).toFixed(1)} mm`);
    changes.push(`${field}=${after[field]}`);
    await sameFigures(browser, changes);
  }
  await browser.clean("moved by keys");
}

async function typedNumbers(browser) {
  await browser.open(SHOWN);
  assert.ok(await browser.run(inPage.focus, "a-neck"));
  await browser.keys(..."148,5", "Tab");
  await browser.rested();
  await sameFigures(browser, ["neck=148.5"]);
  await browser.run(inPage.focus, "a-neck");
  await browser.keys(..."abc", "Tab");
  await browser.rested();
  assert.equal(await browser.run(() => document.querySelector("#a-neck-wrong").textContent), run("change", "kestrel", "neck=abc").err.trim().replace(/^mensur: /, ""));
  await browser.clean("typed");
}

async function byKeys(browser) {
  await browser.open();
  await browser.run(inPage.hold);
  const brought = () => browser.run(() => window.brought.splice(0)), all = [];
  const press = async (key) => {
    await browser.keys(key).catch(async (error) => { // WebKit's driver says so, seldom, and names no reason
      if (!/unknown error: *$/.test(error.message)) throw error;
      await browser.rested();
      await browser.keys(key);
    });
    // behind the last control Firefox goes on to its own; the page is entered again at the first that is in sight
    if (key === "Tab") await browser.run(() => document.hasFocus() || (window.focus(), [...document.querySelectorAll("a[href], button")].find((it) => it.checkVisibility()).focus()));
  };
  const found = await everyControl({ press, run: (body, given) => browser.run(body, given), brings: async (kind, act) => {
    all.push(...await brought());
    await act();
    let now = await brought();
    if (!now.length) {
      await browser.rested();
      now = await brought();
    }
    all.push(...now);
    return now.includes(kind);
  } });
  all.push(...await brought());
  assert.deepEqual(found, { idle: [], hidden: [], missed: [] });
  assert.ok(all.includes("print"));
  await browser.clean("by keys");
}

async function nothingLost(browser) {
  await browser.open();
  await browser.run(inPage.drop, "instruments.csv", "name,family,stop,neck\nRook,violin,195,130\nDaw,violin,196,131\n");
  await browser.until(() => document.querySelector("#a-name").value === "Rook");
  await browser.rested();
  await browser.run(inPage.focus, "a-neck");
  await browser.keys(..."133", "Tab");
  await browser.rested();
  await browser.run(inPage.choose, "b-name", "Daw");
  await browser.rested();
  const chosen = await browser.run(inPage.shown);
  assert.deepEqual([chosen.a, chosen.neck, chosen.b], ["Rook", "133", "Daw"]);
  await browser.run(inPage.press, "undo");
  assert.deepEqual((await browser.run(inPage.shown)).b, "");
  await browser.run(inPage.press, "undo");
  assert.deepEqual((await browser.run(inPage.shown)).neck, "130.0");
  await browser.run(inPage.press, "redo");
  await browser.run(inPage.press, "redo");
  await browser.rested();
  assert.deepEqual(await browser.run(inPage.shown), chosen);
  const fragment = await browser.run(() => location.hash);
  await browser.open(); // what the device kept
  assert.deepEqual(await browser.run(inPage.shown), chosen);
  await browser.run(inPage.choose, "b-name", "");
  await browser.rested();
  await browser.open(fragment); // what the link says
  assert.deepEqual(await browser.run(inPage.shown), chosen);
  await browser.run(inPage.press, "forget");
  await browser.open();
  assert.equal((await browser.run(inPage.shown)).a, "kestrel");
  await browser.clean("kept");
}

// 25 of the damaged links that tests/page/parser.mjs reads all of; every fifth is loaded, the others followed.
async function damagedLinks(browser) {
  const all = damagedBy(DAMAGES), keys = all.length / DAMAGES.length; // each of 25 keys once, the damages in turn
  const cases = Array.from({ length: 25 }, (_, i) => all[i % DAMAGES.length * keys + Math.floor(i * keys / 25)]);
  assert.equal(new Set(cases.map(([key]) => key)).size, 25);
  await browser.open(`#${whole}`);
  for (const [i, [key, damage, fragment]] of cases.entries()) {
    const name = `${key}=${damage.slice(0, 40)}`;
    if (i % 5 === 0) await browser.open(`#${fragment}`);
    else {
      await browser.rested(); // until then the page may write its own address over the next
      await browser.run((hash) => { document.querySelector("#verdict").textContent = "before"; location.hash = hash; }, fragment);
      await browser.until(() => (document.querySelector("#verdict")?.textContent ?? "before") !== "before");
    }
    const before = await browser.run(inPage.shown);
    assert.ok(before.verdict && before.a && before.neck, `${name}: ${JSON.stringify(before).slice(0, 200)}`);
    await browser.run(inPage.focus, "a-stop-slider");
    await browser.keys("ArrowLeft");
    await browser.until((before) => document.querySelector("#a-stop").value !== before, before.stop);
    await browser.clean(name);
  }
}

async function texts(browser) {
  for (const width of [320, 360, 768, 1280, 1920]) {
    await browser.openSized(width, 740, SHOWN);
    await browser.run(inPage.openAll);
    await browser.rested();
    assert.ok(await browser.run(() => document.querySelectorAll(".drawing text").length) > 20);
    assert.deepEqual(await browser.run(cutTexts), [], `${width} px`);
    assert.deepEqual(await browser.run(textsOnTexts), [], `${width} px`);
    assert.ok(await browser.run(() => document.documentElement.scrollWidth <= innerWidth), `${width} px: wider than the window`);
    await browser.clean(`${width} px`);
  }
}

async function axe(browser) {
  let script;
  try {
    script = readFileSync(modules.resolve("axe-core/axe.min.js"), "utf8");
  } catch {
    return { skipped: "axe-core is not installed" };
  }
  for (const [width, height, fragment] of [[360, 740, SHOWN], [1280, 800, `${SHOWN}&a.neck=149&player=small`], [360, 740, "#a=kestrel&a.neck=abc&a.bridge=30&a4=470&scale=390"]]) {
    await browser.openSized(width, height, fragment);
    await browser.run(inPage.openAll);
    await browser.rested();
    await browser.run(`() => { ${script} }`);
    const { passes, violations } = await browser.run(() => window.axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"] }).then(({ passes, violations }) => ({ passes: passes.length,
      violations: violations.map((one) => `${one.id}: ${one.nodes.slice(0, 3).map((node) => node.target.join(" "))}`) })));
    assert.ok(passes > 20, `${passes}`);
    assert.deepEqual(violations, [], `${width} x ${height} ${fragment}`);
  }
}

async function forcedColours(browser) {
  const { forceColours } = browser.engine;
  if (!forceColours) return { skipped: "WebDriver cannot force colours here" };
  await forceColours(true);
  try {
    await browser.open(SHOWN);
    assert.ok(await browser.run(() => matchMedia("(forced-colors: active)").matches));
    for (const id of ["verdict", "handle-neck", "take", "a-neck"]) assert.ok(await browser.run((id) => document.getElementById(id).checkVisibility(), id), id);
    assert.notEqual(await browser.run(() => getComputedStyle(document.getElementById("handle-neck")).borderTopStyle), "none");
    await browser.clean("forced colours");
  } finally {
    await forceColours(false);
  }
}

async function paper(browser) {
  await browser.open(`${SHOWN}&a.neck=150&wish.left-reach=..580`);
  for (const [width, height] of [[21, 29.7], [21.59, 27.94]]) {
    const sheet = await browser.engine.print(width, height);
    if (!sheet) return { skipped: "WebDriver does not print here" };
    const file = join(scratch, "paper.pdf");
    writeFileSync(file, sheet);
    assert.match(execFileSync("pdfinfo", [file], { encoding: "utf8" }), /^Pages: +1$/m, `${width} x ${height} cm`);
  }
}

async function search(browser) {
  await browser.open();
  const rows = Array.from({ length: 50000 }, (_, i) => `Bird ${i},violin,${190 + i % 9},${128 + i % 7}`);
  await browser.run(inPage.drop, "instruments.csv", `name,family,stop,neck\n${rows.join("\n")}\n`);
  await browser.until(() => document.querySelector("#a-name").value === "Bird 0");
  await browser.rested();
  assert.ok(await browser.run(() => document.querySelectorAll("*").length) < 6000);
  const times = [];
  for (const text of ["4", "49", "499", "4999", "49999"]) {
    times.push(await browser.run(inPage.searched, text));
  }
  console.log(`# a key in 50,000 names: at most ${Math.max(...times).toFixed(1)} ms`);
  assert.ok(Math.max(...times) < 100, `${times}`);
  assert.match(await browser.run(() => document.querySelector("#search-found").textContent), /^1 of 50000/);
  await browser.run(inPage.press, "forget");
}

for (const name of names) {
  let engine, browser;
  const begin = async () => {
    engine = await startEngine(name, scratch);
    browser = new Browser(engine);
    await engine.size(1300, 1000);
  };
  // WebKit's driver ends its session, seldom, "because of page crash or hang", and the same keys in another pass:
  // then it is started anew, and the part done once more.
  const done = (part) => part(browser).catch(async (error) => {
    if (await browser.run(() => true).catch(({ message }) => !/invalid session id/.test(message))) throw error;
    console.log(`# the engine is gone (${error.message}): started anew`);
    assert.deepEqual(await engine.asked(), []);
    await engine.close().catch(() => {});
    await begin();
    return part(browser);
  });
  await begin();
  console.log(`# ${name} ${engine.version}`);
  const parts = { "opened from the disk; verdict, how sure and warnings stand in the first screen": firstScreen,
    "nut and bridge dragged by the mouse, with the program's figures": (it) => handlesBy(it, "mouse"),
    "nut and bridge dragged by touch, with the program's figures": (it) => handlesBy(it, "touch"),
    "nut and bridge moved by keys, with the program's figures": handlesByKeys,
    "every control is reached by Tab, seen when it has the focus, and works by keys alone": byKeys,
    "a decimal comma is read; a word is refused in the program's words": typedNumbers,
    "undo, reload and link keep everything": nothingLost,
    "25 damaged links leave a working page": damagedLinks,
    "no text of a drawing is cut or stands on another, at 320, 360, 768, 1280 and 1920 px": texts,
    "axe reports nothing of a phone, of a desktop and of a damaged link": axe,
    "forced colours: controls, handles and the verdict can be seen": forcedColours,
    "paper: one page, A4 and Letter": paper,
    "50,000 instruments are searched within 100 ms a key": search };
  for (const [what, part] of Object.entries(parts).filter(([what]) => what.includes(process.env.ONLY ?? ""))) {
    const start = performance.now();
    await test(`${name}: ${what}`, () => done(part));
    console.log(`# ${((performance.now() - start) / 1000).toFixed(1)} s`);
  }
  await test(`${name}: no request left, and nothing went wrong unseen`, async () => {
    assert.deepEqual(await engine.asked(), []);
    if (engine.log) assert.deepEqual(await engine.log(), []);
    else console.log(`# ${name} hands out no log: what goes wrong is seen from when the page is ready, not before`);
    const asking = join(scratch, "asking.html");
    writeFileSync(asking, '<!DOCTYPE html><img src="http://asked.invalid/image"><script>throw new Error("planted")</script>');
    await engine.go(pathToFileURL(asking).href);
    let asked = ""; // the watch sees what it should
    for (const end = performance.now() + 30000; !asked.includes("asked.invalid") && performance.now() < end; await pause(100)) asked += (await engine.asked()).join(" ");
    assert.match(asked, /asked\.invalid/);
    if (engine.log) assert.match((await engine.log()).join(" "), /planted/);
  });
  await engine.close();
}
finished();
