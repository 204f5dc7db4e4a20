import { type Problem, problemsOf } from "../../base/index.js";
import { recordingCodes } from "./codes.js";

const problem = problemsOf(recordingCodes);

/** Channels of a recording; our choice, the most a field recorder has. */
const MOST_CHANNELS = 32;
/** Samples per second; our choice: telephones, and above anything that is sold. */
const RATES = { least: 8_000, most: 768_000 } as const;
/** Seconds of sound that are listened to; our choice, a long day of rehearsal. */
export const LONGEST: number = 4 * 3600;

/** What is wrong with a number of channels and a rate, as a header states them. */
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

/** A header that cannot be believed. */
export function brokenHeader(message: string): Problem {
  return problem("RECORDING_HEADER_BROKEN", message, {}, "save or record it again");
}
