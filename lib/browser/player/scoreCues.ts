import { scoreVoices, type VoicedNote } from "../../render/sound/index.js";
import type { Score } from "../../schema/index.js";

/** A note that is to sound. */
export interface Cue {
  /** Seconds from bar 1. */
  readonly at: number;
  /** Seconds from its beginning to where it has to fade out; `Infinity` when it may ring. */
  readonly rings: number;
  /** Name of the part; empty for the clicks of the count-in. */
  readonly part: string;
  readonly note: VoicedNote;
}

/** Everything that sounds in a mix, in order of time; `rate` is that of the sounds. */
export function scoreCues(score: Score, rate: 44100 | 48000): readonly Cue[] {
  return scoreVoices(score, rate)
    .flatMap(({ part = "", notes }) =>
      notes.map((note) => ({ at: note.from / rate, rings: (note.stop - note.from) / rate, part, note })),
    )
    .sort((a, b) => a.at - b.at);
}
