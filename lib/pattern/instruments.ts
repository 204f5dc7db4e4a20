import { nearestName, type Problem, problemsIn, type Result, success } from "../base/index.js";
import type { InstrumentDocument } from "../schema/index.js";
import { problem } from "./codes.js";
import type { Instrument, Interval, Pitch } from "./model.js";
import { midiNumber, parseInterval, parsePitch } from "./pitch.js";

/**
 * Compiles an instrument that a curriculum describes. `sounds` is the interval from written to sounding pitch (P1 when absent). The range
 * is in written pitch.
 *
 * Problems: INTERVAL_NOT_READ, PITCH_NOT_READ, PITCH_OUT_OF_RANGE, INSTRUMENT_RANGE_EMPTY; pointers are relative to the document.
 */
export function compileInstrument(name: string, document: InstrumentDocument): Result<Instrument> {
  const transposition = parseInterval(document.sounds ?? "P1");
  const lowest = parsePitch(document.lowest);
  const highest = document.highest === undefined ? success(undefined) : parsePitch(document.highest);
  const problems: Problem[] = [
    ...problemsIn(transposition, "/sounds"),
    ...problemsIn(lowest, "/lowest"),
    ...problemsIn(highest, "/highest"),
  ];
  if (!transposition.ok || !lowest.ok || !highest.ok) return { ok: false, problems };
  if (highest.value && midiNumber(highest.value) < midiNumber(lowest.value)) {
    const message = `the highest note of ${name} is at or above its lowest; found ${document.highest} above ${document.lowest}`;
    return { ok: false, problems: [problem("INSTRUMENT_RANGE_EMPTY", message, { pointer: "/highest" })] };
  }
  return success({
    name,
    transposition: transposition.value,
    lowest: lowest.value,
    ...(highest.value ? { highest: highest.value } : {}),
    clef: document.clef ?? "treble",
  });
}

/**
 * The built-in instruments: [name, interval from written to sounding pitch, lowest written note, highest written note, clef].
 *
 * Transpositions and lowest notes: music21 10.5.0 (instrument.py). From memory: all highest notes (practical limits for students, not
 * physical ones); the guitar's octave (its E2 in that source is the sounding note, written E3); all values of cornet, flugelhorn, euphonium,
 * bass trombone, electric bass, vibraphone, piano and voices.
 */
const TABLE: readonly (readonly [string, string, string, string, Instrument["clef"]])[] = [
  ["piccolo", "P8", "D4", "C7", "treble"],
  ["flute", "P1", "C4", "D7", "treble"],
  ["oboe", "P1", "Bb3", "G6", "treble"],
  ["english horn", "-P5", "B3", "G6", "treble"],
  ["clarinet", "-M2", "E3", "C7", "treble"],
  ["bass clarinet", "-M9", "Eb3", "G6", "treble"],
  ["bassoon", "P1", "Bb1", "C5", "bass"],
  ["soprano saxophone", "-M2", "Bb3", "F#6", "treble"],
  ["alto saxophone", "-M6", "Bb3", "F#6", "treble"],
  ["tenor saxophone", "-M9", "Bb3", "F#6", "treble"],
  ["baritone saxophone", "-M13", "Bb3", "F#6", "treble"],
  ["horn", "-P5", "C2", "C6", "treble"],
  ["trumpet", "-M2", "F#3", "D6", "treble"],
  ["cornet", "-M2", "F#3", "C6", "treble"],
  ["flugelhorn", "-M2", "F#3", "C6", "treble"],
  ["trombone", "P1", "E2", "Bb4", "bass"],
  ["bass trombone", "P1", "Bb1", "Bb4", "bass"],
  ["euphonium", "P1", "E2", "Bb4", "bass"],
  ["tuba", "P1", "D1", "F4", "bass"],
  ["violin", "P1", "G3", "E7", "treble"],
  ["viola", "P1", "C3", "E6", "alto"],
  ["cello", "P1", "C2", "C6", "bass"],
  ["double bass", "-P8", "E2", "G4", "bass"],
  ["electric bass", "-P8", "E2", "G4", "bass"],
  ["guitar", "-P8", "E3", "E6", "treble"],
  ["vibraphone", "P1", "F3", "F6", "treble"],
  ["piano", "P1", "A0", "C8", "treble"],
  ["soprano voice", "P1", "C4", "C6", "treble"],
  ["alto voice", "P1", "F3", "F5", "treble"],
  ["tenor voice", "-P8", "C4", "C6", "treble"],
  ["bass voice", "P1", "E2", "E4", "bass"],
];

/** The built-in instruments by name, in score order. Curricula add their own. */
export const INSTRUMENTS: Readonly<Record<string, Instrument>> = Object.freeze(
  Object.fromEntries(
    TABLE.map(([name, sounds, lowest, highest, clef]) => [
      name,
      { name, transposition: interval(sounds), lowest: pitch(lowest), highest: pitch(highest), clef },
    ]),
  ),
);

/** The instrument of a name: the curriculum's own first, then the built-in one; `undefined` when there is none. */
export function instrumentNamed(name: string, own: Readonly<Record<string, Instrument>>): Instrument | undefined {
  if (Object.hasOwn(own, name)) return own[name];
  return Object.hasOwn(INSTRUMENTS, name) ? INSTRUMENTS[name] : undefined;
}

/** The problem INSTRUMENT_UNKNOWN, with the nearest name. */
export function unknownInstrument(
  name: string,
  own: Readonly<Record<string, Instrument>>,
  pointer = "/instrument",
): Problem {
  const near = nearestName(name, [...Object.keys(own), ...Object.keys(INSTRUMENTS)]);
  const message = `no instrument is called ${JSON.stringify(name.slice(0, 80))}`;
  const remedy = near === undefined ? "describe it under instruments" : `write ${near}`;
  return problem("INSTRUMENT_UNKNOWN", message, { pointer }, remedy);
}

function interval(text: string): Interval {
  const read = parseInterval(text);
  if (!read.ok) throw new TypeError(`the instrument table holds an interval that cannot be read: ${text}`);
  return read.value;
}

function pitch(text: string): Pitch {
  const read = parsePitch(text);
  if (!read.ok) throw new TypeError(`the instrument table holds a pitch that cannot be read: ${text}`);
  return read.value;
}
