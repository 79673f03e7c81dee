// SPDX-License-Identifier: GPL-3.0-or-later
// The wishes of a decision: ranges with a lower and an upper side.
// Of each kind of wish: the unit that stands beside its name, how a text is kept and shown, and what a key
// moves an end by (in the bare unit: mm, N).
const asItIs = (text) => text;
const number = (text) => asNumber(text);
const KINDS = {
  semitones: { unit: () => "semitones", kept: number, shown: asItIs, step: 0.1 },
  length: { unit: (state) => state.unit, kept: (text, unit) => keptLength(text, unit), shown: (text, unit) => shownLength(text, unit), step: 0.5 },
  force: { unit: (state) => state.force, kept: (text, unit) => keptForce(text, unit), shown: (text, unit) => shownForce(text, unit), step: 0.5 },
  ratio: { unit: () => "as 2 to", kept: (text) => text && !text.includes(":") ? `2:${number(text)}` : number(text), shown: (text) => text.replace(/^2:/, ""), step: 0.01 },
  percent: { unit: () => "", kept: (text) => text && !text.includes("%") ? `${number(text)}%` : number(text), shown: asItIs },
};

class Wishes {
  // list: what may be wished for, { about: its option, label, kind }
  constructor(list, state, changed) {
    this.state = state;
    this.changed = changed;
    this.inputs = [];
    $("wish-ranges").replaceChildren(...list.map(({ about, label, kind }) =>
      this.range(about, label, kind, () => this.state().wishes)));
  }

  // A pair of fields for one wish; kept in store()[key] as "low..high".
  range(key, label, kindName, store) {
    const kind = KINDS[kindName], unit = () => kind.unit(this.state());
    const id = `wish-${key}`.replace(/[^\w-]/g, "_");
    const sides = ["from", "to"].map((side) => make("input", { type: "text", autocomplete: "off",
      inputmode: kindName === "percent" ? null : "decimal", id: `${id}-${side}`, "aria-describedby": `${id}-wrong` }));
    const wrong = make("p", { class: "wrong", id: `${id}-wrong` });
    const measured = make("span");
    const change = () => {
      const range = rangeOf(...sides.map((input) => kind.kept(input.value.trim(), unit())));
      const before = store()[key] ?? "";
      store()[key] = range;
      const refused = this.changed();
      say(wrong, pageWords(refused ?? ""));
      for (const input of sides) input.setAttribute("aria-invalid", refused ? "true" : "false");
      if (refused) {
        store()[key] = before;
        this.changed();
      }
    };
    const show = () => {
      say(measured, unit() ? `, ${unit()}` : "");
      rangeSides(store()[key]).forEach((text, i) => {
        if (document.activeElement !== sides[i]) sides[i].value = text && kind.shown(text, unit());
      });
    };
    for (const input of sides) input.addEventListener("change", change);
    this.inputs.push({ key, show });
    const named = (side, i) => make("div", { class: "line" },
      make("label", { for: sides[i].id }, side, make("span", { class: "unseen" }, `: ${label}`)), sides[i]);
    return make("fieldset", {}, make("legend", {}, label, measured), make("div", { class: "from-to" }, named("from", 0), named("to", 1)), wrong);
  }

  // The notes of the instrument decided on: a range for each, and one in percent for all.
  notes(list) {
    const key = JSON.stringify(list);
    if (this.listed === key) return;
    this.listed = key;
    this.inputs = this.inputs.filter((input) => !input.tension);
    const first = this.inputs.length, store = () => this.state().tensions;
    $("wish-tensions").replaceChildren(this.range("all", "all, % of the present", "percent", store),
      ...list.map((note) => this.range(note, note, "force", store)));
    for (const input of this.inputs.slice(first)) input.tension = true;
  }

  show() {
    for (const input of this.inputs) input.show();
  }
}
