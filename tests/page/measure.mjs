// SPDX-License-Identifier: GPL-3.0-or-later
// How long a move of a slider takes until everything is drawn anew, beside a redraw of nothing.
//   node measure.mjs PAGE.html PROGRAM [FOLDER with node_modules]
// MOVES=200; SLOWER=4 slows the processor down by so much. "work": script, style and layout within the
// frame that shows the move. "to screen": from the event to the frame after that one. "processor": mean
// time of the page's own thread for one move, painting included, whatever else the machine does.
import { finish, openPage } from "./harness.mjs";

const MOVES = Number(process.env.MOVES ?? 200), SLOWER = Number(process.env.SLOWER ?? 1);

const page = await openPage({ fragment: "#a=kestrel&b=heron&like=heron" });
const devtools = await page.context().newCDPSession(page);
if (SLOWER > 1) await devtools.send("Emulation.setCPUThrottlingRate", { rate: SLOWER });
await devtools.send("Performance.enable", { timeDomain: "threadTicks" });
await page.waitForTimeout(500);

async function busy() {
  const { metrics } = await devtools.send("Performance.getMetrics");
  return metrics.find((metric) => metric.name === "TaskDuration").value * 1000;
}

// kind: "move" of the neck's slider, or "empty": a text of one line, far from it
const repeat = (kind, count) => page.evaluate(async ([kind, count]) => {
  const frame = () => new Promise(requestAnimationFrame);
  const slider = document.querySelector("#a-neck-slider"), shown = document.querySelector("#a-now");
  const empty = document.querySelector("#shop-line"), times = { work: [], screen: [] };
  const change = {
    move: (i) => {
      slider.value = String(Number(slider.min) + (i % 80) * 0.5);
      slider.dispatchEvent(new Event("input", { bubbles: true }));
    },
    empty: (i) => requestAnimationFrame(() => { empty.textContent = `redraw ${i}`; }),
  }[kind];
  for (let i = 0; i < count; i++) {
    const before = shown.textContent;
    await frame();
    await new Promise((done) => setTimeout(done, 5));
    const start = performance.now();
    let begun = start;
    requestAnimationFrame(() => { begun = performance.now(); }); // runs before the redraw, asked for next
    change(i);
    await frame(); // and this one behind it
    document.documentElement.getBoundingClientRect();
    times.work.push(performance.now() - begun);
    await frame();
    times.screen.push(performance.now() - start);
    if (kind === "move" && shown.textContent === before) throw new Error("the move was not drawn");
  }
  return times;
}, [kind, count]);

const at = (list, share) => list.sort((a, b) => a - b)[Math.min(list.length - 1, Math.floor(list.length * share))].toFixed(1);
for (const [kind, label] of [["move", "a move of the neck"], ["empty", "a redraw of nothing"]]) {
  await repeat(kind, 30);
  const before = await busy(), times = await repeat(kind, MOVES), processor = (await busy() - before) / MOVES;
  for (const [what, words] of [["work", "work"], ["screen", "to screen"]]) {
    console.log(`# ${label}, ${words}: median ${at(times[what], 0.5)} ms, 99th percentile ${at(times[what], 0.99)} ms`);
  }
  console.log(`# ${label}, processor: mean ${processor.toFixed(1)} ms (${MOVES} times, slowed ${SLOWER} x)`);
}
await finish();
