import type { Interval } from "../model.js";
import { opposite } from "../pitch.js";

/** Semitones of the major or perfect interval, by staff step. */
const MAJOR = [0, 2, 4, 5, 7, 9, 11] as const;

const PERFECT = new Set([0, 3, 4]);

/** Largest number of an interval that was read. */
const LARGEST_NUMBER = 22;

/** An interval in the former spelling, by quality and number: "M2", "-P5" (down), "m10"; `undefined` for another text. */
export function formerInterval(text: string): Interval | undefined {
  const match = /^([+-]?)([PMmAd])(\d{1,2})$/.exec(text.trim());
  const number = Number(match?.[3] ?? 0);
  const step = (number - 1) % 7;
  const shift = match && number >= 1 && number <= LARGEST_NUMBER ? qualityShift(match[2]!, step) : undefined;
  if (!match || shift === undefined) return undefined;
  const up = { diatonic: number - 1, chromatic: MAJOR[step]! + 12 * Math.floor((number - 1) / 7) + shift };
  return match[1] === "-" ? opposite(up) : up;
}

function qualityShift(quality: string, step: number): number | undefined {
  const perfect = PERFECT.has(step);
  if (quality === "A") return 1;
  if (quality === "d") return perfect ? -1 : -2;
  if (quality === "P") return perfect ? 0 : undefined;
  if (perfect) return undefined;
  return quality === "M" ? 0 : -1;
}
