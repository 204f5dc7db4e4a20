import { type Problem, problemsOf } from "../../base/index.js";
import type { SoundStream } from "../../formats/sound/index.js";
import { decodeSound, recordingCodes, type SoundFormat, trimmed } from "../../formats/sound/index.js";
import { type FfmpegEnd, ffmpegWav } from "./ffmpeg.js";

export { PATIENCE, probeFfmpeg } from "./ffmpeg.js";

import { nodeCodes } from "../codes.js";

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
    const message = `ffmpeg gave up on this ${format} file${end.failed === undefined ? "" : ` (${end.failed})`}`;
    report([problem("RECORDING_DECODER_FAILED", message, {}, "it is broken, protected or cut off: save it again")]);
  } else if (end.complained) {
    const message = `ffmpeg found broken stretches in this ${format} file`;
    report([problem("RECORDING_DAMAGED", message, {}, "record it again if notes were played there")]);
  }
}

/** What is said when ffmpeg stood still for `patience` seconds. */
export function stuck(format: SoundFormat, patience: number): Problem {
  const message = `ffmpeg, which decodes this ${format} file, stood still for ${patience} s and was stopped`;
  return problemsOf(nodeCodes)("RECORDING_DECODER_STUCK", message, {}, "try again, or save it as WAV, FLAC or MP3");
}

function startUnstated(): Problem {
  const message = `a bare AAC stream does not say how much silence precedes the sound; ${AAC_DELAY} samples are taken off, which may be wrong by 25 ms for all notes alike`;
  return problem(
    "RECORDING_START_UNSTATED",
    message,
    {},
    "leave the latency of the recording untold, or save it as M4A",
  );
}
