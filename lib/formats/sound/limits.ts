import { type Problem, problemsOf } from "../../base/index.js";
import { recordingCodes } from "./codes.js";

const problem = problemsOf(recordingCodes);

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
    problems.push(brokenHeader(`a recording has 1 to ${MOST_CHANNELS} channels, its header states ${channels}`));
  if (!(rate >= RATES.least && rate <= RATES.most))
    problems.push(
      brokenHeader(`a recording has ${RATES.least} to ${RATES.most} samples a second, its header states ${rate}`),
    );
  return problems;
}

/** The problem of a header that is not credible. */
export function brokenHeader(message: string): Problem {
  return problem("RECORDING_HEADER_BROKEN", message, {}, "save or record it again");
}
