import { LETTERING, type Lettering, line, SIZE, widthOf, wrapped } from "./lettering.js";
import { INK } from "./palette.js";
import { decimal, element, escapeText, type Svg } from "./svg.js";
import type { ChartWords } from "./words.js";

export interface ChartOptions {
  /** Width of the drawing, px: from 280 to 2000; 720 when left out. Use 360 for phones; the layout changes with it, the lettering does not. */
  readonly width?: number;
  /** The language of the chart; English when left out. */
  readonly words?: ChartWords;
}

/** The texts of a chart. */
export interface ChartText {
  /** The main result, one sentence. */
  readonly title: string;
  /** The subject: drill, rung, mix. */
  readonly subject: string;
  /** The content of the drawing in sentences, for people who cannot see it. */
  readonly description: string;
}

/** A drawing and its height, px. Its top left corner is at 0, 0. */
export interface Drawn {
  readonly svg: Svg;
  readonly height: number;
}

const NARROWEST = 280;
const WIDEST = 2000;
const USUAL = 720;

/** Space between lines and between blocks, px: our choice. */
const GAP = { line: 4, block: 14 } as const;

/** Side margin of a chart of this width, px. */
export function marginOf(width: number): number {
  return width < 480 ? 14 : 24;
}

/** The width of a chart from its options, px. Throws `RangeError` outside 280 to 2000 px. */
export function widthAsked({ width = USUAL }: ChartOptions): number {
  if (!(width >= NARROWEST && width <= WIDEST))
    throw new RangeError(`a chart is ${NARROWEST} to ${WIDEST} px wide, got ${width}`);
  return width;
}

/** A complete chart as an SVG document: title, subject, drawing (from the left edge of the document), and key. */
export function chartDocument(
  words: ChartText,
  body: Drawn,
  { width, key }: { readonly width: number; readonly key: readonly (KeyEntry | false)[] },
): Svg {
  const margin = marginOf(width);
  const room = width - 2 * margin;
  const title = wrapped(words.title, room, { size: SIZE.title, bold: true, most: 5 });
  const subject = wrapped(words.subject, room, { size: SIZE.small, most: 5 });
  let y = margin;
  const pieces: Svg[] = [];
  for (const text of title) {
    y += SIZE.title + GAP.line;
    pieces.push(line(text, margin, y - GAP.line, { size: SIZE.title, bold: true }));
  }
  y += 2;
  for (const text of subject) {
    y += SIZE.small + GAP.line;
    pieces.push(line(text, margin, y - GAP.line, { size: SIZE.small, fill: INK.muted }));
  }
  y += GAP.block;
  pieces.push(element("g", { transform: `translate(0 ${Math.round(y)})` }, body.svg));
  y = Math.round(y) + body.height + GAP.block;
  const foot = keyOf(
    key.filter((entry) => entry !== false),
    margin,
    room,
  );
  if (foot.svg !== "") pieces.push(element("g", { transform: `translate(0 ${Math.round(y)})` }, foot.svg));
  const height = Math.ceil(y + foot.height + (foot.height > 0 ? margin : 0));
  return element(
    "svg",
    {
      xmlns: "http://www.w3.org/2000/svg",
      viewBox: `0 0 ${width} ${height}`,
      width,
      height,
      role: "img",
      ...LETTERING,
    },
    element("title", {}, escapeText(words.title)) +
      element("desc", {}, escapeText(words.description)) +
      element("rect", { width, height, fill: INK.paper }) +
      pieces.join(""),
  );
}

/** Drawings one below the other, `gap` px apart, the first at `top`; 0 drawings are as high as `top - gap`. */
export function stacked(drawings: readonly Drawn[], gap: number, top = 0): Drawn {
  let y = top;
  const pieces = drawings.map(({ svg, height }) => {
    const piece = element("g", { transform: `translate(0 ${decimal(y)})` }, svg);
    y += height + gap;
    return piece;
  });
  return { svg: pieces.join(""), height: y - gap };
}

/**
 * The heading of one panel: its name on the left, an aside on the right, or below it where one line has no room for both. Each has two lines at most and ends
 * in an ellipsis where they do not do.
 */
export function panelHeading(
  name: string,
  aside: string,
  { left, room, ...lettering }: { readonly left: number; readonly room: number } & Pick<Lettering, "bold" | "fill">,
): Drawn {
  const small = { size: SIZE.small, ...lettering };
  if (widthOf(name, { bold: true }) + widthOf(aside, small) + 10 <= room) {
    const beside = line(aside, left + room, SIZE.text, { ...small, anchor: "end" });
    return { svg: line(name, left, SIZE.text, { bold: true }) + beside, height: SIZE.text };
  }
  const names = wrapped(name, room, { bold: true, most: 2 });
  const asides = wrapped(aside, room, { ...small, most: 2 });
  let y = -GAP.line;
  const next = (size: number): number => (y += size + GAP.line);
  const lines = [
    ...names.map((text) => line(text, left, next(SIZE.text), { bold: true })),
    ...asides.map((text) => line(text, left, next(SIZE.small), small)),
  ];
  return { svg: lines.join(""), height: y };
}

/** A symbol and its meaning. */
export interface KeyEntry {
  /** Draws the mark into a box from (x, y - 10) to (x + 22, y). */
  readonly mark: (x: number, y: number) => Svg;
  readonly means: string;
}

const MARK_WIDTH = 22;

/** Draws the key: entries in a row, continued on the next line where there is no room. */
function keyOf(entries: readonly KeyEntry[], left: number, room: number): Drawn {
  const lineHeight = SIZE.small + 8;
  let x = left;
  let y = 0;
  const pieces: Svg[] = [];
  for (const { mark, means } of entries) {
    const texts = wrapped(means, room - MARK_WIDTH - 5, { size: SIZE.small, most: 3 });
    const width = MARK_WIDTH + 5 + Math.max(...texts.map((text) => widthOf(text, { size: SIZE.small })));
    if (x > left && x + width > left + room) {
      x = left;
      y += lineHeight;
    }
    pieces.push(mark(x, y + SIZE.small));
    texts.forEach((text, i) => {
      if (i > 0) y += SIZE.small + GAP.line;
      pieces.push(line(text, x + MARK_WIDTH + 5, y + SIZE.small - 1, { size: SIZE.small, fill: INK.muted }));
    });
    x += width + 16;
  }
  return { svg: pieces.join(""), height: entries.length === 0 ? 0 : y + lineHeight };
}
