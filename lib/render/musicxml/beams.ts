import { add, compare, type Fraction, fraction, subtract } from "../../base/index.js";
import type { Meter } from "../../time/index.js";
import type { NoteSymbol } from "./noteSymbols.js";
import type { Tuplet } from "./tuplets.js";

export type Beam = "begin" | "continue" | "end" | "forward hook" | "backward hook";

/**
 * The beams of each symbol, first level first; none for rests and for notes of a quarter and longer. Notes are beamed within the groups of
 * the meter: 7/8 as 2+2+3, 6/8 in threes, simple meters by the beat, and plain eighths of 4/4 in half bars. `start` is the position of the
 * first symbol in its meter, in whole notes: not 0 in a pick-up.
 */
export function beamsOf(
  symbols: readonly NoteSymbol<unknown>[],
  meter: Meter,
  start: Fraction,
): readonly (readonly Beam[])[] {
  const beams: Beam[][] = symbols.map(() => []);
  for (const run of runsOf(symbols, meter, start)) {
    const deepest = Math.max(...run.map((i) => levels(symbols[i]!)));
    for (let level = 1; level <= deepest; level++) {
      for (const [k, i] of run.entries()) {
        if (levels(symbols[i]!) < level) continue;
        const before = k > 0 && levels(symbols[run[k - 1]!]!) >= level;
        const after = k < run.length - 1 && levels(symbols[run[k + 1]!]!) >= level;
        const hook = k === 0 ? "forward hook" : "backward hook";
        beams[i]!.push(before && after ? "continue" : before ? "end" : after ? "begin" : hook);
      }
    }
  }
  return beams;
}

/** Indices of the notes that share a beam: at least two adjacent notes of one group. */
function runsOf(
  symbols: readonly NoteSymbol<unknown>[],
  meter: Meter,
  start: Fraction,
): readonly (readonly number[])[] {
  const runs: number[][] = [];
  let group: Fraction | undefined;
  let isOpen = false;
  for (const [i, symbol] of symbols.entries()) {
    if (symbol.content === undefined || levels(symbol) === 0) {
      isOpen = false;
      continue;
    }
    const own = groupEnd(add(start, symbol.from), meter, (from, to) =>
      isPlainEighths(symbols, subtract(from, start), subtract(to, start)),
    );
    if (isOpen && group && compare(group, own) === 0) runs.at(-1)!.push(i);
    else runs.push([i]);
    group = own;
    isOpen = true;
  }
  return runs.flatMap((run) => cutAtTuplets(run, symbols)).filter((run) => run.length > 1);
}

/** A beam joins a tuplet to its neighbours only when it covers the whole tuplet. Otherwise a reader could not see where the tuplet begins or ends. */
function cutAtTuplets(run: readonly number[], symbols: readonly NoteSymbol<unknown>[]): readonly (readonly number[])[] {
  const inside = new Set(run);
  const isCut = ({ tuplet }: NoteSymbol<unknown>): boolean =>
    tuplet !== undefined && symbols.some((each, i) => each.tuplet === tuplet && !inside.has(i));
  const parts: number[][] = [];
  for (const i of run) {
    const [own, last] = [symbols[i]!, symbols[i - 1]];
    const isSame = last !== undefined && own.tuplet === last.tuplet;
    const joins = parts.length > 0 && (isSame || !(isCut(own) || isCut(last!)));
    if (joins) parts.at(-1)!.push(i);
    else parts.push([i]);
  }
  return parts;
}

function groupEnd(position: Fraction, meter: Meter, joins: (from: Fraction, to: Fraction) => boolean): Fraction {
  let from = fraction(0);
  for (const length of beamGroups(meter)) {
    const to = add(from, length);
    if (compare(position, to) < 0) return isFourFour(meter) ? halfBar(from, to, joins) : to;
    from = to;
  }
  return from;
}

/** The end of the half bar of 4/4 when it has plain eighths only, else the end of the beat. */
function halfBar(from: Fraction, to: Fraction, joins: (from: Fraction, to: Fraction) => boolean): Fraction {
  const begin = fraction(Math.floor((2 * from.n) / from.d), 2);
  const end = add(begin, fraction(1, 2));
  return joins(begin, end) ? end : to;
}

function isPlainEighths(symbols: readonly NoteSymbol<unknown>[], from: Fraction, to: Fraction): boolean {
  const inside = symbols.filter((symbol) => compare(symbol.to, from) > 0 && compare(symbol.from, to) < 0);
  return inside.every(
    (symbol) => symbol.tuplet === undefined && symbol.value.value <= 8 && symbol.content !== undefined,
  );
}

function isFourFour({ kind, groups, lower }: Meter): boolean {
  return kind === "simple" && groups[0] === 4 && lower === 4;
}

function beamGroups({ kind, groups, lower }: Meter): readonly Fraction[] {
  if (kind !== "simple") return groups.map((size) => fraction(size, lower));
  const total = groups[0]!;
  // In meters over 8 and shorter, two or three units are one group. In meters over 1 and 2 each half note is a group.
  if (lower >= 8 && total <= 3) return [fraction(total, lower)];
  if (lower >= 8) return new Array<Fraction>(Math.ceil(total / 2)).fill(fraction(2, lower));
  const beat = Math.max(2, lower);
  return new Array<Fraction>((total * beat) / lower).fill(fraction(1, beat));
}

/** Flags of a note value: an eighth has one. */
function levels({ value }: NoteSymbol<unknown>): number {
  return Math.max(0, Math.log2(value.value) - 2);
}

/**
 * The tuplets of a voice in a bar that need no bracket, because one beam covers all of their notes and no other note. Common practice, no
 * source.
 */
export function beamedTuplets(
  symbols: readonly NoteSymbol<unknown>[],
  beams: readonly (readonly Beam[])[],
): ReadonlySet<Tuplet> {
  let begun = 0;
  const beamOf = beams.map(([first]) => {
    if (first === "begin") begun += 1;
    return first === undefined ? undefined : begun;
  });
  const isAlone = (tuplet: Tuplet): boolean => {
    const [own] = beamOf.filter((_, i) => symbols[i]!.tuplet === tuplet);
    return own !== undefined && symbols.every((each, i) => (each.tuplet === tuplet) === (beamOf[i] === own));
  };
  return new Set(symbols.flatMap(({ tuplet }) => (tuplet !== undefined && isAlone(tuplet) ? [tuplet] : [])));
}
