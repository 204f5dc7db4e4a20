import type { Problem, Worded } from "../../base/index.js";
import { type formatCodes, problem } from "../codes.js";
import { say } from "../say.js";
import { dataBytes, type NoteEvent, readNote } from "./channelMessages.js";
import type { TrackBytes } from "./chunks.js";
import { META, type MetaEvent, metaProblem, readMeta } from "./metaEvents.js";
import { MOST_QUANTITY_BYTES, type QuantityProblem, readVariableLength } from "./variableLength.js";

/** Our choice: at 960 ticks to a quarter this is a month of music; keeps positions exact. */
const LONGEST_TRACK_TICKS = 2 ** 32;

/** An event of a track, and when. */
export type MidiEvent = (NoteEvent | MetaEvent) & { readonly ticks: number };

export interface TrackEvents {
  /** Events that say something about the music, in order. */
  readonly events: readonly MidiEvent[];
  /** Ticks of the last event. */
  readonly endTicks: number;
  /** Events of all kinds that were met. */
  readonly count: number;
  readonly problems: readonly Problem[];
}

/**
 * Reads the events of one track and checks every byte of it; problems carry the offset of the byte. The first error ends the reading, because
 * what follows it has no meaning. After `most` events the rest is left out, and `count` is above `most`.
 */
export function readEvents(bytes: Uint8Array, { from, to }: TrackBytes, most: number): TrackEvents {
  const events: MidiEvent[] = [];
  const problems: Problem[] = [];
  let [at, status, ticks, count] = [from, 0, 0, 0];
  let isCancelled = false;
  const result = (): TrackEvents => ({ events, endTicks: ticks, count, problems });
  const stop = (code: keyof typeof formatCodes, message: Worded, offset: number): TrackEvents => {
    problems.push(problem(code, message, { offset }));
    return result();
  };
  while (at < to) {
    if (++count > most) return result();
    const start = at;
    const delta = readVariableLength(bytes, at, to);
    if (typeof delta === "string") return stop(delta, quantityMessage(delta, "time"), at);
    at = delta.next;
    ticks += delta.value;
    if (ticks > LONGEST_TRACK_TICKS)
      return stop("MIDI_TOO_LONG", say("formats-problem.midi-too-long", { most: LONGEST_TRACK_TICKS }), start);
    if (at >= to) return stop("MIDI_EVENT_TRUNCATED", say("formats-problem.midi-event-truncated-after-time"), start);
    const first = bytes[at]!;
    if (first === 0xff || first === 0xf0 || first === 0xf7) {
      const kind = first === 0xff ? bytes[at + 1] : undefined;
      const length = readVariableLength(bytes, at + (first === 0xff ? 2 : 1), to);
      if (typeof length === "string") return stop(length, quantityMessage(length, "length"), at);
      const next = length.next + length.value;
      if (next > to) {
        const message = say("formats-problem.midi-event-truncated-of-length", { bytes: length.value });
        return stop("MIDI_EVENT_TRUNCATED", message, at);
      }
      if (kind !== undefined) {
        const content = bytes.subarray(length.next, next);
        const wrong = metaProblem(kind, content);
        if (wrong) return stop(wrong.code, wrong.message, at);
        if (kind === META.endOfTrack) {
          if (next >= to) return result();
          return stop("MIDI_DATA_AFTER_END", say("formats-problem.midi-data-after-end", { count: to - next }), next);
        }
        const event = readMeta(kind, content);
        if (event) events.push({ ...event, ticks });
      }
      isCancelled = true;
      at = next;
      continue;
    }
    if (first >= 0xf0)
      return stop("MIDI_STATUS_ILLEGAL", say("formats-problem.midi-status-illegal", { found: hex(first) }), at);
    if (first >= 0x80) {
      status = first;
      isCancelled = false;
      at++;
    } else if (status === 0) {
      return stop("MIDI_STATUS_MISSING", say("formats-problem.midi-status-missing", { found: hex(first) }), at);
    } else if (isCancelled && !problems.some(({ code }) => code === "MIDI_RUNNING_STATUS_KEPT")) {
      const message = say("formats-problem.midi-running-status-kept");
      problems.push(problem("MIDI_RUNNING_STATUS_KEPT", message, { offset: at }));
    }
    const next = at + dataBytes(status);
    if (next > to) return stop("MIDI_EVENT_TRUNCATED", say("formats-problem.midi-event-truncated"), at);
    for (let i = at; i < next; i++)
      if (bytes[i]! > 127)
        return stop("MIDI_DATA_ILLEGAL", say("formats-problem.midi-data-illegal", { found: hex(bytes[i]!) }), i);
    const note = readNote(status, bytes[at]!, bytes[at + 1]!);
    if (note) events.push({ ...note, ticks });
    at = next;
  }
  return stop("MIDI_END_MISSING", say("formats-problem.midi-end-missing"), to);
}

function quantityMessage(code: QuantityProblem, number: "time" | "length"): Worded {
  return code === "MIDI_EVENT_TRUNCATED"
    ? say("formats-problem.midi-event-truncated-in-number", { number })
    : say("formats-problem.midi-number-too-long", { number, most: MOST_QUANTITY_BYTES });
}

function hex(byte: number): string {
  return byte.toString(16).toUpperCase().padStart(2, "0");
}
