// SPDX-License-Identifier: GPL-3.0-or-later
// The page answers as the program does: its text letter by letter, its JSON to 1e-12, its
// sections the program's HTML; for the whole demonstration.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { assert, openPage, run, scratch, settle, test } from "./harness.mjs";
import { sameJson } from "./same_bytes.mjs";
import { sameSection as sectionIsSame } from "./sections.mjs";

const INSTRUMENTS = run("lengths", "--format", "csv").out.trim().split(/\r?\n/).slice(1).map((line) => line.split(",")[0]);

async function choose(page, { a, b = "", wishes = {} }) {
  const pairs = new URLSearchParams({ a, ...(b ? { b } : {}), ...wishes });
  await page.evaluate((hash) => { location.hash = hash; }, pairs.toString());
  await page.waitForFunction((name) => document.querySelector("#a-name").value === name, a);
  await settle(page);
}

async function whole(page, command, format, working = false, full = false) {
  await page.selectOption("#whole-command", command);
  await page.selectOption("#whole-format", format);
  await page.setChecked("#whole-working", working);
  await page.setChecked("#whole-full", full);
  return page.textContent("#whole");
}

async function same(page, command, words, name) {
  const text = run(...words), json = run(...words, "--format", "json"), csv = run(...words, "--format", "csv");
  assert.ok(text.code <= 1, `${name}: ${text.err}`);
  assert.equal(await whole(page, command, "text"), text.out, `${name}, text`);
  assert.equal(await whole(page, command, "text", false, true), run(...words, "--full").out, `${name}, in full`);
  assert.equal(await whole(page, command, "csv"), csv.out, `${name}, CSV`);
  sameJson(JSON.parse(await whole(page, command, "json")), JSON.parse(json.out), name);
}

const plain = (text) => text.replace(/\s+/g, " ");

// What each section says of the instruments is what the program says of them, without the notes below,
// which stand together in a section of their own.
async function sameInstruments(page, about, each, shown) {
  await sameSection(page, "lengths", [...about, ...shown, "--full"], "answer");
  for (const [id, command] of [["strings", "tension"], ["fingers", "fingers"]]) {
    await sameSection(page, id, [command, ...each, ...shown, "--full"], "answer");
  }
}

const sameSection = (page, ...section) => sectionIsSame((body, given) => page.evaluate(body, given), ...section);

async function sameDecision(page, place, name, words, fragment) {
  await choose(page, { a: name, wishes: { decide: place, ...fragment } });
  const told = run(place, name, ...words);
  assert.ok(told.code <= 1, told.err);
  await same(page, "decision", [place, name, ...words], `${place} ${name} ${words}`);
  await sameSection(page, "decision", [place, name, ...words, "--full"], "answer");
  await sameSection(page, "decision-notes", [place, name, ...words], "notes");
  const verdict = await page.textContent("#verdict"), leaves = verdict.startsWith(`${name}: leave the ${place} as it is`);
  assert.equal(plain(told.out).includes(plain(verdict)), true, verdict);
  assert.equal(await page.isVisible("#take"), told.code === 0 && !leaves);
  return leaves;
}

export async function sameAnswers() {
  const page = await openPage();
  for (const name of INSTRUMENTS) {
    await test(`${name}: lengths, tension and fingers are the program's`, async () => {
      await choose(page, { a: name });
      for (const command of ["lengths", "tension", "fingers"]) await same(page, command, [command, name], `${command} ${name}`);
      await sameInstruments(page, ["lengths", name], [name], []);
    });
  }
  await test("every instrument, row by row", () => same(page, "every", ["lengths"], "every instrument"));
  await test("side by side, every instrument with the next", async () => {
    for (const [i, a] of INSTRUMENTS.entries()) {
      const b = INSTRUMENTS[(i + 1) % INSTRUMENTS.length];
      await choose(page, { a, b });
      await same(page, "compare", ["compare", a, b], `${a} and ${b}`);
      await sameInstruments(page, ["compare", a, b], [a, b], []);
      const text = plain(run("compare", a, b, "--full", "--working").out).replace(/\u00a0/g, " ");
      const notes = await page.$$eval("#notes li", (items) => items.map((item) => item.textContent));
      assert.ok(notes.length > 4, "notes");
      for (const note of notes) assert.ok(text.includes(plain(note).replace(/\u00a0/g, " ").replace(/\.$/, "")), note);
    }
  });
  await test("as it is and as changed, in mm, in inches, and back from the link", async () => {
    await choose(page, { a: "kestrel", wishes: { "a.neck": "148", "a.strings": "viola synthetic" } });
    await same(page, "change", ["change", "kestrel", "neck=148", "strings=viola synthetic"], "change");
    const changes = ["kestrel", "neck=148", "strings=viola synthetic"];
    await sameInstruments(page, ["change", ...changes], changes, []);
    await choose(page, { a: "heron", wishes: { "a.stop": "8.5in", unit: "in", force: "lbf", a4: "415", fifths: "equal", steps: "just", hold: "slope" } });
    const terms = ["--inches", "--force-unit", "lbf", "--a4", "415", "--fifths", "equal", "--steps", "just", "--hold", "slope"];
    await same(page, "change", ["change", "heron", "stop=8.5in", ...terms], "in inches");
    await sameInstruments(page, ["change", "heron", "stop=8.5in"], ["heron", "stop=8.5in"], terms);
  });
  await test("decisions: met, not met, for the stop, by tension, by reach", async () => {
    assert.ok(!await sameDecision(page, "neck", "kestrel", ["--like", "heron"], { like: "heron" }));
    assert.match(await page.textContent("#decision"), /How sure: /);
    assert.match(await page.textContent("#decision-notes"), /more force on the belly/);
    await sameDecision(page, "neck", "kestrel", ["--ratio", "2:2.9..2:3.1", "--string-length", "373..376"],
      { "wish.ratio": "2:2.9..2:3.1", "wish.string-length": "373..376" });
    await sameDecision(page, "stop", "wren", ["--string-length", "368..376", "--left-reach", "..560"],
      { "wish.string-length": "368..376", "wish.left-reach": "..560" });
    await sameDecision(page, "neck", "heron", ["--tension", "A4=44..50", "--body-note", "8.4..9.2"],
      { "tension.A4": "44..50", "wish.body-note": "8.4..9.2" });
  });
  await test("decisions without a wish, and to leave it", async () => {
    for (const place of ["neck", "stop"]) for (const name of ["kestrel", "heron", "wren"]) await sameDecision(page, place, name, [], {});
    assert.ok(await sameDecision(page, "neck", "heron", ["--string-length", "370..380"], { "wish.string-length": "370..380" }));
    assert.match(plain(await page.textContent("#verdict")), /^heron: leave the neck as it is, 150\.0 mm: it meets the wish\.$/);
    assert.match(plain(await page.textContent("#decision")), /How sure: very likely \(\d+ %\)/);
    assert.ok(await page.evaluate(() => document.querySelector("#draw-wishes svg") !== null));
  });
  await test("what is built is asked as built", async () => {
    await choose(page, { a: "kestrel", wishes: { "a.built": "yes", "a.neck": "147" } });
    assert.equal(await page.inputValue("#a-built"), "yes");
    await same(page, "change", ["change", "kestrel", "built=yes", "neck=147"], "built");
    await choose(page, { a: "kestrel", wishes: { "a.built": "yes", "a.bridge": "34" } });
    await same(page, "change", ["change", "kestrel", "built=yes", "bridge=34"], "built, another bridge");
  });
  await test("wishes for forces are in the page's unit, and keep theirs", async () => {
    await choose(page, { a: "kestrel" });
    await page.$eval("#more-wishes", (one) => { one.open = true; });
    await page.fill("#wish-belly-force-to", "7.5");
    await page.keyboard.press("Tab");
    await settle(page);
    assert.match(decodeURIComponent(new URL(page.url()).hash), /wish\.belly-force=\.\.7\.5kg/);
    await sameSection(page, "decision", ["neck", "kestrel", "--belly-force", "..7.5kg", "--full"], "answer");
    await page.selectOption("#force", "N");
    assert.equal(await page.inputValue("#wish-belly-force-to"), "7.5kg");
    await page.fill("#wish-belly-force-to", "74");
    await page.keyboard.press("Tab");
    await settle(page);
    await sameSection(page, "decision", ["neck", "kestrel", "--belly-force", "..74", "--force-unit", "N", "--full"], "answer");
    await choose(page, { a: "kestrel", wishes: { "wish.string-length": "370-380", "tension.A4": "5.5..6kg", "wish.ratio": "2:3" } });
    const shown = {};
    for (const id of ["wish-string-length", "wish-A4", "wish-ratio"]) shown[id] = [await page.inputValue(`#${id}-from`), await page.inputValue(`#${id}-to`)];
    assert.deepEqual(shown, { "wish-string-length": ["370", "380"], "wish-A4": ["5.5", "6"], "wish-ratio": ["3", "3"] });
  });
  await test("what is liked is liked as changed", async () => {
    const words = ["neck", "kestrel", "stop=218", "--like", "heron", "--like-with", "neck=152"];
    await choose(page, { a: "kestrel", b: "heron", wishes: { "a.stop": "218", "b.neck": "152", like: "heron" } });
    await same(page, "decision", words, "a liked one as changed");
    await same(page, "compare", ["compare", "kestrel", "stop=218", "heron", "neck=152"], "two as changed");
    await same(page, "tension", ["tension", "kestrel", "stop=218", "heron", "neck=152"], "two as changed");
  });
  await test("what is kept as a file is what the program writes", async () => {
    const kept = async (what) => {
      const [got] = await Promise.all([page.waitForEvent("download"), page.click(`[data-keep=${what}]`)]);
      return readFileSync(await got.path(), "utf8");
    };
    const written = (file, ...words) => {
      const path = join(scratch, file), { code, err } = run(...words, "--output", path, "--overwrite");
      assert.ok(code <= 1, err);
      return readFileSync(path, "utf8");
    };
    await choose(page, { a: "kestrel", wishes: { like: "heron" } });
    assert.equal(await kept("dossier"), written("one.html", "dossier", "kestrel", "--like", "heron"));
    assert.equal(await kept("side"), written("one.svg", "lengths", "kestrel"));
    assert.equal(await kept("tension"), written("pull.svg", "tension", "kestrel"));
    assert.equal(await kept("places"), written("places.svg", "fingers", "kestrel"));
    await choose(page, { a: "kestrel", b: "heron", wishes: { "a.neck": "150", like: "heron" } });
    assert.equal(await kept("dossier"), written("two.html", "dossier", "kestrel", "neck=150", "heron", "--like", "heron"));
  });
  await test("strings for a length, and a player's reach", async () => {
    await choose(page, { a: "kestrel" });
    await same(page, "restring", ["restring", "kestrel"], "restring");
    await choose(page, { a: "kestrel", b: "heron", wishes: { "a.neck": "150", "tension.A4": "40..60", "restring.like": "heron",
      "restring.impedance": "yes", "restring.margin": "1.5", "restring.belly": "95", "restring.packets": "A4=55@370; C3=50@370@442" } });
    const words = ["restring", "kestrel", "neck=150", "--like", "heron", "--feel-by", "impedance", "--margin", "1.5",
      "--belly-force", "..95", "--packet", "A4=55@370", "--packet", "C3=50@370@442", "--tension", "A4=40..60"];
    await same(page, "restring", words, "restring by packets");
    assert.equal(await whole(page, "restring", "text", true), run(...words, "--working").out);
    await sameSection(page, "restring", [...words, "--full"]);
    for (const [wishes, words] of [
      [{ material: "steel", profile: "equal" }, ["--material", "steel", "--profile", "equal"]],
      [{ material: "mix", profile: "graded", order: "yes" }, ["--mix", "--profile", "graded", "--to-order", "gut"]]]) {
      await choose(page, { a: "heron", wishes: Object.fromEntries(Object.entries(wishes).map(([key, value]) => [`restring.${key}`, value])) });
      await same(page, "restring", ["restring", "heron", ...words], words.join(" "));
      await sameSection(page, "restring", ["restring", "heron", ...words, "--full"]);
    }
    await choose(page, { a: "kestrel", b: "wren", wishes: { player: "small" } });
    await same(page, "reach", ["reach", "kestrel", "wren", "--player", "small"], "reach");
    await sameSection(page, "reach", ["reach", "kestrel", "wren", "--player", "small", "--full"]);
  });
  await test("the working", async () => {
    await choose(page, { a: "kestrel", b: "heron", wishes: { like: "heron" } });
    assert.equal(await whole(page, "compare", "text", true), run("compare", "kestrel", "heron", "--working").out);
    await page.setChecked("#whole-working", false);
    for (const details of await page.$$("details.working > summary")) await details.click();
    await settle(page);
    for (const count of await page.$$eval("details.working > div", (boxes) => boxes.map((box) => box.children.length))) assert.ok(count > 3, `${count} lines`);
  });
  await page.context().close();
}
