import { add, divide, type Fraction, floor, fraction, multiply, negate, resultOf } from "../base/index.js";
import { barLength, beatOf, type Meter } from "../time/index.js";
import { cellsOf } from "./barLines.js";
import { chordParts, isNoChord } from "./chordSymbol.js";
import { problem } from "./codes.js";
import type { Frame } from "./compile/bars.js";
import { formerSpelling } from "./former/problem.js";
import type { ChordSymbol } from "./model.js";
import type { Problem, Result } from "./problem.js";
import { say } from "./say.js";

/**
 * Reads chord symbols, bars divided by `|`: "Dm7 | G7 C7 | same | N.C.".
 *
 * The chords of a bar share its beats evenly; beats that are left over go to the earlier chords. When there are as many chords as the meter
 * has groups, each takes one group. `same` is the bar before, `...` at the end repeats the bars so far, `rest` has no chord.
 * Problems: those of bar lines, CHORD_NOT_READ, CHORD_UNUSUAL (advice), CHORDS_MORE_THAN_BEATS, with offsets; FORMER_SPELLING alone.
 * @example parseChords("Dm7 | G7 C7", frame)
 */
export function parseChords(line: string, frame: Frame): Result<readonly ChordSymbol[]> {
  const former = formerSpelling("chords", line, frame);
  if (former) return { ok: false, problems: [former] };
  const { cells, problems: found } = cellsOf(line, frame, () => false);
  const problems: Problem[] = [...found];
  const chords: ChordSymbol[] = [];
  for (const cell of cells) {
    if (cell.text === "rest") continue;
    const bar = frame.bars[Math.max(0, cell.bar - 1)]!;
    const words = [...cell.text.matchAll(/\S+/g)];
    if (cell.repeats === undefined) problems.push(...words.flatMap((w) => chordProblems(w[0], cell.offset + w.index)));
    const lengths = cell.bar === 0 ? equalLengths(words.length, frame.pickup) : lengthsInBar(words.length, bar.meter);
    if (!lengths) {
      const message = say("pattern-problem.chords-more-than-beats", { bar: cell.bar, count: words.length });
      const remedy = say("pattern-problem.chords-more-than-beats-remedy");
      problems.push(problem("CHORDS_MORE_THAN_BEATS", message, { pointer: "", offset: cell.offset }, remedy));
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

/** Qualities, extensions and alterations in general use (from memory). Other spellings get advice only, because chords are written in many ways. */
const USUAL =
  /^(maj|min|mi|ma|m|M|dim|aug|sus[24]?|add[2469]|add1[13]|alt|omit[35]|no[35]|Δ|ø|°|o|\+|-|[b#♭♯]?(?:5|6|7|9|11|13)|6\/9|69|2|4|\(|\)|,)*$/;

/** Problems of one chord symbol: CHORD_NOT_READ (no root), CHORD_UNUSUAL (advice). "N.C." (no chord) has none. */
function chordProblems(text: string, offset: number): readonly Problem[] {
  if (isNoChord(text)) return [];
  const match = chordParts(text);
  if (!match) {
    const message = say("pattern-problem.chord-not-read", { found: JSON.stringify(text.slice(0, 20)) });
    const remedy = say("pattern-problem.chord-not-read-remedy");
    return [problem("CHORD_NOT_READ", message, { pointer: "", offset }, remedy)];
  }
  if (USUAL.test(match[3]!)) return [];
  const message = say("pattern-problem.chord-unusual", { found: text });
  return [problem("CHORD_UNUSUAL", message, { pointer: "", offset }, say("pattern-problem.chord-unusual-remedy"))];
}

function lengthsInBar(count: number, meter: Meter): Fraction[] | undefined {
  if (count === 1) return [barLength(meter)];
  if (count === meter.groups.length) return meter.groups.map((size) => fraction(size, meter.lower));
  const beats = floor(divide(barLength(meter), beatOf(meter)));
  if (count > beats) return undefined;
  const extra = beats % count;
  return Array.from({ length: count }, (_, i) =>
    multiply(beatOf(meter), fraction(Math.floor(beats / count) + (i < extra ? 1 : 0))),
  );
}

function equalLengths(count: number, length: Fraction): Fraction[] {
  return new Array<Fraction>(count).fill(divide(length, fraction(count)));
}
