// SPDX-License-Identifier: GPL-3.0-or-later
// The page in three engines, opened from the disk: what people do to it, the same in each. Where an engine does
// not let something be tested, a line says what.
//   node engines.test.mjs PAGE.html PROGRAM
// ENGINES=firefox,webkit runs those alone, ONLY=nut the parts with that in their names. Exit 77: an engine is not installed.
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { cutTexts, textsOnTexts } from "./boxes.mjs";
import { DAMAGES, damagedBy, whole } from "./damaged.mjs";
import { everyControl } from "./keyboard.mjs";
import { sameSection } from "./sections.mjs";
import { address, assert, finished, run, scratch, skip, test } from "./tap.mjs";
import { ENGINES, missing, startEngine } from "./webdriver.mjs";

const names = (process.env.ENGINES ?? Object.keys(ENGINES).join(",")).split(",");
for (const name of names) if (missing(name).length) skip(`${missing(name)} is not installed`);

const pause = (ms) => new Promise((done) => setTimeout(done, ms));
const SHOWN = "#a=kestrel&b=heron&like=heron";

// Run in the page.
const inPage = {
  // From now on what goes wrong and what is asked of a host is written down.
  watch: () => {
    const { error } = console;
    window.wrong = [];
    console.error = (...said) => { window.wrong.push(said.join(" ")); error.apply(console, said); };
    addEventListener("error", ({ message }) => window.wrong.push(message));
    addEventListener("unhandledrejection", ({ reason }) => window.wrong.push(String(reason)));
    addEventListener("securitypolicyviolation", ({ violatedDirective, blockedURI }) => window.wrong.push(`${violatedDirective} ${blockedURI}`));
  },
  wrong: () => [...window.wrong, ...(document.getElementById("failure").hidden ? [] : [document.getElementById("failure").textContent]),
    ...performance.getEntriesByType("resource").map(({ name }) => name).filter((url) => !/^(?:data|blob):/.test(url))],
  // What was chosen and what it comes to.
  shown: () => ({ verdict: document.querySelector("#verdict").textContent, a: document.querySelector("#a-name").value, b: document.querySelector("#b-name").value,
    neck: document.querySelector("#a-neck").value, stop: document.querySelector("#a-stop").value, now: document.querySelector("#a-now").textContent,
    figures: [...document.querySelectorAll("#lengths table, #decision")].map((one) => one.textContent).join("\n") }),
  handle: (field) => {
    const handle = document.getElementById(`handle-${field}`);
    handle.scrollIntoView({ block: "center", behavior: "instant" });
    const { x, y, width, height } = handle.getBoundingClientRect();
    return { x: x + width / 2, y: y + height / 2, width, height };
  },
  listen: (id) => document.getElementById(id).addEventListener("pointerdown", ({ pointerType }) => { window.arrived = pointerType; }),
  // Has the focus and, as a person would leave it, its text selected.
  focus: (id) => {
    const it = document.getElementById(id);
    it.scrollIntoView({ block: "center", behavior: "instant" });
    it.focus();
    it.select?.();
    return document.activeElement === it;
  },
  press: (id) => document.getElementById(id).click(),
  choose: (id, value) => {
    const it = document.getElementById(id);
    it.value = value;
    it.dispatchEvent(new Event("change", { bubbles: true }));
  },
  drop: (name, text) => {
    const dataTransfer = new DataTransfer();
    dataTransfer.items.add(new File([text], name, { type: "text/csv" }));
    document.body.dispatchEvent(new DragEvent("drop", { bubbles: true, cancelable: true, dataTransfer }));
  },
  // For a test of every control: files that are saved or chosen, and paper, are written down instead.
  hold: () => {
    window.brought = [];
    document.documentElement.style.scrollBehavior = "auto"; // a scroll under way hides what has the focus
    window.print = () => window.brought.push("print");
    document.addEventListener("click", (event) => {
      const kind = event.target.download !== undefined && event.target.download !== "" ? "download" : event.target.type === "file" ? "filechooser" : null;
      if (!kind) return;
      event.preventDefault();
      window.brought.push(kind);
    });
  },
  boxes: () => ["#verdict", "#decision", "#alarms li"].map((one) => document.querySelector(one).getBoundingClientRect()).map(({ top, bottom }) => [top, bottom]),
  openAll: () => document.querySelectorAll("details").forEach((one) => { one.open = true; }),
};

const KEYS = { ArrowUp: "\ue013", ArrowDown: "\ue015", ArrowLeft: "\ue012", ArrowRight: "\ue014", Tab: "\ue004", Enter: "\ue007", End: "\ue010", Shift: "\ue008", Space: " " };

// One engine with the page in it.
class Browser {
  constructor(engine) {
    this.engine = engine;
    this.run = engine.run;
  }

  // Asked in the page again and again, for ten seconds.
  async until(holds, ...given) {
    for (const end = performance.now() + 10000; performance.now() < end; await pause(20)) if (await this.run(holds, ...given)) return;
    assert.fail(`not within 10 s: ${holds} ${given}`);
  }

  async ready() {
    await this.until(() => document.documentElement.dataset.ready === "yes" || document.getElementById("failure")?.hidden === false);
    await this.run(inPage.watch);
  }

  async open(fragment = "") {
    await this.engine.frame(null);
    await this.engine.go("about:blank"); // an address that differs behind # alone is not loaded anew
    await this.engine.go(address + fragment);
    await this.ready();
  }

  // The page in a frame of that size, since windows are not so narrow.
  async openSized(width, height, fragment) {
    const file = join(scratch, `${width}x${height}.html`);
    writeFileSync(file, `<!DOCTYPE html><meta charset="utf-8"><style>body { margin: 0 } iframe { border: 0 }</style>`
      + `<iframe width="${width}" height="${height}" src="${address}${fragment.replaceAll("&", "&amp;")}"></iframe>`);
    await this.engine.frame(null);
    await this.engine.go(pathToFileURL(file).href);
    await this.engine.frame(await this.run(() => document.querySelector("iframe")));
    assert.deepEqual(await this.run(() => [innerWidth, innerHeight]), [width, height]);
    await this.ready();
  }

  // What waits in the page for a frame, and then for a rest, is done: it was asked for before this.
  rested() {
    return this.run(async () => {
      const frame = () => new Promise(requestAnimationFrame);
      await frame();
      await frame();
      await new Promise((done) => setTimeout(done, 300));
      await frame();
    });
  }

  async clean(where) {
    assert.deepEqual(await this.run(inPage.wrong), [], where);
  }

  async keys(...pressed) {
    const strokes = (key) => key.split("+").map((one) => KEYS[one] ?? one), step = (type) => (value) => ({ type, value });
    await this.engine.act([{ type: "key", id: "keys", actions: pressed.flatMap((key) => [...strokes(key).map(step("keyDown")), ...strokes(key).reverse().map(step("keyUp"))]) }]);
  }

  async drag({ x, y }, way, pointerType) {
    const steps = Array.from({ length: 5 }, (_, i) => ({ type: "pointerMove", duration: 20, x: Math.round(x + way * (i + 1) / 5), y: Math.round(y) }));
    await this.engine.act([{ type: "pointer", id: pointerType, parameters: { pointerType },
      actions: [{ type: "pointerMove", duration: 0, x: Math.round(x), y: Math.round(y) }, { type: "pointerDown", button: 0 }, ...steps, { type: "pointerUp", button: 0 }] }]);
  }
}

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
    await browser.keys(key);
    // behind the last control Firefox goes on to its own; the page is entered again at the first
    if (key === "Tab") await browser.run(() => document.hasFocus() || (window.focus(), document.querySelector("a[href]").focus()));
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
  const all = damagedBy(DAMAGES), step = Math.floor(all.length / 25) | 1;
  const cases = Array.from({ length: 25 }, (_, i) => all[i * step]);
  assert.equal(new Set(cases.map(([key]) => key)).size > 15, true);
  await browser.open(`#${whole}`);
  for (const [i, [key, damage, fragment]] of cases.entries()) {
    const name = `${key}=${damage.slice(0, 40)}`;
    if (i % 5 === 0) await browser.open(`#${fragment}`);
    else {
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

for (const name of names) {
  const engine = await startEngine(name, scratch), browser = new Browser(engine);
  console.log(`# ${name} ${engine.version}`);
  await engine.size(1300, 1000);
  const parts = { "opened from the disk; verdict, how sure and warnings stand in the first screen": firstScreen,
    "nut and bridge dragged by the mouse, with the program's figures": (it) => handlesBy(it, "mouse"),
    "nut and bridge dragged by touch, with the program's figures": (it) => handlesBy(it, "touch"),
    "nut and bridge moved by keys, with the program's figures": handlesByKeys,
    "every control is reached by Tab, seen when it has the focus, and works by keys alone": byKeys,
    "a decimal comma is read; a word is refused in the program's words": typedNumbers,
    "undo, reload and link keep everything": nothingLost,
    "25 damaged links leave a working page": damagedLinks,
    "no text of a drawing is cut or stands on another, at 320, 360, 768, 1280 and 1920 px": texts };
  for (const [what, part] of Object.entries(parts).filter(([what]) => what.includes(process.env.ONLY ?? ""))) {
    const start = performance.now();
    await test(`${name}: ${what}`, () => part(browser));
    console.log(`# ${((performance.now() - start) / 1000).toFixed(1)} s`);
  }
  await test(`${name}: no request left, and nothing went wrong unseen`, async () => {
    assert.deepEqual(await engine.asked(), []);
    if (engine.log) assert.deepEqual(await engine.log(), []);
    else console.log(`# ${name} hands out no log: what goes wrong is seen from when the page is ready, not before`);
    const asking = join(scratch, "asking.html");
    writeFileSync(asking, '<!DOCTYPE html><img src="http://asked.invalid/image"><script>throw new Error("planted")</script>');
    await engine.go(pathToFileURL(asking).href);
    await pause(500);
    assert.match((await engine.asked()).join(" "), /asked\.invalid/); // the watch sees what it should
    if (engine.log) assert.match((await engine.log()).join(" "), /planted/);
  });
  await engine.close();
}
finished();
