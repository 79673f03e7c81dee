// SPDX-License-Identifier: GPL-3.0-or-later
// The wishes of a decision: ranges with a lower and an upper side.
const WISHES = [["string-length", "string length", true], ["ratio", "neck : stop, as 2 to", false],
  ["body-note", "note at the body, semitones", false], ["left-reach", "left reach", true],
  ["total-tension", "tension in all, N", false], ["belly-force", "force on the belly, N", false]];

class Wishes {
  constructor(state, changed) {
    this.state = state;
    this.changed = changed;
    this.inputs = [];
    $("wish-ranges").replaceChildren(...WISHES.map(([about, label, length]) =>
      this.range(about, label, { length, ratio: about === "ratio" }, () => this.state().wishes)));
  }

  // A pair of fields for one wish; kept in store()[key] as "low..high".
  range(key, label, kind, store) {
    const id = `wish-${key}`.replace(/[^\w-]/g, "_");
    const sides = ["from", "to"].map((side) => make("input", { type: "text", autocomplete: "off",
      inputmode: kind.percent ? null : "decimal", id: `${id}-${side}`, "aria-describedby": `${id}-wrong` }));
    const wrong = make("p", { class: "wrong", id: `${id}-wrong` });
    const unit = () => kind.length ? this.state().unit : "mm";
    const kept = (text) => {
      const bare = text.trim();
      if (bare && kind.ratio && !bare.includes(":")) return `2:${bare}`;
      if (bare && kind.percent && !bare.includes("%")) return `${bare}%`;
      return kind.length ? keptLength(bare, unit()) : bare;
    };
    const change = () => {
      const range = rangeOf(...sides.map((input) => kept(input.value)));
      const before = store()[key] ?? "";
      store()[key] = range;
      const refused = this.changed();
      say(wrong, refused ?? "");
      for (const input of sides) input.setAttribute("aria-invalid", refused ? "true" : "false");
      if (refused) store()[key] = before;
    };
    const show = () => rangeSides(store()[key]).forEach((text, i) => {
      if (document.activeElement === sides[i]) return;
      sides[i].value = kind.ratio ? text.replace(/^2:/, "") : kind.length ? shownLength(text, unit()) : text;
    });
    for (const input of sides) input.addEventListener("change", change);
    this.inputs.push({ key, show });
    const named = (side, i) => make("div", { class: "line" },
      make("label", { for: sides[i].id }, side, make("span", { class: "unseen" }, `: ${label}`)), sides[i]);
    const legend = make("legend", {}, label);
    return make("fieldset", {}, legend, make("div", { class: "from-to" }, named("from", 0), named("to", 1)), wrong);
  }

  // The notes of the instrument decided on: a range for each, and one in percent for all.
  notes(list) {
    const key = JSON.stringify(list);
    if (this.listed === key) return;
    this.listed = key;
    this.inputs = this.inputs.filter((input) => !input.pull);
    const first = this.inputs.length, store = () => this.state().pulls;
    $("wish-pulls").replaceChildren(this.range("all", "all, % of the present", { percent: true }, store),
      ...list.map((note) => this.range(note, `${note}, N`, {}, store)));
    for (const input of this.inputs.slice(first)) input.pull = true;
  }

  show() {
    for (const input of this.inputs) input.show();
  }
}
