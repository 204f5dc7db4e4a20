import { choleskyOf, solveWith } from "./cholesky.js";
import type { Temper } from "./grades.js";
import type { Draws, Law, Traits } from "./laws/law.js";
import type { Stage } from "./stage.js";

/** The best that can be known of the drifts of a take by somebody who knows everything but the luck. */
export interface Oracle {
  /**
   * Drift of each silence, milliseconds: the conditional mean given how much later than written each note sounded, the usual place taken off (seconds, NaN where
   * it was left out). With `tail` degrees of freedom of Student's t in the hand it is the posterior's mode (iterated reweighting), else exact.
   */
  readonly drifts: (late: Float64Array, tail?: number) => readonly number[];
}

/** Added to the variance of a hand that has none, seconds squared, so that equal times can be solved for: a microsecond. */
const LEAST_VARIANCE = 1e-12;
/** A law's answer to a draw of this size is taken for its slope: small against the sine's third order, large against rounding. */
const NUDGE = 1e-3;
/** Rounds of reweighting; the weights have settled to three digits long before (tried). */
const ROUNDS = 12;

/**
 * Notes and drifts are linear in the law's draws, so their joint normal distribution is known exactly: the law is run once for each draw. Gauss 1823 and any
 * text on the conditional normal distribution; weights of Student's t as in Lange, Little & Taylor 1989 (from memory): (ν + 1) / (ν + r²).
 *
 * Throws `RangeError` for a law that is not linear.
 */
export function oracleOf(
  law: Law,
  stage: Stage,
  { temper, traits }: { readonly temper: Temper; readonly traits: Traits },
): Oracle {
  if (law.linearWithin === 0) throw new RangeError(`${law.name} is not linear: no oracle`);
  const counts = new Map<string, number>();
  const mean = responseOf(law, stage, { temper, traits }, (purpose, count) => {
    counts.set(purpose, count);
    return new Float64Array(count);
  });
  const columns = [...counts].flatMap(([purpose, count]) =>
    Array.from({ length: count }, (_, place) => {
      const nudged = responseOf(law, stage, { temper, traits }, (asked, size) => {
        const draws = new Float64Array(size);
        if (asked === purpose) draws[place] = NUDGE;
        return draws;
      });
      return { hand: purpose === "hand" ? place : -1, slope: nudged.map((value, i) => (value - mean[i]!) / NUDGE) };
    }),
  );
  const notes = stage.note.length;
  const silences = stage.silences.length;

  /** Conditional means of the drifts and of the hands of the notes heard, with these variances of the hand. */
  function estimate(late: Float64Array, variances: Float64Array): { drifts: number[]; hands: Float64Array } {
    const heard = [...late.keys()].filter((note) => !Number.isNaN(late[note]!));
    const scales = columns.map(({ hand }) => (hand < 0 ? 1 : variances[hand]!));
    const size = heard.length;
    const covariance = new Float64Array(size * size);
    columns.forEach(({ slope }, c) => {
      for (let i = 0; i < size; i++) {
        const a = scales[c]! * slope[heard[i]!]!;
        if (a === 0) continue;
        for (let j = 0; j <= i; j++) covariance[i * size + j]! += a * slope[heard[j]!]!;
      }
    });
    for (let i = 0; i < size; i++) covariance[i * size + i]! += LEAST_VARIANCE;
    const residual = Float64Array.from(heard, (note) => late[note]! - mean[note]!);
    const weights = solveWith(choleskyOf(covariance, size), residual);
    // What each draw is thought to have been: its variance times the sum of slopes times weights.
    const draws = columns.map(
      ({ slope }, c) => scales[c]! * heard.reduce((sum, note, i) => sum + slope[note]! * weights[i]!, 0),
    );
    const drifts = Array.from({ length: silences }, (_, s) =>
      columns.reduce((sum, { slope }, c) => sum + slope[notes + s]! * draws[c]!, mean[notes + s]!),
    );
    const hands = new Float64Array(notes);
    columns.forEach(({ hand }, c) => {
      if (hand >= 0) hands[hand] = draws[c]!;
    });
    return { drifts, hands };
  }

  return {
    drifts: (late, tail) => {
      let variances = new Float64Array(notes).fill(1);
      let found = estimate(late, variances);
      for (let round = 0; tail !== undefined && round < ROUNDS; round++) {
        // The hand's draw is in units of its scale.
        variances = found.hands.map((draw) => (tail + draw * draw) / (tail + 1));
        found = estimate(late, variances);
      }
      return found.drifts.map((drift) => 1000 * drift);
    },
  };
}

/** How late each note is, then how much each silence drifts, seconds. */
function responseOf(law: Law, stage: Stage, player: { temper: Temper; traits: Traits }, draws: Draws): Float64Array {
  const { late, hand } = law.play(stage, player.temper, { draws, traits: player.traits });
  const notes = Array.from(stage.note, (place, note) => late[place]! + hand[note]!);
  return Float64Array.from([...notes, ...stage.silences.map(({ from, to }) => late[to]! - late[from]!)]);
}
