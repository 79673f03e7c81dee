// SPDX-License-Identifier: GPL-3.0-or-later
// What is asked less often: strings for the length, a player's reach, the working, whole answers.
function restringWords(state) {
  const { like, from, material, profile, impedance, any, order, margin, belly, packets } = state.restring;
  const packetList = packets.split(";").map((packet) => packet.trim()).filter(Boolean);
  return [...likeWords(state, like), ...(like && impedance ? ["--feel-by", "impedance"] : []),
    ...(from ? ["--from", from] : []), ...(material === "mix" ? ["--mix"] : material ? ["--material", material] : []),
    ...(profile ? ["--profile", profile] : []), ...(order ? ["--to-order", "gut"] : []), ...(any ? ["--any-length"] : []), ...(margin ? ["--margin", margin] : []),
    ...(belly ? ["--belly-force", `..${belly}`] : []), ...packetList.flatMap((packet) => ["--packet", packet]),
    ...tensionWords(state)];
}

const showRestring = (engine, state) => showAnswer(engine, $("restring"), asked(state, "restring", { sides: ["a"], options: restringWords(state) }), HTML.answer | HTML.notes);

function showReach(engine, state) {
  if (state.player) return showAnswer(engine, $("reach"), asked(state, "reach", { options: ["--player", state.player] }), HTML.answer | HTML.notes);
  $("reach").told = null;
  $("reach").replaceChildren(make("p", { class: "hint" }, "Choose a player to see the arms on these instruments."));
}

const showFind = (engine, state) => showAnswer(engine, $("find"), findWords(state), HTML.answer | HTML.notes);

function showMap(engine, state) {
  if (!$("map-details").open) return;
  const status = showAnswer(engine, $("map"), mapWords(state), HTML.answer | HTML.notes);
  setDrawing($("draw-map"), status <= 1 ? engine.draw([], "map-drawing") : "");
  placePoint(status <= 1 ? engine.axes() : null);
}

function showScale(engine, state) {
  if (state.scale) return showAnswer(engine, $("scale"), scaleWords(state), HTML.answer | HTML.notes);
  $("scale").told = null;
  $("scale").replaceChildren(make("p", { class: "hint" }, "Give the body of the new size: what follows it by which rule, and what is held."));
}

// The working of a section, where it is open: each formula with its numbers, result and source.
function showWorking(engine, state, details) {
  const of = details.dataset.of, words = of === "decision" ? askedDecision(state, ["--working"])
    : asked(state, of, { sides: ["a"], options: ["--working"] });
  showAnswer(engine, details.querySelector("div"), words, HTML.working);
}

const WHOLE = [["lengths", "lengths"], ["every", "lengths of every instrument"], ["tension", "tension of the strings"], ["fingers", "fingers"], ["compare", "side by side"],
  ["change", "now and proposed"], ["decision", "the decision"], ["restring", "strings for this length"], ["reach", "reach"]];

function wholeAnswer(engine, state) {
  const chosen = $("whole-command").value, format = $("whole-format").value;
  const command = { decision: state.decide, every: "lengths" }[chosen] ?? chosen;
  const more = { decision: wishWords, restring: restringWords, reach: () => state.player ? ["--player", state.player] : [] }[chosen]?.(state) ?? [];
  const sides = chosen === "every" ? [] : ["change", "decision", "restring"].includes(chosen) ? ["a"] : ["a", "b"];
  const options = [...more, "--format", format, ...["full", "working"].filter((more) => $(`whole-${more}`).checked).map((more) => `--${more}`)];
  return { ...engine.ask(asked(state, command, { sides, options })), command, format };
}
