import { add, compare, type Fraction, fraction, subtract } from "../../base/index.js";
import type { Meter } from "../../time/index.js";
import type { Drawn } from "./drawn.js";

export type Beam = "begin" | "continue" | "end" | "forward hook" | "backward hook";

/**
 * The beams of each note, first level first; none for rests and for notes of a quarter and longer. Notes are beamed within the groups of the
 * meter: 7/8 as 2+2+3, 6/8 in threes, simple meters by the beat, and plain eighths of 4/4 in half bars. `start` is where the bar's first note
 * lies in its meter: not 0 in a pick-up.
 */
export function beamsOf(drawn: readonly Drawn<unknown>[], meter: Meter, start: Fraction): readonly (readonly Beam[])[] {
  const beams: Beam[][] = drawn.map(() => []);
  for (const run of runsOf(drawn, meter, start)) {
    const deepest = Math.max(...run.map((i) => levels(drawn[i]!)));
    for (let level = 1; level <= deepest; level++) {
      for (const [k, i] of run.entries()) {
        if (levels(drawn[i]!) < level) continue;
        const before = k > 0 && levels(drawn[run[k - 1]!]!) >= level;
        const after = k < run.length - 1 && levels(drawn[run[k + 1]!]!) >= level;
        const hook = k === 0 ? "forward hook" : "backward hook";
        beams[i]!.push(before && after ? "continue" : before ? "end" : after ? "begin" : hook);
      }
    }
  }
  return beams;
}

/** Indices of notes that share a beam: at least two, next to each other, in one group. */
function runsOf(drawn: readonly Drawn<unknown>[], meter: Meter, start: Fraction): readonly (readonly number[])[] {
  const runs: number[][] = [];
  let group: Fraction | undefined;
  let isOpen = false;
  for (const [i, symbol] of drawn.entries()) {
    if (symbol.content === undefined || levels(symbol) === 0) {
      isOpen = false;
      continue;
    }
    const own = groupEnd(add(start, symbol.from), meter, (from, to) =>
      isPlainEighths(drawn, subtract(from, start), subtract(to, start)),
    );
    if (isOpen && group && compare(group, own) === 0) runs.at(-1)!.push(i);
    else runs.push([i]);
    group = own;
    isOpen = true;
  }
  return runs.flatMap((run) => cutAtTuplets(run, drawn)).filter((run) => run.length > 1);
}

/** A beam joins a tuplet to what stands beside it only when it holds the whole tuplet: of one that begins or ends outside, no reader sees where. */
function cutAtTuplets(run: readonly number[], drawn: readonly Drawn<unknown>[]): readonly (readonly number[])[] {
  const inside = new Set(run);
  const isCut = ({ tuplet }: Drawn<unknown>): boolean =>
    tuplet !== undefined && drawn.some((each, i) => each.tuplet === tuplet && !inside.has(i));
  const parts: number[][] = [];
  for (const i of run) {
    const [own, last] = [drawn[i]!, drawn[i - 1]];
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

/** The half bar a beat of 4/4 lies in where that holds plain eighths only, else the end of the beat. */
function halfBar(from: Fraction, to: Fraction, joins: (from: Fraction, to: Fraction) => boolean): Fraction {
  const begin = fraction(Math.floor((2 * from.n) / from.d), 2);
  const end = add(begin, fraction(1, 2));
  return joins(begin, end) ? end : to;
}

function isPlainEighths(drawn: readonly Drawn<unknown>[], from: Fraction, to: Fraction): boolean {
  const inside = drawn.filter((symbol) => compare(symbol.to, from) > 0 && compare(symbol.from, to) < 0);
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
  // Over 8 and shorter two or three units are one group; over 1 and 2 the beat is long enough to hold a beam of its own.
  if (lower >= 8 && total <= 3) return [fraction(total, lower)];
  if (lower >= 8) return new Array<Fraction>(Math.ceil(total / 2)).fill(fraction(2, lower));
  const beat = Math.max(2, lower);
  return new Array<Fraction>((total * beat) / lower).fill(fraction(1, beat));
}

/** Flags of a note value: an eighth has one. */
function levels({ value }: Drawn<unknown>): number {
  return Math.max(0, Math.log2(value.value) - 2);
}
