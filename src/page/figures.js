// SPDX-License-Identifier: GPL-3.0-or-later
// Figures at a glance, above the side view.
const GLANCED = ["string_length_mm", "stop_per_2_neck", "body_at_semitones", "left_reach_mm"];

function showGlance(view) {
  const heads = view.changed ? ["as it is", "as changed"] : view.instruments.map((one) => one.name);
  const rows = GLANCED.map((key) => view.instruments.map((one) => one.figures[key]));
  const box = $("glance");
  refill(box, [heads, rows.map(([row]) => row.label)], () => rows.map(([row]) => make("div", {}, make("dt", {}, row.label),
    ...heads.map((head, i) => make("dd", { class: i ? "b" : "a" },
      heads.length > 1 ? make("span", { class: "hint" }, `${view.changed ? head : isolated(head)} `) : "", make("span"))))));
  const cells = box.querySelectorAll("dd > span:last-child");
  rows.flat().forEach(({ shown, unit }, i) => say(cells[i], shown === null ? "not known" : unit ? `${shown} ${unit}` : shown));
}
