// SPDX-License-Identifier: GPL-3.0-or-later
// How long a move takes until it is on the screen, beside a redraw of nothing (one line of text).
//   node measure.mjs PAGE.html PROGRAM [FOLDER with node_modules]
// MOVES=200; SLOWER=4 slows the processor down by so much. The nut is dragged by a pointer at the size of a
// phone and of a desktop, and there the slider of the neck is moved too. The browser does not wait for the
// screen's clock, so that what is counted is work: "to screen", from the event until the frame after the one
// that shows the move has begun; "frame", until the page's own thread has handed that frame over;
// "processor", mean time of that thread for one move, whatever else the machine does.
process.env.UNCLOCKED = "yes"; // before the browser starts
const { finish, openPage } = await import("./harness.mjs");

const MOVES = Number(process.env.MOVES ?? 200), SLOWER = Number(process.env.SLOWER ?? 4), WARM = 20;
const SIZES = [["phone 360x740", { width: 360, height: 740 }], ["desktop 1280x800", { width: 1280, height: 800 }]];

// What moves of one kind take, ms each; kind: "drag", "slide", or "empty".
const repeat = (page, kind, count) => page.evaluate(async ([kind, count]) => {
  const at = (id) => document.getElementById(id);
  const frame = () => new Promise(requestAnimationFrame), handedOver = () => new Promise((done) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => done();
    requestAnimationFrame(() => port2.postMessage(0));
  });
  const handle = at("handle-neck"), slider = at("a-neck-slider"), { x, y } = handle.getBoundingClientRect();
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
  const times = { screen: [], frame: [] };
  if (kind === "drag") pointer("pointerdown", 0);
  for (let i = 0; i < count; i++) {
    const before = at("glance").textContent;
    await frame();
    await new Promise((done) => setTimeout(done, 8));
    const start = performance.now();
    change(i);
    await handedOver();
    times.frame.push(performance.now() - start);
    await frame();
    times.screen.push(performance.now() - start);
    if (kind !== "empty" && at("glance").textContent === before) throw new Error("the move was not drawn");
  }
  if (kind === "drag") pointer("pointerup", 0);
  return times;
}, [kind, count]);

const part = (list, share) => list.sort((a, b) => a - b)[Math.min(list.length - 1, Math.floor(list.length * share))].toFixed(1);
console.log(`# ${MOVES} times each, processor slowed ${SLOWER} x; ms\n# | size | what | to screen: median | 95 % | frame: median | 95 % | processor |`);
for (const [size, viewport] of SIZES) {
  for (const [kind, label] of [["drag", "nut dragged"], ...(viewport.width > 1000 ? [["slide", "slider moved"]] : []), ["empty", "empty redraw"]]) {
    const page = await openPage({ viewport, fragment: "#a=kestrel&b=heron&like=heron" });
    const devtools = await page.context().newCDPSession(page);
    const busy = async () => (await devtools.send("Performance.getMetrics")).metrics.find(({ name }) => name === "TaskDuration").value * 1000;
    await devtools.send("Performance.enable", { timeDomain: "threadTicks" });
    await devtools.send("Emulation.setCPUThrottlingRate", { rate: SLOWER });
    await page.$eval("#handle-neck", (one) => one.scrollIntoView({ block: "center", behavior: "instant" }));
    await page.waitForTimeout(700);
    await repeat(page, kind, WARM);
    const before = await busy(), { screen, frame } = await repeat(page, kind, MOVES), each = (await busy() - before) / MOVES;
    console.log(`# | ${size} | ${label} | ${part(screen, 0.5)} | ${part(screen, 0.95)} | ${part(frame, 0.5)} | ${part(frame, 0.95)} | ${each.toFixed(1)} |`);
    await page.context().close();
  }
}
await finish();
