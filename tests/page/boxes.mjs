// SPDX-License-Identifier: GPL-3.0-or-later
// Run in the page: where texts of drawings stand.

// Texts that their drawing, a box around it that clips, or the window cuts off on a side.
export function cutTexts() {
  return [...document.querySelectorAll(".drawing text")].filter((text) => text.textContent.trim() && text.checkVisibility()).filter((text) => {
    const box = text.getBoundingClientRect(), svg = text.ownerSVGElement.getBoundingClientRect();
    for (let one = text.ownerSVGElement; one && one !== document.documentElement; one = one.parentElement) {
      const style = getComputedStyle(one), clip = one.getBoundingClientRect();
      const clips = /paint|strict|content/.test(style.contain) || (style.contentVisibility ?? "visible") !== "visible" || /hidden|clip/.test(style.overflowX);
      if (clips && (box.left < clip.left - 0.5 || box.right > clip.right + 0.5)) return true;
    }
    return box.left < 0 || box.right > innerWidth || box.left < svg.left - 1 || box.right > svg.right + 1;
  }).map((text) => text.textContent);
}

// Texts whose letters stand on those of another of the same drawing. The box of a text reaches from the
// highest to the lowest letter of its font; what its own letters take of it is measured.
// In the drawing of where lengths are measured, whose names stand on no plate, no line runs through one either.
export function textsOnTexts() {
  const pen = document.createElement("canvas").getContext("2d");
  const letters = (text) => {
    const { x, y, width, height } = text.getBBox(), { fontStyle, fontWeight, fontSize, fontFamily } = getComputedStyle(text);
    pen.font = `${fontStyle} ${fontWeight} ${fontSize} ${fontFamily}`;
    const { actualBoundingBoxAscent: up, actualBoundingBoxDescent: down, fontBoundingBoxAscent: most, fontBoundingBoxDescent: least } = pen.measureText(text.textContent);
    const baseline = y + height * most / (most + least);
    return { left: x, right: x + width, top: baseline - up, bottom: baseline + down };
  };
  const strokes = (svg) => [...svg.querySelectorAll("line, polyline, polygon")].filter((one) => (one.getAttribute("stroke") ?? "none") !== "none").flatMap((one) => {
    const at = (name) => Number(one.getAttribute(name));
    if (one.nodeName === "line") return [[at("x1"), at("y1"), at("x2"), at("y2")]];
    const points = [...one.points].map(({ x, y }) => [x, y]), ends = one.nodeName === "polygon" ? [...points.slice(1), points[0]] : points.slice(1);
    return ends.map((end, i) => [...points[i], ...end]);
  });
  const meets = ([x1, y1, x2, y2], { left, right, top, bottom }) => [...Array(101).keys()].some((i) => {
    const x = x1 + (x2 - x1) * i / 100, y = y1 + (y2 - y1) * i / 100;
    return x > left && x < right && y > top && y < bottom;
  });
  return [...document.querySelectorAll(".drawing svg")].flatMap((svg) => {
    const all = [...svg.querySelectorAll("text")].filter((text) => text.textContent.trim()).map((text) => [text.textContent, letters(text)]);
    const onTexts = all.flatMap(([one, a], i) => all.slice(i + 1).filter(([, b]) => Math.min(a.right, b.right) - Math.max(a.left, b.left) > 1
      && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 0.5).map(([other]) => `${one} on ${other}`));
    const lines = svg.parentElement.matches(".names") ? strokes(svg) : [];
    return [...onTexts, ...all.filter(([, box]) => lines.some((one) => meets(one, box))).map(([text]) => `${text} on a line`)];
  });
}
