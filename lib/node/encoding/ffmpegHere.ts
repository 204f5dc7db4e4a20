import { failure, problemsOf, success } from "../../base/index.js";
import { nodeCodes } from "../codes.js";
import type { Result } from "../problem.js";
import { sayProblem } from "../say.js";
import { ENCODED, type Encoding } from "./formats.js";
import { runFfmpeg } from "./runFfmpeg.js";

const problem = problemsOf(nodeCodes);

/** What the ffmpeg of this machine can do beside encoding. */
export interface FfmpegHere {
  /** Whether it draws SVG, so that files can have a cover. */
  readonly draws: boolean;
}

/** Whether this machine's ffmpeg writes a format. Problems: SOUND_ENCODER_MISSING without the program or without the encoder. */
export async function ffmpegFor(as: Encoding): Promise<Result<FfmpegHere>> {
  const { encoder } = ENCODED[as];
  const encoders = await runFfmpeg(["-encoders"], { seconds: 60 });
  const has = encoders.ok && namesIn(encoders.output).has(encoder);
  if (!has) {
    const asked = { format: as, encoder, has: encoders.ok ? ("program" as const) : ("nothing" as const) };
    const message = sayProblem("node-problem.sound-encoder-missing", asked);
    const remedy = sayProblem("node-problem.sound-encoder-missing-remedy", asked);
    return failure(problem("SOUND_ENCODER_MISSING", message, {}, remedy));
  }
  const decoders = await runFfmpeg(["-decoders"], { seconds: 60 });
  return success({ draws: namesIn(decoders.output).has("librsvg") });
}

/** The second word of each line of a list of encoders or decoders. */
function namesIn(list: Uint8Array): ReadonlySet<string> {
  return new Set(
    new TextDecoder()
      .decode(list)
      .split("\n")
      .map((line) => line.trim().split(/\s+/)[1] ?? ""),
  );
}
