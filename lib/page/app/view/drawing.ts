/**
 * A drawing from an SVG document. It is read as XML, in which nothing runs, and only an `svg` without scripts is taken: course texts are in it,
 * and whoever wrote them is not trusted. Throws `Error` for anything else, which is a defect of what drew it.
 */
export function drawing(text: string): SVGSVGElement {
  const read = new DOMParser().parseFromString(text, "image/svg+xml");
  const svg = document.importNode(read.documentElement, true);
  if (!(svg instanceof SVGSVGElement) || svg.querySelector("script, foreignObject") !== null)
    throw new Error("not a drawing");
  return svg;
}

/** A chart of `lib/render/chart`: its inks follow the page, light or dark (`page.css`). */
export function chart(text: string): SVGSVGElement {
  const svg = drawing(text);
  svg.classList.add("chart");
  svg.removeAttribute("width");
  svg.removeAttribute("height");
  return svg;
}

/** Width to draw charts at, px: of a phone, or of a column. */
export function chartWidth(): number {
  return matchMedia("(min-width: 900px)").matches ? 640 : 328;
}
