import { type Problem, type Result, success } from "../../base/index.js";
import type { Curriculum } from "../../curriculum/index.js";
import { rungs, scoreOf } from "../../drill/index.js";
import { readyRecordings } from "../../node/index.js";
import type { PageCourse, PageRecording } from "../../page/index.js";
import { type ReadyRecording, recordingsIn } from "../../recording/index.js";
import { encodeFlac } from "../../render/sound/index.js";
import { fileBeside } from "../input/courseFile.js";

/** Samples a second: those of the sound hardware of most phones. */
const RATE = 48000;

export interface RecordingOptions {
  /** The file that a course was read from. */
  readonly fileOf: (course: Curriculum) => string;
  /** Whether nobody waits for them any more. */
  readonly isOver?: () => boolean;
  /** Told of recordings that cannot be read: the page is then made without them, and says so where they would sound. Left out: no page is made. */
  readonly tell?: (problems: readonly Problem[]) => void;
}

/** Courses of a page with their recordings as each rung plays them, each once. Problems: those of `readyRecordings`, unless they are told. */
export async function withRecordings(
  courses: readonly PageCourse[],
  options: RecordingOptions,
): Promise<Result<readonly PageCourse[]>> {
  const made: PageCourse[] = [];
  const advice: Problem[] = [];
  for (const each of courses) {
    const recordings = await recordingsOf(each.course, options);
    if (!recordings.ok) return recordings;
    made.push(hasRecordings(each.course) ? { ...each, recordings: recordings.value } : each);
    advice.push(...recordings.advice);
  }
  return success(made, advice);
}

/** Whether drills of a course play recordings. */
export function hasRecordings({ drills }: Curriculum): boolean {
  return drills.some(({ pattern }) => pattern.parts.some(({ recorded }) => recorded !== undefined));
}

async function recordingsOf(
  course: Curriculum,
  { fileOf, isOver = () => false, tell }: RecordingOptions,
): Promise<Result<readonly PageRecording[]>> {
  const found = new Map<string, PageRecording>();
  /** What rungs and mixes play that were looked at: most play the same as others. */
  const played = new Set<string>();
  const advice: Problem[] = [];
  if (!hasRecordings(course)) return success([]);
  const pathOf = (file: string): string | undefined => fileBeside(fileOf(course), file);
  for (const drill of course.drills) {
    const ladder = rungs(drill);
    for (let i = 0; i < ladder.count; i++)
      for (const { name } of drill.mixes) {
        await new Promise((resolve) => setImmediate(resolve));
        if (isOver()) return success([...found.values()]);
        const score = scoreOf(ladder.at(i), name);
        const needs = JSON.stringify(recordingsIn(score));
        if (played.has(needs)) continue;
        played.add(needs);
        const ready = await readyRecordings(score, { pathOf, rate: RATE });
        if (!ready.ok) {
          if (tell === undefined) return ready;
          tell(ready.problems);
          continue;
        }
        advice.push(...ready.advice);
        for (const recording of ready.value) {
          const { sha256, speed, semitones, from, channels } = recording;
          const key = JSON.stringify([sha256, speed, semitones, from, channels[0].length]);
          if (!found.has(key)) found.set(key, { sha256, speed, semitones, from, flac: flacOf(recording) });
        }
      }
  }
  return success([...found.values()], advice);
}

/** What was stretched may go beyond full scale; a page plays every recording as loud as its band, so that its own level is free. */
function flacOf({ channels, rate }: ReadyRecording): Uint8Array {
  let peak = 1;
  for (const samples of channels) for (const sample of samples) peak = Math.max(peak, Math.abs(sample));
  const [left, right] = channels.map((samples) => samples.map((sample) => sample / peak));
  return encodeFlac({ rate, channels: [left!, right!] }, { samples: 16 });
}
