import midi, { type MidiEvent } from "midi-file";
import type { MidiChunks } from "./chunks.js";
import type { CheckedTrack } from "./events.js";

export interface TimedEvent {
  readonly event: MidiEvent;
  readonly ticks: number;
}

/**
 * The events of every track at their ticks, as the library decodes them. It is given only what has been checked: a plain header, and each
 * track up to its end, so that nothing it would pass over in silence reaches it.
 */
export function decodeTracks(
  bytes: Uint8Array,
  chunks: MidiChunks,
  checked: readonly CheckedTrack[],
): readonly (readonly TimedEvent[])[] {
  return chunks.tracks.map((track, i) => {
    const body = bytes.subarray(track.from, checked[i]!.end);
    const file = new Uint8Array(HEADER.length + 8 + body.length);
    file.set(HEADER);
    file.set(
      [0x4d, 0x54, 0x72, 0x6b, body.length >>> 24, body.length >>> 16, body.length >>> 8, body.length],
      HEADER.length,
    );
    file.set(body, HEADER.length + 8);
    let ticks = 0;
    return (midi.parseMidi(file).tracks[0] ?? []).map((event) => {
      ticks += event.deltaTime;
      return { event, ticks };
    });
  });
}

/** Format 0, one track, 1 tick to a quarter: the division does not change how events are decoded. */
const HEADER = Uint8Array.of(0x4d, 0x54, 0x68, 0x64, 0, 0, 0, 6, 0, 0, 0, 1, 0, 1);
