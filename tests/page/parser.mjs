// SPDX-License-Identifier: GPL-3.0-or-later
// The page's reading of a link, with the page's own scripts and engine but without a browser: every value of
// every key damaged in turn.
//   node parser.mjs PAGE.html PROGRAM
import { readFileSync } from "node:fs";
import { DAMAGES, damagedBy, whole } from "./damaged.mjs";
import { assert, finished, pageFile, test } from "./tap.mjs";

const source = (name) => readFileSync(new URL(`../../src/page/${name}`, import.meta.url), "utf8");
const [, packed] = /^SCRIPTS = \[([^\]]+)\]/m.exec(source("pack.py"));
const scripts = Array.from(packed.matchAll(/'([^']+)'/g), ([, name]) => name).filter((name) => name !== "controls.js"); // it starts the page
const script = scripts.map(source).join("\n");
class Nothing {
  observe() {}
}

// What a browser would give them when they are loaded; none of the parser's functions touch it.
const page = new Function("DOMParser", "IntersectionObserver", "matchMedia", `"use strict"; ${script}
  return {
    async start(bytes) {
      engine = new Engine(bytes);
      await engine.start();
      shop = engine.open(new Map());
    },
    read(fragment) {
      const dropped = [], next = fromFragment(fragment, dropped);
      takeCarried(next, dropped);
      const missing = settle(next);
      mend(state, dropped);
      return { link: toFragment(state), dropped: [...dropped, ...missing] };
    },
    questions: () => [askedView(state), askedDecision(state), asked(state, "restring", { sides: ["a"], options: restringWords(state) }), mapWords(state), ...(state.find.like ? [findWords(state)] : []),
      ...(state.scale ? [scaleWords(state)] : [])],
    ask: (words) => engine.ask(words),
  };`)(Nothing, Nothing, () => ({}));

const [, engine] = /<script type="text\/plain" id="engine">([^<]+)</.exec(readFileSync(pageFile, "utf8"));
await page.start(Uint8Array.from(atob(engine), (letter) => letter.charCodeAt(0)));

const values = (link) => Object.fromEntries(new URLSearchParams(link));
// An instrument that is lost takes its changes along, and another in its place may be the second.
const LOSES = { a: /^[ab](?:\.|$)/, b: /^b(?:\.|$)/ };
const without = (link, key) => Object.fromEntries(Object.entries(values(link)).filter(([name]) => name !== key && !LOSES[key]?.test(name)));

await test("a link with every key is read whole, and written as it was", async () => {
  const { link, dropped } = page.read(whole);
  assert.deepEqual(dropped, []);
  assert.deepEqual(values(link), Object.fromEntries(Object.entries(values(whole)).filter(([, value]) => value !== "neck")));
  for (const words of page.questions()) assert.notEqual(page.ask(words).status, 2, words.join(" "));
});
const cases = damagedBy(DAMAGES), named = { kept: 0, dropped: 0 };
await test(`${cases.length} links with one value damaged: the rest is kept, the damage is named, and what is left can be asked`, async () => {
  assert.ok(cases.length >= 500);
  const wrong = [], undamaged = page.read(whole).link;
  const check = (key, damage, fragment) => {
    const name = `${key}=${damage}`, { link, dropped } = page.read(fragment), kept = values(link)[key] === damage;
    assert.deepEqual(without(link, key), without(undamaged, key), name);
    if (damage && !kept) assert.ok(dropped.includes(name) || dropped.includes(damage), `${name} is not named: ${dropped}`);
    named[kept ? "kept" : "dropped"]++;
    assert.deepEqual(page.read(link), { link, dropped: [] }, name);
    for (const words of page.questions()) {
      const { status, text } = page.ask(words);
      assert.notEqual(status, 2, `${name}: ${words.join(" ")}: ${text}`);
    }
  };
  for (const one of cases) {
    try {
      check(...one);
    } catch (error) {
      wrong.push(error.message);
    }
  }
  assert.equal(wrong.length, 0, `${wrong.length} of ${cases.length}\n${wrong.slice(0, 20).join("\n")}`);
});
console.log(`# of ${cases.length} damaged values ${named.dropped} were left out, ${named.kept} can be read`);
await test("a view is read, and a damaged one named; apart, since in a browser it hides the fields", () => {
  assert.equal(values(page.read(`${whole}&view=class`).link).view, "class");
  for (const damage of DAMAGES.filter(Boolean)) {
    const { link, dropped } = page.read(`${whole}&view=${encodeURIComponent(damage)}`);
    assert.deepEqual(values(link), values(page.read(whole).link), damage);
    assert.ok(dropped.includes(`view=${damage}`), `${damage}: ${dropped}`);
  }
});
await test("words that are no key are named, and none reaches beyond the state", async () => {
  for (const pair of ["nonsense=1", "__proto__=2", "a.__proto__=2", "wish.constructor=1", "toString=1", "restring.like.x=1", "find.toString=1", "b.=1"]) {
    const { dropped, link } = page.read(`${whole}&${pair}`);
    assert.ok(dropped.includes(pair), `${pair}: ${dropped}`);
    assert.deepEqual(values(link), values(page.read(whole).link), pair);
  }
  assert.equal({}.neck, undefined);
});
finished();
