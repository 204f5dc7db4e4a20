import type { DropoutFinding, Measure, OpenFinding, Probability, Reason, Score } from "../../schema/index.js";
import type { PlayedOnsets } from "../onsets.js";
import { NO_OBSTACLE } from "../reasons/reasons.js";
import { rounded, roundedMeasure } from "../rounding.js";
import { unmeasured } from "../say.js";
import type { Offset } from "../state/fit.js";
import { firstAtOrAfter, type Stretch } from "../state/guide.js";
import type { TrackedReading } from "../state/landings.js";
import type { Reading } from "../state/reading.js";
import { SURE, type Verdict } from "../verdict.js";
import { avoidsLandings } from "./avoidance.js";
import type { Belief } from "./drift.js";
import { type Inside, insideOf, type Landing, recoveryAfter } from "./landing.js";
import { normalWithin } from "./normal.js";
import type { Played } from "./played.js";

/** What is needed to judge the dropouts of a take. */
export interface Judging {
  readonly tracked: TrackedReading;
  readonly played: PlayedOnsets;
  /** Where the player usually is. */
  readonly offset: Offset;
  /** Posterior of the drift, one per dropout, slips left out. */
  readonly beliefs: readonly Belief[];
  readonly landings: readonly (Landing | null)[];
  /** What the open bars showed; a silence in which nothing but such is written shows a drift only as far as they show a pulse. */
  readonly openBars: readonly OpenFinding[];
  /** How much of each was played. */
  readonly notes: readonly Played[];
  readonly reasons: readonly Reason[];
  readonly tolerance: Score["tolerance"];
}

// Where no landing tolerance is stated, a player counts as back inside 40 ms, the middle of the onset differences of professional trios
// (30-50 ms: Rasch 1979, quoted).
const BACK_INSIDE_MS = 40;

/** What every dropout showed, against the tolerance. */
export function judgeDropouts(score: Score, judging: Judging): DropoutFinding[] {
  const { tracked, played, offset, beliefs, landings, openBars, notes, reasons, tolerance } = judging;
  const { reading } = tracked;
  const avoids = avoidanceIn(reading, landings);
  return score.dropouts.map((dropout, index) => {
    const stretch = reading.guide.stretches[index]!;
    const belief = beliefs[index]!;
    const landing = landings[index]!;
    const returns = dropout.landing !== null;
    const open =
      notes[index]!.of > 0 ? undefined : openBars.find(({ from, to }) => from < dropout.to && to > dropout.from);
    const noPulse = open === undefined || typeof open.driftMs === "number" ? undefined : open.driftMs;
    const nothing = open?.notes === 0 ? unmeasured("take.unmeasured.nothing-played") : undefined;
    const unheard = nothing ?? noPulse ?? whyUnmeasured(reading, stretch, notes[index]!);
    const drift = belief.mean + (landing?.shiftMs ?? 0);
    const measured = (value: number): Measure => unheard ?? value;
    const limits = {
      driftMs: noPulse === undefined ? driftLimitOf(tolerance, stretch) : Number.POSITIVE_INFINITY,
      landingMs: tolerance.landingMs ?? Number.POSITIVE_INFINITY,
    };
    // Where no drift is judged, a landing that was heard is judged by itself.
    const landed = landing === null || "ms" in landing.note;
    const asked =
      noPulse === undefined ? landed || tolerance.landingMs === undefined : landed && tolerance.landingMs !== undefined;
    const judgedWithout = limits.driftMs === Number.POSITIVE_INFINITY && asked && nothing === undefined;
    const silence = judgedWithout ? undefined : unheard;
    const inside = insideOf(score, tracked, index, { belief, landing, played, offset, limits, avoids });
    const unknown = silence ?? landingUnknown(landing, { inside, asked: tolerance.landingMs !== undefined && returns });
    const limitMs = tolerance.landingMs ?? BACK_INSIDE_MS;
    return {
      from: dropout.from,
      to: dropout.to,
      driftMs: roundedMeasure(measured(drift)),
      driftPercent: roundedMeasure(measured((100 * drift) / (stretch.to - stretch.from)), 3),
      standardErrorMs: roundedMeasure(measured(belief.sd)),
      landing: landing && roundedNote(landing.note),
      slip: landing?.slip ?? null,
      played: notes[index]!,
      recoveryBeats: returns ? roundedMeasure(recoveryAfter(tracked, index, { offset, limitMs })) : null,
      verdict: verdictWith(
        silence,
        { ...inside, few: isFew(notes[index]!, { limitMs: limits.driftMs, sd: belief.sd }) },
        // What leaves the whole take in doubt leaves each of its silences in doubt.
        reasons.filter(({ code, dropout }) => !NO_OBSTACLE.has(code) && (dropout === undefined || dropout === index)),
      ),
      probability: unknown ?? (rounded(inside.inside, 4) as Probability),
    };
  });
}

/** Probability that this player leaves out landings rather than notes. */
function avoidanceIn({ guide, paired }: Reading, landings: readonly (Landing | null)[]): number {
  const asked = landings.filter((landing) => landing !== null);
  const out = asked.reduce((sum, { leftOut }) => sum + leftOut, 0);
  let notes = 0;
  let missed = 0;
  for (let place = 0; place < guide.expected.length; place++) {
    if (guide.source[place]! < 0) continue;
    notes++;
    if (paired.onsets[place]! < 0) missed++;
  }
  return avoidsLandings({
    landings: { out, asked: asked.length },
    notes: { out: Math.max(0, missed - out), asked: notes - asked.length },
  });
}

/** Largest drift tolerated over a stretch, ms; infinite when any is. */
export function driftLimitOf(
  { driftMs, driftPercent }: Score["tolerance"],
  { from, to }: Pick<Stretch, "from" | "to">,
): number {
  const share = driftPercent === undefined ? Number.POSITIVE_INFINITY : (driftPercent / 100) * (to - from);
  return Math.min(driftMs ?? Number.POSITIVE_INFINITY, share);
}

function roundedNote(note: Landing["note"]): Landing["note"] {
  return "ms" in note ? { ms: rounded(note.ms), standardErrorMs: rounded(note.standardErrorMs) } : note;
}

/**
 * Whether so little of a silence was played that it cannot be within: fewer notes than are asked for, or notes left out and a drift so uncertain
 * that even none at all would not be sure to lie inside the limit.
 */
export function isFew(
  { notes, of, asked }: Played,
  { limitMs, sd }: { readonly limitMs: number; readonly sd: number },
): boolean {
  return notes < asked || (notes < of && limitMs < Number.POSITIVE_INFINITY && normalWithin(limitMs, 0, sd) < SURE);
}

/** A doubt, or nothing measured, leaves the verdict open; who played too little of a silence is not within. */
function verdictWith(
  silence: object | undefined,
  { inside, undecided, few }: Inside & { readonly few: boolean },
  doubts: readonly Reason[],
): Verdict {
  if (silence !== undefined || doubts.length > 0) return "unclear";
  if (inside >= SURE) return few ? "unclear" : "within";
  return inside + undecided <= 1 - SURE ? "beyond" : "unclear";
}

/** Drift needs a note after the silence began and not later than its end; one on the end alone shows none of a player who rested and is back at once. */
function whyUnmeasured(
  { guide, asynchrony, paired }: Reading,
  { from, to }: Stretch,
  { notes, of }: Played,
): Exclude<Measure, number> | undefined {
  const alone = notes === 0 && of > 0 && paired.turnsBack.length > 0;
  const until = alone ? to - SAME_TIME_MS : to + SAME_TIME_MS;
  for (let place = firstAtOrAfter(guide.expected, from); guide.expected[place]! < until; place++) {
    if (guide.expected[place]! > from && !Number.isNaN(asynchrony[place]!)) return undefined;
  }
  return unmeasured("take.unmeasured.silence-not-played");
}

// Times in a score file are rounded; half a millisecond is far below any note.
const SAME_TIME_MS = 0.5;

function landingUnknown(
  landing: Landing | null,
  { inside: { undecided }, asked }: { readonly inside: Inside; readonly asked: boolean },
): Exclude<Measure, number> | undefined {
  if (!asked || landing === null || undecided <= 1 - SURE) return undefined;
  return unmeasured("take.unmeasured.landing-unjudged");
}
