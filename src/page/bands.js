// SPDX-License-Identifier: GPL-3.0-or-later
// Drawings that are controls beside the side view: the ends of what was wished, on the line of necks (stops)
// that each wish allows, and the first instrument's point on the map. All are dragged, and are sliders for
// keyboard and screen reader.

// A drawing with room for handles over it.
function heldBox(figure) {
  if (figure.parentElement.className !== "held") {
    const held = make("div", { class: "held" });
    figure.before(held);
    held.append(figure, make("div", { class: "handles" }));
  }
  return figure.nextElementSibling;
}

function describeSlider(handle, { label, low, high, now, text }) {
  for (const [name, value] of [["aria-label", label], ["aria-valuemin", low], ["aria-valuemax", high], ["aria-valuenow", now], ["aria-valuetext", text]]) {
    setTo(handle, name, String(value));
  }
}

const aboutOf = (what) => shop.wishes.find(({ about }) => about === what.replaceAll("_", "-"));

// Where the state keeps a wish: { store, key, label, text (of a limit) }; null where it was not asked for there.
// A length wished as on the model becomes a range of its own with the first move of an end, unless there is one.
function keptWish({ what, origin }) {
  if (origin === "like" && !state.wishes["string-length"]) return { store: state.wishes, key: "string-length", label: `string length, as on ${isolated(state.like)}`, text: String };
  if (origin !== "asked") return null;
  const [, note] = /^tension (.+)$/.exec(what) ?? [];
  if (note) return state.tensions[note] ? { store: state.tensions, key: note, label: `tension of ${note}`, text: String } : null;
  const { about, label, kind } = aboutOf(what) ?? {};
  return state.wishes[about] ? { store: state.wishes, key: about, label, text: kind === "ratio" ? (limit) => `2:${limit}` : String } : null;
}

const stepOf = ({ what }) => KINDS[aboutOf(what)?.kind ?? "force"].step; // of one string: its tension
const rounded = (value, step) => Number((Math.round(value / step) * step).toFixed(4));

// The other side stays as it was typed, where it bears no unit that would go over to this one.
function setLimit(wish, end, value) {
  const kept = keptWish(wish), other = end === "low" ? "high" : "low", beyond = end === "low" ? Math.min : Math.max;
  if (!kept) return;
  const limit = wish[other] === null ? rounded(value, stepOf(wish)) : beyond(rounded(value, stepOf(wish)), wish[other]);
  const sides = rangeSides(kept.store[kept.key]), typed = sides[other === "low" ? 0 : 1], single = sides[0] === sides[1];
  const otherText = wish[other] === null ? "" : !single && /^(?:2:)?[\d.]+$/.test(typed) ? typed : kept.text(Number(wish[other].toFixed(4)));
  const limits = end === "low" ? [kept.text(limit), otherText] : [otherText, kept.text(limit)];
  wish[end] = limit;
  if (wish.origin === "like") {
    wish.origin = "asked";
    freed = state.like;
    state.like = $("like").value = "";
  }
  kept.store[kept.key] = rangeOf(...limits);
  soon(true);
}

let freed = ""; // the model whose length a range of its own has taken the place of

function sayFreed() {
  const range = state.wishes["string-length"];
  if (state.like || !range) freed = "";
  say($("wish-freed"), freed && `The string length was wished as on ${isolated(freed)}; it is now a range of its own, ${range.replace("..", " to ")} mm. Undo brings the model's length back.`);
}

// wishes: of the decision just drawn, axes: of its drawing
function placeBands(wishes, axes) {
  sayFreed();
  const figure = $("draw-wishes"), svg = figure.querySelector("svg"), box = heldBox(figure);
  const [, , width, height] = svg?.getAttribute("viewBox").split(" ").map(Number) ?? [];
  const mm = (axes.wish_high - axes.wish_low) / (axes.wish_right - axes.wish_left), there = new Set();
  wishes.forEach((wish, i) => {
    const kept = keptWish(wish);
    if (!svg || !kept || !wish.within_reach || !wish.growth) return;
    for (const end of ["low", "high"]) {
      const left = (end === "low") === wish.growth > 0, place = left ? wish.place_low : wish.place_high;
      if (wish[end] === null || place === null) continue;
      const id = `band-${wish.what}-${end}`.replace(/[^\w-]/g, "_"), handle = $(id) ?? makeBand(id, box), step = stepOf(wish);
      there.add(handle);
      Object.assign(handle, { wish, end, mm: mm * width });
      handle.classList.toggle("left", left);
      handle.classList.toggle("right", !left);
      const x = Math.min(Math.max(axes.wish_left + (place - axes.wish_low) / mm, 0), width);
      Object.assign(handle.style, { left: `${100 * x / width}%`, top: `${100 * (axes.wish_top + i * axes.wish_row) / height}%` });
      const ends = [axes.wish_low, axes.wish_high].map((at) => rounded(wish[end] + wish.growth * (at - place), step)).sort((a, b) => a - b);
      describeSlider(handle, { label: `${kept.label}, ${end === "low" ? "from" : "to"}`, low: Math.max(ends[0], 0), high: ends[1], now: wish[end], text: wish.shown });
    }
  });
  for (const handle of [...box.children]) if (!there.has(handle)) handle.remove();
}

function makeBand(id, box) {
  const handle = make("div", { class: "handle band", id, role: "slider", tabindex: "0" });
  handle.addEventListener("pointerdown", (event) => {
    const { wish, end, mm } = handle, from = wish[end], a_px = mm / $("draw-wishes").querySelector("svg").getBoundingClientRect().width;
    follow(event, handle, (way) => setLimit(handle.wish, end, from + wish.growth * way * a_px), () => soon(true));
  });
  handle.addEventListener("keydown", (event) => {
    const { wish, end } = handle, step = stepOf(wish), way = Math.sign(wish.growth);
    const steps = { ArrowLeft: -way, ArrowRight: way, ArrowUp: 1, ArrowDown: -1, PageUp: 10, PageDown: -10 }[event.key];
    const to = { Home: Number(handle.getAttribute("aria-valuemin")), End: Number(handle.getAttribute("aria-valuemax")) }[event.key] ?? (steps && wish[end] + steps * step);
    if (to === undefined) return;
    event.preventDefault();
    setLimit(wish, end, to);
  });
  box.append(handle);
  return handle;
}

// The point of the first instrument on the map; axes: of the map just drawn, null where there is none.
function placePoint(axes = $("handle-map").axes) {
  const handle = $("handle-map"), svg = $("draw-map").querySelector("svg"), at = (field) => underWay ? $(`handle-${field}`).mm : fieldMm(field)?.mm;
  const stop = at("stop"), neck = at("neck");
  handle.axes = axes;
  handle.hidden = !axes || !svg || !stop || !neck;
  if (handle.hidden) return;
  const [, , width, height] = svg.getAttribute("viewBox").split(" ").map(Number), shown = (field) => shownOf(field) ?? "";
  Object.assign(handle.style, { left: `${100 * (axes.map_left + (stop - axes.map_stop) * axes.map_scale) / width}%`,
    top: `${100 * (axes.map_bottom - (neck - axes.map_neck) * axes.map_scale) / height}%`, translate: "" });
  handle.scale = axes.map_scale / width; // parts of the drawing's width a mm
  const { slider } = side.a.rows.get("stop");
  describeSlider(handle, { label: `stop and neck on the map, ${isolated(state.a.name)}`, low: slider.min, high: slider.max, now: stop, text: `stop ${shown("stop")}, neck ${shown("neck")}` });
}

const shownOf = (field) => $(`handle-${field}`).getAttribute("aria-valuetext");

function connectPoint() {
  const handle = make("div", { class: "handle point", id: "handle-map", role: "slider", tabindex: "0", hidden: true });
  heldBox($("draw-map")).append(handle);
  handle.addEventListener("pointerdown", (event) => {
    const stop = $("handle-stop").mm, neck = $("handle-neck").mm, a_mm = handle.scale * $("draw-map").querySelector("svg").getBoundingClientRect().width;
    follow(event, handle, (right, down) => {
      handle.style.translate = `${right}px ${down}px`;
      moveTo("stop", stop + right / a_mm);
      moveTo("neck", neck - down / a_mm);
    }, () => soon(true));
  });
  handle.addEventListener("keydown", (event) => {
    const [field, steps] = { ArrowLeft: ["stop", -1], ArrowRight: ["stop", 1], ArrowUp: ["neck", 1], ArrowDown: ["neck", -1], PageUp: ["neck", 10], PageDown: ["neck", -10] }[event.key] ?? [];
    if (!field) return;
    event.preventDefault();
    moveTo(field, $(`handle-${field}`).mm + steps * HANDLE_STEP);
  });
}
