import type { Score } from "../schema/index.js";
import type { BackingPlace } from "./backing/index.js";

/** From seconds of a recording to seconds of a take, whose zero is the start of the count-in. */
export interface TakeClock {
  readonly toTake: (seconds: number) => number;
  /** What is known of the delay of onsets on this clock. */
  readonly latency?: { readonly latencyMs: number; readonly latencyStandardErrorMs?: number };
  /** Whether zero was only assumed to be the start of the recording. */
  readonly isAssumed: boolean;
}

/**
 * Sound paths from the loudspeaker to the player and to the phone, and from the player to the phone, differ by about a metre: 3 ms (speed of
 * sound 343 m/s at 20 degrees Celsius; the metre is our choice).
 */
const PATHS_MS = 1000 / 343;

/** What else is known of when a take began. */
export interface ClockOptions {
  readonly score?: Pick<Score, "countIn" | "parts">;
  readonly backingZero?: number;
  /** Seconds of the backing at which it is first heard. */
  readonly firstSound?: number | undefined;
  readonly start?: number;
  readonly latencyMs?: number;
  readonly latencyStandardErrorMs?: number;
}

/**
 * The clock of a take. Beside a backing that was found, zero is where its count-in was heard, and nothing is late: what the player heard
 * and what the player played went the same way into the recording. Without one, zero is `start` of the recording, late by what is known
 * of the device.
 */
export function takeClock(place: BackingPlace | undefined, options: ClockOptions): TakeClock {
  if (place?.found !== true) {
    const { start = 0, latencyMs, latencyStandardErrorMs } = options;
    const error = latencyStandardErrorMs === undefined ? {} : { latencyStandardErrorMs };
    return {
      toTake: (seconds) => seconds - start,
      ...(latencyMs === undefined ? {} : { latency: { latencyMs, ...error } }),
      isAssumed: options.start === undefined,
    };
  }
  const zero = options.backingZero ?? (options.firstSound ?? 0) - firstInScore(options.score);
  const rate = 1 + place.skewPpm * 1e-6;
  return {
    toTake: (seconds) => (seconds - place.start) / rate - zero,
    latency: { latencyMs: 0, latencyStandardErrorMs: Math.hypot(1000 * place.startError, PATHS_MS) },
    isAssumed: false,
  };
}

/** Seconds from the start of the count-in to the first sound of the backing: 0 when there is a count-in, or no score to tell. */
function firstInScore(score: ClockOptions["score"]): number {
  if (score === undefined || score.countIn > 0) return 0;
  const first = Math.min(...score.parts.flatMap(({ notes }) => notes.map(({ at }) => at)));
  return Number.isFinite(first) ? first : 0;
}
