/** How near to the top of a wave samples count as equal to it; our choice: noise 45 dB below the top moves them by less. */
const EQUAL = 0.005;
/** How near samples are that still belong to the top: of a round one four times as many as are equal to it, as it is a parabola there. */
const NEAR = 16 * EQUAL;
/** Samples in a row that make a flat top; our choice, as at full scale. */
const FLAT = 3;
/** Samples between a flat top and the zeros beside it, together: at most so many in a wave that was made of jumps, not cut. */
const JUMP = 2;
/** Longest half wave, samples; our choice: of 20 Hz at 192 kHz. */
const LONGEST = 4800;
/** Lowest top that is looked at, -60 dB: below it the steps of 16 bits make tops flat. */
const LOWEST = 1e-3;
/** Width of a level, as a ratio: tops whose levels differ by less lie at one ceiling. */
const STEP = 0.01;
/** Levels within 18 dB below a ceiling tell how waves look that do not reach it; our choice. */
const BELOW = Math.ceil(Math.log(8) / STEP);
/** Flat tops at one ceiling that chance does not make; our choice. */
const MANY = 10;
/** Higher tops, and flat ones below, are at most so many times those at a ceiling; our choices: lossy coding pushes single tops through it. */
const [MOST_HIGHER, MOST_FLAT_BELOW] = [0.05, 0.25];
/** Round tops below a ceiling are at least so many times those at it; our choice: whatever plays falls silent, and its last waves are not cut. */
const LEAST_ROUND_BELOW = 0.25;

/** A ceiling that waves were cut off at. */
export interface Ceiling {
  /** Where it lies, full scale 1. */
  readonly level: number;
  /** Samples at it. */
  readonly samples: number;
}

/** The tops of one level. */
interface Level {
  flat: number;
  round: number;
  /** Samples in the flat ones. */
  samples: number;
}

/** Seeks the ceilings of a channel, above and below zero. */
export interface CeilingSeeker {
  /** The next samples. */
  readonly weigh: (samples: Float32Array) => void;
  /** What was found so far. */
  readonly ceilings: () => readonly Ceiling[];
}

/**
 * Finds where waves were cut off, wherever that lies: in an amplifier before the recorder, or at full scale before the sound was made softer. Many tops are flat
 * there then, none is higher, and the waves that do not reach it have round tops. A synthesiser's square wave is flat at every level it has, or
 * always of one level, and is no ceiling; a tone cut off that never gets softer cannot be told from one.
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

/** Enters the top of a half wave under its level. */
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
