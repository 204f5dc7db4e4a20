/** Relative distance within which samples count as equal to the peak of a wave; our choice: noise 45 dB below the peak moves them by less. */
const EQUAL = 0.005;
/** Relative distance within which samples belong to the peak. A round peak is a parabola: four times as many samples are near it as equal to it. */
const NEAR = 16 * EQUAL;
/** Samples in a row that make a flat peak; our choice, as at full scale. */
const FLAT = 3;
/** Most samples between a flat peak and the zero crossings on both sides, together, in a wave of jumps (a square wave) that was not clipped. */
const JUMP = 2;
/** Longest half wave, samples; our choice: 20 Hz at 192 kHz. */
const LONGEST = 4800;
/** Lowest peak that is examined, -60 dB: below it the quantisation of 16 bits makes peaks flat. */
const LOWEST = 1e-3;
/** Width of a level, as a ratio: peaks that differ by less are at one ceiling. */
const STEP = 0.01;
/** Levels within 18 dB below a ceiling show the waves that do not reach it; our choice. */
const BELOW = Math.ceil(Math.log(8) / STEP);
/** Fewest flat peaks at one ceiling that are not chance; our choice. */
const MANY = 10;
/** Most higher peaks, and most flat peaks below, relative to those at a ceiling; our choices: lossy coding lifts single peaks above it. */
const [MOST_HIGHER, MOST_FLAT_BELOW] = [0.05, 0.25];
/** Fewest round peaks below a ceiling, relative to those at it; our choice: every sound decays, and its last waves are not clipped. */
const LEAST_ROUND_BELOW = 0.25;

/** A ceiling at which waves were clipped. */
export interface Ceiling {
  /** Its level; full scale is 1. */
  readonly level: number;
  /** Samples at this level. */
  readonly samples: number;
}

/** The peaks of one level. */
interface Level {
  flat: number;
  round: number;
  /** Samples in flat peaks. */
  samples: number;
}

/** Finds the ceilings of a channel, above and below zero. */
export interface CeilingSeeker {
  /** Takes the next samples. */
  readonly weigh: (samples: Float32Array) => void;
  /** The ceilings found so far. */
  readonly ceilings: () => readonly Ceiling[];
}

/**
 * Detects clipping at any level: in an amplifier before the recorder, or at full scale before the sound was made softer. Many peaks are then
 * flat at one level, almost none is higher, and waves that do not reach it have round peaks. The square wave of a synthesiser is no
 * ceiling: it is flat at every level it has, or has one level only. A clipped tone that never decays cannot be distinguished from one.
 */
export function ceilingSeeker(): CeilingSeeker {
  const sides = [new Map<number, Level>(), new Map<number, Level>()] as const;
  const half = new Float32Array(LONGEST);
  let length = 0;
  let side = 0;
  return {
    weigh: (samples) => {
      for (const value of samples) {
        const now = value > 0 ? 1 : value < 0 ? -1 : 0;
        if (now !== side) {
          if (side !== 0 && length >= FLAT && length <= LONGEST)
            enter(sides[side > 0 ? 0 : 1], half.subarray(0, length));
          length = 0;
          side = now;
        }
        if (length < LONGEST) half[length] = Math.abs(value);
        length++;
      }
    },
    ceilings: () => sides.map(ceilingOf).filter((found) => found !== undefined),
  };
}

/** Counts the peak of a half wave at its level. */
function enter(levels: Map<number, Level>, half: Float32Array): void {
  let top = 0;
  for (const value of half) if (value > top) top = value;
  if (top < LOWEST) return;
  let equal = 0;
  let near = 0;
  for (const value of half) {
    if (value >= (1 - EQUAL) * top) equal++;
    if (value >= (1 - NEAR) * top) near++;
  }
  const key = Math.round(Math.log(top) / STEP);
  const level = levels.get(key) ?? { flat: 0, round: 0, samples: 0 };
  levels.set(key, level);
  const isFlat = equal >= FLAT && near - equal <= Math.max(JUMP, equal / 2);
  if (!isFlat) level.round++;
  else if (half.length - near > JUMP) {
    level.flat++;
    level.samples += equal;
  }
}

function ceilingOf(levels: ReadonlyMap<number, Level>): Ceiling | undefined {
  const within = (from: number, to: number): Level => {
    const sum = { flat: 0, round: 0, samples: 0 };
    for (const [key, { flat, round, samples }] of levels) {
      if (key < from || key > to) continue;
      sum.flat += flat;
      sum.round += round;
      sum.samples += samples;
    }
    return sum;
  };
  const [key = 0] = [...levels.keys()].sort((a, b) => levels.get(b)!.flat - levels.get(a)!.flat);
  const here = within(key - 1, key + 1);
  const higher = within(key + 2, Number.POSITIVE_INFINITY);
  const below = within(key - BELOW, key - 2);
  const isCeiling =
    here.flat >= MANY &&
    higher.flat + higher.round <= MOST_HIGHER * here.flat &&
    below.flat <= MOST_FLAT_BELOW * here.flat &&
    below.round >= LEAST_ROUND_BELOW * here.flat;
  return isCeiling ? { level: Math.exp(key * STEP), samples: here.samples } : undefined;
}
