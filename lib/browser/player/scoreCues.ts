import type { ReadyRecording } from "../../recording/index.js";
import { recordedPieces, scoreVoices } from "../../render/sound/index.js";
import type { Score } from "../../schema/index.js";

/** A sound as it is to be played. */
export interface CuedSound {
  /** Sounds of one name are the same. */
  readonly sound: string;
  /** Gain, 0 to about 1. */
  readonly height: number;
  /** -1 left to 1 right. */
  readonly pan: number;
  /** Samples a second. */
  readonly rate: number;
  readonly channels: () => readonly Float32Array[];
}

/** A sound and its time. */
export interface Cue {
  /** Seconds from bar 1. */
  readonly at: number;
  /** Seconds from its beginning to where it has to fade out; `Infinity` when it may ring. */
  readonly rings: number;
  /** Name of the part; empty for the clicks of the count-in. */
  readonly part: string;
  readonly note: CuedSound;
}

/** Everything that sounds in a mix, in order of time; `rate` is that of the built-in voices. A part whose recordings are given sounds by these, any other by its notes. */
export function scoreCues(
  score: Score,
  rate: 44100 | 48000,
  recordings: readonly ReadyRecording[] = [],
): readonly Cue[] {
  const recorded = recordedPieces(score, recordings);
  const voiced = scoreVoices(score, rate)
    .filter(({ part }) => part === undefined || !recorded.has(part))
    .flatMap(({ part = "", notes }) =>
      notes.map(({ from, stop, sound, height, pan, samples }): Cue => {
        const note = { sound, height, pan, rate, channels: () => [samples()] };
        return { at: from / rate, rings: (stop - from) / rate, part, note };
      }),
    );
  const pieces = [...recorded].flatMap(([part, all]) =>
    all.map(({ from, sound, height, samples }): Cue => {
      const note = { sound, height, pan: 0, rate: recordings[0]!.rate, channels: samples };
      return { at: from / note.rate, rings: Number.POSITIVE_INFINITY, part, note };
    }),
  );
  return [...voiced, ...pieces].sort((a, b) => a.at - b.at);
}
