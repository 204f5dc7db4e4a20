import type { Worded } from "../../base/index.js";
import type { formatCodes } from "../codes.js";
import { say } from "../say.js";
import { requireWhole, variableLength } from "./variableLength.js";

/** Kinds of meta events by their second byte (Standard MIDI Files 1.0, RP-001); 01 to 07 are texts. */
export const META = {
  sequenceNumber: 0x00,
  firstText: 0x01,
  trackName: 0x03,
  marker: 0x06,
  lastText: 0x07,
  channelPrefix: 0x20,
  portPrefix: 0x21,
  endOfTrack: 0x2f,
  tempo: 0x51,
  smpteOffset: 0x54,
  timeSignature: 0x58,
  keySignature: 0x59,
} as const;

/** Lengths of the meta events that have a fixed one (RP-001), bytes: a time signature may also be cut to its meter. */
const LENGTHS: ReadonlyMap<number, readonly number[]> = new Map([
  [META.sequenceNumber, [2]],
  [META.channelPrefix, [1]],
  [META.portPrefix, [1]],
  [META.endOfTrack, [0]],
  [META.tempo, [3]],
  [META.smpteOffset, [5]],
  [META.timeSignature, [4, 2]],
  [META.keySignature, [2]],
]);
/** Our choice: a text of a MIDI file is a name, a lyric or a notice, not a book. Bytes. */
const LONGEST_TEXT = 32_768;
/** The most microseconds to a quarter note that a tempo event holds: it has three bytes. */
export const SLOWEST_TEMPO: number = 2 ** 24 - 1;
/** Thirty-second notes to 24 MIDI clocks: a quarter note has eight, as nearly everywhere. */
const THIRTY_SECONDS = 8;

/** A meta event that says something about the music. */
export type MetaEvent =
  | { readonly kind: "trackName"; readonly text: string }
  | { readonly kind: "tempo"; readonly microsecondsPerQuarter: number }
  | { readonly kind: "timeSignature"; readonly numerator: number; readonly denominator: number }
  /** Sharps; negative for flats. */
  | { readonly kind: "keySignature"; readonly fifths: number; readonly minor: boolean };

/** What is wrong with a meta event of this kind and content: MIDI_META_LENGTH_WRONG, MIDI_TEXT_TOO_LONG, MIDI_TEMPO_ZERO. */
export function metaProblem(
  kind: number,
  content: Uint8Array,
): { readonly code: keyof typeof formatCodes; readonly message: Worded } | undefined {
  const { length } = content;
  const lengths = LENGTHS.get(kind);
  if (lengths && !lengths.includes(length)) {
    const given = { kind: kind.toString(16).toUpperCase().padStart(2, "0"), bytes: lengths[0]!, found: length };
    return { code: "MIDI_META_LENGTH_WRONG", message: say("formats-problem.midi-meta-length-wrong", given) };
  }
  if (kind >= META.firstText && kind <= META.lastText && length > LONGEST_TEXT) {
    const message = say("formats-problem.midi-text-too-long", { most: LONGEST_TEXT, found: length });
    return { code: "MIDI_TEXT_TOO_LONG", message };
  }
  if (kind === META.tempo && content.every((byte) => byte === 0))
    return { code: "MIDI_TEMPO_ZERO", message: say("formats-problem.midi-tempo-zero") };
  return undefined;
}

/** Reads a meta event in which `metaProblem` finds nothing wrong; `undefined` for kinds that say nothing about the music. */
export function readMeta(kind: number, content: Uint8Array): MetaEvent | undefined {
  const [first = 0, second = 0, third = 0] = content;
  if (kind === META.trackName) return { kind: "trackName", text: decoded(content) };
  if (kind === META.tempo) return { kind: "tempo", microsecondsPerQuarter: first * 65_536 + second * 256 + third };
  if (kind === META.timeSignature) return { kind: "timeSignature", numerator: first, denominator: 2 ** second };
  if (kind === META.keySignature)
    return { kind: "keySignature", fifths: first > 127 ? first - 256 : first, minor: second === 1 };
  return undefined;
}

/** Bytes of a track name, written in UTF-8 as most programs read it; Standard MIDI Files 1.0 promises plain ASCII only. */
export function trackName(text: string): readonly number[] {
  return meta(META.trackName, utf8(text));
}

/** Bytes of a text for whoever reads the file, written in UTF-8. */
export function text(words: string): readonly number[] {
  return meta(META.firstText, utf8(words));
}

/** Bytes of a marker, written in UTF-8. */
export function marker(text: string): readonly number[] {
  return meta(META.marker, utf8(text));
}

/** Bytes of a tempo event: microseconds to a quarter note, 1 to 2^24 - 1. */
export function setTempo(microseconds: number): readonly number[] {
  const whole = requireWhole(microseconds, 1, SLOWEST_TEMPO);
  return meta(META.tempo, [whole >> 16, (whole >> 8) & 255, whole & 255]);
}

/**
 * Bytes of a time signature. `denominator` is a note value (4, 8); `clocks` MIDI clocks, of which 24 make a quarter note, lie between clicks
 * of a metronome.
 */
export function timeSignature(numerator: number, denominator: number, clocks: number): readonly number[] {
  const power = requireWhole(Math.log2(requireWhole(denominator, 1, 128)), 0, 7);
  return meta(META.timeSignature, [
    requireWhole(numerator, 1, 255),
    power,
    requireWhole(clocks, 1, 255),
    THIRTY_SECONDS,
  ]);
}

/** Bytes of a key signature: `fifths` sharps (negative: flats), -7 to 7. */
export function keySignature(fifths: number, mode: "major" | "minor"): readonly number[] {
  return meta(META.keySignature, [requireWhole(fifths, -7, 7) & 255, mode === "minor" ? 1 : 0]);
}

/** Bytes of the event that ends a track: FF 2F 00, without which a track is not complete (RP-001). */
export function endOfTrack(): readonly number[] {
  return meta(META.endOfTrack, []);
}

function meta(kind: number, content: readonly number[]): readonly number[] {
  return [0xff, kind, ...variableLength(content.length), ...content];
}

function utf8(text: string): readonly number[] {
  return [...new TextEncoder().encode(text)];
}

/** Names are written in Latin-1 by the standard and in UTF-8 by most programs: UTF-8 where it is valid. */
function decoded(bytes: Uint8Array): string {
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes).trim();
  } catch {
    return Array.from(bytes, (byte) => String.fromCharCode(byte))
      .join("")
      .trim();
  }
}
