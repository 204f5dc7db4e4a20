import {
  add,
  divide,
  type Fraction,
  floor,
  fraction,
  multiply,
  negate,
  type Problem,
  type Result,
  resultOf,
} from "../base/index.js";
import { barLength, beatOf, type Meter } from "../time/index.js";
import { cellsOf } from "./barLines.js";
import { chordProblems } from "./chordSymbol.js";
import { problem } from "./codes.js";
import type { Frame } from "./frame.js";
import type { ChordSymbol } from "./model.js";

/**
 * Reads chord symbols, bars divided by `|`: "Dm7 | G7 C7 | % | N.C.".
 *
 * Several in a bar share its beats evenly, earlier ones taking what does not divide; as many as the meter has groups take one group each.
 * `%` repeats the bar before. Problems: those of bar lines, CHORD_NOT_READ, CHORD_UNUSUAL (advice), CHORDS_MORE_THAN_BEATS; with offsets.
 * @example parseChords("Dm7 | G7 C7", frame)
 */
export function parseChords(line: string, frame: Frame): Result<readonly ChordSymbol[]> {
  const { cells, problems: found } = cellsOf(line, frame, () => false);
  const problems: Problem[] = [...found];
  const chords: ChordSymbol[] = [];
  for (const cell of cells) {
    const bar = frame.bars[Math.max(0, cell.bar - 1)]!;
    const words = [...cell.text.matchAll(/\S+/g)];
    if (cell.repeats === undefined) problems.push(...words.flatMap((w) => chordProblems(w[0], cell.offset + w.index)));
    const lengths = cell.bar === 0 ? shared(words.length, frame.pickup) : sharedOut(words.length, bar.meter);
    if (!lengths) {
      const message = `a bar has at most as many chord symbols as beats; bar ${cell.bar} has ${words.length}`;
      problems.push(problem("CHORDS_MORE_THAN_BEATS", message, { pointer: "", offset: cell.offset }));
      continue;
    }
    let position = cell.bar === 0 ? negate(frame.pickup) : bar.position;
    words.forEach((word, i) => {
      chords.push({ position, length: lengths[i]!, text: word[0] });
      position = add(position, lengths[i]!);
    });
  }
  return resultOf(chords, problems);
}

function sharedOut(count: number, meter: Meter): Fraction[] | undefined {
  if (count === 1) return [barLength(meter)];
  if (count === meter.groups.length) return meter.groups.map((size) => fraction(size, meter.lower));
  const beats = floor(divide(barLength(meter), beatOf(meter)));
  if (count > beats) return undefined;
  const extra = beats % count;
  return Array.from({ length: count }, (_, i) =>
    multiply(beatOf(meter), fraction(Math.floor(beats / count) + (i < extra ? 1 : 0))),
  );
}

function shared(count: number, length: Fraction): Fraction[] {
  return new Array<Fraction>(count).fill(divide(length, fraction(count)));
}
