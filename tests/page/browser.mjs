// SPDX-License-Identifier: GPL-3.0-or-later
// The page in an engine that WebDriver drives: opened, looked at, and used as people use it.
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { address, assert, scratch } from "./tap.mjs";

export const pause = (ms) => new Promise((done) => setTimeout(done, ms));

// Run in the page.
export const inPage = {
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
  // Milliseconds until what was typed has been searched for and laid out: the least of three, as what
  // else the machine does only adds.
  searched: (text) => Math.min(...Array.from({ length: 3 }, (_, i) => {
    const start = performance.now(), field = document.querySelector("#search");
    field.value = text + " ".repeat(i);
    field.dispatchEvent(new Event("input"));
    document.body.getBoundingClientRect();
    return performance.now() - start;
  })),
  boxes: () => ["#verdict", "#decision", "#alarms li"].map((one) => document.querySelector(one).getBoundingClientRect()).map(({ top, bottom }) => [top, bottom]),
  openAll: () => {
    document.querySelectorAll("details").forEach((one) => { one.open = true; });
    for (const panel of document.querySelectorAll(".panel")) {
      const head = panel.querySelector("h2 button"), hold = panel.querySelector(".hold");
      if (head.getAttribute("aria-expanded") === "false") head.click();
      if (hold.getAttribute("aria-pressed") === "false") hold.click();
    }
  },
};

const KEYS = { ArrowUp: "\ue013", ArrowDown: "\ue015", ArrowLeft: "\ue012", ArrowRight: "\ue014", Tab: "\ue004", Enter: "\ue007", End: "\ue010", Shift: "\ue008", Space: " " };

// One engine with the page in it.
export class Browser {
  constructor(engine) {
    this.engine = engine;
    this.run = engine.run;
  }

  // Asked in the page again and again, for half a minute.
  async until(holds, ...given) {
    for (const end = performance.now() + 30000; performance.now() < end; await pause(20)) if (await this.run(holds, ...given)) return;
    assert.fail(`not within 30 s: ${holds} ${given}`);
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
    let size;
    for (let tries = 0; String(size) !== `${width},${height}` && tries < 50; tries++) { // a driver under load may answer from the window at first
      if (tries) await pause(100);
      await this.engine.frame(null);
      await this.engine.frame(await this.run(() => document.querySelector("iframe")));
      size = await this.run(() => [innerWidth, innerHeight]);
    }
    assert.deepEqual(size, [width, height]);
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
