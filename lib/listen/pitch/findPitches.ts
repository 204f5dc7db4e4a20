import { openListening } from "../backing/reader.js";
import type { SoundStream } from "../sound.js";
import { LONG, pitchOf } from "./pitchOf.js";

/** Seconds after an onset from which on a note has its pitch: attacks are noise, and the note before still rings; our choice. */
const SETTLES = 0.025;
/** Seconds of a note that are looked at, at most; our choice: pitch is told long before. */
const LONGEST = 0.3;
/** Seconds before an onset at which the note before it ends. */
const BEFORE_NEXT = 0.01;
/** Seconds before an onset that show what still rings. */
const BEFORE = BEFORE_NEXT + 1.2 * LONG;

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
  const reader = onsets.length === 0 ? undefined : await openListening(stream);
  if (reader === undefined) return onsets.map(() => undefined);
  const { rate } = reader;
  const pitchIn = pitchOf(rate);
  const pitches: (number | undefined)[] = [];
  for (const [index, at] of onsets.entries()) {
    const end = Math.min(at + SETTLES + LONGEST, (onsets[index + 1] ?? Number.POSITIVE_INFINITY) - BEFORE_NEXT);
    const from = Math.round((at - BEFORE) * rate);
    const samples = await reader.read(from, Math.max(1, Math.round(end * rate) - from));
    const before = samples.subarray(0, Math.round((BEFORE - BEFORE_NEXT) * rate));
    pitches.push(pitchIn(samples.subarray(Math.round((BEFORE + SETTLES) * rate)), before));
  }
  await reader.close();
  return pitches;
}
