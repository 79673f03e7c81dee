// SPDX-License-Identifier: GPL-3.0-or-later
// A section of the page, told in the program's own HTML, beside what the program says.
import { assert, run } from "./tap.mjs";

// What the program's words alone would ask, of which the page says nothing.
const WORDS_ALONE = / \(mensur start FOLDER writes your own to edit\)| Formulas with their numbers: add --working\.| family=any opens all families\.| \(--[a-z, -]+\)/g;

const bare = (text) => text.replace(/\s+/g, "");

// Run in the page: what the markup says, and what the section does.
function toldAndShown([markup, id, part]) {
  const { body } = new DOMParser().parseFromString(markup, "text/html"), heads = ["What was assumed", "Warnings", "Sources", "Cautions"];
  const nodes = [...body.childNodes], origin = nodes.findLastIndex((node) => node.className === "soft");
  const head = nodes.findIndex((node) => node.nodeName === "H3" && heads.includes(node.textContent));
  const notes = head < 0 ? origin : head;
  if (part !== "all") nodes.filter((_, i) => i < notes === (part === "notes")).forEach((node) => node.remove());
  const text = (node) => node.textContent.replace(/\s+/g, " ").trim();
  if (id !== "decision") return [text(body), text(document.getElementById(id))];
  const sure = nodes.filter((node) => node.isConnected && node.nodeName === "P" && node.textContent.startsWith("How sure"));
  nodes.find((node) => node.isConnected && node.nodeName === "P").after(...sure); // it stands at the verdict
  return [text(body), `${text(document.getElementById(id))} ${text(document.getElementById("decision-more"))}`.trim()];
}

// It says the same, word by word; all of it, the answer without the notes, or the notes.
// inPage: runs a function of one argument in the page
export async function sameSection(inPage, id, words, part = "all") {
  const [told, shown] = await inPage(toldAndShown, [run(...words, "--format", "html").out, id, part]);
  assert.ok(told.length > (part === "notes" ? 20 : 200) && bare(shown) === bare(told.replace(WORDS_ALONE, "")), `${words.join(" ")}\n${shown.slice(0, 600)}\n${told.slice(0, 600)}`);
}
