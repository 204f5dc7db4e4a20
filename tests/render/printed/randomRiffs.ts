import fc from "fast-check";
import { add, type Fraction, subtract } from "../../../lib/base/index.js";
import { readCurriculum } from "../../../lib/curriculum/index.js";
import type { Drill } from "../../../lib/drill/index.js";
import {
  INSTRUMENTS,
  type Instrument,
  type Key,
  type Loudness,
  type Note,
  type Pitch,
  parseKey,
} from "../../../lib/pattern/index.js";
import { musicXmlOf } from "../../../lib/render/index.js";
import { must } from "../../time/shorthand.js";
import { pageOf, patternOf, type Riff, riffs } from "../riffs.js";
import { keyOf, placeOf } from "./fifths.js";
import { isKnownHere } from "./semitonesOf.js";

/** A riff to be printed: notes in chords and voices, a key, chord symbols, a player. */
export interface Printing {
  readonly riff: Riff;
  readonly key: string;
  readonly chords: readonly { readonly position: Fraction; readonly length: Fraction; readonly text: string }[];
  readonly player: { readonly instrument: Instrument; readonly octave: number } | undefined;
}

/** Fifths from the major signature to that of the mode on the same tonic (common knowledge: D dorian has none). */
const MODES: Readonly<Record<string, number>> = {
  ...{ major: 0, lydian: 1, mixolydian: -1, dorian: -2, minor: -3, phrygian: -4, locrian: -5 },
};
const TONICS = ["C", "F", "Bb", "Eb", "Ab", "Db", "Gb", "Cb", "G", "D", "A", "E", "B", "F#", "C#", "G#", "D#", "A#"];
/** Every key of up to seven signs. */
const KEYS: readonly string[] = TONICS.flatMap((tonic) =>
  Object.keys(MODES).flatMap((mode) => (Math.abs(fifthsOf(`${tonic} ${mode}`)) <= 7 ? [`${tonic} ${mode}`] : [])),
);

export function fifthsOf(key: string): number {
  const [tonic, mode] = key.split(" ");
  return placeOf(noteOf(tonic!)) + MODES[mode!]!;
}

export function noteOf(name: string): { readonly letter: string; readonly alter: number } {
  return { letter: name[0]!, alter: [...name.slice(1)].reduce((sum, sign) => sum + (/[#♯]/.test(sign) ? 1 : -1), 0) };
}

const LETTERS = "CDEFGAB";
/** In a reader's key each of two notes may be spelt a step away, D## as E and Fbb as Eb: steps by which two lines may become one. */
const SPELT_APART = 2;
/** Concert steps (C0 at 0) in the middle of what a clef shows, before transposition. */
const MIDDLE: Readonly<Record<Instrument["clef"], number>> = {
  treble: 34,
  bass: 22,
  alto: 28,
  tenor: 26,
  percussion: 34,
};
const ALTERS = [0, 0, 0, 0, 1, -1, 1, -1, 1, -1, 2, -2];
const CHORDS = ["C7", "F#m7b5", "Bbmaj7", "Eb", "G7/B", "Abm7", "D7#9", "N.C.", "Ebmaj7/Bb", "C#dim7", "B6/9", "F+7"];
const LOUDNESSES: readonly Loudness[] = ["pp", "p", "mp", "mf", "f", "ff"];
const PLAYERS = Object.values(INSTRUMENTS).filter(isKnownHere);

/** Random riffs over all keys and players, in chromatic notes on few lines, so that one bar asks for many accidentals. */
export const printings: fc.Arbitrary<Printing> = fc
  .record({
    riff: riffs,
    key: fc.constantFrom(...KEYS),
    who: fc.option(fc.record({ instrument: fc.constantFrom(...PLAYERS), octave: fc.integer({ min: -1, max: 1 }) }), {
      nil: undefined,
      freq: 8,
    }),
    choices: fc.array(fc.nat(), { minLength: 120, maxLength: 120 }),
  })
  .map(({ riff, key, who, choices }) => {
    let next = 0;
    const choose = (most: number): number => choices[next++ % choices.length]! % most;
    const sounds = (who?.instrument.transposition.diatonic ?? 0) - 7 * (who?.octave ?? 0);
    const middle = MIDDLE[who?.instrument.clef ?? "treble"] + sounds;
    const lines = Array.from({ length: 3 }, () => middle - 4 + choose(9));
    const pitch = (): Pitch => {
      const line = lines[choose(lines.length)]!;
      const step = choose(3) > 0 ? line : line > middle ? line - 7 : line + 7;
      const letter = LETTERS[((step % 7) + 7) % 7] as Pitch["letter"];
      return { letter, alter: ALTERS[choose(ALTERS.length)]!, octave: Math.floor(step / 7) };
    };
    let held: Pitch | undefined;
    let loudness: Loudness | undefined;
    const saysLoudness = choose(2) === 0 && riff.notes.every(({ length }) => length.d <= 8);
    const notes = riff.notes.flatMap((note, i): readonly Note[] => {
      const following = riff.notes[i + 1];
      const lasts = following !== undefined && choose(8) === 0 && isPlain(note) && isPlain(following);
      // In two voices no chords and no unisons: nobody, and no program, can tell which tie leads where in such a thicket.
      // Under heads on both sides of a stem the reader cannot tell whose mark is whose: loudness is read off single notes.
      const isChord = !saysLoudness && !lasts && held === undefined && choose(5) === 0;
      const first = pitch();
      const isNear = held !== undefined && Math.abs(stepOf(first) - stepOf(held)) <= SPELT_APART;
      const own = [isNear ? { ...first, octave: first.octave + 1 } : first, ...(isChord ? [pitch(), pitch()] : [])];
      held = lasts ? own[0] : undefined;
      const apart = own.filter((each, k) => own.findIndex((other) => isSame(each, other)) === k);
      const length = lasts ? subtract(add(following.position, following.length), note.position) : note.length;
      if (saysLoudness && choose(3) === 0) loudness = LOUDNESSES[choose(LOUDNESSES.length)]!;
      const ghost = !note.accent && choose(5) === 0 ? { ghost: true as const } : {};
      const marked = loudness === undefined ? ghost : { ...ghost, loudness };
      return apart.map((each) => ({ ...note, ...marked, length, pitch: each }));
    });
    const chords = riff.bars.flatMap(({ position, length }) =>
      choose(2) === 0 ? [] : [{ position, length, text: CHORDS[choose(CHORDS.length)]! }],
    );
    return { riff: { ...riff, notes }, key, chords, player: who };
  });

function stepOf({ letter, octave }: Pitch): number {
  return LETTERS.indexOf(letter) + 7 * octave;
}

/** E4 and Fb4 in one chord are one note to whoever plays it, and Verovio 6.3 confuses their ties. */
function isSame(a: Pitch, b: Pitch): boolean {
  return keyOf(a) === keyOf(b);
}

/** Outside tuplets: two voices, one of them with half a tuplet, are beyond what is written. */
function isPlain({ position, length }: Note): boolean {
  return [position, length].every(({ d }) => Number.isInteger(Math.log2(d)));
}

const BASE: Drill = must(
  readCurriculum(
    `
curriculum: printing
edition: 1.0.0
title: Printing
patterns:
  riff: { meter: 4/4, bars: 1, key: C major, parts: { kit: { voices: { hat: "x-x-x-x-" } }, lead: { notes: "1/2 C4 C4" } } }
drills:
  riff:
    pattern: riff
    student: lead
    tempo: 80
    mixes: { play: { lead: off } }
    tolerance: { steadiness: 80 ms }
    gate: { in-a-row: 2 }
`,
    { file: "printing.yaml", readFile: () => undefined },
  ),
).drills[0]!;

/** A drill of the riff. */
export function drillOf({ riff, key, chords }: Printing): Drill {
  const pattern = { ...patternOf(riff), key: must<Key>(parseKey(key)), chords };
  return { ...BASE, pattern };
}

/**
 * Whether a riff can be read off paper: without notes shorter than a 32nd, which long tuplets tied over call for; in a bar with those heads
 * and ties lie on each other.
 */
function isLegible(printing: Printing): boolean {
  const xml = must(musicXmlOf(pageOf(printing.riff, {}, drillOf(printing).pattern.key)));
  return !/<type>(64th|128th|256th)</.test(xml);
}

/** Random riffs that can be read off paper. */
export const legiblePrintings: fc.Arbitrary<Printing> = printings.filter(isLegible);
