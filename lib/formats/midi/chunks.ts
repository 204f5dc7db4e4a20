import { type Fraction, fraction, type Problem } from "../../base/index.js";
import { problem } from "../codes.js";
import { say } from "../say.js";
import type { MidiDivision } from "./midiFile.js";

const HEADER_LENGTH = 6;
/** The header counts tracks in 16 bits (RP-001). */
const MOST_CHUNKS = 65_535;
/** SMPTE frame rates by the first byte of the division, two's complement (Standard MIDI Files 1.0, RP-001); 29 stands for 30 drop-frame, 30000/1001. */
const FRAME_RATES: ReadonlyMap<number, Fraction> = new Map([
  [24, fraction(24)],
  [25, fraction(25)],
  [29, fraction(30_000, 1001)],
  [30, fraction(30)],
]);

/** Where a track's events are in the file. */
export interface TrackBytes {
  readonly from: number;
  readonly to: number;
}

export interface MidiChunks {
  readonly format: 0 | 1 | 2;
  readonly division: MidiDivision;
  readonly tracks: readonly TrackBytes[];
}

/**
 * The chunks of a Standard MIDI File, checked: header, lengths, division, number of tracks. Chunks of other kinds are skipped and a longer
 * header is read as the standard asks; a RIFF container (RMID) is opened.
 */
export function midiChunks(bytes: Uint8Array): { readonly chunks?: MidiChunks; readonly problems: readonly Problem[] } {
  const start = riffContent(bytes);
  if (ascii(bytes, start) !== "MThd") {
    const message = say("formats-problem.midi-header-missing", { found: JSON.stringify(ascii(bytes, start)) });
    return { problems: [problem("MIDI_HEADER_MISSING", message, { offset: start })] };
  }
  const length = start + 8 <= bytes.length ? uint32(bytes, start + 4) : 0;
  if (length < HEADER_LENGTH || start + 8 + length > bytes.length) {
    const given = { least: HEADER_LENGTH, found: length, bytes: bytes.length };
    const message = say("formats-problem.midi-header-too-short", given);
    return { problems: [problem("MIDI_HEADER_TOO_SHORT", message, { offset: start + 4 })] };
  }
  const problems: Problem[] = [];
  const format = uint16(bytes, start + 8);
  if (format > 2) {
    const message = say("formats-problem.midi-format-unknown", { found: format });
    problems.push(problem("MIDI_FORMAT_UNKNOWN", message, { offset: start + 8 }));
  }
  const division = readDivision(bytes, start + 12, problems);
  const tracks = findTracks(bytes, start + 8 + length, problems);
  const stated = uint16(bytes, start + 10);
  if (tracks.length < Math.max(1, stated) && !problems.some((p) => p.code.startsWith("MIDI_CHUNK"))) {
    const message = say("formats-problem.midi-track-missing", { stated, found: tracks.length });
    problems.push(problem("MIDI_TRACK_MISSING", message, { offset: start + 10 }));
  }
  if (tracks.length > stated) {
    const message = say("formats-problem.midi-tracks-more-than-stated", { stated, found: tracks.length });
    problems.push(problem("MIDI_TRACKS_MORE_THAN_STATED", message, { offset: start + 10 }));
  }
  if (!division || problems.some((p) => p.severity === "error")) return { problems };
  return { chunks: { format: format as 0 | 1 | 2, division, tracks }, problems };
}

function readDivision(bytes: Uint8Array, at: number, problems: Problem[]): MidiDivision | undefined {
  const [high, low] = [bytes[at]!, bytes[at + 1]!];
  const isFrames = high >= 0x80;
  const ticks = isFrames ? low : high * 256 + low;
  if (ticks === 0) {
    const message = say("formats-problem.midi-division-zero", { unit: isFrames ? "frame" : "quarter" });
    problems.push(problem("MIDI_DIVISION_ZERO", message, { offset: at }));
    return undefined;
  }
  if (!isFrames) return { kind: "quarter", ticks };
  const framesPerSecond = FRAME_RATES.get(256 - high);
  if (framesPerSecond) return { kind: "frame", ticks, framesPerSecond };
  const message = say("formats-problem.midi-frame-rate-unknown", { found: 256 - high });
  problems.push(problem("MIDI_FRAME_RATE_UNKNOWN", message, { offset: at }));
  return undefined;
}

function findTracks(bytes: Uint8Array, from: number, problems: Problem[]): TrackBytes[] {
  const tracks: TrackBytes[] = [];
  let at = from;
  while (at < bytes.length) {
    const id = ascii(bytes, at);
    if (at + 8 > bytes.length) {
      const message = say("formats-problem.midi-trailing-bytes", { count: bytes.length - at });
      problems.push(problem("MIDI_TRAILING_BYTES", message, { offset: at }));
      break;
    }
    if (!/^[\x20-\x7e]{4}$/.test(id)) {
      const message = say("formats-problem.midi-chunk-not-read", { found: JSON.stringify(id) });
      problems.push(problem("MIDI_CHUNK_NOT_READ", message, { offset: at }));
      break;
    }
    const to = at + 8 + uint32(bytes, at + 4);
    if (to > bytes.length) {
      const message = say("formats-problem.midi-chunk-truncated", { chunk: id, end: to, bytes: bytes.length });
      problems.push(problem("MIDI_CHUNK_TRUNCATED", message, { offset: at + 4 }));
      break;
    }
    if (id === "MTrk") tracks.push({ from: at + 8, to });
    if (tracks.length > MOST_CHUNKS) {
      const message = say("formats-problem.midi-too-large-in-tracks", { most: MOST_CHUNKS });
      problems.push(problem("MIDI_TOO_LARGE", message, { offset: at }));
      break;
    }
    at = to;
  }
  return tracks;
}

/** Where the MIDI file begins: after the head of the data chunk in a RIFF container of type RMID, else 0. */
function riffContent(bytes: Uint8Array): number {
  if (ascii(bytes, 0) !== "RIFF" || ascii(bytes, 8) !== "RMID") return 0;
  for (let at = 12; at + 8 <= bytes.length; ) {
    if (ascii(bytes, at) === "data") return at + 8;
    // RIFF chunks are little-endian and padded to an even length.
    const length = bytes[at + 4]! + bytes[at + 5]! * 2 ** 8 + bytes[at + 6]! * 2 ** 16 + bytes[at + 7]! * 2 ** 24;
    at += 8 + length + (length % 2);
  }
  return 0;
}

function ascii(bytes: Uint8Array, at: number): string {
  return String.fromCharCode(...bytes.subarray(at, at + 4));
}

function uint16(bytes: Uint8Array, at: number): number {
  return bytes[at]! * 256 + bytes[at + 1]!;
}

function uint32(bytes: Uint8Array, at: number): number {
  return uint16(bytes, at) * 65_536 + uint16(bytes, at + 2);
}
