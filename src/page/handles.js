// SPDX-License-Identifier: GPL-3.0-or-later
// The side view as the control: the nut and the bridge of the instrument as it is are dragged, and are
// sliders for keyboard and screen reader. Where they stand is read from the drawing's own dimension lines.
const HANDLES = { neck: { label: "nut: neck", end: "x1", sign: -1 }, stop: { label: "bridge: stop", end: "x2", sign: 1 } };
const HANDLE_STEP = 0.5; // mm

// The dimension line under the first label of that name: its ends, and the drawing's px a mm.
function dimensionOf(svg, field) {
  const label = [...svg.querySelectorAll("text")].find((text) => text.textContent === field);
  if (!label) return null;
  const x = Number(label.getAttribute("x")), y = Number(label.getAttribute("y"));
  const lines = [...svg.querySelectorAll("line")].map((line) => Object.fromEntries(["x1", "y1", "x2", "y2"].map((name) => [name, Number(line.getAttribute(name))])));
  const level = lines.filter((line) => line.y1 === line.y2 && line.y1 < y && y - line.y1 < 40 && Math.abs((line.x1 + line.x2) / 2 - x) < 2);
  return level.sort((a, b) => b.y1 - a.y1)[0] ?? null;
}

const fieldMm = (field) => side.a.fields?.find((one) => one.field === field);

function moveTo(field, mm) {
  const row = side.a.rows.get(field);
  const text = String(Math.round(mm / HANDLE_STEP) * HANDLE_STEP);
  if (Number(text) > 0) changed("a", field, Math.abs(Number(text) - row.field.mm) < 1e-9 ? null : text, true);
}

function placeHandles() {
  const svg = $("draw-side").querySelector("svg"), box = $("handles");
  box.hidden = !svg;
  if (!svg || box.dragging) return;
  const [, , width, height] = svg.getAttribute("viewBox").split(" ").map(Number);
  for (const [field, { end, label }] of Object.entries(HANDLES)) {
    const handle = $(`handle-${field}`), line = dimensionOf(svg, field), now = fieldMm(field);
    handle.hidden = !line || !now?.mm;
    if (handle.hidden) continue;
    handle.style.left = `${100 * line[end] / width}%`;
    handle.style.top = `${100 * line.y1 / height}%`;
    handle.scale = (line.x2 - line.x1) / now.mm / width; // parts of the drawing's width a mm
    const { slider } = side.a.rows.get(field);
    for (const [name, value] of [["aria-valuemin", slider.min], ["aria-valuemax", slider.max], ["aria-valuenow", now.mm],
      ["aria-valuetext", `${now.shown} ${state.unit}`], ["aria-label", `${label}, ${isolated(state.a.name)}`]]) handle.setAttribute(name, value);
  }
}

function dragHandle(event, field) {
  const handle = $(`handle-${field}`), box = $("handles"), from = event.clientX, start = fieldMm(field).mm;
  const a_mm = handle.scale * $("draw-side").querySelector("svg").getBoundingClientRect().width, left = handle.offsetLeft + 22;
  event.preventDefault();
  handle.focus({ preventScroll: true });
  handle.setPointerCapture(event.pointerId);
  box.dragging = true;
  const move = (moved) => {
    const way = moved.clientX - from;
    handle.style.left = `${left + way}px`;
    moveTo(field, start + HANDLES[field].sign * way / a_mm);
  };
  const end = () => {
    box.dragging = false;
    handle.removeEventListener("pointermove", move);
    soon();
  };
  handle.addEventListener("pointermove", move);
  for (const name of ["pointerup", "pointercancel"]) handle.addEventListener(name, end, { once: true });
}

// Left moves the handle to the left, as it is dragged; up is more of the measurement.
function keyHandle(event, field) {
  const { sign } = HANDLES[field], { slider, field: base } = side.a.rows.get(field);
  const asked_mm = waiting ? Number(state.a.changes[field] ?? base.mm) : NaN; // by a key before, in the same frame
  const now = asked_mm || fieldMm(field).mm;
  const way = { ArrowLeft: -sign, ArrowRight: sign, ArrowUp: 1, ArrowDown: -1, PageUp: 10, PageDown: -10 }[event.key];
  const to = event.key === "Home" ? Number(slider.min) : event.key === "End" ? Number(slider.max) : way && now + way * HANDLE_STEP;
  if (to === undefined) return;
  event.preventDefault();
  moveTo(field, to);
}

function connectHandles() {
  $("handles").append(...Object.keys(HANDLES).map((field) => {
    const handle = make("div", { class: "handle", id: `handle-${field}`, role: "slider", tabindex: "0" });
    handle.addEventListener("pointerdown", (event) => dragHandle(event, field));
    handle.addEventListener("keydown", (event) => keyHandle(event, field));
    return handle;
  }));
}
