import type { Verdict } from "../../take/index.js";
import { INK } from "./palette.js";
import { decimal, element, type Svg } from "./svg.js";

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** A filled rectangle. */
export function block({ x, y, width, height }: Box, fill: string): Svg {
  return width <= 0 || height <= 0 ? "" : element("rect", { x, y, width, height, fill });
}

/** Strokes a path; empty for an empty path. */
export function stroke(
  path: string,
  colour: string,
  { width = 1, dash }: { readonly width?: number; readonly dash?: string } = {},
): Svg {
  return path === ""
    ? ""
    : element("path", { d: path, fill: "none", stroke: colour, "stroke-width": width, "stroke-dasharray": dash });
}

/** The path of straight lines through points. */
export function through(points: readonly (readonly [x: number, y: number])[]): string {
  return points.map(([x, y], i) => `${i === 0 ? "M" : "L"}${decimal(x)} ${decimal(y)}`).join("");
}

/** The path of a vertical line. */
export function upright(x: number, from: number, to: number): string {
  return `M${decimal(x)} ${decimal(from)}V${decimal(to)}`;
}

/** The area of a silence: pale background with hatching. The hatching is lines, not an SVG pattern, so that every viewer and printer shows it. */
export function stillness(box: Box, step = 6): Svg {
  return block(box, INK.still) + stroke(slants(box, step), INK.hatch, { width: 0.9 });
}

/** The path of hatching across a box: lines rising to the right, `step` px apart, aligned between boxes. */
export function slants({ x, y, width, height }: Box, step: number): string {
  const [right, bottom] = [x + width, y + height];
  const parts: string[] = [];
  for (let sum = Math.ceil((x + y) / step) * step; sum < right + bottom; sum += step) {
    const from = Math.max(x, sum - bottom);
    const to = Math.min(right, sum - y);
    if (to > from) parts.push(`M${decimal(from)} ${decimal(sum - from)}L${decimal(to)} ${decimal(sum - to)}`);
  }
  return parts.join("");
}

/** The symbol of a landing: a vertical line with a flag at its top. */
export function returnMark(x: number, top: number, bottom: number): Svg {
  const flag = `M${decimal(x)} ${decimal(top)}l7 4l-7 4z`;
  return stroke(upright(x, top, bottom), INK.ink, { width: 1.6 }) + element("path", { d: flag, fill: INK.ink });
}

/** The symbol of a verdict: a disc for within, an open diamond for beyond, a dashed ring for unclear. */
export function verdictMark(verdict: Verdict, x: number, y: number, radius = 5): Svg {
  if (verdict === "within") return element("circle", { cx: x, cy: y, r: radius, fill: INK.within });
  if (verdict === "beyond") {
    const r = radius + 1;
    const d = `M${decimal(x)} ${decimal(y - r)}l${r} ${r}l${-r} ${r}l${-r} ${-r}z`;
    return element("path", { d, fill: INK.paper, stroke: INK.beyond, "stroke-width": radius < 4 ? 1.5 : 2.2 });
  }
  return element("circle", {
    cx: x,
    cy: y,
    r: radius - 0.6,
    fill: INK.paper,
    stroke: INK.muted,
    "stroke-width": 1.4,
    "stroke-dasharray": "2.2 1.8",
  });
}

/** The text colour of a verdict. */
export function verdictInk(verdict: Verdict): string {
  return { within: INK.within, beyond: INK.beyond, unclear: INK.muted }[verdict];
}

/** The path of a missed note: an open square. */
export function missedMark(x: number, y: number): string {
  return `M${decimal(x - 2.5)} ${decimal(y - 2.5)}h5v5h-5z`;
}

/** The path of an added note: a cross. */
export function addedMark(x: number, y: number): string {
  return `M${decimal(x - 3)} ${decimal(y)}h6M${decimal(x)} ${decimal(y - 3)}v6`;
}
