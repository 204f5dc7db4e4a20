import type { SoundStream } from "../../formats/sound/index.js";
import { openReader } from "../signal/soundReader.js";
import { notePitch, noteStretch } from "./notePitch.js";

/**
 * The pitch of the note that begins at each onset, as a MIDI note number in concert pitch (69 is A4 at 440 Hz, fractions are hundredths of a
 * semitone, ISO 16); `undefined` where none is clear, as for drums, chords and very short notes.
 *
 * `onsets` are seconds from the first sample, in order. Reads the stream once, and holds a second of it at most.
 *
 * @example
 * const pitches = await findPitches(stream, onsets.map(({ at }) => at));
 */
export async function findPitches(
  stream: SoundStream,
  onsets: readonly number[],
): Promise<readonly (number | undefined)[]> {
  const reader = onsets.length === 0 ? undefined : await openReader(stream);
  if (reader === undefined) return onsets.map(() => undefined);
  const { rate } = reader;
  const pitchIn = notePitch(rate);
  const pitches: (number | undefined)[] = [];
  for (const [index, at] of onsets.entries()) {
    const { from, count } = noteStretch(rate, at, onsets[index + 1]);
    pitches.push(pitchIn(await reader.read(from, count)));
  }
  await reader.close();
  return pitches;
}
