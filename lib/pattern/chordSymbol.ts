import type { Interval, Pitch } from "./model.js";
import { accidentals, alterOf, midiNumber, transposePitch } from "./pitch.js";

/** Transposes a chord symbol: root and bass move by the interval, the quality stays. A text that is no chord symbol is returned unchanged. */
export function chordTransposed(text: string, interval: Interval): string {
  const match = isNoChord(text) ? null : chordParts(text);
  if (!match) return text;
  const quality = /6\/9/.test(text) ? match[3]!.replace("69", "6/9") : match[3]!;
  const bass = match[4] === undefined ? "" : `/${movedRoot(match[4], match[5], interval)}`;
  return movedRoot(match[1]!, match[2], interval) + quality + bass;
}

/** Whether a text says that nothing is to be played: "N.C.". */
export function isNoChord(text: string): boolean {
  return /^N\.?C\.?$/i.test(text);
}

/** The root of a chord symbol and its quality ("m7"); `undefined` for "N.C." and for what is no chord symbol. */
export function rootOf(text: string): { readonly pitch: Pitch; readonly quality: string } | undefined {
  const match = isNoChord(text) ? null : chordParts(text);
  if (!match) return undefined;
  const pitch: Pitch = { letter: match[1] as Pitch["letter"], alter: alterOf(match[2] ?? ""), octave: 4 };
  return { pitch, quality: match[3]! };
}

/** Root, its signs, quality, bass and its signs of a chord symbol; `null` when it has no root. 6/9 is written 69, because it is a quality and not a bass. */
export function chordParts(text: string): RegExpExecArray | null {
  return CHORD.exec(text.replace("6/9", "69"));
}

const CHORD = /^([A-G])(bb?|##?|♭♭?|♯♯?)?([^/]*)(?:\/([A-G])(bb?|##?|♭♭?|♯♯?)?)?$/;

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
