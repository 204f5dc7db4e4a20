import type { Measure, Steadiness, Unmeasured } from "../../schema/index.js";
import { rounded, roundedMeasure } from "../rounding.js";
import { unmeasured } from "../say.js";
import { firstAtOrAfter } from "../state/guide.js";
import { PRIOR } from "../state/noise.js";
import type { Reading } from "../state/reading.js";
import { verdictOf } from "../verdict.js";
import { normalBelow } from "./normal.js";
import { lineThrough, standardDeviation } from "./statistics.js";

// Fewest notes a standard deviation is given for, and most that the ratio of clock to motor may be unknown by (its logarithm), against
// 0.4 before any note was heard. Our choice.
const FEWEST_NOTES = 6;
const MOST_RATIO_SD = 0.75 * PRIOR.clockSd;
// Beats after a landing in which a player still catches up, and which are neither accompanied nor alone (our choice).
export const CATCHING_UP_BEATS = 2;
// Times in a score file are rounded; half a millisecond is far below any note.
const SAME_TIME_MS = 0.5;

/** The player's steadiness, accompanied and alone, and its clock and motor parts where the take can tell them apart. */
export function steadinessOf(reading: Reading, toleranceMs: number | undefined): Steadiness {
  const { accompanied, alone } = sortNotes(reading);
  const whileAccompanied = deviationAroundMean(accompanied);
  const { clockMs, motorMs } = splitNoise(reading, accompanied.length + alone.reduce((n, run) => n + run.length, 0));
  const measures = {
    accompaniedMs: roundedMeasure(whileAccompanied),
    aloneMs: roundedMeasure(deviationAroundLines(alone)),
    clockMs: roundedMeasure(clockMs),
    motorMs: roundedMeasure(motorMs),
  };
  if (toleranceMs === undefined) return { ...measures, verdict: "within", probability: 1 };
  if (typeof whileAccompanied !== "number") return { ...measures, verdict: "unclear", probability: whileAccompanied };
  // The logarithm of a sample standard deviation of n values has variance 1 / (2 (n - 1)); from memory, checked by simulation.
  const z = Math.log(toleranceMs / whileAccompanied) * Math.sqrt(2 * (accompanied.length - 1));
  const probability = rounded(normalBelow(z), 4);
  return { ...measures, verdict: verdictOf(probability), probability };
}

interface Heard {
  readonly at: number;
  readonly late: number;
}

function sortNotes({ guide, asynchrony }: Reading): { accompanied: Heard[]; alone: Heard[][] } {
  const ALONE = 1;
  const CATCHING_UP = 2;
  const when = new Uint8Array(guide.expected.length);
  const heard = (place: number): Heard => ({ at: guide.expected[place]!, late: asynchrony[place]! });
  const counts = (place: number): boolean => guide.source[place]! >= 0 && !Number.isNaN(asynchrony[place]!);
  // Who hears something through a stretch is accompanied there, and has nothing to catch up with after it.
  const alone = guide.stretches.flatMap(({ from, to, silent }) => {
    if (!silent) return [];
    const run: Heard[] = [];
    let place = firstAtOrAfter(guide.expected, from);
    for (; guide.expected[place]! <= to; place++) {
      when[place] = ALONE;
      if (counts(place)) run.push(heard(place));
    }
    const until = to + CATCHING_UP_BEATS * guide.beatMsAt(to) - SAME_TIME_MS;
    for (; guide.expected[place]! < until; place++) when[place] ||= CATCHING_UP;
    return [run];
  });
  const accompanied: Heard[] = [];
  for (let place = 0; place < when.length; place++) {
    if (when[place] === 0 && counts(place)) accompanied.push(heard(place));
  }
  return { accompanied, alone };
}

function deviationAroundMean(notes: readonly Heard[]): Measure {
  if (notes.length < FEWEST_NOTES) return tooFew(notes.length, "accompanied");
  return standardDeviation(notes.map(({ late }) => late));
}

/**
 * Notes of a silence that all lie within so many milliseconds are one chord, and lie on no line: our choice, far less than the shortest note
 * anybody plays, and far more than rounding.
 */
const CHORD_MS = 1;

/** Standard deviation around a straight line through each silence: what is left when constant drift is taken out. */
function deviationAroundLines(runs: readonly (readonly Heard[])[]): Measure {
  let sum = 0;
  let freedom = 0;
  let notes = 0;
  for (const run of runs) {
    notes += run.length;
    if (run.length < 3 || run.at(-1)!.at - run[0]!.at < CHORD_MS) continue;
    const { slope, intercept } = lineThrough(
      run.map(({ at }) => at),
      run.map(({ late }) => late),
    );
    sum += run.reduce((total, { at, late }) => total + (late - intercept - slope * at) ** 2, 0);
    freedom += run.length - 2;
  }
  return freedom < FEWEST_NOTES - 2 ? tooFew(notes, "alone") : Math.sqrt(sum / freedom);
}

function splitNoise({ fit }: Reading, notes: number): { clockMs: Measure; motorMs: Measure } {
  if (notes < 2 * FEWEST_NOTES) {
    const few = tooFew(notes, "in-all");
    return { clockMs: few, motorMs: few };
  }
  if (fit.sd[1] > MOST_RATIO_SD) {
    const reason = unmeasured("take.unmeasured.clock-or-motor");
    return { clockMs: reason, motorMs: reason };
  }
  const mean = (value: (noise: (typeof fit.points)[number]["noise"]) => number): number =>
    fit.points.reduce((sum, { weight, noise }) => sum + weight * value(noise), 0);
  return { clockMs: mean(({ clock }) => clock), motorMs: mean(({ motor }) => motor) };
}

function tooFew(notes: number, where: "accompanied" | "alone" | "in-all"): Unmeasured {
  return unmeasured("take.unmeasured.few-notes", { notes, where });
}
