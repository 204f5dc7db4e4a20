import type { RecordedStretch, Score } from "../schema/index.js";
import type { ReadyRecording, RecordingNeed } from "./model.js";

/** Seconds of a recording wanted on either side of the bars taken: for fades, for strokes before the beat, and so that a stretcher is at work before they begin. */
const BESIDE = 0.25;

/**
 * The recordings that a score plays, each once; none for a score without any. What is wanted of a file is the same in every mix and for every silence, so that
 * it is made ready once.
 *
 * @example
 * recordingsIn(scoreOf(rungs(drill).at(0))) // []: a score of notes
 */
export function recordingsIn({ parts }: Pick<Score, "parts">): readonly RecordingNeed[] {
  const needs = new Map<string, RecordingNeed>();
  const played = parts.flatMap(({ instrument, recorded = [] }) =>
    // A part without an instrument is one of drums, or nothing is known of its pitches.
    recorded.map((stretch) => ({ stretch, isStruck: instrument === undefined })),
  );
  for (const { stretch, isStruck } of played) {
    const { file, sha256, speed, semitones = 0, takenFrom, takenTo, start } = stretch;
    const key = `${keyOf({ sha256, speed, semitones })} ${takenFrom} ${takenTo}`;
    const from = Math.min(takenFrom, start, needs.get(key)?.from ?? start) - BESIDE;
    const known = needs.get(key);
    const to = takenTo + BESIDE;
    if (known === undefined) needs.set(key, { file, sha256, from, to, speed, semitones, isStruck });
    else if (start < takenFrom) needs.set(key, { ...known, from: Math.min(known.from, from) });
  }
  return [...needs.values()];
}

/** Whether two are of one recording at one speed, moved by as many semitones. */
export function isSameRecording(a: Heard, b: Heard): boolean {
  return keyOf(a) === keyOf(b);
}

/** The recording that was made ready for a stretch; `undefined` when none was. */
export function readyFor(stretch: RecordedStretch, ready: readonly ReadyRecording[]): ReadyRecording | undefined {
  const fits = (each: ReadyRecording): boolean =>
    each.from <= stretch.start && each.from + (each.channels[0].length / each.rate) * each.speed >= stretch.takenTo;
  return ready.find((each) => isSameRecording(each, stretch) && fits(each));
}

type Heard = Pick<RecordedStretch, "sha256" | "speed" | "semitones">;

function keyOf({ sha256, speed, semitones = 0 }: Heard): string {
  return `${sha256} ${speed} ${semitones}`;
}
