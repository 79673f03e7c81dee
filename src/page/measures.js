// SPDX-License-Identifier: GPL-3.0-or-later
// Sliders and fields for the measurements of one instrument. A field takes what a cell of the shop's
// files takes; the engine reads it and says what is wrong.
const KEY_FIELDS = ["stop", "neck"];
const MM_PER_INCH = 25.4;
const NAMED_FROM = 640; // px of room from which the names stand in the drawing, 24 px apart
const TYPING_RESTS = 900; // ms without a key: what was typed is taken

// Millimetres as inches and a fraction, to the 64th.
function inchText(mm) {
  const parts = Math.round(mm / MM_PER_INCH * 64), whole = Math.floor(parts / 64);
  let above = parts % 64, below = 64;
  while (above && above % 2 === 0) [above, below] = [above / 2, below / 2];
  return `${above && !whole ? "" : whole}${above && whole ? " " : ""}${above ? `${above}/${below}` : ""}in`;
}

const fieldLabel = (field) => field.replaceAll("_", " ");

// What the file has of a measurement, with its unit.
const givenText = ({ origin, shown }, unit) => origin === "measured" ? `${shown}${unit && ` ${unit}`}` : "not given";

// Where a slider may go, from what the file says: 15 % for what is long, up to double what is short.
function sliderBounds(mm, zeroAllowed, unit) {
  if (mm === null) return null;
  const step = unit === "in" ? MM_PER_INCH / (mm >= 100 ? 32 : 64) : mm >= 100 ? 0.5 : 0.1, way = mm >= 100 ? mm * 0.15 : Math.max(mm * 0.6, 1);
  const round = (value) => Math.round(value / step) * step;
  return { step, min: Math.max(round(mm - way), zeroAllowed ? 0 : step), max: round(mm + way) };
}

class Measures {
  // side: "a" or "b"; changed(side, field, text) is called with the text to keep, or null
  constructor(side, box, changed) {
    this.side = side;
    this.box = box;
    this.changed = changed;
    this.rows = new Map();
  }

  // Builds the controls for an instrument; base: the engine's "fields" of it as the file has it.
  build(base, shop, unit) {
    const key = JSON.stringify([base, shop.sets, shop.tunings, shop.families, unit]);
    this.base = base;
    if (this.key === key) return;
    this.key = key;
    this.shown = null; // the question that the controls show the answer of
    this.rows.clear();
    const rows = base.fields.map((field) => this.row(field, unit));
    const isKey = (row) => KEY_FIELDS.includes(row.field.field);
    this.figure = make("figure", { class: "drawing names", id: `draw-measures-${this.side}` });
    this.list = make("ol", { class: "names-list", id: `names-${this.side}`, "aria-label": "What is measured" });
    const rest = make("details", { id: `${this.side}-rest`, open: $(`${this.side}-rest`)?.open }, make("summary", { id: `${this.side}-rest-summary` }, "Every other measurement"), this.figure, this.list,
      ...this.ways(rows.filter((row) => !isKey(row))));
    rest.addEventListener("toggle", drawMeasures);
    const back = make("button", { type: "button", class: "plain", id: `${this.side}-back` },
      `${isolated(base.name)} as in the file`);
    back.addEventListener("click", () => this.changed(this.side, null, null));
    this.now = make("p", { class: "now", id: `${this.side}-now` });
    replaceIn(this.box, [make("p", { class: "hint" }, isolated(base.name) + (base.note ? `: ${isolated(base.note)}` : "")),
      ...rows.filter(isKey).map((row) => row.box), this.now, this.names(base, shop), rest, make("p", {}, back)]);
  }

  // Fields under the way in which they are measured, each way folded until it is opened, or a name leads there.
  ways(rows) {
    const ways = [...new Set(rows.map((row) => row.field.way))], wasOpen = [...this.box.querySelectorAll("details.way")].map((one) => one.open);
    return ways.map((way, i) => {
      const own = rows.filter((row) => row.field.way === way);
      return make("details", { class: "way", open: wasOpen[i] }, make("summary", {}, `${capital(way)} (${own.length})`), ...own.map((row) => row.box));
    });
  }

  // The set of strings, the tuning, whether the instrument exists, and the family where the file says none.
  names(base, shop) {
    const fields = [["strings", "Strings", shop.sets, "none"],
      ["tuning", "Tuning", shop.tunings, `as its family${base.family ? `, ${base.family}` : ""}`],
      ["built", "It is", [["no", "planned"], ["yes", "built"]], ""],
      ...(base.family ? [] : [["family", "Family", shop.families, "none"]])];
    this.choices = fields.map(([field, label, list, none]) => {
      const id = `${this.side}-${field}`, select = make("select", { id }), own = base[field] ?? "";
      fillSelect(select, [...(own ? [] : [["", none]]), ...list], own);
      select.addEventListener("change", () =>
        this.changed(this.side, field, select.value === own ? null : select.value));
      return { field, own, select, box: make("div", { class: "line" },
        make("label", { for: id }, label), select) };
    });
    return make("div", { class: "grid" }, ...this.choices.map((choice) => choice.box));
  }

  row(field, unit) {
    const name = field.field, id = `${this.side}-${name}`, bounds = sliderBounds(field.mm, field.zero_allowed, unit);
    const hint = make("p", { class: "hint", id: `${id}-hint` }), wrong = make("p", { class: "wrong", id: `${id}-wrong` });
    const text = make("input", { type: "text", inputmode: unit === "mm" ? "decimal" : null, id,
      autocomplete: "off", spellcheck: "false", "aria-describedby": `${id}-hint ${id}-wrong` });
    const row = { field, text, hint, wrong, bounds };
    const parts = [make("div", { class: "head" }, make("label", { for: id }, fieldLabel(name)),
      make("span", {}, text, unit))];
    if (bounds) {
      row.slider = make("input", { type: "range", id: `${id}-slider`, min: bounds.min, max: bounds.max,
        step: bounds.step, "aria-label": `${fieldLabel(name)}, ${isolated(this.base.name)}` });
      row.slider.style.setProperty("--ticks", Math.min(Math.round(bounds.max - bounds.min), 60));
      row.slider.addEventListener("input", () => this.slid(row, unit));
      parts.push(row.slider);
    }
    text.addEventListener("input", () => {
      clearTimeout(row.resting);
      row.resting = setTimeout(() => this.typed(row, unit, false), TYPING_RESTS);
    });
    text.addEventListener("change", () => {
      clearTimeout(row.resting);
      this.typed(row, unit, true);
    });
    row.box = make("div", { class: KEY_FIELDS.includes(name) ? "measure key" : "measure" }, ...parts, hint, wrong);
    this.rows.set(name, row);
    return row;
  }

  slid(row, unit) {
    const mm = Number(row.slider.value), home = Math.abs(mm - row.field.mm) < row.bounds.step / 2;
    const decimals = row.bounds.step < 0.5 || mm % 1 ? 1 : 0;
    const text = unit === "mm" ? mm.toFixed(decimals) : inchText(mm);
    row.text.value = shownLength(text, unit); // the others follow
    this.changed(this.side, row.field.field, home ? null : text, true);
  }

  typed(row, unit, done) {
    const text = keptLength(row.text.value, unit);
    if (text === "" && !done) return;
    const same = text === "" || text === row.field.shown;
    const wrong = this.changed(this.side, row.field.field, same ? null : text);
    say(row.wrong, pageWords(wrong ?? ""));
    row.text.setAttribute("aria-invalid", wrong ? "true" : "false");
  }

  // After an answer; now: the engine's "fields" with the changes made.
  show(now, changes, unit) {
    this.fields = now.fields;
    this.showFields(now.fields, changes, unit);
    for (const choice of this.choices) choice.select.value = changes[choice.field] ?? choice.own;
  }

  // While one of those that are in sight moves; figures: of this instrument, under their keys.
  follow(figures, changes, unit) {
    this.shown = null;
    this.showFields(KEY_FIELDS.map((key) => {
      const { field } = this.rows.get(key);
      return changes[key] === undefined && field.origin === "measured" ? field : { field: key, ...figures[`${key}_mm`] };
    }), changes, unit);
  }

  showFields(fields, changes, unit) {
    for (const field of fields) {
      const row = this.rows.get(field.field), change = changes[field.field];
      const shown = change !== undefined ? shownLength(change, unit) : field.shown ?? "";
      const busy = document.activeElement === row.text;
      if (!busy && row.text.value !== shown) row.text.value = shown;
      if (!busy) {
        say(row.wrong, "");
        row.text.setAttribute("aria-invalid", "false");
      }
      if (row.slider && field.mm !== null) this.place(row, field, unit);
      row.box.classList.toggle("changed", change !== undefined);
      say(row.hint, this.hint(row.field, field, change, unit));
    }
  }

  // Where each is measured, of the first of the questions that has an answer; a name there leads to its field. Where
  // the drawing is narrow it has numbers, and the names stand in a list below it. model: of a decision the liked one's.
  draw(engine, questions, model) {
    const rest = $(`${this.side}-rest`), room = rest.open ? rest.clientWidth : 0;
    if (!room || !this.fields) return; // closed, or without an answer so far
    const numbered = room < NAMED_FROM, question = [...questions.flat(), numbered].join("\0");
    if (this.figure.of === question) return;
    this.figure.of = question;
    const answered = questions.some((words) => engine.ask(words).status <= 1);
    setDrawing(this.figure, answered ? engine.draw(["measures", ...(model ? ["model"] : []), ...(numbered ? ["numbered"] : [])], `measures${this.side}`) : "");
    const names = [...this.rows.keys()], longest = [...names].sort((a, b) => b.length - a.length);
    const fieldAt = (text) => numbered ? names[Number(text) - 1] : longest.find((name) => text.replace("(", "").startsWith(`${fieldLabel(name)} `));
    const places = new Map([...this.figure.querySelectorAll("text")].map((text) => [fieldAt(text.textContent), text]).filter(([field]) => field));
    for (const [field, text] of places) this.lead(text, field, !numbered);
    if (!numbered) this.figure.querySelector("svg")?.setAttribute("role", "group"); // of controls
    this.list.hidden = !numbered;
    refill(this.list, numbered ? [...places.keys(), ...this.fields.map(({ shown, origin }) => [shown, origin])] : [], () => this.named(places, names));
  }

  // The list beside numbers; the number of a name that has the focus is marked.
  named(places, names) {
    return [...places.keys()].sort((a, b) => names.indexOf(a) - names.indexOf(b)).map((field) => {
      const { shown, origin } = this.fields[names.indexOf(field)], figure = shown ?? "?", text = places.get(field);
      const button = make("button", { type: "button", class: "plain" }, make("span", {}, String(names.indexOf(field) + 1)),
        ` ${fieldLabel(field)} ${origin === "measured" ? figure : `(${figure})`}`);
      this.lead(button, field, false);
      for (const [event, on] of [["focus", true], ["blur", false], ["pointerenter", true], ["pointerleave", false]]) button.addEventListener(event, () => text.classList.toggle("on", on));
      return make("li", {}, button);
    });
  }

  // A name, or its number, leads to its field; control: as a control of its own.
  lead(element, field, control) {
    const go = () => {
      const { box, text } = this.rows.get(field), way = box.closest("details.way");
      if (way) way.open = true;
      text.focus();
    };
    element.classList.add("to");
    element.onclick = go;
    if (!control) return;
    for (const [name, value] of [["role", "button"], ["tabindex", "0"], ["aria-label", `${element.textContent}, to its field`]]) setTo(element, name, value);
    element.onkeydown = (event) => {
      if (event.key !== "Enter" && event.key !== " ") return;
      event.preventDefault();
      go();
    };
  }

  // What comes of it, beside the sliders; figures: of this instrument, under their keys.
  tell(figures) {
    const length = figures.string_length_mm;
    const parts = [["string ", "string_length_mm", ` ${length.unit}`], ["", "stop_per_2_neck", ""], ["note at the body ", "body_at_semitones", ""]];
    say(this.now, parts.filter(([, key]) => figures[key].shown).map(([word, key, unit]) => `${word}${figures[key].shown}${unit}`).join("; "));
  }

  place(row, field, unit) {
    // wider only for as long as the measurement lies outside
    const { min, max, step } = row.bounds;
    const low = String(field.mm < min ? Math.max(0, min - Math.ceil((min - field.mm) / step) * step) : min);
    const high = String(field.mm > max ? max + Math.ceil((field.mm - max) / step) * step : max);
    if (row.slider.min !== low) row.slider.min = low;
    if (row.slider.max !== high) row.slider.max = high;
    const value = String(field.mm);
    if (document.activeElement !== row.slider || Math.abs(row.slider.value - field.mm) > row.bounds.step) {
      row.slider.value = value;
    }
    row.slider.setAttribute("aria-valuetext", `${field.shown} ${unit}`);
  }

  hint(before, now, change, unit) {
    const meaning = before.meaning;
    if (change !== undefined) return `${meaning}; ${stateWord("now")} ${givenText(before, unit)}`;
    const words = { measured: before.plus_minus ? `± ${before.plus_minus} ${unit}` : "", assumed: "assumed",
      follows: "follows from the others", unknown: "not known" };
    return words[before.origin] ? `${meaning}; ${words[before.origin]}` : meaning;
  }
}
