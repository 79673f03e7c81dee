// SPDX-License-Identifier: GPL-3.0-or-later
// Own instruments in a link: their measurements travel, whatever the other device has.
import { assert, openPage, run, scratch, settle, test } from "./harness.mjs";
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";

const given = (name, text) => ({ name, mimeType: "text/csv", buffer: Buffer.from(text) });
const ROW = "name,family,stop,neck,bridge,price,note\n\"Merle, \"\"mine\"\"\",viola,219.5 ±0.5,5 7/8 in,37,\"1,200\",\"=two; lines\"\n";
const NAME = "Merle, \"mine\"";

async function openFile(page, text, name) {
  await page.setInputFiles("#open", given("instruments.csv", text));
  await page.waitForFunction((name) => document.querySelector("#a-name").value === name, name);
  await settle(page);
}

const names = (page) => page.$$eval("#a-name option", (all) => all.map((one) => one.value));
const lengths = (page) => page.$$eval("#lengths tbody tr", (all) => all.map((one) => one.textContent));

export async function carried() {
  await test("a link carries an own instrument, its owner's columns too, to a page that has never seen it", async () => {
    const page = await openPage();
    await openFile(page, ROW, NAME);
    await page.fill("#a-stop", "221");
    await page.keyboard.press("Tab");
    await settle(page);
    const { hash } = new URL(page.url()), other = await openPage({ fragment: hash });
    assert.ok(hash.length < 800, `${hash.length}`);
    assert.match(await other.textContent("#link-notice"), /The link brought .Merle, "mine"./);
    assert.equal(await other.inputValue("#a-name"), NAME);
    assert.deepEqual(await lengths(other), await lengths(page));
    const folder = join(scratch, "carried");
    mkdirSync(folder, { recursive: true });
    writeFileSync(join(folder, "instruments.csv"), ROW);
    const told = JSON.parse(run("lengths", NAME, "stop=221", "--shop", folder, "--format", "json").out).answers[0];
    assert.match(await other.textContent("#a-now"), new RegExp(`string ${told.string_length_mm.toFixed(1)} mm`));
    await other.selectOption("#b-name", "heron"); // the demonstration is there, too
    const [got] = await Promise.all([other.waitForEvent("download"), other.click("#tables button")]);
    const { readFileSync } = await import("node:fs"), text = readFileSync(await got.path(), "utf8");
    assert.match(text, /,price\r\n/);
    assert.match(text, /"Merle, ""mine""".*"1,200"\r\n/);
    await other.reload(); // a second time it is the same instrument
    await other.waitForSelector("html[data-ready=yes]");
    assert.ok(await other.isHidden("#link-notice"));
    assert.equal((await names(other)).filter((one) => one.startsWith("Merle")).length, 1);
    await other.context().close();
    await page.context().close();
  });
  await test("the demonstration's own instruments are not carried; another of the same name comes beside the one that is here", async () => {
    const page = await openPage();
    await page.$eval("#own", (one) => { one.open = true; });
    for (const [id, text] of [["name", "Dunnock"], ["stop", "219"], ["neck", "147"]]) await page.fill(`#own-${id}`, text);
    await page.click("#own-make");
    await settle(page);
    const { hash } = new URL(page.url());
    assert.equal(new URLSearchParams(hash.slice(1)).getAll("own").length, 1);
    assert.match(hash, /a=Dunnock.*b=heron/);
    const other = await openPage();
    await openFile(other, "name,family,stop,neck\nDunnock,violin,195,130\n", "Dunnock");
    await other.evaluate((hash) => { location.hash = hash; }, hash);
    await other.waitForFunction(() => document.querySelector("#a-name").value === "Dunnock, from the link");
    assert.deepEqual(await names(other), ["Dunnock", "Dunnock, from the link"]);
    assert.match(await other.textContent("#link-notice"), /Not in this shop: .heron/);
    await other.click("#undo");
    await settle(other);
    assert.deepEqual(await names(other), ["Dunnock"]);
    await other.context().close();
    await page.context().close();
  });
  await test("a damaged instrument in a link is refused and named; the rest of the link stands", async () => {
    const rest = "a=kestrel&a.neck=150&b=heron&a4=442";
    for (const own of ["", "xyz", "\u0000", "name\nMerle", "name,stop,neck\nMerle,abc,150", "name,stop,neck\nMerle,219", "name,stop,neck\n,219,150", "name,stop,neck\nMerle,219,-4",
      "name,stop,neck\nMerle,219,150\nRook,219,150", "name,stop,neck\n\"Merle,219,150", "name,stop,stop\nMerle,219,150", `name,stop,neck,note\nMerle,219,150,${"x".repeat(2000)}`]) {
      const page = await openPage({ fragment: `#${rest}&own=${encodeURIComponent(own)}` });
      assert.ok(await page.isHidden("#failure"), own);
      assert.match(await page.textContent("#link-notice"), /own=/, own);
      assert.deepEqual(await page.evaluate(() => ["a-name", "a-neck", "b-name", "a4"].map((id) => document.getElementById(id).value)), ["kestrel", "150", "heron", "442"], own);
      assert.match(await page.textContent("#shop-line"), /demonstration, invented/);
      await page.context().close();
    }
    const page = await openPage({ fragment: `#a=Merle&own=${encodeURIComponent("name,family,strings,stop,neck\nMerle,viola,my own set,219,150")}` });
    assert.equal(await page.inputValue("#a-name"), "Merle");
    assert.match(await page.textContent("#link-notice"), /without what this shop has not: strings .my own set/);
    await page.context().close();
  });
}
