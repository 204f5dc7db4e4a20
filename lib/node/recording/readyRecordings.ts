import { createHash } from "node:crypto";
import { failure, problemsOf, success } from "../../base/index.js";
import { makeReady, type ReadyRecording, type RecordingNeed, recordingsIn } from "../../recording/index.js";
import type { Rate } from "../../render/sound/index.js";
import type { Score } from "../../schema/index.js";
import { nodeCodes } from "../codes.js";
import type { Problem, Result } from "../problem.js";
import { sayProblem } from "../say.js";
import { openSoundFile } from "../soundFile/openSoundFile.js";
import { recordingFacts } from "./recordingFacts.js";
import { openStretcher } from "./stretcher.js";

const problem = problemsOf(nodeCodes);

/** Recordings kept ready in memory: those of a drill with some parts, so that rungs that differ in their silences share them. Our choice. */
const MOST_KEPT = 8;

const kept = new Map<string, ReadyRecording>();

export interface ReadyOptions {
  /** Path of a recording on this machine by its name in the course; `undefined` when it is not there. */
  readonly pathOf: (file: string) => string | undefined;
  readonly rate: Rate;
}

/**
 * Makes the recordings of a score ready, each decoded and stretched as the score needs it; `[]` for a score without any. What was made is kept for the next score.
 *
 * Problems: those of `openSoundFile`, and RECORDED_FILE_CHANGED when the bytes are others than those of the course. A file that is not there is left out: `renderSound` says so.
 * Advice: what of a file was damaged or missing where the score plays it.
 *
 * @example
 * const ready = await readyRecordings(score, { pathOf: () => "kit.wav", rate: 44100 });
 * ready.ok && ready.value.length // 0: a score of notes
 */
export async function readyRecordings(score: Score, options: ReadyOptions): Promise<Result<readonly ReadyRecording[]>> {
  const ready: ReadyRecording[] = [];
  const advice: Problem[] = [];
  for (const need of recordingsIn(score)) {
    const path = options.pathOf(need.file);
    if (path === undefined) continue;
    const key = keyOf(need, options.rate);
    const known = kept.get(key);
    const made = known === undefined ? await readyFrom(path, need, options.rate) : success(known);
    if (!made.ok) return made;
    if (kept.size >= MOST_KEPT && !kept.has(key)) kept.delete([...kept.keys()][0]!);
    kept.set(key, made.value);
    ready.push(made.value);
    advice.push(...made.advice);
  }
  return success(ready, advice);
}

async function readyFrom(path: string, need: RecordingNeed, rate: Rate): Promise<Result<ReadyRecording>> {
  const facts = recordingFacts(path);
  if (facts !== undefined && facts.sha256 !== need.sha256) {
    const message = sayProblem("node-problem.recorded-file-changed", { file: need.file });
    const remedy = sayProblem("node-problem.recorded-file-changed-remedy");
    return failure(problem("RECORDED_FILE_CHANGED", message, { file: path }, remedy));
  }
  const opened = await openSoundFile(path);
  if (!opened.ok) return opened;
  const stretch = await openStretcher();
  const ready = await makeReady(opened.value.open(), need, { rate, stretch });
  const found = opened.value.problems();
  const wrong = found.filter(({ severity }) => severity === "error");
  return wrong.length > 0 ? failure(...wrong) : success(ready, found);
}

function keyOf(need: RecordingNeed, rate: Rate): string {
  return createHash("sha256")
    .update(JSON.stringify([need, rate]))
    .digest("hex");
}
