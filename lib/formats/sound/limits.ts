import type { Problem, Worded } from "../../base/index.js";
import { problem } from "./codes.js";
import { say } from "./say.js";

/** Most channels of a recording; our choice, as many as a field recorder has. */
const MOST_CHANNELS = 32;
/** Limits of the sample rate, samples per second; our choice: from telephones to more than any device has. */
const RATES = { least: 8_000, most: 768_000 } as const;
/** Longest recording, seconds; our choice, a long rehearsal. */
export const LONGEST: number = 4 * 3600;

/** Problems of the number of channels and the sample rate in a header. */
export function shapeProblems(channels: number, rate: number): readonly Problem[] {
  const problems: Problem[] = [];
  if (!(channels >= 1 && channels <= MOST_CHANNELS))
    problems.push(
      brokenHeader(say("recording-problem.header-broken-channels", { most: MOST_CHANNELS, found: channels })),
    );
  if (!(rate >= RATES.least && rate <= RATES.most))
    problems.push(brokenHeader(say("recording-problem.header-broken-rate", { ...RATES, found: rate })));
  return problems;
}

/** The problem of a header that is not credible. */
export function brokenHeader(message: Worded): Problem {
  return problem("RECORDING_HEADER_BROKEN", message, {}, say("recording-problem.header-broken-remedy"));
}
