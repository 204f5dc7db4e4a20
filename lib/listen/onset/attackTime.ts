import type { Attack } from "../families.js";
import { type AttackEnvelope, LATE } from "./attackEnvelope.js";

/** Where a note begins within its attack. */
export interface AttackTime {
  /** Samples from the start of the recording; not whole. */
  readonly at: number;
  /** How high it is above what was there before, as power. */
  readonly height: number;
}

/**
 * The start of the steepest rise of an envelope, found from its course between two shares of its height. `middle` is the sample around which the search was asked for.
 */
export function attackTime({ from, step, values }: AttackEnvelope, { middle, rate, attack }: AttackSearch): AttackTime {
  const reach = Math.max(1, Math.round((attack.rise * rate) / step));
  const indexOf = (seconds: number): number => Math.round((middle + seconds * rate - from) / step);
  const steepest = steepestOf(values, { reach, first: indexOf(-attack.early), last: indexOf(LATE) });
  const end = Math.min(values.length - 1, steepest + 2 * reach);
  let bottom = steepest;
  let ground = Number.POSITIVE_INFINITY;
  for (let i = Math.max(1, steepest - 2 * reach); i <= steepest; i++) {
    const level = (values[i - 1]! + values[i]! + values[i + 1]!) / 3;
    if (level < ground) {
      ground = level;
      bottom = i;
    }
  }
  let top = ground;
  for (let i = steepest; i <= end; i++) top = Math.max(top, values[i]!);
  const height = top - ground;
  const [low, high] = attack.shares;
  const levelOf = (share: number): number => ground + share * height;
  /** Where the envelope passes a level for the first time from a place on. */
  const passes = (level: number, from: number): number => {
    for (let i = from; i <= end; i++) {
      if (values[i]! < level) continue;
      return i === bottom || values[i - 1]! >= level
        ? i
        : i - 1 + (level - values[i - 1]!) / (values[i]! - values[i - 1]!);
    }
    return end;
  };
  // From the steepest place back to where the envelope was last below the lower share: what came and went before is no part of the rise.
  let foot = steepest;
  while (foot > bottom && values[foot]! >= levelOf(low)) foot--;
  const lower = passes(levelOf(low), foot);
  const upper = passes(levelOf(high), Math.ceil(lower));
  const begin = lower - (upper - lower) * attack.foot;
  return { at: from + begin * step, height };
}

/** The sample around which an attack is looked for, and in which way. */
interface AttackSearch {
  readonly middle: number;
  /** Samples per second. */
  readonly rate: number;
  readonly attack: Attack;
}

/** Where the sum of the `reach` values from here on most exceeds the sum of as many before. */
function steepestOf(
  values: Float64Array,
  { reach, first, last }: { reach: number; first: number; last: number },
): number {
  let best = first;
  let most = Number.NEGATIVE_INFINITY;
  for (let i = Math.max(first, reach); i <= Math.min(last, values.length - reach); i++) {
    let gain = 0;
    for (let k = 0; k < reach; k++) gain += values[i + k]! - values[i - 1 - k]!;
    if (gain > most) {
      most = gain;
      best = i;
    }
  }
  return best;
}
