import {
  type Affine,
  type Box,
  boxOf,
  composed,
  distance,
  IDENTITY,
  outlineOf,
  type Piece,
  type Point,
  transformOf,
} from "./outline.js";
import { all, type SvgNode, svgTree } from "./svgTree.js";

/** The ink of a page, whatever program wrote it: outlines in absolute coordinates. */
export interface Ink {
  readonly pieces: readonly Piece[];
  readonly box: Box;
  readonly isFilled: boolean;
  readonly isStroked: boolean;
  /** Of the stroke, in the units of the page. */
  readonly width: number;
}

/** A text on a page with where its baseline starts. */
export interface Text extends Point {
  readonly text: string;
  readonly size: number;
}

export interface PageInk {
  readonly ink: readonly Ink[];
  readonly texts: readonly Text[];
}

/** Reads an SVG page: paths, and outlines used again, with what their transforms do. */
export function inkOf(svg: string): PageInk {
  const ink: Ink[] = [];
  const texts: Text[] = [];
  const root = svgTree(svg);
  const defined = new Map(all(root).map((node) => [node.attributes.id, node]));
  const walk = (node: SvgNode, through: Affine): void => {
    const { attributes, children, name } = node;
    if (name === "defs") return;
    const here = composed(through, transformOf(attributes.transform ?? ""));
    if (name === "text")
      texts.push({
        x: Number(attributes.x),
        y: Number(attributes.y),
        text: node.text,
        size: Number(attributes["font-size"]),
      });
    const used = name === "use" ? defined.get((attributes.href ?? attributes["xlink:href"] ?? "").slice(1)) : undefined;
    const path = name === "path" ? node : used?.name === "path" ? used : undefined;
    if (path?.attributes.d) {
      const style = Object.fromEntries((attributes.style ?? "").split(";").map((each) => each.trim().split(":")));
      const said = (key: string): string => attributes[key] ?? style[key] ?? "none";
      const pieces = outlineOf(path.attributes.d, here);
      if (pieces.length > 0)
        ink.push({
          pieces,
          box: boxOf(pieces),
          isFilled: said("fill") !== "none",
          isStroked: said("stroke") !== "none",
          width: said("stroke") === "none" ? 0 : Number(said("stroke-width")) * Math.abs(here[0]),
        });
    }
    for (const child of children) walk(child, here);
  };
  walk(root, IDENTITY);
  return { ink, texts };
}

/** Glyphs of a music font by their SMuFL code points, as they are drawn: y downwards, in units of which 1000 are four staff spaces. */
export type Glyphs = Map<string, readonly Piece[]>;

/** The glyphs that Verovio says an SVG uses: `<g id="E262-...">` around each outline. */
export function glyphsIn(svg: string, known: Glyphs): Glyphs {
  for (const [, code, d] of svg.matchAll(
    /<g id="(E[0-9A-F]{3})-[^"]*">\s*<path transform="scale\(1,-1\)" d="([^"]*)"/g,
  ))
    if (!known.has(code!)) known.set(code!, outlineOf(d!, [1, 0, 0, -1, 0, 0]));
  return known;
}

export interface GlyphInk extends Point {
  readonly code: string;
  readonly box: Box;
  /** Points to a unit of the music font, of which 1000 are four staff spaces. */
  readonly scale: number;
}

/** Outlines that are the same shape lie closer than this share of their height: writers round to a 256th of a point, glyphs are about 5 points high. */
const SAME = 0.01;

/** Points to a unit on a staff of 7 mm. */
const FULL = (7 / 25.4) * 0.072;

/** The glyphs of staves in full size, without those of the small staves that show scales. */
export function glyphsAmong(ink: readonly Ink[], glyphs: Glyphs): readonly GlyphInk[] {
  return everyGlyphAmong(ink, glyphs).filter(({ scale }) => scale > 0.8 * FULL);
}

/** The glyphs among the ink, each with where its origin lies: by shape alone, so of the same glyph in any size the origin is right. */
function everyGlyphAmong(ink: readonly Ink[], glyphs: Glyphs): readonly GlyphInk[] {
  return ink.flatMap(({ pieces, box, isFilled, isStroked }) => {
    if (!isFilled || isStroked) return [];
    for (const [code, outline] of glyphs) {
      if (distance(pieces, outline) > SAME) continue;
      const own = boxOf(outline);
      const scale = (box.bottom - box.top) / (own.bottom - own.top);
      return [{ code, box, scale, x: box.left - own.left * scale, y: box.top - own.top * scale }];
    }
    return [];
  });
}
