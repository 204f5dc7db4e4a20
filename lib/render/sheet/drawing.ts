import type { Picture } from "./picture.js";

/** A face of the font family of a sheet. */
export type Face = "regular" | "italic" | "bold" | "other";

/** The faces whose fonts are put into files. */
export const FACES: readonly Exclude<Face, "other">[] = ["regular", "italic", "bold"];

/** A drawing primitive on a page: text or path. Lengths in points (1/72 inch), y downwards. */
export type Mark = TextMark | PathMark | PictureMark;

/** A run of text in one face. Its baseline starts at x, y. */
export interface TextMark {
  readonly kind: "text";
  readonly x: number;
  readonly y: number;
  readonly text: string;
  readonly face: Face;
  readonly size: number;
  readonly ink: string;
}

/** A path in SVG syntax, first scaled, then moved to x, y. */
export interface PathMark {
  readonly kind: "path";
  readonly x: number;
  readonly y: number;
  readonly scaleX: number;
  readonly scaleY: number;
  readonly d: string;
  readonly fill?: string;
  readonly stroke?: string;
  /** Line width in the units of the path, before scaling. */
  readonly width?: number;
}

/** A picture, its upper left corner at x, y. */
export interface PictureMark {
  readonly kind: "picture";
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly picture: Picture;
}

/** Translates marks by x, y. */
export function movedBy(marks: readonly Mark[], x: number, y: number): readonly Mark[] {
  return marks.map((mark) => ({ ...mark, x: mark.x + x, y: mark.y + y }));
}

/** Enlarges marks, and their distances from the origin, by a factor. */
export function enlarged(marks: readonly Mark[], by: number): readonly Mark[] {
  return marks.map((mark) => {
    const at = { x: mark.x * by, y: mark.y * by };
    if (mark.kind === "text") return { ...mark, ...at, size: mark.size * by };
    if (mark.kind === "picture") return { ...mark, ...at, width: mark.width * by, height: mark.height * by };
    return { ...mark, ...at, scaleX: mark.scaleX * by, scaleY: mark.scaleY * by };
  });
}

/** A filled rectangle. */
export function box(
  x: number,
  y: number,
  { width, height, fill }: { width: number; height: number; fill: string },
): PathMark {
  return { ...outlineAt(x, y, rectangle(width, height)), fill };
}

/** A stroked rectangle. */
export function frame(
  x: number,
  y: number,
  { width, height, stroke, line }: { width: number; height: number; stroke: string; line: number },
): PathMark {
  return { ...outlineAt(x, y, rectangle(width, height)), stroke, width: line };
}

/** A straight line from x, y. */
export function rule(
  x: number,
  y: number,
  { dx = 0, dy = 0, stroke, line }: { dx?: number; dy?: number; stroke: string; line: number },
): PathMark {
  return { ...outlineAt(x, y, `M0 0L${short(dx)} ${short(dy)}`), stroke, width: line };
}

function rectangle(width: number, height: number): string {
  return `M0 0H${short(width)}V${short(height)}H0Z`;
}

function outlineAt(x: number, y: number, d: string): PathMark {
  return { kind: "path", x, y, scaleX: 1, scaleY: 1, d };
}

/** A number rounded to a thousandth of a point: finer than any printer, and the same text on every machine. */
export function short(value: number): string {
  return String(Math.round(value * 1000) / 1000 + 0);
}
