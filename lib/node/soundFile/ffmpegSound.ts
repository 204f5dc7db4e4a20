import { type Problem, problemsOf } from "../../base/index.js";
import type { SoundStream } from "../../formats/sound/index.js";
import { decodeSound, recordingCodes, type SoundFormat, trimmed } from "../../formats/sound/index.js";
import { type FfmpegEnd, ffmpegWav } from "./ffmpeg.js";

export { PATIENCE, probeFfmpeg } from "./ffmpeg.js";

import { nodeCodes } from "../codes.js";
import { sayProblem } from "../say.js";

const problem = problemsOf(recordingCodes);

/** Samples before the sound in a bare stream of AAC, which cannot say so itself: one frame, common practice (found by a click; some encoders add 2112). */
const AAC_DELAY = 1024;

/** A sound file decoded by ffmpeg. What ffmpeg writes about it is not passed on: it is not for people who play. */
export async function* ffmpegSound(
  path: string,
  { format, patience }: { readonly format: SoundFormat; readonly patience: number },
  report: (problems: readonly Problem[]) => void,
): SoundStream {
  let end: FfmpegEnd = { complained: false, failed: undefined, isStuck: false };
  const bytes = ffmpegWav(path, { format, patience }, (told) => {
    end = told;
  });
  const opened = await decodeSound(bytes);
  if (opened.ok) {
    const before = format === "AAC" ? AAC_DELAY : 0;
    if (before > 0) report([startUnstated()]);
    try {
      yield* trimmed(opened.value.sound, { before, behind: 0 });
    } finally {
      report(opened.value.problems());
    }
  }
  if (end.isStuck) report([stuck(format, patience)]);
  else if (end.failed !== undefined || !opened.ok) {
    const told = end.failed === undefined ? "silent" : "told";
    const message = sayProblem("node-problem.recording-decoder-failed", { format, told, error: end.failed ?? "" });
    const remedy = sayProblem("node-problem.recording-decoder-failed-remedy");
    report([problem("RECORDING_DECODER_FAILED", message, {}, remedy)]);
  } else if (end.complained) {
    const message = sayProblem("node-problem.recording-damaged", { format });
    report([problem("RECORDING_DAMAGED", message, {}, sayProblem("node-problem.recording-damaged-remedy"))]);
  }
}

/** What is said when ffmpeg stood still for `patience` seconds. */
export function stuck(format: SoundFormat, patience: number): Problem {
  const message = sayProblem("node-problem.recording-decoder-stuck", { format, seconds: String(patience) });
  const remedy = sayProblem("node-problem.recording-decoder-stuck-remedy");
  return problemsOf(nodeCodes)("RECORDING_DECODER_STUCK", message, {}, remedy);
}

function startUnstated(): Problem {
  const message = sayProblem("node-problem.recording-start-unstated", { samples: String(AAC_DELAY) });
  const remedy = sayProblem("node-problem.recording-start-unstated-remedy");
  return problem("RECORDING_START_UNSTATED", message, {}, remedy);
}
