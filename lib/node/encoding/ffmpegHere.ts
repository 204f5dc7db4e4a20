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
  const lacks = await lackingHere([encoder]);
  if (lacks?.length !== 0) {
    const asked = { format: as, encoder, has: lacks === undefined ? ("nothing" as const) : ("program" as const) };
    const message = sayProblem("node-problem.sound-encoder-missing", asked);
    const remedy = sayProblem("node-problem.sound-encoder-missing-remedy", asked);
    return failure(problem("SOUND_ENCODER_MISSING", message, {}, remedy));
  }
  return success({ draws: (await lackingHere([DRAWER]))?.length === 0 });
}

/** The decoder by which ffmpeg draws SVG. */
export const DRAWER = "librsvg";

/** Those of some encoders and decoders that this machine's ffmpeg was built without; `undefined` without the program. */
export async function lackingHere(names: readonly string[]): Promise<readonly string[] | undefined> {
  const known = await Promise.all(["-encoders", "-decoders"].map((list) => runFfmpeg([list], { seconds: 60 })));
  if (!known.every(({ ok }) => ok)) return undefined;
  const here = known.map(({ output }) => namesIn(output));
  return names.filter((name) => !here.some((each) => each.has(name)));
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
