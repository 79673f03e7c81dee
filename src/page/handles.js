// SPDX-License-Identifier: GPL-3.0-or-later
// The side view as the control: the nut and the bridge of the instrument as it is are dragged, and are
// sliders for keyboard and screen reader. Where they stand is read from the drawing's own dimension lines.
const HANDLES = { neck: { label: "nut: neck", end: "x1", sign: -1 }, stop: { label: "bridge: stop", end: "x2", sign: 1 } };
const HANDLE_STEP = 0.5; // mm

// The dimension line above the first label of that name: its ends, and its height in the drawing.
function dimensionOf(svg, field) {
  const label = [...svg.querySelectorAll("text")].find((text) => text.textContent === field);
  if (!label) return null;
  const x = Number(label.getAttribute("x")), y = Number(label.getAttribute("y"));
  // ends of the first tick, the line's ends, ends of the second
  const lines = [...svg.querySelectorAll("polyline")].map(({ points }) => points).filter(({ length }) => length === 6)
    .map((points) => ({ x1: points[2].x, x2: points[3].x, y1: points[2].y, y2: points[3].y }));
  const level = lines.filter((line) => line.y1 === line.y2 && line.y1 < y && y - line.y1 < 40 && Math.abs((line.x1 + line.x2) / 2 - x) < 2);
  return level.sort((a, b) => b.y1 - a.y1)[0] ?? null;
}

const fieldMm = (field) => side.a.fields?.find((one) => one.field === field);

// The handle's own place runs ahead of the answers.
function setMm(field, to) {
  if (to <= 0) return;
  $(`handle-${field}`).mm = to;
  changed("a", field, Math.abs(to - side.a.rows.get(field).field.mm) < 1e-9 ? null : String(to), true);
}

const moveTo = (field, mm) => setMm(field, Math.round(mm / HANDLE_STEP) * HANDLE_STEP);

// view: the figures of the instruments, first of what is dragged (behind the file's where it is changed).
function placeHandles(view) {
  const svg = $("draw-side").querySelector("svg"), box = $("handles"), { figures } = presentOf(view);
  box.hidden = !svg;
  if (!svg) return;
  const [, , width, height] = box.dragging ? [] : svg.getAttribute("viewBox").split(" ").map(Number);
  for (const [field, { end, label }] of Object.entries(HANDLES)) {
    const handle = $(`handle-${field}`), line = box.dragging ? null : dimensionOf(svg, field), now = fieldMm(field);
    if (!box.dragging) handle.hidden = !line || !now?.mm;
    if (handle.hidden) continue;
    if (!underWay) handle.mm = now.mm;
    const { slider } = side.a.rows.get(field), { shown, unit } = figures[`${field}_mm`];
    for (const [name, value] of [["aria-valuemin", slider.min], ["aria-valuemax", slider.max], ["aria-valuenow", String(handle.mm)],
      ["aria-valuetext", `${shown} ${unit}`]]) setTo(handle, name, value);
    if (box.dragging) continue;
    setTo(handle, "aria-label", `${label}, ${isolated(state.a.name)}`);
    Object.assign(handle.style, { left: `${100 * line[end] / width}%`, top: `${100 * line.y1 / height}%` });
    handle.scale = (line.x2 - line.x1) / handle.mm / width; // parts of the drawing's width a mm
  }
}

let following = false; // a pointer holds a handle

// Follows a pointer from where it goes down on a handle: moved(px to the right, px down), then ended().
function follow(event, handle, moved, ended) {
  const { clientX, clientY } = event;
  event.preventDefault();
  handle.focus({ preventScroll: true });
  handle.setPointerCapture(event.pointerId);
  following = true;
  const move = (now) => moved(now.clientX - clientX, now.clientY - clientY);
  const end = () => {
    handle.removeEventListener("pointermove", move);
    following = false;
    ended();
  };
  handle.addEventListener("pointermove", move);
  for (const name of ["pointerup", "pointercancel"]) handle.addEventListener(name, end, { once: true });
}

function dragHandle(event, field) {
  const handle = $(`handle-${field}`), box = $("handles"), start = handle.mm;
  const a_mm = handle.scale * $("draw-side").querySelector("svg").getBoundingClientRect().width;
  box.dragging = true;
  handle.classList.add("taken");
  follow(event, handle, (way) => moveTo(field, start + HANDLES[field].sign * way / a_mm), () => {
    box.dragging = false;
    handle.classList.remove("taken");
    if (underWay) drawAll(isSeen, true); // puts the handle where the drawing has it
  });
}

// Left moves the handle to the left, as it is dragged; up is more of the measurement.
function keyHandle(event, field) {
  const { sign } = HANDLES[field], now = $(`handle-${field}`).mm, { slider } = side.a.rows.get(field);
  const way = { ArrowLeft: -sign, ArrowRight: sign, ArrowUp: 1, ArrowDown: -1, PageUp: 10, PageDown: -10 }[event.key];
  const to = event.key === "Home" ? Number(slider.min) : event.key === "End" ? Number(slider.max) : way && now + way * HANDLE_STEP;
  if (to === undefined) return;
  event.preventDefault();
  moveTo(field, to);
}

function connectHandles() {
  connectPoint();
  $("handles").append(...Object.keys(HANDLES).map((field) => {
    const handle = make("div", { class: "handle", id: `handle-${field}`, role: "slider", tabindex: "0" });
    handle.addEventListener("pointerdown", (event) => dragHandle(event, field));
    handle.addEventListener("keydown", (event) => keyHandle(event, field));
    return handle;
  }));
}
