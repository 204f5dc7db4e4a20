import { type TrackMessages, writeEvents } from "./writeEvents.js";

/** Bit 15 of the division would mean frames. */
const MOST_TICKS = 0x7fff;
/** The header counts tracks in 16 bits (Standard MIDI Files 1.0, RP-001). */
const MOST_TRACKS = 0xffff;

/**
 * The bytes of a Standard MIDI File of format 1: a header, and a chunk for each track with its end. `readMidiFile` reads it back.
 *
 * Throws `RangeError` for ticks that are not whole numbers from 0, `ticksPerQuarter` outside 1 to 32767, no track or more than 65535.
 *
 * @example
 * writeMidi(480, [{ messages: [{ ticks: 0, bytes: [0x90, 60, 88] }, { ticks: 480, bytes: [0x80, 60, 0] }], endTicks: 480 }]);
 */
export function writeMidi(ticksPerQuarter: number, tracks: readonly TrackMessages[]): Uint8Array {
  if (!Number.isInteger(ticksPerQuarter) || ticksPerQuarter < 1 || ticksPerQuarter > MOST_TICKS)
    throw new RangeError(`a MIDI file has 1 to ${MOST_TICKS} ticks to a quarter note, got ${ticksPerQuarter}`);
  if (tracks.length < 1 || tracks.length > MOST_TRACKS)
    throw new RangeError(`a MIDI file has 1 to ${MOST_TRACKS} tracks, got ${tracks.length}`);
  const header = [0, 1, ...uint16(tracks.length), ...uint16(ticksPerQuarter)];
  const chunks = [chunk("MThd", header), ...tracks.map((track) => chunk("MTrk", writeEvents(track)))];
  const file = new Uint8Array(chunks.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const each of chunks) {
    file.set(each, at);
    at += each.length;
  }
  return file;
}

/** Four letters, the length of the content in 32 bits, and the content. */
function chunk(id: string, content: readonly number[]): Uint8Array {
  const bytes = new Uint8Array(8 + content.length);
  bytes.set([...id].map((letter) => letter.charCodeAt(0)));
  bytes.set([...uint16(content.length >>> 16), ...uint16(content.length & 0xffff)], 4);
  bytes.set(content, 8);
  return bytes;
}

/** High byte first. */
function uint16(value: number): readonly number[] {
  return [value >> 8, value & 255];
}
