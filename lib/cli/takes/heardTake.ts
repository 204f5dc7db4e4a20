import { type Problem, problemsOf, type Result, resultOf, type Score } from "../../index.js";
import {
  ASSUMED_FAMILY,
  familyOfPart,
  INSTRUMENT_FAMILIES,
  type InstrumentFamily,
  type SoundTake,
  takeFromSound,
} from "../../listen/index.js";
import { fileCodes } from "../codes.js";
import { latencyOf } from "./latency.js";
import { type SoundInput, soundInFile } from "./soundInput.js";

const problem = problemsOf(fileCodes);

/** How to listen to recordings, as said on the command line. */
export interface HearingOptions {
  readonly family?: InstrumentFamily;
  /** The file that was played aloud. */
  readonly backing?: string;
  /** Seconds of the recording at which the take's time 0 is. */
  readonly start?: number;
  /** The name of a measured device. */
  readonly device?: string;
  readonly latencyMs?: number;
}

/** What else is known of a recording. */
export interface HearingContext {
  readonly score?: Score;
  /** Instruments the drill is written out for. */
  readonly players?: readonly string[];
}

/** What was heard in a recording, and as what it was listened to. */
export interface HeardTake extends SoundTake {
  readonly family: InstrumentFamily;
}

/** What is heard in a recording, as a take with the recording's own id; nothing of the sound is kept. */
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
  // Files tell what is wrong with them when they have been read; errors there spoil whatever was heard.
  const problems: Problem[] = [
    ...sound.problems(),
    ...(backing?.value.problems() ?? []),
    ...(known === undefined ? [familyAssumed()] : []),
  ];
  if (!heard.ok) return { ok: false, problems: [...problems, ...heard.problems] };
  return resultOf({ ...heard.value, family }, [...problems, ...heard.advice]);
}

function familyAssumed(): Problem {
  const message = `nothing says how notes begin on the instrument that was recorded; it is listened to as ${ASSUMED_FAMILY}`;
  const remedy = `say --family ${INSTRUMENT_FAMILIES.join(", --family ").replace(/, (?=[^,]*$)/, " or ")}`;
  return problem("FAMILY_ASSUMED", message, {}, remedy);
}
