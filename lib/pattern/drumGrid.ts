import {
  add,
  compare,
  divide,
  equals,
  type Fraction,
  fraction,
  multiply,
  nearestName,
  negate,
  placedUnder,
  resultOf,
} from "../base/index.js";
import { pointerTo } from "../schema/index.js";
import { barLength, beatOf, isBinary, type Meter, meterText, pairStart } from "../time/index.js";
import { type Cell, cellsOf, placeOf } from "./barLines.js";
import { problem } from "./codes.js";
import { type Frame, MOST_NOTES_IN_LINE } from "./compile/bars.js";
import { formerSpelling } from "./former/problem.js";
import type { Note } from "./model.js";
import { PERCUSSION } from "./percussion.js";
import type { Problem, Result } from "./problem.js";
import { say } from "./say.js";
import { heardInTuplets } from "./tuplets.js";

/** Most characters to a beat. Our choice: 48, the common grid of sixteenth triplets and sixty-fourths of a dotted quarter. */
const FINEST = 48;

/**
 * Reads percussion voices, one grid line for each voice: `x` a stroke, `X` an accent, `g` a ghost stroke, `-` nothing. Blanks are ignored.
 *
 * The number of characters in a bar gives the grid. A character is a whole number of beats, or a beat is divided into 2, 3, 4, 6, 8, 12, ...
 * characters; a character alone in its bar is the whole bar, and `rest` is a silent one. `|` is a bar line, `same` the bar before, `...` at
 * the end repeats the bars so far. A note is as long as one character. Notes are in order of time. Problems carry a pointer to the voice and
 * an offset into its line.
 * Problems: those of bar lines, GRID_NOT_READ, GRID_DOES_NOT_DIVIDE_BAR, VOICE_UNKNOWN, TOO_MANY_NOTES; FORMER_SPELLING once a line.
 * @example parseGrid({ hat: "x-x-x-x-", snare: "--X---X-" }, frame)
 */
export function parseGrid(voices: Readonly<Record<string, string>>, frame: Frame): Result<readonly Note[]> {
  const notes: Note[] = [];
  const problems: Problem[] = [];
  for (const [voice, line] of Object.entries(voices)) {
    const pointer = pointerTo([voice]);
    if (!PERCUSSION.has(voice)) problems.push(unknownVoice(voice, pointer));
    const former = formerSpelling("grid", line, frame);
    if (former) {
      problems.push(placedUnder(former, pointer));
      continue;
    }
    const { cells, problems: found } = cellsOf(line, frame, () => false);
    problems.push(...found.map((p) => placedUnder(p, pointer)));
    for (const cell of cells) {
      const read = readCell(cell, frame);
      if (Array.isArray(read)) for (const note of asHeard(read, frame)) notes.push({ ...note, voice });
      else if (cell.repeats === undefined || frame.bars[cell.repeats - 1]?.meter !== frame.bars[cell.bar - 1]?.meter) {
        problems.push(placedUnder(read as Problem, pointer));
      }
      if (notes.length > MOST_NOTES_IN_LINE) {
        const message = say("pattern-problem.too-many-notes-in-voices", { most: MOST_NOTES_IN_LINE });
        const remedy = say("pattern-problem.too-many-notes-remedy");
        return { ok: false, problems: [...problems, problem("TOO_MANY_NOTES", message, { pointer }, remedy)] };
      }
    }
  }
  notes.sort((a, b) => compare(a.position, b.position));
  return resultOf(notes, problems);
}

function readCell(cell: Cell, frame: Frame): Note[] | Problem {
  if (cell.text === "rest") return [];
  const characters = [...cell.text.replace(/\s/g, "")];
  const unknown = characters.find((c) => !"xXg-".includes(c));
  if (unknown !== undefined) {
    const offset = cell.offset + (cell.repeats === undefined ? cell.text.indexOf(unknown) : 0);
    const message = say("pattern-problem.grid-not-read", { found: JSON.stringify(unknown) });
    const meant = strokeMeant(unknown);
    const remedy =
      meant === undefined ? say("pattern-problem.grid-not-read-remedy") : say("pattern-problem.write", { text: meant });
    return problem("GRID_NOT_READ", message, { pointer: "", offset }, remedy);
  }
  const bar = frame.bars[Math.max(0, cell.bar - 1)]!;
  const [start, length] = cell.bar === 0 ? [negate(frame.pickup), frame.pickup] : [bar.position, barLength(bar.meter)];
  const slot = divide(length, fraction(characters.length));
  if (characters.length !== 1 && !isUsualGrid(slot, bar.meter)) {
    const counts = usualCounts(length, bar.meter);
    const message = say("pattern-problem.grid-does-not-divide-bar", {
      ...placeOf(cell.bar),
      count: characters.length,
      meter: meterText(bar.meter),
      counts: counts.map(String),
    });
    const remedy = say("pattern-problem.grid-does-not-divide-bar-remedy", {
      count: nearestOf(counts, characters.length),
    });
    return problem("GRID_DOES_NOT_DIVIDE_BAR", message, { pointer: "", offset: cell.offset }, remedy);
  }
  return characters.flatMap((character, i) =>
    character === "-"
      ? []
      : [
          {
            position: add(start, multiply(slot, fraction(i))),
            length: slot,
            accent: character === "X",
            ...(character === "g" ? { ghost: true as const } : {}),
          },
        ],
  );
}

/** Strokes of which one in their pair stands where halving the notes of the pair does not lead, as in a shuffle of twelve characters to four beats, are a tuplet: they sound as written. */
function asHeard(strokes: readonly Note[], frame: Frame): readonly Note[] {
  const { swing, bars } = frame;
  if (swing === undefined) return strokes;
  const starts = strokes.map(({ position }) => pairStart(position, swing, bars));
  const isTuplet = (from: Fraction): boolean =>
    strokes.some(({ position }, i) => starts[i] && equals(starts[i], from) && !isBinary(position));
  const pair = multiply(swing.subdivision, fraction(2));
  const tuplets = starts.map((from) => (from && isTuplet(from) ? { from, to: add(from, pair) } : undefined));
  const heard = heardInTuplets(
    strokes.map((stroke, i) => ({ ...stroke, tuplet: tuplets[i], endsIn: tuplets[i] })),
    frame,
  );
  return strokes.map((stroke, i) => ({ ...stroke, ...heard[i]! }));
}

/** What a drummer may have meant by another character (from memory); none for one that is not in use. */
function strokeMeant(character: string): string | undefined {
  if (/[oO*•●]/.test(character)) return "x";
  if (/[>^]/.test(character)) return "X";
  if (/[G()]/.test(character)) return "g";
  return /[._–—~]/.test(character) ? "-" : undefined;
}

/** Whether a character is a whole number of beats, or a beat is 2^k or 3 * 2^k characters. */
function isUsualGrid(slot: Fraction, meter: Meter): boolean {
  const perBeat = divide(beatOf(meter), slot);
  if (perBeat.n === 1) return true;
  const halved = perBeat.n % 3 === 0 ? perBeat.n / 3 : perBeat.n;
  return perBeat.d === 1 && perBeat.n <= FINEST && Number.isInteger(Math.log2(halved));
}

/** The six smallest numbers of characters allowed in a bar, for the message. */
function usualCounts(length: Fraction, meter: Meter): number[] {
  const counts: number[] = [];
  for (let count = 2; counts.length < 6 && count <= 64 * FINEST; count++) {
    if (isUsualGrid(divide(length, fraction(count)), meter)) counts.push(count);
  }
  return counts;
}

/** Words of drummers for voices that have another name here. */
const SYNONYMS: Readonly<Record<string, string>> = {
  hh: "hat",
  hihat: "hat",
  bd: "kick",
  sd: "snare",
  cymbal: "ride",
  metronome: "click",
  tick: "click",
  stick: "sticks",
  drumstick: "sticks",
};

/** The voice that a word stands for; `undefined` when it is no other word for one. */
function voiceMeant(voice: string): string | undefined {
  const word = voice.toLowerCase().replaceAll(/[\s-]/g, "");
  return SYNONYMS[word] ?? SYNONYMS[word.replace(/s$/, "")];
}

function nearestOf(counts: readonly number[], wanted: number): number {
  return counts.reduce((best, each) => (Math.abs(each - wanted) < Math.abs(best - wanted) ? each : best));
}

/** The problem with a percussion voice that is not in the table, with the voice that was probably meant. */
export function unknownVoice(voice: string, pointer: string): Problem {
  const near = nearestName(voice, PERCUSSION.keys());
  const message = say("pattern-problem.voice-unknown", { found: JSON.stringify(voice) });
  const meant = voiceMeant(voice) ?? near;
  const remedy =
    meant === undefined
      ? say("pattern-problem.write-one-of", { names: [...PERCUSSION.keys()].slice(0, 12) })
      : say("pattern-problem.write", { text: meant });
  return problem("VOICE_UNKNOWN", message, { pointer }, remedy);
}
