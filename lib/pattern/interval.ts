import { failure, type Result, success } from "../base/index.js";
import { problem } from "./codes.js";
import type { Interval } from "./model.js";

/** Semitones of the major or perfect interval above the tonic, by staff step. */
const MAJOR = [0, 2, 4, 5, 7, 9, 11] as const;
const PERFECT = new Set([0, 3, 4]);
/** Our choice: three octaves and more are beyond any transposing instrument. */
const LARGEST_NUMBER = 22;

/**
 * Reads an interval by quality and number: "M2", "-P5" (down), "m10", "A4", "d5".
 *
 * Problem: INTERVAL_NOT_READ, also for a quality the number does not have (P3, M5).
 * @example parseInterval("-M2") // { ok: true, value: { diatonic: -1, chromatic: -2 }, ... }
 */
export function parseInterval(text: string): Result<Interval> {
  const match = /^([+-]?)([PMmAd])(\d{1,2})$/.exec(text.trim());
  const number = Number(match?.[3] ?? 0);
  const step = (number - 1) % 7;
  const shift = match && number >= 1 && number <= LARGEST_NUMBER ? qualityShift(match[2]!, step) : undefined;
  if (!match || shift === undefined) {
    const message = `an interval is a quality (P, M, m, A, d) and a number, minus for down, such as -M2 or P5; found ${JSON.stringify(text.slice(0, 20))}`;
    return failure(problem("INTERVAL_NOT_READ", message));
  }
  const up = { diatonic: number - 1, chromatic: MAJOR[step]! + 12 * Math.floor((number - 1) / 7) + shift };
  return success(match[1] === "-" ? opposite(up) : up);
}

/** The interval the other way. */
export function opposite(interval: Interval): Interval {
  return { diatonic: 0 - interval.diatonic, chromatic: 0 - interval.chromatic };
}

/** An interval and some octaves more (negative: less). */
export function octavesBeyond(interval: Interval, octaves: number): Interval {
  return { diatonic: interval.diatonic + 7 * octaves, chromatic: interval.chromatic + 12 * octaves };
}

function qualityShift(quality: string, step: number): number | undefined {
  const perfect = PERFECT.has(step);
  if (quality === "A") return 1;
  if (quality === "d") return perfect ? -1 : -2;
  if (quality === "P") return perfect ? 0 : undefined;
  if (perfect) return undefined;
  return quality === "M" ? 0 : -1;
}
