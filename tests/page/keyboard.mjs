// SPDX-License-Identifier: GPL-3.0-or-later
// Every control by the keyboard alone, in any browser:
//   press(key)        a key pressed and released
//   run(body, given)  a function run in the page
//   brings(kind, act) whether the act, done a second time if need be, brings a "download" or a "filechooser"
const FOCUSABLE = "a[href], button, input, select, summary, [tabindex='0']";

// Run in the page.
const value = () => {
  const it = document.activeElement;
  return it.type === "checkbox" ? String(it.checked) : it.tagName === "SUMMARY" ? String(it.parentElement.open) : it.value;
};
const focused = () => {
  const it = document.activeElement;
  if (!it || it === document.body) return null;
  it.dataset.seen ??= String(window.seenCount = (window.seenCount ?? 0) + 1);
  const box = it.getBoundingClientRect();
  return { key: it.id || it.dataset.seen, id: it.id, tag: it.tagName, type: it.type ?? "", text: it.textContent.slice(0, 40),
    options: it.options?.length, last: it.options ? it.selectedIndex === it.options.length - 1 : false,
    full: it.type === "range" && Number(it.value) >= Number(it.max), seen: box.bottom > 0 && box.top < innerHeight,
    ring: getComputedStyle(it).outlineStyle !== "none",
    leads: it.matches(".to"), // to a field
    saves: /^Save /.test(it.textContent) || (it.dataset.keep && it.dataset.keep !== "print") };
};
const notMet = ([focusable, done]) => [...document.querySelectorAll(focusable)].filter((it) => it.checkVisibility()
  && !done.includes(it.id || it.dataset.seen) && !(it.type === "radio" && !it.checked)).map((it) => it.id || it.textContent.slice(0, 40));

// Does what each kind of control is for; true where something came of it.
async function operate({ press, run, brings }, info) {
  const before = await run(value);
  if (info.tag === "SELECT") {
    if (info.options < 2) return true;
    await press(info.last ? "ArrowUp" : "ArrowDown");
  } else if (info.type === "range") await press(info.full ? "ArrowLeft" : "ArrowRight");
  else if (info.type === "checkbox" || info.type === "radio") await press(info.type === "radio" ? "ArrowDown" : "Space");
  else if (info.type === "text") {
    await press("End");
    for (const key of info.id === "a4" || !before || before.includes(".") ? "" : ".0") await press(key);
    await press("Enter");
    return true;
  } else if (info.leads) {
    await press("Enter");
    return run((key) => {
      const field = document.activeElement, [from] = [...document.querySelectorAll(".to")].filter((it) => it.dataset.seen === key);
      from.focus(); // the round goes on where it was
      return field.type === "text" && field !== from;
    }, info.key);
  } else if (info.tag === "SUMMARY") await press("Enter");
  else if (info.tag === "BUTTON" || info.type === "file") {
    const expected = info.type === "file" ? "filechooser" : info.saves ? "download" : null;
    if (!expected) return press("Enter").then(() => true);
    return await brings(expected, () => press("Enter")) || run(() => !document.querySelector("#refusal").hidden); // nothing to keep is said, too
  } else return true;
  for (let tries = 0; info.type !== "radio" && tries < 50; tries++) { // an engine may hand a key over late
    await new Promise((done) => setTimeout(done, 20));
    if ((await run(value).catch(() => "gone")) !== before) return true;
  }
  return info.type === "radio";
}

// idle: nothing came of them; hidden: out of sight, or without a ring, with the focus; missed: not reached
// round: where a round begins anew
export async function everyControl(browser, round = "a-name") {
  const done = new Set(), idle = [], hidden = [], missed = () => browser.run(notMet, [FOCUSABLE, [...done]]);
  let fresh = 1; // controls met for the first time on this round; what one does may bring up others
  for (let press = 0; press < 1500; press++) {
    await browser.press("Tab");
    let info = await browser.run(focused);
    if (info?.id === round && done.has(round)) {
      if (fresh === 0 || !(await missed()).length) break;
      fresh = 0;
    }
    const leaves = info?.id === "view-leave"; // a view hides the rest, and is left each time, once all in it was met
    if (leaves && (await missed()).some((id) => id !== info.id)) continue;
    if (!info || (done.has(info.key) && !leaves)) continue;
    if (!info.seen) { // what the control before it brought has moved it: once more, at rest
      await new Promise((done) => setTimeout(done, 500));
      await browser.press("Shift+Tab");
      await browser.press("Tab");
      info = await browser.run(focused);
    }
    fresh++;
    done.add(info.key);
    if (!info.seen || !info.ring) hidden.push(info.id || info.text);
    if (info.tag !== "A" && !(await operate(browser, info))) idle.push(info.id || info.text);
  }
  return { idle, hidden, missed: await missed() };
}
