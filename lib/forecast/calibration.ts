import type { Random } from "../base/index.js";
import type { Chances } from "./chances.js";
import type { Demand } from "./demand.js";
import { systematicSample } from "./particles.js";
import type { Normal } from "./traits.js";

/**
 * How forecasts must be corrected to be calibrated, as those made so far and their outcomes show: one correction for clean among the takes that were clear, and one for being unclear.
 */
export interface Calibration {
  readonly clean: Correction;
  readonly unclear: Correction;
}

/**
 * A correction of log odds: a slope about a centre, for how sure forecasts are, and a shift for each kind of demand, by the longest silence. Shifts of neighbouring lengths are alike until
 * takes show otherwise. Either no length is special, or the player fails from some length on, whatever they can do below it: cases with their probabilities, which add up to 1.
 */
export interface Correction {
  readonly centre: number;
  readonly cases: readonly Case[];
}

/** A case: its probability, and the normal of the shifts, one for each kind, and the slope, which is the last. */
interface Case {
  readonly probability: number;
  readonly mean: readonly number[];
  readonly covariance: readonly (readonly number[])[];
}

/** Longest silence of the kinds of demand, beats: none, and then in steps of a third or a half more. Our choice. */
const KINDS = [0, 2, 3, 4, 6, 8, 12, 16, Number.POSITIVE_INFINITY] as const;
/** Variance of what takes without and takes with silences have each for themselves, and of the change from one length to the next, before anything is known; log odds squared. Our choice. */
const VARIANCE = { own: 0.3, change: 0.1 } as const;
/** Chance that a player fails from some length on, each as likely; by how much the log odds are lower from there on, and the SD of that. Our choice. */
const BREAK = { chance: 0.1, mean: -3.5, sd: 1.5 } as const;
/**
 * Slope and centre before anything is known. A model that is nearly right is surer than it should be: chances between are brought nearer to the usual, at which takes are clean and clear.
 * Our choice, so that tenths of forecasts come true for players whose laws the model does not have (`npm run bench -- foreign-forecast`).
 */
const SLOPE: Normal = { mean: 0.75, sd: 0.2 };
const CENTRE = 3.5;
/** Chances nearer to 0 or 1 than this are taken for this, so that one surprise cannot undo all else. Our choice. */
const LEAST = 0.005;
/** Probability below which a case is given up. Our choice. */
const LEAST_CASE = 1e-3;

/** Prior of the corrections: mean and SD of what the shifts have in common, in log odds. */
export function priorCalibration({ mean, sd }: Normal): Calibration {
  const kinds = KINDS.map((_, i) => i);
  const covarianceOf = (i: number, j: number): number =>
    sd ** 2 + (i > 0 === j > 0 ? VARIANCE.own : 0) + VARIANCE.change * Math.max(0, Math.min(i, j) - 1);
  const caseOf = (common: number, from: number, probability: number): Case => ({
    probability,
    mean: [...kinds.map((i) => common + (i >= from ? BREAK.mean : 0)), SLOPE.mean],
    covariance: [
      ...kinds.map((i) => [...kinds.map((j) => covarianceOf(i, j) + (Math.min(i, j) >= from ? BREAK.sd ** 2 : 0)), 0]),
      [...kinds.map(() => 0), SLOPE.sd ** 2],
    ],
  });
  const lengths = kinds.slice(1);
  const broken = lengths.map((from) => caseOf(mean, from, BREAK.chance / lengths.length));
  return {
    clean: { centre: CENTRE, cases: [caseOf(mean, KINDS.length, 1 - BREAK.chance), ...broken] },
    unclear: { centre: -CENTRE, cases: [caseOf(0, KINDS.length, 1)] },
  };
}

/** Posterior of the corrections, from the chances forecast before a take and how it was judged. An unclear take tells how often takes are unclear and nothing else. */
export function recalibrated(calibration: Calibration, demand: Demand, { chances, verdict }: Judged): Calibration {
  const kind = kindOf(demand);
  const isClear = verdict !== "unclear";
  const unclear = stepped(calibration.unclear, kind, { chance: chances.unclear, was: !isClear });
  if (!isClear) return { ...calibration, unclear };
  return {
    unclear,
    clean: stepped(calibration.clean, kind, { chance: shareClean(chances), was: verdict === "within" }),
  };
}

interface Judged {
  readonly chances: Chances;
  readonly verdict: "within" | "beyond" | "unclear";
}

/** Chances corrected: averaged over what is known of the corrections, or with the typical one. */
export function calibrated(
  { clean, unclear }: Calibration,
  demand: Demand,
  { chances, shifts }: { readonly chances: Chances; readonly shifts: "averaged" | "typical" },
): Chances {
  const kind = kindOf(demand);
  const open = corrected(unclear, kind, { chance: chances.unclear, shifts });
  const share = corrected(clean, kind, { chance: shareClean(chances), shifts });
  return { clean: (1 - open) * share, beyond: (1 - open) * (1 - share), unclear: open };
}

/** One calibration it may be, drawn from what is known: for runs in which a player's corrections stay what they are. */
export function drawCalibration({ clean, unclear }: Calibration, chance: Random): Calibration {
  const drawn = ({ centre, cases }: Correction): Correction => {
    const { mean, covariance } = cases[systematicSample(probabilitiesOf(cases), 1, chance.uniform())[0]!]!;
    const lots = mean.map(() => chance.normal());
    const root = choleskyOf(covariance);
    const at = mean.map((each, i) => each + root[i]!.reduce((sum, part, j) => sum + part * lots[j]!, 0));
    return { centre, cases: [{ probability: 1, mean: at, covariance }] };
  };
  return { clean: drawn(clean), unclear: drawn(unclear) };
}

function probabilitiesOf(cases: readonly Case[]): Float64Array {
  return Float64Array.from(cases, ({ probability }) => probability);
}

/** The lower triangular root of a covariance. */
function choleskyOf(covariance: Case["covariance"]): readonly (readonly number[])[] {
  const root: number[][] = covariance.map((row) => row.map(() => 0));
  covariance.forEach((row, i) => {
    for (let j = 0; j <= i; j++) {
      let rest = row[j]!;
      for (let k = 0; k < j; k++) rest -= root[i]![k]! * root[j]![k]!;
      root[i]![j] = i === j ? Math.sqrt(Math.max(0, rest)) : root[j]![j]! > 0 ? rest / root[j]![j]! : 0;
    }
  });
  return root;
}

/** Place in the vector of shifts. */
function kindOf({ silences }: Demand): number {
  const longest = silences.reduce((most, { silent, beats }) => (silent ? Math.max(most, beats) : most), 0);
  return KINDS.findIndex((beats) => longest <= beats + 1e-9);
}

function shareClean({ clean, beyond }: Chances): number {
  return clean + beyond > 0 ? clean / (clean + beyond) : 0.5;
}

function logOdds(chance: number): number {
  return Math.log(chance / (1 - chance));
}

function logistic(value: number): number {
  return 1 / (1 + Math.exp(-value));
}

/** A chance, corrected: the mean over the cases. */
function corrected(
  { centre, cases }: Correction,
  kind: number,
  { chance, shifts }: { readonly chance: number; readonly shifts: "averaged" | "typical" },
): number {
  if (chance <= 0 || chance >= 1) return chance;
  const off = logOdds(chance) - centre;
  return cases.reduce((sum, each) => {
    const { mean, variance } = placeOf(each, kind, off);
    return sum + each.probability * averageLogistic(centre + mean, shifts === "typical" ? 0 : variance);
  }, 0);
}

/** The corrected log odds in a case, less the centre: its mean and variance, and the covariance of each shift and the slope with it. `off` is how far the forecast lies from the centre. */
function placeOf(
  { mean, covariance }: Case,
  kind: number,
  off: number,
): { readonly mean: number; readonly variance: number; readonly towards: readonly number[] } {
  const towards = covariance.map((row) => row[kind]! + off * row.at(-1)!);
  return { mean: mean[kind]! + off * mean.at(-1)!, variance: towards[kind]! + off * towards.at(-1)!, towards };
}

/** Mean of a logistic function over a normal: about one of a smaller slope (MacKay 1992, from memory). */
function averageLogistic(mean: number, variance: number): number {
  return logistic(mean / Math.sqrt(1 + (Math.PI * variance) / 8));
}

/** A correction after an outcome: Bayes' rule over the cases, and in each a step of the extended Kalman filter. */
function stepped(
  { centre, cases }: Correction,
  kind: number,
  { chance, was }: { readonly chance: number; readonly was: boolean },
): Correction {
  const off = logOdds(Math.min(1 - LEAST, Math.max(LEAST, chance))) - centre;
  const told = cases.map((each): Case => {
    const { mean, variance, towards } = placeOf(each, kind, off);
    const forecast = averageLogistic(centre + mean, variance);
    const now = logistic(centre + mean);
    const weight = now * (1 - now);
    const scale = 1 + weight * variance;
    const error = (was ? 1 : 0) - now;
    return {
      probability: each.probability * (was ? forecast : 1 - forecast),
      mean: each.mean.map((value, i) => value + (towards[i]! * error) / scale),
      covariance: each.covariance.map((row, i) =>
        row.map((value, j) => value - (weight * towards[i]! * towards[j]!) / scale),
      ),
    };
  });
  return { centre, cases: probable(told) };
}

/** Cases as probable as they are beside each other, those given up left out. */
function probable(cases: readonly Case[]): readonly Case[] {
  const sumOf = (some: readonly Case[]): number => some.reduce((sum, { probability }) => sum + probability, 0);
  const all = sumOf(cases);
  const kept = cases.filter(({ probability }) => probability >= LEAST_CASE * all);
  const total = sumOf(kept);
  return kept.map((each) => ({ ...each, probability: each.probability / total }));
}
