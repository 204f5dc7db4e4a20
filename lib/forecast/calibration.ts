import type { Random } from "../base/index.js";
import type { Chances } from "./chances.js";
import type { Demand } from "./demand.js";
import type { Normal } from "./traits.js";

/**
 * By how much the log odds of forecasts must be shifted to be calibrated: one shift for clean among the takes that were clear, and one for being unclear.
 */
export interface Calibration {
  readonly clean: Shift;
  readonly unclear: Shift;
}

/**
 * A shift common to all demands and one for each kind of demand, which shrinks to the common one while little is known: normal, with their means and
 * covariances; the common one is the first, then the kinds by the longest silence.
 */
export interface Shift {
  readonly mean: readonly number[];
  readonly covariance: readonly (readonly number[])[];
}

/** Longest silence of the kinds of demand, beats: none, up to two, four, eight, and longer ones. Our choice, in steps of twice the length. */
const KINDS = [0, 2, 4, 8, Number.POSITIVE_INFINITY] as const;
/** SD of the shift of a kind about the common one, in log odds, before anything is known. Our choice. */
const KIND_SD = 0.8;
/** Chances nearer to 0 or 1 than this are taken for this, so that one surprise cannot undo all else. Our choice. */
const LEAST = 0.005;

/** Prior of the shifts: mean and SD of the common one in log odds. */
export function priorCalibration({ mean, sd }: Normal): Calibration {
  const size = KINDS.length + 1;
  const variance = (i: number): number => (i === 0 ? sd ** 2 : KIND_SD ** 2);
  const shift = (common: number): Shift => ({
    mean: Array.from({ length: size }, (_, i) => (i === 0 ? common : 0)),
    covariance: Array.from({ length: size }, (_, i) =>
      Array.from({ length: size }, (_, j) => (i === j ? variance(i) : 0)),
    ),
  });
  return { clean: shift(mean), unclear: shift(0) };
}

/**
 * Posterior of the shifts, from the chances forecast before a take and how it was judged: a step of the extended Kalman filter for log odds. An unclear
 * take tells how often takes are unclear and nothing else.
 */
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

/** Chances with their shifts: averaged over what is known of them, or with the typical shift. */
export function calibrated(
  { clean, unclear }: Calibration,
  demand: Demand,
  { chances, shifts }: { readonly chances: Chances; readonly shifts: "averaged" | "typical" },
): Chances {
  const kind = kindOf(demand);
  const open = shifted(unclear, kind, { chance: chances.unclear, shifts });
  const share = shifted(clean, kind, { chance: shareClean(chances), shifts });
  return { clean: (1 - open) * share, beyond: (1 - open) * (1 - share), unclear: open };
}

/** One calibration it may be, drawn from what is known: for runs in which a player's shifts stay what they are. */
export function drawCalibration({ clean, unclear }: Calibration, chance: Random): Calibration {
  const drawn = ({ mean, covariance }: Shift): Shift => {
    const lots = mean.map(() => chance.normal());
    const root = choleskyOf(covariance);
    return {
      covariance,
      mean: mean.map((each, i) => each + root[i]!.reduce((sum, part, j) => sum + part * lots[j]!, 0)),
    };
  };
  return { clean: drawn(clean), unclear: drawn(unclear) };
}

/** The lower triangular root of a covariance. */
function choleskyOf(covariance: Shift["covariance"]): readonly (readonly number[])[] {
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
  return 1 + KINDS.findIndex((beats) => longest <= beats + 1e-9);
}

function shareClean({ clean, beyond }: Chances): number {
  return clean + beyond > 0 ? clean / (clean + beyond) : 0.5;
}

function logOdds(chance: number): number {
  const bounded = Math.min(1 - LEAST, Math.max(LEAST, chance));
  return Math.log(bounded / (1 - bounded));
}

function logistic(value: number): number {
  return 1 / (1 + Math.exp(-value));
}

/** A chance, shifted. The average of a logistic function over a normal is about one of a smaller slope (MacKay 1992, from memory). */
function shifted(
  { mean, covariance }: Shift,
  kind: number,
  { chance, shifts }: { readonly chance: number; readonly shifts: "averaged" | "typical" },
): number {
  if (chance <= 0 || chance >= 1) return chance;
  const by = mean[0]! + mean[kind]!;
  const exact = Math.log(chance / (1 - chance)) + by;
  if (shifts === "typical") return logistic(exact);
  const variance = covariance[0]![0]! + 2 * covariance[0]![kind]! + covariance[kind]![kind]!;
  return logistic(exact / Math.sqrt(1 + (Math.PI * variance) / 8));
}

function stepped(
  { mean, covariance }: Shift,
  kind: number,
  { chance, was }: { readonly chance: number; readonly was: boolean },
): Shift {
  const now = logistic(logOdds(chance) + mean[0]! + mean[kind]!);
  const weight = now * (1 - now);
  const towards = covariance.map((row) => row[0]! + row[kind]!);
  const scale = 1 + weight * (towards[0]! + towards[kind]!);
  const error = (was ? 1 : 0) - now;
  return {
    mean: mean.map((each, i) => each + (towards[i]! * error) / scale),
    covariance: covariance.map((row, i) => row.map((each, j) => each - (weight * towards[i]! * towards[j]!) / scale)),
  };
}
