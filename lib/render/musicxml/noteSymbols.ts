import { add, compare, equals, type Fraction, fraction, multiply, subtract } from "../../base/index.js";
import { type MetricNode, unitsNode } from "./metricTree.js";
import { type NoteValue, noteValue, noteValueEnds, SHORTEST_DRAWN } from "./noteValues.js";
import { type Segment, type Tuplet, timeScale, tupletsIn } from "./tuplets.js";

/** A note or rest as it is printed: one note value at its position in the bar. A longer note is several tied symbols. */
export interface NoteSymbol<T> {
  /** Sounding position, whole notes from the start of the bar. */
  readonly from: Fraction;
  readonly to: Fraction;
  readonly value: NoteValue;
  readonly tuplet?: Tuplet;
  readonly isFirst: boolean;
  readonly isLast: boolean;
  /** The chord that sounds; absent in a rest. */
  readonly content?: T;
}

/** A stretch of a bar in one voice: a chord, or a rest when `content` is absent. */
export interface Stretch<T> extends Segment {
  readonly content?: T;
}

/** The symbols for stretches that fill a bar from end to end; `undefined` when a length has no note values. */
export function noteSymbolsIn<T>(
  stretches: readonly Stretch<T>[],
  bar: MetricNode,
): readonly NoteSymbol<T>[] | undefined {
  const tuplets = tupletsIn(stretches, bar);
  if (tuplets === undefined) return undefined;
  const symbols: NoteSymbol<T>[] = [];
  for (const stretch of stretches) {
    const ends = cutAtTuplets(stretch, tuplets).flatMap((part) => partEnds(part, stretch, bar));
    for (const [i, end] of ends.entries()) {
      const value = noteValue(end.written);
      if (value === undefined || value.value > SHORTEST_DRAWN) return undefined;
      const { content } = stretch;
      symbols.push({
        from: i === 0 ? stretch.from : ends[i - 1]!.at,
        to: end.at,
        value,
        ...(end.tuplet ? { tuplet: end.tuplet } : {}),
        isFirst: i === 0,
        isLast: i === ends.length - 1,
        ...(content === undefined ? {} : { content }),
      });
    }
  }
  return symbols;
}

interface Part extends Segment {
  readonly tuplet?: Tuplet;
}

interface End {
  readonly at: Fraction;
  /** Written length of the symbol that ends there. */
  readonly written: Fraction;
  readonly tuplet?: Tuplet;
}

function cutAtTuplets({ from, to }: Segment, tuplets: readonly Tuplet[]): readonly Part[] {
  const parts: Part[] = [];
  let at = from;
  for (const tuplet of tuplets) {
    if (compare(tuplet.to, at) <= 0 || compare(tuplet.from, to) >= 0) continue;
    if (compare(tuplet.from, at) > 0) parts.push({ from: at, to: tuplet.from });
    const begin = compare(tuplet.from, at) > 0 ? tuplet.from : at;
    const end = compare(tuplet.to, to) < 0 ? tuplet.to : to;
    // A note that fills a whole tuplet is written without it.
    const fills = equals(begin, tuplet.from) && equals(end, tuplet.to);
    parts.push(fills ? { from: begin, to: end } : { from: begin, to: end, tuplet });
    at = end;
  }
  if (compare(at, to) < 0) parts.push({ from: at, to });
  return parts;
}

function partEnds<T>({ from, to, tuplet }: Part, { content }: Stretch<T>, bar: MetricNode): readonly End[] {
  const kind = content === undefined ? "rest" : "note";
  if (tuplet === undefined) {
    let before = from;
    return noteValueEnds(from, to, { node: bar, kind }).map((at) => {
      const written = subtract(at, before);
      before = at;
      return { at, written };
    });
  }
  const { sounding, written } = timeScale(tuplet);
  const inside = (position: Fraction): Fraction => multiply(subtract(position, tuplet.from), written);
  const node = unitsNode(fraction(0), tuplet.unit, tuplet.actual);
  let before = inside(from);
  return noteValueEnds(before, inside(to), { node, kind }).map((end) => {
    const length = subtract(end, before);
    before = end;
    return { at: add(tuplet.from, multiply(end, sounding)), written: length, tuplet };
  });
}
