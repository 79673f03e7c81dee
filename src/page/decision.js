// SPDX-License-Identifier: GPL-3.0-or-later
// Answers as the program tells them, in the program's own HTML; first of all the decision.

// What stands below a heading with a table in it is folded away under the heading.
function folded(nodes) {
  const parts = [[]];
  for (const node of nodes) {
    if (node.nodeName === "H3") parts.push([]);
    parts.at(-1).push(node);
  }
  return parts.flatMap((part) => {
    const [head, ...rest] = part;
    if (head?.nodeName !== "H3" || !rest.some((node) => node.querySelector?.("table"))) return part;
    return [make("details", {}, make("summary", {}, ...head.childNodes), ...rest)];
  });
}

// Sets what differs; false where the elements are others. What is open or scrolled stays so.
function patched(before, after) {
  if (before.nodeName !== after.nodeName || before.childNodes.length !== after.childNodes.length) return false;
  if (before.nodeType === Node.TEXT_NODE) {
    if (before.data !== after.data) before.data = after.data;
    return true;
  }
  if ((before.className ?? "") !== (after.className ?? "")) before.className = after.className;
  return [...after.childNodes].every((node, i) => patched(before.childNodes[i], node));
}

function setFragment(box, html) {
  const made = make("div", {}, ...folded([...new DOMParser().parseFromString(html, "text/html").body.childNodes]));
  if (box.childNodes.length === made.childNodes.length && [...made.childNodes].every((node, i) => patched(box.childNodes[i], node))) return;
  const open = [...box.querySelectorAll("details")].map((details) => details.open);
  box.replaceChildren(...made.childNodes);
  box.querySelectorAll("details").forEach((details, i) => { details.open = open[i] ?? false; });
}

// The answer to the words, or why there is none; its status.
function showAnswer(engine, box, words) {
  const { status, text } = engine.ask([words[0], "--format", "html", ...words.slice(1)], box.id);
  if (box.told !== text) {
    box.told = text;
    if (status > 1) box.replaceChildren(make("p", {}, text));
    else setFragment(box, text);
  }
  return status;
}

// Its first paragraph is the verdict.
function showDecision(engine, state) {
  const box = $("decision"), answered = showAnswer(engine, box, askedDecision(state)) <= 1;
  if (box.firstElementChild) box.firstElementChild.id = "verdict";
  setDrawing($("draw-wishes"), answered ? engine.draw(["wishes"], "wishes") : "");
  const mm = answered ? engine.recommended() : NaN, take = $("take");
  take.hidden = Number.isNaN(mm);
  say(take, `Take this ${state.decide}`);
  take.dataset.place = state.decide;
  take.dataset.mm = Number.isNaN(mm) ? "" : String(Number(mm.toFixed(6)));
}
