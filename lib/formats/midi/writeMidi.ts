import { type TimedMessage, variableLength } from "./writeEvents.js";

/** FF 2F 00, without which a track is not complete (Standard MIDI Files 1.0). */
const END_OF_TRACK = [0xff, 0x2f, 0x00] as const;
/** Bit 15 of the division would mean frames. */
const MOST_TICKS = 0x7fff;

export interface Track {
  /** In any order; messages at the same tick keep theirs. */
  readonly messages: readonly TimedMessage[];
  /** Where the track ends; its last message at the earliest. */
  readonly endTicks: number;
}

/**
 * The bytes of a Standard MIDI File of format 1: a header, and a chunk for each track with its end. No running status.
 *
 * Throws `RangeError` for ticks that are not whole numbers from 0, a division outside 1 to 32767, or no track.
 */
export function fileBytes(perQuarter: number, tracks: readonly Track[]): Uint8Array {
  if (!Number.isInteger(perQuarter) || perQuarter < 1 || perQuarter > MOST_TICKS || tracks.length === 0)
    throw new RangeError(`a MIDI file has tracks and 1 to ${MOST_TICKS} ticks to a quarter note, got ${perQuarter}`);
  const header = [...chunkHead("MThd", 6), 0, 1, tracks.length >> 8, tracks.length & 255];
  const chunks = tracks.map(trackBytes);
  const bytes = new Uint8Array(14 + chunks.reduce((sum, chunk) => sum + 8 + chunk.length, 0));
  bytes.set([...header, perQuarter >> 8, perQuarter & 255]);
  let at = 14;
  for (const chunk of chunks) {
    bytes.set(chunkHead("MTrk", chunk.length), at);
    bytes.set(chunk, at + 8);
    at += 8 + chunk.length;
  }
  return bytes;
}

function trackBytes({ messages, endTicks }: Track): readonly number[] {
  const bytes: number[] = [];
  let now = 0;
  const write = (ticks: number, message: readonly number[]): void => {
    bytes.push(...variableLength(ticks - now), ...message);
    now = ticks;
  };
  // Sorting is stable, so messages at one tick stay in order.
  for (const { ticks, bytes: message } of [...messages].sort((a, b) => a.ticks - b.ticks)) write(ticks, message);
  write(Math.max(now, endTicks), END_OF_TRACK);
  return bytes;
}

function chunkHead(id: string, length: number): readonly number[] {
  const letters = [...id].map((letter) => letter.charCodeAt(0));
  return [...letters, length >>> 24, (length >>> 16) & 255, (length >>> 8) & 255, length & 255];
}
