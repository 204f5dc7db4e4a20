import { nearestName, type Problem, problemsIn, type Result, success, type Worded } from "../base/index.js";
import type { InstrumentDocument } from "../schema/index.js";
import { problem } from "./codes.js";
import { parseInterval } from "./interval.js";
import type { Instrument, Interval, Pitch } from "./model.js";
import { midiNumber, parsePitch } from "./pitch.js";
import { say } from "./say.js";

/**
 * Compiles an instrument that a curriculum describes. `sounds` is the interval from written to sounding pitch (as written when absent). The range
 * is in written pitch.
 *
 * Problems: INTERVAL_NOT_READ, FORMER_SPELLING, PITCH_NOT_READ, PITCH_OUT_OF_RANGE, INSTRUMENT_RANGE_EMPTY; pointers are relative to the document.
 */
export function compileInstrument(name: string, document: InstrumentDocument): Result<Instrument> {
  const transposition = parseInterval(document.sounds ?? "as written");
  const lowest = parsePitch(document.lowest);
  const highest = document.highest === undefined ? success(undefined) : parsePitch(document.highest);
  const problems: Problem[] = [
    ...problemsIn(transposition, "/sounds"),
    ...problemsIn(lowest, "/lowest"),
    ...problemsIn(highest, "/highest"),
  ];
  if (!transposition.ok || !lowest.ok || !highest.ok) return { ok: false, problems };
  if (highest.value && midiNumber(highest.value) < midiNumber(lowest.value)) {
    const message = say("pattern-problem.instrument-range-empty", {
      instrument: name,
      highest: document.highest!,
      lowest: document.lowest,
    });
    const remedy = say("pattern-problem.instrument-range-empty-remedy");
    return { ok: false, problems: [problem("INSTRUMENT_RANGE_EMPTY", message, { pointer: "/highest" }, remedy)] };
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
 * bass trombone, electric bass (its twentieth fret; many have more), vibraphone, piano and voices.
 */
const TABLE: readonly (readonly [string, string, string, string, Instrument["clef"]])[] = [
  ["piccolo", "octave higher", "D4", "C7", "treble"],
  ["flute", "as written", "C4", "D7", "treble"],
  ["oboe", "as written", "Bb3", "G6", "treble"],
  ["english horn", "perfect fifth lower", "B3", "G6", "treble"],
  ["clarinet", "major second lower", "E3", "C7", "treble"],
  ["bass clarinet", "octave and a major second lower", "Eb3", "G6", "treble"],
  ["bassoon", "as written", "Bb1", "C5", "bass"],
  ["soprano saxophone", "major second lower", "Bb3", "F#6", "treble"],
  ["alto saxophone", "major sixth lower", "Bb3", "F#6", "treble"],
  ["tenor saxophone", "octave and a major second lower", "Bb3", "F#6", "treble"],
  ["baritone saxophone", "octave and a major sixth lower", "Bb3", "F#6", "treble"],
  ["horn", "perfect fifth lower", "C2", "C6", "treble"],
  ["trumpet", "major second lower", "F#3", "D6", "treble"],
  ["cornet", "major second lower", "F#3", "C6", "treble"],
  ["flugelhorn", "major second lower", "F#3", "C6", "treble"],
  ["trombone", "as written", "E2", "Bb4", "bass"],
  ["bass trombone", "as written", "Bb1", "Bb4", "bass"],
  ["euphonium", "as written", "E2", "Bb4", "bass"],
  ["tuba", "as written", "D1", "F4", "bass"],
  ["violin", "as written", "G3", "E7", "treble"],
  ["viola", "as written", "C3", "E6", "alto"],
  ["cello", "as written", "C2", "C6", "bass"],
  ["double bass", "octave lower", "E2", "G4", "bass"],
  ["electric bass", "octave lower", "E2", "Eb5", "bass"],
  ["guitar", "octave lower", "E3", "E6", "treble"],
  ["vibraphone", "as written", "F3", "F6", "treble"],
  ["piano", "as written", "A0", "C8", "treble"],
  ["soprano voice", "as written", "C4", "C6", "treble"],
  ["alto voice", "as written", "F3", "F5", "treble"],
  ["tenor voice", "octave lower", "C4", "C6", "treble"],
  ["bass voice", "as written", "E2", "E4", "bass"],
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

/**
 * The instrument of a name: the curriculum's own first, then the built-in one; `undefined` when there is none.
 *
 * @example
 * instrumentNamed("trumpet", course.instruments).name // "trumpet"
 */
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
  const known = [...Object.keys(own), ...Object.keys(INSTRUMENTS)];
  const message = say("pattern-problem.instrument-unknown", { found: JSON.stringify(name.slice(0, 80)) });
  return problem("INSTRUMENT_UNKNOWN", message, { pointer }, remedyOf(meantBy(name, known)));
}

/** Words for instruments that are not their names here. */
const SYNONYMS: Readonly<Record<string, string>> = {
  sax: "saxophone",
  bass: "double bass",
  "upright bass": "double bass",
  contrabass: "double bass",
  "bass guitar": "electric bass",
  "french horn": "horn",
  "cor anglais": "english horn",
  violoncello: "cello",
  keyboard: "piano",
};

/** The instruments a name may stand for: the nearest one, those with the word in their name, or those of a synonym. */
function meantBy(name: string, known: readonly string[]): readonly string[] {
  const word = name
    .trim()
    .toLowerCase()
    .replace(/\bsax\b/, "saxophone");
  const meant = SYNONYMS[word] ?? word;
  if (known.includes(meant)) return [meant];
  const within = meant.length < 3 ? [] : known.filter((each) => each.endsWith(` ${meant}`));
  if (within.length > 0) return within;
  const near = nearestName(name, known);
  return near === undefined || !isMisspelt(word, near) ? [] : [near];
}

/** Sizes of instruments that no instrument of the table has, and that look like another size (from memory). */
const OTHER_SIZES: ReadonlySet<string> = new Set(["sopranino", "sopranissimo"]);

/**
 * Whether a text is this name with slips of spelling: word by word, or with the words written together. A word more or another word is another
 * instrument, with another transposition ("Eb clarinet", "bass saxophone"), and no misspelling.
 */
function isMisspelt(written: string, name: string): boolean {
  const [words, known] = [written, name].map((text) => text.toLowerCase().split(/[\s-]+/));
  if (words!.length !== known!.length) return words!.join("") === known!.join("");
  return words!.every((word, i) => !OTHER_SIZES.has(word) && nearestName(word, [known![i]!]) !== undefined);
}

function remedyOf(meant: readonly string[]): Worded {
  const last = meant.at(-1);
  if (last === undefined) return say("pattern-problem.instrument-unknown-remedy");
  const others = meant.slice(0, -1);
  return others.length === 0
    ? say("pattern-problem.write", { text: last })
    : say("pattern-problem.write-or", { others, last });
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
