// SPDX-License-Identifier: GPL-3.0-or-later
// What is asked less often: strings for the length, a player's reach, the working, whole answers.
function restringWords(state) {
  const { like, from, impedance, any, margin, belly, packets } = state.restring;
  const packetList = packets.split(";").map((packet) => packet.trim()).filter(Boolean);
  return [...likeWords(state, like), ...(like && impedance ? ["--feel-by", "impedance"] : []),
    ...(from ? ["--from", from] : []), ...(any ? ["--any-length"] : []), ...(margin ? ["--margin", margin] : []),
    ...(belly ? ["--belly-force", `..${belly}`] : []), ...packetList.flatMap((packet) => ["--packet", packet]),
    ...tensionWords(state)];
}

function showRestring(engine, state) {
  try {
    const answer = engine.json("page_view", asked(state, "restring",
      { sides: ["a"], options: [...restringWords(state), "--runners-up", "2"] })), best = answer.choices[0];
    say($("restring-said"), [firstUp(answer.reason), ...answer.excluded.map(firstUp)].filter(Boolean).map(stopped).join(" "));
    const heads = ["note", "string", "mass, g/m", `pull, ${state.force}`, "margin, st", `belly, ${state.force}`, "why"];
    const rows = !best ? [] : best.strings.map((row) => [row.note, row.string ?? "none", ...row.cells, row.why ?? ""]);
    if (best) rows.push(["all", "", "", best.pull_in_all, "", best.force_on_belly, ""]);
    answer.choices.slice(1).forEach((choice, i) => choice.strings.forEach((row) =>
      rows.push([`${row.note}, or ${i + 2}`, row.string ?? "none", ...row.cells, row.why ?? ""])));
    fillTable($("restring"), "", heads, rows, { words: [1, 6] });
  } catch (refusal) {
    if (!(refusal instanceof Refusal)) throw refusal;
    say($("restring-said"), refusal.message);
    fillTable($("restring"), "", [""], []);
  }
}
const stopped = (text) => /[.?!]$/.test(text) ? text : `${text}.`;

function showReach(engine, state) {
  const box = $("reach");
  if (!state.player) {
    box.replaceChildren(make("p", { class: "hint" }, "Choose a player to see the arms on these instruments."));
    return;
  }
  try {
    const answer = engine.json("page_view", asked(state, "reach", { options: ["--player", state.player] }));
    const unit = state.unit === "in" ? "in" : "mm";
    const table = make("table"), frames = make("table");
    const reach = (one) => one.can_reach === null ? "not known" : one.can_reach ? "yes" : "no";
    fillTable(table, "", ["instrument", "left reach, " + unit, "shoulder to nut, " + unit, "elbow, degrees", "bow reach, " + unit, "reaches the nut"],
      answer.instruments.map((one) => [one.instrument, dash(one.left_reach), dash(one.distance), dash(one.elbow), dash(one.bow_reach), reach(one)]));
    const longest = answer.instruments.reduce((a, b) => b.frames.length > a.frames.length ? b : a).frames;
    fillTable(frames, `Hand's frame, ${unit}${answer.span ? `; the hand spans ${answer.span}` : ""}.`, ["position", ...answer.instruments.map((one) => one.instrument)],
      longest.map((frame, i) => [frame.position, ...answer.instruments.map((one) =>
        one.frames[i] ? one.frames[i].frame + (one.frames[i].too_wide ? " wider than the hand" : "") : "–")]));
    const assumed = answer.assumed.map((item) => `${item.field.replaceAll("_", " ")} ${item.shown ?? "?"}`).join(", ");
    const list = make("ul");
    fillList(list, [...answer.remarks, ...answer.warnings, ...new Set(answer.instruments.flatMap((one) => one.warnings))]);
    const wide = (label, what) => make("div", { class: "wide", tabindex: 0, role: "region", "aria-label": label }, what);
    box.replaceChildren(list, wide("Arms", table), wide("Frames of the hand", frames),
      make("p", { class: "hint" }, assumed ? `Assumed of the player: ${assumed}.` : ""));
  } catch (refusal) {
    if (!(refusal instanceof Refusal)) throw refusal;
    box.replaceChildren(make("p", {}, refusal.message));
  }
}

// The working of a section, where it is open: each formula with its numbers, result and source.
function showWorking(engine, state, details) {
  const list = details.querySelector("ol"), of = details.dataset.of;
  const words = of === "decision" ? askedDecision(state, ["--working"]) : asked(state, of, { sides: ["a"], options: ["--working"] });
  try {
    const lines = engine.json("page_view", words);
    list.replaceChildren(...lines.map((line) => make("li", {},
      make("strong", {}, line.instrument ? `${line.what}, ${line.instrument}: ` : `${line.what}: `),
      make("span", { class: "formula" }, [line.formula, line.with_numbers, line.result].filter(Boolean).join(" = ")),
      make("span", { class: "hint" }, line.source ? ` (${line.source})` : ""))));
  } catch (refusal) {
    if (!(refusal instanceof Refusal)) throw refusal;
    list.replaceChildren(make("li", {}, refusal.message));
  }
}

const WHOLE = [["lengths", "lengths"], ["tension", "pull of the strings"], ["fingers", "fingers"], ["compare", "side by side"],
  ["change", "as it is and as changed"], ["decision", "the decision"], ["restring", "strings for this length"], ["reach", "reach"]];

function wholeAnswer(engine, state) {
  const chosen = $("whole-command").value, command = chosen === "decision" ? state.decide : chosen, format = $("whole-format").value;
  const more = { decision: wishWords, restring: restringWords, reach: () => state.player ? ["--player", state.player] : [] }[chosen]?.(state) ?? [];
  const sides = ["change", "decision", "restring"].includes(chosen) ? ["a"] : ["a", "b"];
  const options = [...more, "--format", format, ...($("whole-working").checked ? ["--working"] : [])];
  return { ...engine.ask(asked(state, command, { sides, options })), command, format };
}
