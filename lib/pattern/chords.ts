import { add, divide, type Fraction, floor, fraction, multiply, negate, resultOf } from "../base/index.js";
import { barLength, beatOf, type Meter } from "../time/index.js";
import { cellsOf } from "./barLines.js";
import { problem } from "./codes.js";
import type { Frame } from "./compile/bars.js";
import { formerSpelling } from "./former/problem.js";
import type { ChordSymbol, Interval, Pitch } from "./model.js";
import { accidentals, alterOf, midiNumber, transposePitch } from "./pitch.js";
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

const NO_CHORD = /^N\.?C\.?$/i;

const CHORD = /^([A-G])(bb?|##?|♭♭?|♯♯?)?([^/]*)(?:\/([A-G])(bb?|##?|♭♭?|♯♯?)?)?$/;

/** Qualities, extensions and alterations in general use (from memory). Other spellings get advice only, because chords are written in many ways. */
const USUAL =
  /^(maj|min|mi|ma|m|M|dim|aug|sus[24]?|add[2469]|add1[13]|alt|omit[35]|no[35]|Δ|ø|°|o|\+|-|[b#♭♯]?(?:5|6|7|9|11|13)|6\/9|69|2|4|\(|\)|,)*$/;

/** Problems of one chord symbol: CHORD_NOT_READ (no root), CHORD_UNUSUAL (advice). "N.C." (no chord) has none. */
function chordProblems(text: string, offset: number): readonly Problem[] {
  if (NO_CHORD.test(text)) return [];
  const match = CHORD.exec(withoutSixNine(text));
  if (!match) {
    const message = say("pattern-problem.chord-not-read", { found: JSON.stringify(text.slice(0, 20)) });
    const remedy = say("pattern-problem.chord-not-read-remedy");
    return [problem("CHORD_NOT_READ", message, { pointer: "", offset }, remedy)];
  }
  if (USUAL.test(match[3]!)) return [];
  const message = say("pattern-problem.chord-unusual", { found: text });
  return [problem("CHORD_UNUSUAL", message, { pointer: "", offset }, say("pattern-problem.chord-unusual-remedy"))];
}

/** Transposes a chord symbol: root and bass move by the interval, the quality stays. A text that is no chord symbol is returned unchanged. */
export function chordTransposed(text: string, interval: Interval): string {
  const match = NO_CHORD.test(text) ? null : CHORD.exec(withoutSixNine(text));
  if (!match) return text;
  const quality = /6\/9/.test(text) ? match[3]!.replace("69", "6/9") : match[3]!;
  const bass = match[4] === undefined ? "" : `/${movedRoot(match[4], match[5], interval)}`;
  return movedRoot(match[1]!, match[2], interval) + quality + bass;
}

/** The root of a chord symbol and its quality ("m7"); `undefined` for "N.C." and for what is no chord symbol. */
export function rootOf(text: string): { readonly pitch: Pitch; readonly quality: string } | undefined {
  const match = NO_CHORD.test(text) ? null : CHORD.exec(withoutSixNine(text));
  if (!match) return undefined;
  const pitch: Pitch = { letter: match[1] as Pitch["letter"], alter: alterOf(match[2] ?? ""), octave: 4 };
  return { pitch, quality: match[3]! };
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

function movedRoot(letter: string, signs: string | undefined, interval: Interval): string {
  const root: Pitch = { letter: letter as Pitch["letter"], alter: alterOf(signs ?? ""), octave: 4 };
  const there = transposePitch(root, interval);
  if (Math.abs(there.alter) < 2) return there.letter + accidentals(there.alter);
  // A chord symbol with a double sign is read by nobody: E## is F#, Fbb is Eb (common practice, no source).
  const steps = "CDEFGAB";
  const next = steps[(steps.indexOf(there.letter) + Math.sign(there.alter) + 7) % 7] as Pitch["letter"];
  const natural = midiNumber({ letter: next, alter: 0, octave: 4 });
  // Modulo an octave, because the letter after B is C.
  const alter = ((midiNumber({ ...there, octave: 4 }) - natural + 18) % 12) - 6;
  return next + accidentals(alter);
}

/** The symbol with 6/9 written as 69, because 6/9 is a quality and not a bass. */
function withoutSixNine(text: string): string {
  return text.replace("6/9", "69");
}
