import { type Problem, problemsOf, type Result, resultOf } from "../../base/index.js";
import {
  ASSUMED_FAMILY,
  familyOfPart,
  INSTRUMENT_FAMILIES,
  type InstrumentFamily,
  type SoundTake,
  takeFromSound,
} from "../../listen/index.js";
import type { Score } from "../../schema/index.js";
import { fileCodes } from "../codes.js";
import { sayProblem } from "../say.js";
import { type LatencyOptions, latencyOf } from "./latency.js";
import { type SoundInput, soundInFile } from "./soundInput.js";

const problem = problemsOf(fileCodes);

/** Options of listening, from the command line. */
export interface HearingOptions extends LatencyOptions {
  readonly family?: InstrumentFamily;
  /** The file that was played through speakers. */
  readonly backing?: string;
  /** Seconds of the recording at which the take's time 0 is. */
  readonly start?: number;
}

/** Context of a recording. */
export interface HearingContext {
  readonly score?: Score;
  /** Instruments for which the drill is written. */
  readonly players?: readonly string[];
}

/** What was heard in a recording, and the settings of the detection. */
export interface HeardTake extends SoundTake {
  readonly family: InstrumentFamily;
}

/** Listens to a recording and makes a take with the id of the recording. Nothing of the sound is kept. */
export async function hearTake(
  sound: SoundInput,
  options: HearingOptions,
  { score, players }: HearingContext = {},
): Promise<Result<HeardTake>> {
  const known = options.family ?? familyOfPart({ score, players });
  const family = known ?? ASSUMED_FAMILY;
  const latency = latencyOf(options);
  if (!latency.ok) return latency;
  const backing = options.backing === undefined ? undefined : await soundInFile(options.backing);
  if (backing?.ok === false) return backing;
  const heard = await takeFromSound(sound.open, {
    family,
    id: sound.id,
    ...latency.value,
    ...(score && { score }),
    ...(backing && { backing: backing.value.open }),
    ...(options.start === undefined ? {} : { start: options.start }),
  });
  // Problems of a file are complete after it was read; an error makes everything heard unusable.
  const problems: Problem[] = [
    ...sound.problems(),
    ...(backing?.value.problems() ?? []),
    ...(known === undefined ? [familyAssumed()] : []),
  ];
  if (!heard.ok) return { ok: false, problems: [...problems, ...heard.problems] };
  return resultOf({ ...heard.value, family }, [...problems, ...heard.advice]);
}

function familyAssumed(): Problem {
  const message = sayProblem("cli-problem.family-assumed", { family: ASSUMED_FAMILY });
  const options = INSTRUMENT_FAMILIES.map((family) => `--family ${family}`);
  const choice = { options: options.slice(0, -1), last: options.at(-1)! };
  const remedy = sayProblem("cli-problem.family-assumed-remedy", choice);
  return problem("FAMILY_ASSUMED", message, {}, remedy);
}
