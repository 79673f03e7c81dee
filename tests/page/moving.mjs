// SPDX-License-Identifier: GPL-3.0-or-later
// What is dragged: while it moves and when it rests, with the figures of the program; the ends of wishes,
// and the point on the map.
import { assert, browser, openPage, run, settle, test } from "./harness.mjs";

const PHONE = { width: 360, height: 740 }, DESKTOP = { width: 1280, height: 800 };
const LIKED = "#a=kestrel&b=heron&like=heron";
const WISHED = "#a=kestrel&wish.string-length=370..378&wish.ratio=2:2.6..2:3&wish.left-reach=..575&tension.A4=50..62";

// Brings it into sight, its middle so many px from the top (NaN: into the middle), and gives that.
async function middleOf(page, id, top = NaN) {
  await page.$eval(id, (one, top) => {
    one.scrollIntoView({ block: "center", behavior: "instant" });
    const { y, height } = one.getBoundingClientRect();
    if (top >= 0) scrollBy({ top: y + height / 2 - top, behavior: "instant" });
  }, top);
  await page.waitForTimeout(150);
  return page.$eval(id, (one) => {
    const { x, y, width, height } = one.getBoundingClientRect();
    return { x: x + width / 2, y: y + height / 2, width, height };
  });
}

async function drag(page, id, right, down = 0, top = NaN) {
  const { x, y } = await middleOf(page, id, top);
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let i = 1; i <= 5; i++) await page.mouse.move(x + right * i / 5, y + down * i / 5);
  return { release: () => page.mouse.up() };
}

const nextFrames = (page) => page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => requestAnimationFrame(done)))));
const state = (page) => new URLSearchParams(page.url().split("#")[1]);

// What the verdict, the figures and the side view show.
const shown = (page) => page.evaluate(() => ({ verdict: document.querySelector("#verdict").textContent, glance: document.querySelector("#glance").textContent,
  now: document.querySelector("#a-now").textContent, drawn: [...document.querySelectorAll("#draw-side text")].map((one) => one.textContent).join("|"),
  alarms: [...document.querySelectorAll("#alarms li")].map((one) => one.textContent).join("|") }));

export async function moving() {
  // What is out of sight keeps what it says until it rests; so the nut is dragged low, below the verdict, and high.
  for (const [viewport, part, at] of [[PHONE, "verdict", 700], [PHONE, "glance", 120], [DESKTOP, "verdict", 760], [DESKTOP, "glance", 200]]) {
    await test(`while the nut is dragged the figures in sight are those at rest, without how sure they are (${viewport.width} px, ${part})`, async () => {
      const page = await openPage({ viewport, fragment: LIKED });
      const side = () => page.$eval("#draw-side", (one) => one.getBoundingClientRect().top + scrollY);
      const { release } = await drag(page, "#handle-neck", -9, 0, at);
      await nextFrames(page);
      const { drawn } = await shown(page); // with every frame; what is read follows eight times a second
      await page.waitForTimeout(200);
      const isSeen = (id) => page.$eval(id, (one) => one.getBoundingClientRect().bottom > 0 && one.getBoundingClientRect().top < innerHeight);
      assert.ok(await isSeen(`#${part}`));
      const seen = { verdict: await isSeen("#decision"), glance: await isSeen("#glance") };
      const under = await page.evaluate(() => ({ moving: document.body.classList.contains("moving"), text: document.querySelector("#handle-neck").getAttribute("aria-valuetext"),
        sure: getComputedStyle(document.querySelector("#decision .sure")).visibility,
        away: [...document.querySelectorAll(".sheet > section")].filter((one) => getComputedStyle(one).contentVisibility === "hidden").length,
        length: document.documentElement.scrollHeight, bar: document.querySelector("#bar-says").textContent }));
      assert.ok(under.moving && under.sure === "hidden" && under.away > 6, JSON.stringify(under));
      assert.doesNotMatch(under.bar, /likely/);
      if (viewport.width > 1000) {
        const [, neck] = /^([\d.]+) mm$/.exec(under.text);
        await page.waitForFunction((neck) => Number(document.querySelector("#a-neck").value) === Number(neck) && Number(document.querySelector("#a-neck-slider").value) === Number(neck), neck, { timeout: 1000 });
        assert.match(await page.textContent("#a-now"), /^string /);
      }
      const before = await shown(page), top = await side();
      assert.match(before.alarms, /force on the belly/);
      const neck = /^([\d.]+) mm$/.exec(under.text)[1];
      const { answers: [told] } = JSON.parse(run("neck", "kestrel", `neck=${neck}`, "--like", "heron", "--format", "json").out);
      const proposed = told.steps.find((one) => one.present);
      assert.ok(!seen.glance || before.glance.includes(`proposed ${proposed.string_length_mm.toFixed(1)} mm`), before.glance);
      assert.ok(!seen.verdict || before.verdict.includes(`(proposed ${proposed.neck_mm.toFixed(1)}`), before.verdict);
      assert.ok(drawn.includes(`string ${proposed.string_length_mm.toFixed(1)}`), drawn);
      await page.waitForTimeout(400); // held still
      assert.equal(await side(), top); // what is dragged stays where it is
      await release();
      await settle(page);
      const after = await shown(page);
      assert.ok(after.glance.includes(`proposed ${proposed.string_length_mm.toFixed(1)} mm`) && after.verdict.includes(`(proposed ${proposed.neck_mm.toFixed(1)}`), JSON.stringify(after));
      for (const one of [part, ...Object.keys(seen).filter((one) => seen[one]), ...(viewport.width > 1000 ? ["now"] : []), "alarms"]) assert.equal(after[one], before[one]);
      assert.ok(after.now.startsWith(`string ${proposed.string_length_mm.toFixed(1)} mm`), after.now);
      assert.match(await page.textContent("#decision .sure"), /^How sure: .*likely/);
      assert.equal(await page.$$eval("section", (all) => all.filter((one) => getComputedStyle(one).contentVisibility !== "visible" || one.style.height).length), 0);
      await page.context().close();
    });
  }
  for (const viewport of [PHONE, DESKTOP]) {
    for (const what of viewport === DESKTOP ? ["nut", "slider"] : ["nut", "nut below the verdict"]) {
      await test(`while it moves only the boxes of what changes are laid out (${viewport.width} px, ${what})`, async () => {
        const page = await openPage({ viewport, fragment: LIKED });
        await page.evaluate(() => { // what follows eight times a second stays, and nothing comes to rest
          const { setTimeout } = window;
          window.setTimeout = (then, after) => after === 125 || after === 250 ? 1 : setTimeout(then, after);
        });
        const { x, y } = await middleOf(page, what === "slider" ? "#a-neck-slider" : "#handle-neck", what === "nut below the verdict" ? 700 : NaN);
        await page.mouse.move(x, y);
        await page.mouse.down();
        const moves = async (count) => {
          for (let i = 0; i < count; i++) {
            await page.mouse.move(x - 5 - (what === "slider" ? 6 : 2) * (i % 2), y);
            await nextFrames(page);
          }
        };
        await moves(3);
        await browser.startTracing(page, { categories: ["devtools.timeline"] });
        await moves(20);
        const { traceEvents } = JSON.parse(await browser.stopTracing());
        const partial = traceEvents.filter(({ name, args }) => name === "Layout" && args?.beginData).map(({ args }) => args.beginData.partialLayout);
        assert.ok(partial.length >= 15 && partial.filter(Boolean).length > 0.6 * partial.length, String(partial));
        await page.mouse.up();
        await page.context().close();
      });
    }
    await test(`figures that come to stand beside the side view with a move have room there (${viewport.width} px)`, async () => {
      const page = await openPage({ viewport, fragment: "#a=swift" });
      assert.doesNotMatch(await page.textContent("#glance"), /proposed/);
      const { release } = await drag(page, "#handle-neck", -9);
      await nextFrames(page);
      const { had, has } = await page.$eval("#glance", (one) => ({ had: Math.max(...[...one.querySelectorAll("dd")].map((dd) => dd.getBoundingClientRect().bottom)), has: one.getBoundingClientRect().bottom }));
      assert.match(await page.textContent("#glance"), /proposed/);
      assert.ok(had <= has + 1, `${had} above ${has}`);
      await release();
      await page.context().close();
    });
    await test(`the nut follows a pointer; its handle is out of sight until it is let go, and then stands at the nut (${viewport.width} px)`, async () => {
      const page = await openPage({ viewport, fragment: `${LIKED}&a.neck=150` });
      // where the first instrument's nut is drawn (the saddle's line comes before it), a handle's middle, and whether it can be seen
      const places = () => page.evaluate(() => {
        const { left, width } = document.querySelector("#draw-side svg").getBoundingClientRect(), handle = document.querySelector("#handle-neck");
        const [, nut] = document.querySelectorAll('#draw-side line[stroke-width="3"]'), box = handle.getBoundingClientRect();
        return { nut: left + nut.x1.baseVal.value * width / document.querySelector("#draw-side svg").viewBox.baseVal.width, handle: box.x + box.width / 2, seen: handle.checkVisibility({ opacityProperty: true }) };
      });
      const { release } = await drag(page, "#handle-neck", 4);
      await nextFrames(page);
      const first = await places(), at = await page.$eval("#handle-neck", (one) => one.getBoundingClientRect().y);
      await page.mouse.move(first.handle + 24, at + 22);
      await nextFrames(page);
      const held = await places(), way = held.nut - first.nut;
      assert.ok(!held.seen && Math.abs(way - 20) < 2, JSON.stringify([first, held]));
      await release();
      await nextFrames(page);
      const letGo = await places(); // before it rests
      assert.ok(letGo.seen && Math.abs(letGo.handle - letGo.nut) < 3, JSON.stringify([held, letGo]));
      await settle(page);
      const after = await places();
      assert.ok(after.seen && Math.abs(after.handle - after.nut) < 3, JSON.stringify([held, after]));
      await page.evaluate(async () => { // by its slider, which does not rest meanwhile: the handle comes after
        const slider = document.querySelector("#a-neck-slider");
        slider.focus({ preventScroll: true });
        for (let i = 0; i < 12; i++) {
          slider.value = String(Number(slider.value) + (i < 8 ? 1 : i % 2 - 0.5));
          slider.dispatchEvent(new Event("input", { bubbles: true }));
          await new Promise((done) => setTimeout(done, 40));
        }
      });
      const slid = await places();
      assert.ok(await page.evaluate(() => document.body.classList.contains("moving")));
      assert.ok(slid.seen && slid.nut < after.nut - 2 && Math.abs(slid.handle - slid.nut) < 3, JSON.stringify([after, slid]));
      await page.context().close();
    });
  }
  await test("the axes stand still while something is dragged", async () => {
    const page = await openPage({ fragment: LIKED });
    const lowerEnd = () => page.$$eval("#draw-side line", (all) => all.map((one) => [one.getAttribute("x1"), one.getAttribute("x2")]).filter(([from, to]) => from === to).map(([x]) => Number(x)).filter((x) => x > 200).sort((a, b) => a - b));
    const { release } = await drag(page, "#handle-neck", -1);
    await nextFrames(page);
    const at = await lowerEnd();
    const { x, y } = await page.$eval("#handle-neck", (one) => one.getBoundingClientRect());
    await page.mouse.move(x + 10, y + 22);
    await nextFrames(page);
    assert.deepEqual((await lowerEnd()).slice(0, 2), at.slice(0, 2)); // bridge and lower end of the first
    const room = new Set(); // of a longer neck, whose nut is higher than the body: made once, then kept
    for (const by of [-30, -33, -36, -39, -42]) {
      await page.mouse.move(x + by, y + 22);
      await nextFrames(page);
      room.add(await page.$eval("#draw-side svg", (one) => one.getAttribute("viewBox")));
    }
    assert.equal(room.size, 1, [...room].join());
    await release();
    await page.context().close();
  });
  await test("the ends of the wishes are dragged and moved by keys; bands and figures are the program's; undo brings them back", async () => {
    const page = await openPage({ viewport: { width: 360, height: 740 }, fragment: `${WISHED}&open=why` });
    const box = await middleOf(page, "#band-string_length-low");
    assert.ok(box.width >= 44 && box.height >= 44);
    const ticks = () => page.$$eval("#draw-wishes text", (all) => all.filter((one) => /^\d+$/.test(one.textContent)).map((one) => [one.textContent, one.getAttribute("x")].join()));
    const before = await ticks(), { release } = await drag(page, "#band-string_length-low", -20);
    await nextFrames(page);
    assert.deepEqual(await ticks(), before);
    await release();
    await settle(page);
    const [low, high] = state(page).get("wish.string-length").split("..").map(Number);
    assert.ok(low < 368 && low > 355 && low % 0.5 === 0 && high === 378, `${low}..${high}`);
    for (const [id, key, field, to] of [["#band-string_length-low", "ArrowUp", "wish.string-length", `${low + 0.5}..378`], ["#band-ratio-high", "ArrowDown", "wish.ratio", "2:2.6..2:2.99"],
      ["#band-left_reach-high", "PageDown", "wish.left-reach", "..570"], ["#band-tension_A4-low", "ArrowUp", "tension.A4", "50.5..62"]]) {
      await page.focus(id);
      await page.keyboard.press(key);
      await settle(page);
      assert.equal(state(page).get(field), to);
      assert.equal(await page.evaluate(() => `#${document.activeElement.id}`), id);
      const one = await page.$eval(id, (one) => ["role", "aria-valuetext", "aria-label", "aria-valuenow"].map((name) => one.getAttribute(name)));
      assert.ok(one[0] === "slider" && one[1] && one[2] && Number(one[3]) > 0, one.join());
    }
    const words = ["neck", "kestrel", "--string-length", state(page).get("wish.string-length"), "--ratio", "2:2.6..2:2.99", "--left-reach", "..570", "--tension", "A4=50.5..62"];
    const { answers: [told] } = JSON.parse(run(...words, "--format", "json").out);
    const where = await page.evaluate(() => {
      const svg = document.querySelector("#draw-wishes svg"), texts = [...svg.querySelectorAll("text")].filter((one) => /^\d+$/.test(one.textContent));
      const [one, other] = [texts[0], texts.at(-1)].map((text) => [Number(text.textContent), Number(text.getAttribute("x"))]);
      const mm = (x) => one[0] + (x - one[1]) * (other[0] - one[0]) / (other[1] - one[1]), { left, width } = svg.getBoundingClientRect();
      const edge = (id, side) => mm((document.getElementById(id).getBoundingClientRect()[side] - left) * 480 / width);
      return { low: edge("band-string_length-low", "right"), high: edge("band-string_length-high", "left"), ratio: edge("band-ratio-low", "left") };
    });
    assert.ok(Math.abs(where.low - told.wants[0].neck_low_mm) < 0.2 && Math.abs(where.high - told.wants[0].neck_high_mm) < 0.2 && Math.abs(where.ratio - told.wants[1].neck_high_mm) < 0.2, JSON.stringify([where, told.wants]));
    assert.equal(await page.inputValue("#wish-string-length-from"), String(low + 0.5));
    await page.focus("#band-string_length-low");
    await page.keyboard.press("End");
    await settle(page);
    const [least, most] = state(page).get("wish.string-length").split("..");
    assert.ok(most === undefined || Number(least) <= Number(most));
    for (let i = 0; i < 6; i++) await page.click("#undo");
    await settle(page);
    assert.equal(state(page).get("wish.string-length"), "370..378");
    await page.context().close();
  });
  await test("a liked length that is dragged becomes a range of its own, says so, and undo brings it back; an end typed with a unit keeps its meaning", async () => {
    const page = await openPage({ fragment: LIKED }), before = await page.textContent("#decision");
    assert.match(await page.getAttribute("#band-string_length-low", "aria-label"), /as on .heron/);
    assert.equal(await page.textContent("#wish-freed"), "");
    const { release } = await drag(page, "#band-string_length-low", -40);
    await release();
    await settle(page);
    const [low, high] = state(page).get("wish.string-length").split("..").map(Number);
    const liked = JSON.parse(run("neck", "kestrel", "--like", "heron", "--format", "json").out).answers[0].wants[0];
    assert.ok(low < liked.low - 1 && low % 0.5 === 0 && Math.abs(high - liked.high) < 1e-3, `${low}..${high}, ${JSON.stringify(liked)}`);
    assert.equal(state(page).get("like"), null);
    assert.equal(await page.inputValue("#like"), "");
    assert.match(await page.textContent("#wish-freed"), /was wished as on .heron.; it is now a range of its own, [\d.]+ to [\d.]+ mm\. Undo brings/);
    await page.click("#undo");
    await settle(page);
    assert.deepEqual([state(page).get("like"), state(page).get("wish.string-length"), await page.textContent("#decision"), await page.textContent("#wish-freed")], ["heron", null, before, ""]);
    await page.focus("#band-string_length-high");
    await page.keyboard.press("ArrowUp");
    await settle(page);
    assert.equal(state(page).get("like"), null);
    assert.equal(await page.evaluate(() => document.activeElement.id), "band-string_length-high");
    await page.evaluate(() => { location.hash = "a=kestrel&wish.string-length=37cm..37.8cm"; });
    await settle(page);
    await page.focus("#band-string_length-low");
    await page.keyboard.press("ArrowDown");
    await settle(page);
    assert.equal(state(page).get("wish.string-length"), "369.5..378");
    await page.context().close();
  });
  await test("the point on the map is dragged and moved by keys, and moves stop and neck", async () => {
    const page = await openPage({ fragment: LIKED });
    await page.$eval("#map-details", (one) => { one.open = true; });
    await page.waitForSelector("#draw-map svg");
    await settle(page);
    const from = await middleOf(page, "#handle-map");
    const disc = await page.evaluate(() => [...document.querySelectorAll("#draw-map circle")].map((one) => one.getBoundingClientRect()).map(({ x, y, width }) => [x + width / 2, y + width / 2]));
    assert.ok(disc.some(([x, y]) => Math.hypot(x - from.x, y - from.y) < 1.5), "the handle stands on the point");
    const { release } = await drag(page, "#handle-map", 24, -18);
    await release();
    await settle(page);
    const stop = Number(state(page).get("a.stop")), neck = Number(state(page).get("a.neck"));
    assert.ok(stop > 214 && neck > 144 && stop % 0.5 === 0 && neck % 0.5 === 0, `${stop} ${neck}`);
    assert.equal(await page.getAttribute("#handle-map", "aria-valuetext"), `stop ${stop.toFixed(1)} mm, neck ${neck.toFixed(1)} mm`);
    await page.focus("#handle-map");
    for (const key of ["ArrowUp", "ArrowUp", "ArrowLeft"]) await page.keyboard.press(key);
    await settle(page);
    assert.deepEqual([state(page).get("a.stop"), state(page).get("a.neck")].map(Number), [stop - 0.5, neck + 1]);
    const { answers: [told] } = JSON.parse(run("lengths", "kestrel", `stop=${stop - 0.5}`, `neck=${neck + 1}`, "--format", "json").out);
    assert.ok((await page.textContent("#a-now")).includes(`string ${told.string_length_mm.toFixed(1)} mm`));
    await page.click("#undo");
    await page.click("#undo");
    await settle(page);
    assert.equal(state(page).get("a.stop"), null);
    await page.context().close();
  });
}
