import { type Problem, problemsOf } from "../../base/index.js";
import { formatCodes } from "../codes.js";
import type { TrackBytes } from "./chunks.js";

const problem = problemsOf(formatCodes);
/** A variable-length quantity has at most four bytes (Standard MIDI Files 1.0, RP-001). */
const MOST_NUMBER_BYTES = 4;
/** Our choice: a text of a MIDI file is a name, a lyric or a notice, not a book. */
const LONGEST_TEXT = 32_768;
/** Our choice: at 960 ticks to a quarter this is a month of music; keeps positions exact. */
const LONGEST_TRACK_TICKS = 2 ** 32;
/** Lengths of the meta events that have one (RP-001): a time signature may also be cut to its meter. */
const META_LENGTHS: ReadonlyMap<number, readonly number[]> = new Map([
  [0x00, [2]],
  [0x20, [1]],
  [0x21, [1]],
  [0x2f, [0]],
  [0x51, [3]],
  [0x54, [5]],
  [0x58, [4, 2]],
  [0x59, [2]],
]);

export interface CheckedTrack {
  /** Where the end-of-track event ends, or the track where it has none. */
  readonly end: number;
  readonly hasEnd: boolean;
  readonly events: number;
  readonly problems: readonly Problem[];
}

/** Walks the events of one track without making anything of them. The first error ends the walk: what follows it has no meaning. */
export function checkTrack(bytes: Uint8Array, track: TrackBytes): CheckedTrack {
  const problems: Problem[] = [];
  let at = track.from;
  let status = 0;
  let cancelled = false;
  let ticks = 0;
  let events = 0;
  const stop = (code: keyof typeof formatCodes, message: string, offset: number): CheckedTrack => {
    problems.push(problem(code, message, { offset }));
    return { end: track.to, hasEnd: false, events, problems };
  };
  while (at < track.to) {
    events++;
    const start = at;
    const delta = readNumber(bytes, at, track.to);
    if (typeof delta === "string") return stop(delta, numberMessage(delta, "the time before an event"), at);
    at = delta.next;
    ticks += delta.value;
    if (ticks > LONGEST_TRACK_TICKS)
      return stop("MIDI_TOO_LONG", `a track lasts at most ${LONGEST_TRACK_TICKS} ticks`, start);
    if (at >= track.to) return stop("MIDI_EVENT_TRUNCATED", "the track ends before an event its time announces", start);
    const first = bytes[at]!;
    if (first === 0xff || first === 0xf0 || first === 0xf7) {
      const kind = first === 0xff ? bytes[at + 1] : undefined;
      const length = readNumber(bytes, at + (first === 0xff ? 2 : 1), track.to);
      if (typeof length === "string") return stop(length, numberMessage(length, "the length of an event"), at);
      const next = length.next + length.value;
      if (next > track.to)
        return stop("MIDI_EVENT_TRUNCATED", `the track ends inside an event of ${length.value} bytes`, at);
      const meta = kind === undefined ? undefined : metaProblem(kind, length.value, bytes, length.next);
      if (meta) return stop(meta.code, meta.message, at);
      if (kind === 0x2f) {
        if (next < track.to) {
          const message = `nothing follows the end of a track; found ${track.to - next} bytes more, left out`;
          problems.push(problem("MIDI_DATA_AFTER_END", message, { offset: next }));
        }
        return { end: next, hasEnd: true, events, problems };
      }
      cancelled = true;
      at = next;
      continue;
    }
    if (first >= 0xf0) {
      return stop("MIDI_STATUS_ILLEGAL", `a message ${hex(first)} has no place in a file`, at);
    }
    if (first >= 0x80) {
      status = first;
      cancelled = false;
      at++;
    } else if (status === 0) {
      return stop("MIDI_STATUS_MISSING", `an event begins with a status byte; found ${hex(first)}`, at);
    } else if (cancelled) {
      const message =
        "after a meta or system exclusive event the status byte is written again; here it is not, the one before is taken";
      if (!problems.some((p) => p.code === "MIDI_RUNNING_STATUS_KEPT")) {
        problems.push(problem("MIDI_RUNNING_STATUS_KEPT", message, { offset: at }));
      }
    }
    const size = status >> 4 === 0xc || status >> 4 === 0xd ? 1 : 2;
    if (at + size > track.to) return stop("MIDI_EVENT_TRUNCATED", "the track ends inside an event", at);
    for (let i = 0; i < size; i++, at++) {
      if (bytes[at]! > 127)
        return stop("MIDI_DATA_ILLEGAL", `a data byte is at most 127; found ${hex(bytes[at]!)}`, at);
    }
  }
  problems.push(
    problem("MIDI_END_MISSING", "a track ends with an end-of-track event; this one has none", { offset: track.to }),
  );
  return { end: track.to, hasEnd: false, events, problems };
}

type NumberProblem = "MIDI_EVENT_TRUNCATED" | "MIDI_NUMBER_TOO_LONG";

/** A variable-length quantity: seven bits to a byte, the highest bit set on all but the last (RP-001). */
export function readNumber(bytes: Uint8Array, at: number, to: number): { value: number; next: number } | NumberProblem {
  let value = 0;
  for (let i = 0; i < MOST_NUMBER_BYTES; i++) {
    const byte = at + i < to ? bytes[at + i] : undefined;
    if (byte === undefined) return "MIDI_EVENT_TRUNCATED";
    value = value * 128 + (byte & 0x7f);
    if (byte < 0x80) return { value, next: at + i + 1 };
  }
  return "MIDI_NUMBER_TOO_LONG";
}

function numberMessage(code: NumberProblem, what: string): string {
  return code === "MIDI_EVENT_TRUNCATED"
    ? `the track ends inside ${what}`
    : `${what} is written with at most ${MOST_NUMBER_BYTES} bytes; here it has more`;
}

function metaProblem(
  kind: number,
  length: number,
  bytes: Uint8Array,
  at: number,
): { code: keyof typeof formatCodes; message: string } | undefined {
  const wanted = META_LENGTHS.get(kind);
  if (wanted && !wanted.includes(length)) {
    return {
      code: "MIDI_META_LENGTH_WRONG",
      message: `a meta event ${hex(kind)} has ${wanted[0]} bytes; found ${length}`,
    };
  }
  if (kind >= 0x01 && kind <= 0x07 && length > LONGEST_TEXT) {
    return { code: "MIDI_TEXT_TOO_LONG", message: `a text has at most ${LONGEST_TEXT} bytes; found ${length}` };
  }
  if (kind === 0x51 && bytes[at] === 0 && bytes[at + 1] === 0 && bytes[at + 2] === 0) {
    return { code: "MIDI_TEMPO_ZERO", message: "a tempo is above 0 microseconds per quarter note; found 0" };
  }
  return undefined;
}

function hex(byte: number): string {
  return byte.toString(16).toUpperCase().padStart(2, "0");
}
