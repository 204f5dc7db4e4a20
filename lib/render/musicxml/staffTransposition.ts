import {
  chordTransposed,
  type Instrument,
  type Interval,
  type Key,
  keySignature,
  midiNumber,
  type Note,
  type Pitch,
  type Scale,
  spelledIn,
  transposePitch,
} from "../../pattern/index.js";
import type { PageStaff } from "./page.js";

/** The transposition of a staff from concert pitch to written pitch, with its written key and clef. */
export interface StaffTransposition {
  /** Written key. */
  readonly key: Key;
  /** Sharps of the signature, negative for flats; -7 to 7. */
  readonly fifths: number;
  /** Interval ADDED to the written pitch to get the sounding pitch, octaves included (MusicXML 4.0); `undefined` when it sounds as written. */
  readonly sounds: Interval | undefined;
  readonly clef: Instrument["clef"];
  pitch(concert: Pitch): Pitch;
  chord(text: string): string;
  scale(concert: Scale): Scale;
}

/** The most accidentals of a transposed key signature: our choice, common practice; instead of seven, the enharmonic key with five is easier to read. */
const MOST_SIGNS = 6;
/** The most accidentals of a key signature that MusicXML programs read. */
const MOST_SIGNS_EVER = 7;
/** A staff without an instrument is in the bass clef when its mean pitch is below middle C (MIDI number). */
const MIDDLE_C = 60;

/**
 * Transposes a concert key and its pitches for the reader of a staff. A transposed key of seven accidentals or more is written as its
 * enharmonic neighbour, and so are its notes. Double accidentals that come from the transposition are respelled by the key.
 *
 * @example staffTranspositionOf({ ...staff, reader: { instrument: INSTRUMENTS.trumpet, octave: 0, pitch: "transposed" } }, concert).fifths // concert + 2
 */
export function staffTranspositionOf(
  { reader, notes, kind }: Pick<PageStaff, "reader" | "notes" | "kind">,
  concert: Key,
): StaffTransposition {
  const sounds = kind === "percussion" || reader === undefined ? NONE : soundsFor(reader.instrument, reader.pitch);
  const octave = reader?.octave ?? 0;
  const plain = inverse(sounds, octave);
  const way = lessSigns(concert, plain);
  const key = moved(concert, way);
  const pitch = (from: Pitch): Pitch => {
    const written = transposePitch(from, way);
    const isPlain = Math.abs(written.alter) < 2 || Math.abs(from.alter) >= 2;
    return isPlain ? written : spelledIn(key, midiNumber(written));
  };
  return {
    key,
    fifths: keySignature(key),
    sounds: sounds.chromatic === 0 && sounds.diatonic === 0 ? undefined : sounds,
    clef: clefOf({ reader, notes, kind }, plain),
    pitch,
    chord: (text) => chordTransposed(text, way),
    scale: (scale) => ({ ...scale, tonic: moved({ tonic: scale.tonic, mode: "major" }, way).tonic }),
  };
}

const NONE: Interval = { diatonic: 0, chromatic: 0 };

/** At concert pitch only transpositions by whole octaves are kept: a double bass is written an octave higher in any score. */
function soundsFor({ transposition }: Instrument, pitch: "transposed" | "concert"): Interval {
  if (pitch === "transposed" || transposition.diatonic % 7 === 0) return transposition;
  return NONE;
}

function inverse({ diatonic, chromatic }: Interval, octave: number): Interval {
  return { diatonic: 7 * octave - diatonic, chromatic: 12 * octave - chromatic };
}

/** The interval, or its enharmonic neighbour where that has fewer accidentals in the key signature. */
function lessSigns(concert: Key, way: Interval): Interval {
  const fifths = keySignature(moved(concert, way));
  const isMoved = way.diatonic % 7 !== 0 || way.chromatic % 12 !== 0;
  if (Math.abs(fifths) <= (isMoved ? MOST_SIGNS : MOST_SIGNS_EVER)) return way;
  return { ...way, diatonic: way.diatonic + Math.sign(fifths) };
}

function moved(key: Key, way: Interval): Key {
  const { letter, alter } = transposePitch({ ...key.tonic, octave: 4 }, way);
  return { ...key, tonic: { letter, alter } };
}

function clefOf(
  { reader, notes, kind }: Pick<PageStaff, "reader" | "notes" | "kind">,
  way: Interval,
): Instrument["clef"] {
  if (kind === "percussion") return "percussion";
  if (reader !== undefined) return reader.instrument.clef;
  const numbers = notes.flatMap(({ pitch }: Note) => (pitch ? [midiNumber(pitch) + way.chromatic] : []));
  const mean = numbers.reduce((sum, number) => sum + number, 0) / Math.max(1, numbers.length);
  return numbers.length > 0 && mean < MIDDLE_C ? "bass" : "treble";
}
