import type { DropoutFinding, Measure, Reason, Score } from "../../schema/index.js";
import { roundedMeasure } from "../rounding.js";
import { offsetIn } from "../state/fit.js";
import { firstAtOrAfter, type Stretch } from "../state/guide.js";
import type { Reading } from "../state/reading.js";
import { type Verdict, verdictOf } from "../verdict.js";
import { type Belief, probabilityWithin } from "./drift.js";
import { type Reentry, reentryAfter } from "./landing.js";
import { normalWithin } from "./normal.js";

/** What is needed to judge the dropouts of a take. */
export interface Judging {
  readonly reading: Reading;
  /** Belief of the drift, one per dropout. */
  readonly beliefs: readonly Belief[];
  readonly doubts: readonly Reason[];
  readonly tolerance: Score["tolerance"];
}

// Where no re-entry tolerance is stated, a player counts as back inside 40 ms, the middle of the onset spread of professional trios
// (30-50 ms: Rasch 1979, quoted).
const BACK_INSIDE_MS = 40;

/** What every dropout showed, against the tolerance. */
export function judgeDropouts(score: Score, { reading, beliefs, doubts, tolerance }: Judging): DropoutFinding[] {
  const offset = offsetIn(reading.fit);
  return score.dropouts.map((dropout, index) => {
    const stretch = reading.guide.stretches[index]!;
    const belief = beliefs[index]!;
    const reentry = reentryAfter(reading, stretch, {
      returns: dropout.reentry !== null,
      offset,
      limitMs: tolerance.reentryMs ?? BACK_INSIDE_MS,
    });
    const silence = whyUnmeasured(reading, stretch);
    const measured = (value: number): Measure => silence ?? value;
    const probability =
      silence ?? reentryUnknown(reentry, tolerance) ?? probabilityOf(belief, reentry, { stretch, tolerance });
    return {
      from: dropout.from,
      to: dropout.to,
      driftMs: roundedMeasure(measured(belief.mean)),
      driftPercent: roundedMeasure(measured((100 * belief.mean) / (stretch.to - stretch.from)), 3),
      standardErrorMs: roundedMeasure(measured(belief.sd)),
      reentryMs: reentry.offset === null ? null : roundedMeasure(reentry.offset),
      recoveryBeats: reentry.recovery === null ? null : roundedMeasure(reentry.recovery),
      verdict: verdictWith(
        probability,
        // What leaves the whole take in doubt leaves each of its silences in doubt.
        doubts.filter(({ dropout }) => dropout === undefined || dropout === index),
      ),
      probability: roundedMeasure(probability, 4),
    };
  });
}

/** A slip misses the downbeat, whatever the drift; any other doubt, or nothing measured, leaves the verdict open. */
function verdictWith(probability: Measure, doubts: readonly Reason[]): Verdict {
  if (doubts.some(({ code }) => code === "SLIPPED")) return "beyond";
  return typeof probability !== "number" || doubts.length > 0 ? "unclear" : verdictOf(probability);
}

/** Drift needs a note after the silence began and not later than its end. */
function whyUnmeasured({ guide, asynchrony }: Reading, { from, to }: Stretch): Exclude<Measure, number> | undefined {
  for (let place = firstAtOrAfter(guide.expected, from); guide.expected[place]! < to + SAME_TIME_MS; place++) {
    if (guide.expected[place]! > from && !Number.isNaN(asynchrony[place]!)) return undefined;
  }
  return { unmeasured: "no expected note was played in this silence or on its re-entry" };
}

// Times in a score file are rounded; half a millisecond is far below any note.
const SAME_TIME_MS = 0.5;

function reentryUnknown({ offset }: Reentry, { reentryMs }: Score["tolerance"]): Exclude<Measure, number> | undefined {
  return reentryMs !== undefined && offset !== null && typeof offset !== "number" ? offset : undefined;
}

/** Probability that drift and re-entry both lie inside; they are taken as independent given the take, the re-entry note being heard almost exactly. */
function probabilityOf(
  belief: Belief,
  { offset, standardError }: Reentry,
  { stretch, tolerance }: { readonly stretch: Stretch; readonly tolerance: Score["tolerance"] },
): number {
  const limits = [tolerance.driftMs, ((tolerance.driftPercent ?? Number.NaN) / 100) * (stretch.to - stretch.from)];
  const limit = Math.min(...limits.filter((ms): ms is number => ms !== undefined && !Number.isNaN(ms)));
  const drift = Number.isFinite(limit) ? probabilityWithin(belief, limit) : 1;
  if (tolerance.reentryMs === undefined || typeof offset !== "number") return drift;
  return drift * normalWithin(tolerance.reentryMs, offset, standardError);
}
