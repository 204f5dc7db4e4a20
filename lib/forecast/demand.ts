import { beatAt, beatsOver, milliseconds } from "../base/index.js";
import { driftError } from "../drill/index.js";
import type { Score, ScoreTolerance } from "../schema/index.js";

/** Silences of one sort in a take: equal length, and expected notes at equal places. */
export interface SilenceAsked {
  /** How many of this sort the take has. */
  readonly count: number;
  readonly beats: number;
  readonly ms: number;
  /** Whether nothing at all sounds. The player's time then runs free. */
  readonly silent: boolean;
  /** Whether the accompaniment returns. */
  readonly returns: boolean;
  /** Drift tolerated, milliseconds; infinite when any is. */
  readonly limitMs: number;
  /** Standard error of a measured drift, for each ms of motor noise, at each of `CLOCK_TO_MOTOR`. */
  readonly errors: readonly number[];
}

/** Demand of a take on the player's time: all that a forecast needs of a score. */
export interface Demand {
  readonly silences: readonly SilenceAsked[];
  /** Milliseconds; infinite when any landing is tolerated. */
  readonly landingMs: number;
  readonly steadinessMs: number;
  /** Expected notes by which steadiness is judged, and the beats they lie in. */
  readonly accompaniedNotes: number;
  readonly accompaniedBeats: number;
}

/** Ratios of clock to motor noise at which the standard error of a drift is worked out; between them it is interpolated. Our choice. */
export const CLOCK_TO_MOTOR: readonly number[] = [0.25, 0.5, 1, 2, 4];
/** Beats after a landing that assessing counts neither as accompanied nor as alone (lib/take/metrics/steadiness.ts). */
export const CATCHING_UP_BEATS = 2;
/** Seconds by which equal times may differ: half a millisecond, as times in a score are rounded. */
const SAME_TIME = 0.0005;

/**
 * Demand of a score, with its own tolerance or another one. A score without silences has none in its demand.
 *
 * @example demandOf(scoreOf(rungs(halfBar).at(0))).silences[0].beats // 2
 */
export function demandOf(score: Score, tolerance: ScoreTolerance = score.tolerance): Demand {
  const sorts = new Map<string, SilenceAsked & { count: number }>();
  for (const dropout of score.dropouts) {
    const onsets = score.expected
      .filter(({ at }) => at >= dropout.from - SAME_TIME && at <= dropout.to + SAME_TIME)
      .map(({ at }) => beatsOver(score, dropout.from, at));
    const key = [dropout.from - dropout.to, ...onsets].map((value) => value.toFixed(3)).join();
    const sort = `${key} ${dropout.silent} ${dropout.landing === null}`;
    const same = sorts.get(sort);
    if (same === undefined)
      sorts.set(sort, {
        ...silenceAsked(dropout, onsets, { beats: beatsOver(score, dropout.from, dropout.to), tolerance }),
      });
    else same.count += 1;
  }
  const silences = score.dropouts.filter(({ silent }) => silent);
  const beatsAlone = silences.reduce((sum, { from, to }) => sum + beatsOver(score, from, to) + CATCHING_UP_BEATS, 0);
  const catching = (to: number): number => CATCHING_UP_BEATS * beatAt(score, to);
  const accompanied = score.expected.filter(
    ({ at }) => !silences.some(({ from, to }) => at >= from - SAME_TIME && at < to + catching(to) - SAME_TIME),
  );
  return {
    silences: [...sorts.values()],
    landingMs: tolerance.landingMs ?? Number.POSITIVE_INFINITY,
    steadinessMs: tolerance.steadinessMs ?? Number.POSITIVE_INFINITY,
    accompaniedNotes: accompanied.length,
    accompaniedBeats: Math.max(1, beatsOver(score, 0, score.duration) - beatsAlone),
  };
}

function silenceAsked(
  { from, to, silent, landing }: Score["dropouts"][number],
  onsets: readonly number[],
  { beats, tolerance }: { readonly beats: number; readonly tolerance: ScoreTolerance },
): SilenceAsked {
  const ms = 1000 * (to - from);
  const percent = tolerance.driftPercent === undefined ? Number.POSITIVE_INFINITY : tolerance.driftPercent / 100;
  // Open bars expect no onsets. There the beats stand for the notes the player chooses to play.
  const inside = onsets.some((onset) => onset > 0)
    ? onsets.map((onset) => Math.min(beats, Math.max(0, onset)))
    : Array.from({ length: Math.floor(beats) }, (_, i) => i + 1);
  const errors = CLOCK_TO_MOTOR.map((ratio) =>
    driftError({ onsets: inside, beats, noise: { clock: milliseconds(ratio), motor: milliseconds(1) } }),
  );
  const limitMs = Math.min(tolerance.driftMs ?? Number.POSITIVE_INFINITY, percent * ms);
  return { count: 1, beats, ms, silent, returns: landing !== null, limitMs, errors };
}
