// SPDX-License-Identifier: GPL-3.0-or-later
// How long a move takes until it is on the screen, beside a redraw of nothing (one line of text) and that of
// an empty page, which is what the browser and the measuring take.
//   node measure.mjs PAGE.html PROGRAM [FOLDER with node_modules]
// MOVES=200; SLOWER=4 slows the processor down by so much. The nut is dragged by a pointer at the size of a
// phone and of a desktop, with the nut in the middle of the screen and, on a phone, with the verdict above it as the
// page opens; on the desktop the slider of the neck is moved too. An event is made between two frames,
// and waits for the next one, which after a frame without a change begins 16.7 ms after the one before, whatever
// the page does: "wait". A pointer's own events are handed to a page with the frame, and do not wait. "To screen":
// from the frame's begin until the frame after it, which shows that it was drawn, has begun; "frame": until the
// page's own thread has handed it over; "from event": the wait and "to screen". "Processor": mean time of that
// thread for one move, that of the two frames around it included, whatever else the machine does.
process.env.UNCLOCKED = "yes"; // before the browser starts
const { browser, finish, openPage } = await import("./harness.mjs");

const MOVES = Number(process.env.MOVES ?? 200), SLOWER = Number(process.env.SLOWER ?? 4), WARM = 20;
const SIZES = [["phone 360x740", { width: 360, height: 740 }], ["desktop 1280x800", { width: 1280, height: 800 }]];

const EMPTY = '<!DOCTYPE html><meta name="viewport" content="width=device-width"><p id="side-states">empty</p>';

async function emptyPage(viewport) {
  const page = await (await browser.newContext({ viewport })).newPage();
  await page.setContent(EMPTY);
  return page;
}

// What moves of one kind take, ms each; kind: "drag", "slide", or "empty".
const repeat = (page, kind, count) => page.evaluate(async ([kind, count]) => {
  const at = (id) => document.getElementById(id);
  const frame = () => new Promise(requestAnimationFrame), handedOver = () => new Promise((done) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => done();
    requestAnimationFrame(() => port2.postMessage(0));
  });
  const handle = at("handle-neck") ?? at("side-states"), slider = at("a-neck-slider"), { x, y } = handle.getBoundingClientRect();
  const shown = () => at("draw-side")?.textContent;
  const pointer = (name, by) => handle.dispatchEvent(new PointerEvent(name, { bubbles: true, cancelable: true, pointerId: 1, clientX: x + 22 + by, clientY: y + 22 }));
  handle.setPointerCapture = () => {}; // of a pointer that there is not
  const change = {
    drag: (i) => pointer("pointermove", -0.5 - i % 24 * 0.5),
    slide: (i) => {
      slider.value = String(Number(slider.min) + 10 + i % 40 * 0.5);
      slider.dispatchEvent(new Event("input", { bubbles: true }));
    },
    empty: (i) => { at("side-states").textContent = `redraw ${i}`; },
  }[kind];
  const times = { wait: [], screen: [], frame: [], event: [] };
  if (kind === "drag") pointer("pointerdown", 0);
  for (let i = 0; i < count; i++) {
    const before = shown();
    await frame();
    await new Promise((done) => setTimeout(done, 8));
    let begun;
    requestAnimationFrame(() => { begun = performance.now(); });
    const start = performance.now();
    change(i);
    await handedOver();
    const handed = performance.now();
    await frame();
    const end = performance.now();
    for (const [name, time] of Object.entries({ wait: begun - start, screen: end - begun, frame: handed - begun, event: end - start })) times[name].push(time);
    if (kind !== "empty" && shown() === before) throw new Error("the move was not drawn");
  }
  if (kind === "drag") pointer("pointerup", 0);
  return times;
}, [kind, count]);

const part = (list, share) => list.sort((a, b) => a - b)[Math.min(list.length - 1, Math.floor(list.length * share))].toFixed(1);
console.log(`# ${MOVES} times each, processor slowed ${SLOWER} x; ms\n# | size | what | to screen: median | 95 % | frame: median | 95 % | from event: median | 95 % | wait | processor |`);
for (const [size, viewport] of SIZES) {
  for (const [kind, label] of [["drag", "nut dragged"], viewport.width > 1000 ? ["slide", "slider moved"] : ["drag", "nut below verdict"], ["empty", "empty redraw"], ["empty", "empty page"]]) {
    const page = label === "empty page" ? await emptyPage(viewport) : await openPage({ viewport, fragment: "#a=kestrel&b=heron&like=heron" });
    const devtools = await page.context().newCDPSession(page);
    const busy = async () => (await devtools.send("Performance.getMetrics")).metrics.find(({ name }) => name === "TaskDuration").value * 1000;
    await devtools.send("Performance.enable", { timeDomain: "threadTicks" });
    await devtools.send("Emulation.setCPUThrottlingRate", { rate: SLOWER });
    if (label !== "nut below verdict") await page.$eval("#handle-neck, #side-states", (one) => (document.getElementById("handle-neck") ?? one).scrollIntoView({ block: "center", behavior: "instant" }));
    await page.waitForTimeout(700);
    await repeat(page, kind, WARM);
    const before = await busy(), { wait, screen, frame, event } = await repeat(page, kind, MOVES), each = (await busy() - before) / MOVES;
    const cells = [size, label, ...[screen, frame, event].flatMap((list) => [part(list, 0.5), part(list, 0.95)]), part(wait, 0.5), each.toFixed(1)];
    console.log(`# | ${cells.join(" | ")} |`);
    await page.context().close();
  }
}
await finish();
