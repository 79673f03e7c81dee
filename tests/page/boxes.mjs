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
export function textsOnTexts() {
  const pen = document.createElement("canvas").getContext("2d");
  const letters = (text) => {
    const { x, y, width, height } = text.getBBox(), { fontStyle, fontWeight, fontSize, fontFamily } = getComputedStyle(text);
    pen.font = `${fontStyle} ${fontWeight} ${fontSize} ${fontFamily}`;
    const { actualBoundingBoxAscent: up, actualBoundingBoxDescent: down, fontBoundingBoxAscent: most, fontBoundingBoxDescent: least } = pen.measureText(text.textContent);
    const baseline = y + height * most / (most + least);
    return { left: x, right: x + width, top: baseline - up, bottom: baseline + down };
  };
  return [...document.querySelectorAll(".drawing svg")].flatMap((svg) => {
    const all = [...svg.querySelectorAll("text")].filter((text) => text.textContent.trim()).map((text) => [text.textContent, letters(text)]);
    return all.flatMap(([one, a], i) => all.slice(i + 1).filter(([, b]) => Math.min(a.right, b.right) - Math.max(a.left, b.left) > 1
      && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 0.5).map(([other]) => `${one} on ${other}`));
  });
}
