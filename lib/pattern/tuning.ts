import { failure, type Result, success } from "../base/index.js";
import { problem } from "./codes.js";
import { CONCERT_A_HERTZ } from "./pitch.js";
import { say } from "./say.js";

/** Hertz of the lowest and highest A4 that is read. Our choice: a whole tone below the usual pitch and a semitone above; beyond it, a part is transposed. */
const LOWEST = 392;
const HIGHEST = 466.2;

/**
 * Reads the pitch an ensemble tunes to: "442 Hz", of A4.
 *
 * Problems: TUNING_NOT_READ, TUNING_OUT_OF_RANGE.
 * @example parseTuning("442 Hz") // { ok: true, value: 442, ... }
 */
export function parseTuning(text: string): Result<number> {
  const match = /^\s*([0-9]{1,5}(?:\.[0-9]{1,3})?)\s*hz\s*$/i.exec(text);
  if (!match) {
    const message = say("pattern-problem.tuning-not-read", { found: JSON.stringify(text.slice(0, 20)) });
    return failure(problem("TUNING_NOT_READ", message, {}, say("pattern-problem.tuning-not-read-remedy")));
  }
  const hertz = Number(match[1]);
  if (hertz >= LOWEST && hertz <= HIGHEST) return success(hertz);
  const given = { lowest: LOWEST, highest: HIGHEST, found: text.trim() };
  const message = say("pattern-problem.tuning-out-of-range", given);
  return failure(problem("TUNING_OUT_OF_RANGE", message, {}, say("pattern-problem.tuning-out-of-range-remedy")));
}

/** How many cents (hundredths of a semitone) a tuning lies above the usual one of 440 Hz; negative below. */
export function centsAboveUsual(hertz: number): number {
  return 1200 * Math.log2(hertz / CONCERT_A_HERTZ);
}
