// SPDX-License-Identifier: GPL-3.0-or-later
// The user's own files, what is kept, and what a link brings back.
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { assert, openPage, run, scratch, settle, test } from "./harness.mjs";

const BAD = "name,stop,neck,string_lenght\nalpha,twelve,150,\nbeta,220,-4,\nalpha,222,150,\n\"gamma,1,2\n";
const MINE = "name;family;strings;stop;neck;note\nMerle <img src=x onerror=alert(1)>;viola;viola steel;219,5;148 ±0.5;\"two; \"\"words\"\"\"\nRook;violin;violin gut;7 3/4 in;131;\n";

const shop = (name, files) => {
  const folder = join(scratch, name);
  mkdirSync(folder, { recursive: true });
  for (const [file, text] of Object.entries(files)) writeFileSync(join(folder, file), text);
  return folder;
};
const given = (name, text) => ({ name, mimeType: "text/csv", buffer: Buffer.from(text) });

async function download(page, selector) {
  for (let tries = 0; tries < 2; tries++) { // the browser holds back some of many downloads in a row
    const event = page.waitForEvent("download", { timeout: 8000 }).catch(() => null);
    await page.click(selector);
    const got = await event;
    if (got) return { name: got.suggestedFilename(), text: readFileSync(await got.path(), "utf8") };
  }
  throw new Error(`${selector}: no download; the page says "${await page.textContent("#refusal")}"`);
}

export async function ownFiles() {
  const page = await openPage();
  await test("a bad file: the program's messages, and what was open stays open", async () => {
    const folder = shop("bad", { "instruments.csv": BAD });
    const told = run("check", "--shop", folder);
    assert.equal(told.code, 3);
    await page.setInputFiles("#open", given("instruments.csv", BAD));
    await page.waitForSelector("#read .messages");
    const said = await page.$$eval("#read .messages li", (items) => items.map((item) => item.textContent));
    assert.deepEqual(said, told.err.trim().replaceAll(`${folder}/`, "").split("\n"));
    assert.ok(said.some((line) => line.startsWith("instruments.csv:2:2: ")), said.join("\n"));
    assert.equal(await page.inputValue("#a-name"), "kestrel");
  });
  await test("a file of another name is told by its columns, dropped on the page; names are text alone", async () => {
    const transfer = await page.evaluateHandle((text) => {
      const files = new DataTransfer();
      files.items.add(new File([text], "my models.csv", { type: "text/csv" }));
      return files;
    }, MINE);
    await page.dispatchEvent("body", "drop", { dataTransfer: transfer });
    await page.waitForFunction(() => document.querySelector("#a-name").value.startsWith("Merle"));
    await settle(page);
    const folder = shop("mine", { "instruments.csv": MINE });
    const name = await page.inputValue("#a-name");
    await page.selectOption("#b-name", "");
    await page.selectOption("#whole-command", "tension");
    const shopLine = /From\s+the\s+shop\s[^]*$/; // it names the folder
    assert.equal((await page.textContent("#whole")).replace(shopLine, ""), run("tension", name, "--shop", folder).out.replace(shopLine, ""));
    assert.equal(await page.$$eval("img", (all) => all.length), 0);
  });
  await test("a file of another name with heads that people write is read", async () => {
    const text = "Bezeichnung;Familie;Bodenlänge;Deckenmensur;Hals;Steg;maker's mark\nDunnock;violin;355;195;130;33;x\n";
    await page.setInputFiles("#open", given("Modelle 2.csv", text));
    await page.waitForFunction(() => document.querySelector("#a-name").value === "Dunnock");
    assert.match((await page.textContent("#a-now")), /^string \d+\.\d mm; 2\s:\s3\.00/);
    await page.setInputFiles("#open", given("pupils.csv", "name,age,stature\nyoung one,9,1330\n"));
    await page.waitForFunction(() => [...document.querySelector("#player").options].some((one) => one.value === "young one"));
    await page.selectOption("#player", "young one");
    await settle(page);
    await page.waitForFunction(() => document.querySelector("#reach").textContent.includes("young one"));
    await page.setInputFiles("#open", given("my models.csv", MINE));
    await page.waitForFunction(() => document.querySelector("#a-name").value.startsWith("Merle"));
    await page.selectOption("#b-name", "");
    await settle(page);
  });
  await test("a file that is no table is named, and left out", async () => {
    await page.setInputFiles("#open", given("letter.csv", "dear,sir\n1,2\n"));
    await page.waitForFunction(() => document.querySelector("#read").textContent.includes("letter.csv"));
    assert.match(await page.textContent("#read"), /letter\.csv: this is none of the shop's tables/);
  });
  await test("the edited shop is kept as CSV that the program reads to the same figures", async () => {
    await page.fill("#a-neck", "151.25");
    await page.keyboard.press("Tab");
    await page.selectOption("#a-strings", "viola gut");
    await settle(page);
    const name = await page.inputValue("#a-name");
    const before = await page.$$eval("#lengths tbody tr", (rows) => rows.map((row) => row.cells[2].textContent));
    const kept = await download(page, "#tables button");
    assert.equal(kept.name, "instruments.csv");
    const folder = shop("kept", { "instruments.csv": kept.text });
    const told = ["lengths", "tension", "fingers"].map((command) => run(command, name, "--shop", folder, "--full").out).join(" ").replace(/\s+/g, " ");
    assert.equal(run("check", "--shop", folder).code, 0);
    for (const figure of before.filter((text) => text !== "?")) assert.ok(told.includes(figure.replace(/\s+/g, " ")), figure);
    assert.ok(kept.text.includes('"two; ""words"""'), kept.text);
  });
  await test("settings set the controls, and the owner's columns are kept", async () => {
    await page.setInputFiles("#open", [
      given("instruments.csv", "name,price,family,stop,neck,owner\nRook,\"12,000\",violin,195,130,\"Lane, \"\"junior\"\"\"\n"),
      given("settings.csv", "name,value\na4,442\nunits,in\nhold,slope\nheading,The Raven\n"),
    ]);
    await page.waitForFunction(() => document.querySelector("#a-name").value === "Rook");
    await settle(page);
    for (const [id, value] of [["a4", "442"], ["unit", "in"], ["hold", "slope"], ["fifths", "pure"]]) {
      assert.equal(await page.inputValue(`#${id}`), value, id);
    }
    const kept = await download(page, "#tables button");
    assert.match(kept.text, /,price,owner\r\n/);
    assert.match(kept.text, /,"12,000","Lane, ""junior"""\r\n/);
    const dossier = await download(page, '[data-keep="dossier"]');
    assert.match(dossier.text, /The Raven/);
  });
  await test("tables of the demonstration are kept as they are", async () => {
    await page.click("#demonstration");
    await settle(page);
    run("start", join(scratch, "start"));
    for (const row of await page.$$("#tables tbody tr")) {
      const [got] = await Promise.all([page.waitForEvent("download"), (await row.$("button")).click()]);
      const file = got.suggestedFilename();
      if (file === "instruments.csv") continue;
      assert.equal(readFileSync(await got.path(), "utf8"), readFileSync(join(scratch, "start", file), "utf8"), file);
    }
  });
  await test("drawings and dossier are kept, whole and without a host's name in them", async () => {
    const blank = await page.context().newPage(); // the page's own policy forbids even to look at styles
    for (const [what, ending] of [["side", ".svg"], ["places", ".svg"], ["tension", ".svg"], ["wishes", ".svg"], ["dossier", ".html"]]) {
      const { name, text } = await download(page, `[data-keep=${what}]`);
      assert.ok(name.endsWith(ending) && name.includes("kestrel"), name);
      const faults = await blank.evaluate(([markup, type]) => {
        const made = new DOMParser().parseFromString(markup, type);
        return [...made.querySelectorAll("parsererror, script, [src], image")].map((it) => it.nodeName);
      }, [text, ending === ".svg" ? "image/svg+xml" : "text/html"]);
      assert.deepEqual(faults, []);
      assert.doesNotMatch(text.replaceAll("http://www.w3.org/2000/svg", ""), /https?:\/\//);
    }
  });
  await page.context().close();
}

export async function links() {
  await test("the address carries the state, and a link brings it back", async () => {
    const page = await openPage();
    await page.selectOption("#a-name", "wren");
    await page.selectOption("#b-name", "kestrel");
    await page.focus("#a-stop-slider");
    for (let i = 0; i < 3; i++) await page.keyboard.press("ArrowLeft");
    await page.selectOption("#unit", "in");
    await page.selectOption("#player", "middle");
    await page.click("#more-wishes summary");
    await page.fill("#wish-left-reach-to", "22");
    await page.keyboard.press("Tab");
    await settle(page);
    const figures = () => page.$$eval("#results table, #decision", (all) => all.map((one) => one.textContent));
    const before = await figures(), fragment = new URL(page.url()).hash;
    assert.match(fragment, /a=wren&a\.stop=218\.5&b=kestrel&unit=in/);
    assert.match(decodeURIComponent(fragment), /wish\.left-reach=\.\.22in/);
    const other = await openPage({ fragment });
    await settle(other);
    const after = await other.$$eval("#results table, #decision", (all) => all.map((one) => one.textContent));
    assert.deepEqual(after, before);
    await page.context().close();
    await other.context().close();
  });
  await test("a link to what this shop has not says so", async () => {
    const page = await openPage({ fragment: "#a=nobody" });
    assert.match(await page.textContent("#link-notice"), /Not in this shop: .nobody/);
    await page.context().close();
  });
  await test("an instrument without a family is given one here, and then has its figures; the views show it as proposed alone", async () => {
    const page = await openPage(), text = "name,body,stop,neck\nlinnet,405,214,144\n", folder = shop("without a family", { "instruments.csv": text });
    await page.setInputFiles("#open", given("instruments.csv", text));
    await page.waitForFunction(() => /give it, or the family/.test(document.querySelector("#refusal").textContent));
    await page.selectOption("#a-family", "viola");
    await settle(page);
    assert.ok(await page.isHidden("#refusal"));
    const { answers: [told] } = JSON.parse(run("lengths", "linnet", "family=viola", "--shop", folder, "--format", "json").out);
    assert.ok((await page.textContent("#a-now")).startsWith(`string ${told.string_length_mm.toFixed(1)} mm`));
    for (const [view, at] of [["bench", "#at-string_length_mm"], ["class", "#view-figures tr:nth-child(1) td"]]) {
      await page.click(`#open-${view}`);
      assert.equal(await page.textContent(at), told.string_length_mm.toFixed(1), view);
      await page.click("#view-leave");
    }
    await page.click("#a-back");
    await settle(page);
    assert.match(await page.textContent("#refusal"), /give it, or the family/);
    await page.context().close();
  });
  await test("what cannot be read is said beside its field; what has no answer, above the figures", async () => {
    const page = await openPage();
    await page.fill("#a-neck", "abc");
    await page.keyboard.press("Tab");
    assert.equal(await page.textContent("#a-neck-wrong"), run("change", "kestrel", "neck=abc").err.trim().replace(/^mensur: /, ""));
    assert.equal(await page.getAttribute("#a-neck", "aria-invalid"), "true");
    await page.click("#a-rest-summary");
    await page.click("details.way:has(#a-bridge) > summary");
    await page.fill("#a-bridge", "30");
    await page.keyboard.press("Tab");
    await settle(page);
    const told = run("change", "kestrel", "bridge=30");
    assert.equal(told.code, 4);
    assert.ok((await page.textContent("#refusal")).startsWith(told.err.trim().replace(/^mensur: /, "")));
    await page.click("#a-back");
    await settle(page);
    assert.ok(await page.isHidden("#refusal"));
    await page.context().close();
  });
}
