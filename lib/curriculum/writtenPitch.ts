import { toNumber } from "../base/index.js";
import type { Drill } from "../drill/index.js";
import {
  chordPitchClasses,
  chordTransposed,
  type Instrument,
  type Interval,
  keyText,
  type Note,
  opposite,
  type Pattern,
  pitchClasses,
  pitchClassOf,
  scaleOf,
  transposePitch,
} from "../pattern/index.js";
import { pointerTo } from "../schema/index.js";
import { problem } from "./codes.js";
import type { Problem } from "./problem.js";
import { say } from "./say.js";
import type { WholeDocument } from "./wellFormed.js";

/** What counts as clear, in shares of the sounding time of the student's notes. Our choice: shipped courses, whose riffs have passing notes, are far from it. */
const FEWEST_NOTES = 6;
const OUTSIDE_KEY = 0.15;
const OUTSIDE_CHORDS = 0.5;
const INSIDE_CHORDS = 0.85;
/** By how much the chords have to fit better than in any other transposition. */
const CLEARLY = 0.2;

interface Surroundings {
  readonly document: WholeDocument;
  readonly drills: readonly Drill[];
  readonly scales: Readonly<Record<string, readonly number[]>>;
}

/**
 * PITCH_AS_READ for each pattern whose key or chords stand to the student's notes as what a player reads stands to what sounds: a course is written as it sounds,
 * and who plays a B flat instrument easily writes the half of it as he reads it. It is said of evidence alone that no other transposition explains.
 */
export function writtenPitchAdvice({ document, drills, scales }: Surroundings): readonly Problem[] {
  const told = new Map<string, Problem>();
  for (const { pattern, student, players } of drills) {
    const written = document.patterns[pattern.name];
    const notes = Object.values(pattern.parts.find(({ name }) => name === student)?.variants ?? {}).flat();
    const pitched = notes.filter(({ pitch }) => pitch !== undefined);
    if (written === undefined || told.has(pattern.name) || pitched.length < FEWEST_NOTES) continue;
    const fits = {
      key: written.key === undefined ? undefined : keyFits(pattern, pitched, scales),
      chords: chordsFit(pattern, pitched),
    };
    for (const { instrument } of players) {
      const found = asRead(instrument, fits);
      if (found === undefined) continue;
      told.set(pattern.name, advice(pattern, { ...found, instrument, student }));
      break;
    }
  }
  return [...told.values()];
}

/** The one transposition, in semitones up, in which key or chords fit the notes, where they do not as they are written. */
interface Fits {
  readonly key: number | undefined;
  readonly chords: number | undefined;
}

interface AsRead {
  readonly what: keyof Fits;
  readonly interval: Interval;
  /** Whether the notes are written as they are read, and the key or the chords as they sound. */
  readonly isNotes: boolean;
}

function asRead({ transposition }: Instrument, fits: Fits): AsRead | undefined {
  const up = modulo(-transposition.chromatic);
  for (const what of ["key", "chords"] as const) {
    if (up === 0 || fits[what] === undefined) continue;
    if (fits[what] === up) return { what, interval: opposite(transposition), isNotes: true };
    if (fits[what] === modulo(-up)) return { what, interval: transposition, isNotes: false };
  }
  return undefined;
}

/** The only transposition of the key in which all notes lie in it; `undefined` where that is none, or nearly as it is written. */
function keyFits(pattern: Pattern, notes: readonly Note[], scales: Surroundings["scales"]): number | undefined {
  const scale = scaleOf(keyText(pattern.key), scales);
  if (!scale.ok) return undefined;
  const stated = pitchClasses(scale.value);
  const shares = sharesOf(notes, () => stated);
  const whole = shares.flatMap((share, by) => (share > 1 - 1e-9 ? [by] : []));
  const outside = new Set(notes.map(pitchClass).filter((each) => !stated.includes(each)));
  return whole.length === 1 && outside.size > 1 && shares[0]! <= 1 - OUTSIDE_KEY ? whole[0] : undefined;
}

/** The transposition of the chords that fits the notes clearly best; `undefined` where that is none, or not far from what is written. */
function chordsFit({ chords }: Pattern, notes: readonly Note[]): number | undefined {
  const held = chords.map(({ position, length, text }) => ({
    from: toNumber(position),
    to: toNumber(position) + toNumber(length),
    tones: chordPitchClasses(text),
  }));
  const tonesOf = ({ position }: Note): readonly number[] | undefined => {
    const at = toNumber(position);
    return held.find(({ from, to }) => from <= at && at < to)?.tones;
  };
  const judged = notes.filter((note) => tonesOf(note) !== undefined);
  if (judged.length < FEWEST_NOTES) return undefined;
  const shares = sharesOf(judged, tonesOf);
  const [best = 0, next = 0] = [...shares].sort((a, b) => b - a);
  if (best < INSIDE_CHORDS || best - next < CLEARLY || shares[0]! > 1 - OUTSIDE_CHORDS) return undefined;
  return shares.indexOf(best);
}

/** For each transposition by 0 to 11 semitones up, the share of the notes' time that lies in these pitch classes. */
function sharesOf(notes: readonly Note[], tonesOf: (note: Note) => readonly number[] | undefined): readonly number[] {
  const all = notes.reduce((sum, { length }) => sum + toNumber(length), 0);
  return Array.from({ length: 12 }, (_, by) => {
    const within = notes.filter((note) => tonesOf(note)?.includes(modulo(pitchClass(note) - by)));
    return within.reduce((sum, { length }) => sum + toNumber(length), 0) / all;
  });
}

const pitchClass = ({ pitch }: Note): number => pitchClassOf(pitch!);

function modulo(semitones: number): number {
  return ((semitones % 12) + 12) % 12;
}

function advice(
  { name, key, chords }: Pattern,
  {
    what,
    interval,
    isNotes,
    instrument,
    student,
  }: AsRead & { readonly instrument: Instrument; readonly student: string },
): Problem {
  const { letter, alter } = transposePitch({ ...key.tonic, octave: 4 }, interval);
  const some = [...new Set(chords.map(({ text }) => text))].slice(0, 4);
  const [stated, fits] =
    what === "key"
      ? [keyText(key), keyText({ ...key, tonic: { letter, alter } })]
      : [some.join(" "), some.map((text) => chordTransposed(text, interval)).join(" ")];
  const given = { part: student, stated, fits, instrument: instrument.name };
  return problem(
    "PITCH_AS_READ",
    say("curriculum-problem.pitch-as-read", given),
    { pointer: pointerTo(["patterns", name, what]) },
    isNotes
      ? say("curriculum-problem.pitch-as-read-notes-remedy", { part: student, instrument: instrument.name, fits })
      : say("curriculum-problem.pitch-as-read-remedy", { fits }),
  );
}
