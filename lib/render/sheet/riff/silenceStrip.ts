import { add, compare, type Fraction, subtract, toNumber } from "../../../base/index.js";
import type { PageBar } from "../../musicxml/index.js";
import { box, frame, type Mark } from "../drawing.js";
import type { System } from "../engraving/readEngraving.js";
import { ACCENT, INK, MUTED, SIZES } from "../pageStyle.js";
import type { Typeface } from "../typeface.js";
import type { SheetWords } from "../words.js";
import type { SilenceRow, Silences, Span } from "./silences.js";

/** A bar of the riff above the strip. */
export interface StripBar {
  readonly number: number;
  readonly from: Fraction;
  readonly to: Fraction;
  /** Where the x coordinates of places in the bar are known (whole notes from its start, points), from its start to its end. */
  readonly anchors: readonly { readonly at: number; readonly x: number }[];
  /** The x coordinate of a position in the bar, in points. */
  x(position: Fraction): number;
}

const ROW = 9.6;
const BAR_HEIGHT = 5;
const HEADER = 10;
const CAPTION = 10.5;
/** White space between cells of beats, in points. */
const NOTCH = 1.1;
const THIN = 1.4;
const OUTLINE = 0.6;

/** The data of a strip. */
export interface StripOf {
  readonly silences: Silences;
  /** The bars of the system above. */
  readonly bars: readonly StripBar[];
  readonly beats: readonly Span[];
}

/** White space between a label and the bars to its right, in points. */
const ASIDE = 7;

/**
 * Height of a strip, in points; 0 without silences. `left` is where its bars begin: a label that has no room before them is on a line of its own.
 */
export function stripHeight(
  { groups, moves }: Silences,
  { type, words, left }: { readonly type: Typeface; readonly words: SheetWords; readonly left: number },
): number {
  if (groups.length === 0) return 0;
  const rowHeight = (label: string): number => ROW + (isAside(label, { type, left }) ? 0 : CAPTION);
  if (moves) return HEADER + rowHeight(words.say("sheet.moves"));
  const captions = groups.length > 1 ? groups.length * CAPTION : 0;
  return HEADER + captions + groups.flatMap(({ rows }) => rows).reduce((sum, row) => sum + rowHeight(labelOf(row)), 0);
}

/** The length of a row, after the letters of its phrases where it is not for all of them. */
function labelOf({ label, phrases }: SilenceRow): string {
  return phrases === "" ? label : `${phrases}  ${label}`;
}

function isAside(label: string, { type, left }: { readonly type: Typeface; readonly left: number }): boolean {
  return type.width(label, "regular", SIZES.small) <= left - ASIDE;
}

/** Draws the strip under a system: a row for each length of silence, and a cell for each beat under its notes. */
export function drawStrip(
  { silences, bars, beats }: StripOf,
  { type, words }: { type: Typeface; words: SheetWords },
): readonly Mark[] {
  const marks: Mark[] = [];
  if (silences.groups.length === 0 || bars.length === 0) return marks;
  const left = bars[0]!.x(bars[0]!.from);
  for (const bar of bars)
    marks.push(
      ...type.line(String(bar.number), { x: bar.x(bar.from) + 1, y: 6.5, face: "regular", size: 7.5, ink: MUTED }),
    );
  let y = HEADER;
  const label = (text: string): void => {
    const style = { face: "regular", size: SIZES.small, ink: INK } as const;
    const aside = isAside(text, { type, left });
    if (!aside) y += CAPTION;
    const x = aside ? left - ASIDE - type.width(text, style.face, style.size) : left;
    marks.push(...type.line(text, { x, y: aside ? y + BAR_HEIGHT : y - 3, ...style }));
  };
  if (silences.moves) {
    label(words.say("sheet.moves"));
    // The first bar of a phrase is always accompanied (random positions are after it).
    const away = bars.filter((bar) => bar.number > 1);
    const somewhere = away.length === 0 ? [] : [{ from: away[0]!.from, to: away.at(-1)!.to }];
    marks.push(...rowMarks({ bars, beats, silences: somewhere, isPartial: false }, y));
    return marks;
  }
  for (const group of silences.groups) {
    if (silences.groups.length > 1) {
      marks.push(...type.line(group.caption, { x: left, y: y + 6.5, face: "italic", size: SIZES.small, ink: MUTED }));
      y += CAPTION;
    }
    for (const row of group.rows) {
      label(labelOf(row));
      marks.push(...rowMarks({ bars, beats, silences: row.silences, isPartial: row.isPartial }, y));
      y += ROW;
    }
  }
  return marks;
}

/** The legend of the strip. */
export function legendOf({ groups, leftOut, moves }: Silences, { say }: SheetWords): string {
  if (groups.length === 0) return "";
  const rows = groups.flatMap((group) => group.rows);
  if (moves) return say("sheet.filled-and-moving", { lengths: [...new Set(rows.map((row) => row.label))] });
  const whole = groups.some((group) => group.rows.some((row) => !row.isPartial));
  const partial = rows.some((row) => row.isPartial);
  const outlined =
    groups.length === 1 && !partial
      ? say("sheet.outlined", { silent: groups[0]!.caption })
      : say("sheet.outlined-silence");
  const meaning = [
    say("sheet.filled"),
    ...(whole ? [outlined] : []),
    ...(partial ? [say("sheet.thin")] : []),
    ...(leftOut > 0 ? [say("sheet.left-out", { count: leftOut })] : []),
  ];
  return meaning.join(" ");
}

interface Row {
  readonly bars: readonly StripBar[];
  readonly beats: readonly Span[];
  readonly silences: readonly Span[];
  /** Whether some part plays in the silences. */
  readonly isPartial: boolean;
}

/** Filled cells for the accompanied beats; for each silence its part in these bars as one outline or thin line. */
function rowMarks({ bars, beats, silences, isPartial }: Row, y: number): readonly Mark[] {
  const sounding = bars.flatMap((bar) => {
    const here = beats.filter(({ from }) => compare(from, bar.from) >= 0 && compare(from, bar.to) < 0);
    return here
      .flatMap((beat) => soundingIn(beat, silences))
      .map((piece) => ({ left: bar.x(piece.from), right: bar.x(piece.to) }));
  });
  const silent = silences.flatMap(({ from, to }) => {
    const touched = bars.filter((bar) => compare(bar.from, to) < 0 && compare(bar.to, from) > 0);
    const [first, last] = [touched[0], touched.at(-1)];
    return first && last ? [{ left: first.x(later(from, first.from)), right: last.x(earlier(to, last.to)) }] : [];
  });
  const middle = y + BAR_HEIGHT / 2;
  return [
    ...sounding.map(({ left, right }) =>
      box(left, y, { width: right - left - NOTCH, height: BAR_HEIGHT, fill: ACCENT }),
    ),
    ...silent.map(({ left, right }) =>
      isPartial
        ? box(left, middle - THIN / 2, { width: right - left - NOTCH, height: THIN, fill: ACCENT })
        : frame(left + OUTLINE / 2, y + OUTLINE / 2, {
            width: right - left - NOTCH - OUTLINE,
            height: BAR_HEIGHT - OUTLINE,
            stroke: MUTED,
            line: OUTLINE,
          }),
    ),
  ];
}

/** The parts of a beat outside the silences. */
function soundingIn({ from, to }: Span, silences: readonly Span[]): readonly Span[] {
  const edges = silences
    .flatMap((each) => [each.from, each.to])
    .filter((edge) => compare(edge, from) > 0 && compare(edge, to) < 0);
  const points = [from, ...edges.sort((a, b) => compare(a, b)), to];
  return points
    .slice(1)
    .map((end, i) => ({ from: points[i]!, to: end }))
    .filter(
      (piece) => !silences.some((each) => compare(each.from, piece.from) <= 0 && compare(each.to, piece.to) >= 0),
    );
}

function earlier(a: Fraction, b: Fraction): Fraction {
  return compare(a, b) <= 0 ? a : b;
}

function later(a: Fraction, b: Fraction): Fraction {
  return compare(a, b) >= 0 ? a : b;
}

/**
 * Where the first bar of a system begins, after its clef and signatures: at its first head. A rest for the whole bar stands in its middle; the
 * bar then begins as far before its second place as that is from its third.
 */
function openingOf(
  heads: readonly { readonly at: number; readonly x: number }[],
  { left, right, length }: { left: number; right: number; length: number },
): number {
  const [first, second, third = { at: length, x: right }] = heads;
  if (first === undefined) return left + BEFORE;
  const isInMiddle = second !== undefined && second.x <= first.x;
  const x = isInMiddle ? second.x - ((third.x - second.x) * second.at) / (third.at - second.at) : first.x;
  return Math.max(left, x - BEFORE_FIRST);
}

/** Distance from the left edge of a cell to the notehead above it, in points. */
const BEFORE = 1;
/** The same for the first notehead of a system, which has no bar line before it. */
const BEFORE_FIRST = 3;

/** The bars of a system for the strip, pick-up excluded. `bars` are all bars of the riff; `first` is the index of the system's first bar. */
export function stripBars(system: System, bars: readonly PageBar[], first: number): readonly StripBar[] {
  const here = bars.slice(first, first + system.bars.length);
  return here
    .map((bar, i) => stripBar(system, bar, { inSystem: i, inRiff: first + i }))
    .filter(({ number }) => number > 0);
}

/** A bar with its x coordinates: bar lines and noteheads are anchors, and positions between them are interpolated. */
function stripBar(system: System, bar: PageBar, { inSystem, inRiff }: { inSystem: number; inRiff: number }): StripBar {
  const { left, right } = system.bars[inSystem]!;
  const length = toNumber(bar.length);
  const heads = system.heads.filter((head) => head.bar === inRiff).map(({ quarters, x }) => ({ at: quarters / 4, x }));
  const opening = inSystem === 0 ? openingOf(heads, { left, right, length }) : left + BEFORE;
  const between = heads.filter(({ at }) => at > 1e-9 && at < length - 1e-9).map(({ at, x }) => ({ at, x: x - BEFORE }));
  const anchors = [{ at: 0, x: opening }, ...between, { at: length, x: right }];
  return {
    number: Number(bar.number),
    from: bar.position,
    to: add(bar.position, bar.length),
    anchors,
    x(position) {
      const at = toNumber(subtract(position, bar.position));
      const found = anchors.findIndex((anchor) => anchor.at >= at - 1e-9);
      const after = Math.max(1, found < 0 ? anchors.length - 1 : found);
      const [a, b] = [anchors[after - 1]!, anchors[after]!];
      const share = b.at === a.at ? 0 : Math.max(0, Math.min(1, (at - a.at) / (b.at - a.at)));
      // Exact at both ends.
      return (1 - share) * a.x + share * b.x;
    },
  };
}
